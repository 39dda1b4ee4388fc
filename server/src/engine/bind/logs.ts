import type { ClientLogs, IsoDate, LogEntry } from '../model.js';

/** What is known of a log without reading what was done in it. */
export interface LogHeading {
  readonly client: string;
  readonly date: IsoDate;
}

/** The logs of one file. They are read when somebody asks for them, which for past years is seldom. */
export class FileLogs {
  #entries: readonly LogEntry[] | null = null;
  #byClient: ReadonlyMap<string, readonly LogEntry[]> | null = null;
  /** Keys of the clients whose logs these are, with the newest day of each. */
  readonly newest: ReadonlyMap<string, IsoDate>;

  /** `read` gives the logs of the headings, in order of place. */
  constructor(
    readonly file: string,
    headings: readonly LogHeading[],
    private readonly read: () => readonly LogEntry[],
  ) {
    const newest = new Map<string, IsoDate>();
    for (const { client, date } of headings) if (date > (newest.get(client) ?? '')) newest.set(client, date);
    this.newest = newest;
  }

  /** In order of place. */
  get entries(): readonly LogEntry[] {
    this.#entries ??= this.read();
    return this.#entries;
  }

  of(client: string): readonly LogEntry[] {
    this.#byClient ??= grouped(this.entries);
    return this.#byClient.get(client) ?? [];
  }
}

/** The logs of one client out of all files. */
class LogsOfClient implements ClientLogs {
  #all: readonly LogEntry[] | null = null;

  constructor(
    private readonly client: string,
    private readonly inFiles: readonly FileLogs[],
  ) {}

  get files(): readonly string[] {
    return this.inFiles.map(({ file }) => file);
  }

  get all(): readonly LogEntry[] {
    this.#all ??= inOrder(this.inFiles.flatMap((file) => file.of(this.client)));
    return this.#all;
  }

  since(date: IsoDate): readonly LogEntry[] {
    const recent = this.inFiles.filter(({ newest }) => (newest.get(this.client) ?? '') >= date);
    return inOrder(recent.flatMap((file) => file.of(this.client).filter((entry) => entry.date >= date)));
  }
}

/** All logs of a workspace. */
export class BoundLogs {
  readonly #byFile: ReadonlyMap<string, FileLogs>;

  constructor(
    readonly files: readonly FileLogs[],
    readonly byClient: ReadonlyMap<string, ClientLogs>,
  ) {
    this.#byFile = new Map(files.map((logs) => [logs.file, logs]));
  }

  in(file: string): readonly LogEntry[] {
    return this.#byFile.get(file)?.entries ?? [];
  }
}

function grouped(logs: readonly LogEntry[]): Map<string, LogEntry[]> {
  const found = new Map<string, LogEntry[]>();
  for (const entry of logs) {
    const own = found.get(entry.client);
    if (own) own.push(entry);
    else found.set(entry.client, [entry]);
  }
  return found;
}

function inOrder(entries: LogEntry[]): readonly LogEntry[] {
  return entries.sort((a, b) => (a.date < b.date ? -1 : a.date > b.date ? 1 : 0));
}

/**
 * Collects the logs of all files. A client's logs stay the same object while no file with one of them changes, so that
 * what was read from them can be kept.
 */
export class LogBinder {
  #bound = new BoundLogs([], new Map());

  /** A binder that knows what this one knows. */
  fork(): LogBinder {
    const copy = new LogBinder();
    copy.#bound = this.#bound;
    return copy;
  }

  /** `files` in the order in which logs of one date count; those without any may be left out. */
  bind(files: readonly FileLogs[]): BoundLogs {
    const before = this.#bound.files;
    if (files.length === before.length && files.every((file, index) => file === before[index]))
      return this.#bound;
    this.#bound = new BoundLogs(files, this.#byClient(files, before));
    return this.#bound;
  }

  #byClient(files: readonly FileLogs[], before: readonly FileLogs[]): ReadonlyMap<string, ClientLogs> {
    const known = new Set(before);
    const now = new Set(files);
    const changed = [...files.filter((file) => !known.has(file)), ...before.filter((file) => !now.has(file))];
    const clients = new Set(changed.flatMap((file) => [...file.newest.keys()]));
    const ofThese = new Map<string, FileLogs[]>();
    for (const file of files) {
      for (const client of file.newest.keys()) {
        if (!clients.has(client)) continue;
        const own = ofThese.get(client);
        if (own) own.push(file);
        else ofThese.set(client, [file]);
      }
    }
    const byClient = new Map(this.#bound.byClient);
    for (const client of clients) {
      const own = ofThese.get(client);
      if (own) byClient.set(client, new LogsOfClient(client, own));
      else byClient.delete(client);
    }
    return byClient;
  }
}
