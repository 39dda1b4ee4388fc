import type { LogEntry } from '../model.js';

/** The logs of one file, in order of place. */
export type LogsOfFile = readonly LogEntry[];

/** All logs of a workspace, and those of each client in order of date. */
export class BoundLogs {
  #all: readonly LogEntry[] | null = null;

  constructor(
    readonly files: readonly LogsOfFile[],
    readonly byClient: ReadonlyMap<string, readonly LogEntry[]>,
  ) {}

  /** Put together when somebody asks, which is seldom. */
  get all(): readonly LogEntry[] {
    this.#all ??= this.files.flat();
    return this.#all;
  }
}

const clientsOfFile = new WeakMap<LogsOfFile, ReadonlyMap<string, readonly LogEntry[]>>();

/** The logs of one file by client. */
function byClientOf(logs: LogsOfFile): ReadonlyMap<string, readonly LogEntry[]> {
  let found = clientsOfFile.get(logs);
  if (!found) {
    found = grouped(logs);
    clientsOfFile.set(logs, found);
  }
  return found;
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
 * Collects the logs of all files. A client's list stays the same object while none of her logs changes, so that what
 * was read from it can be kept.
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
  bind(files: readonly LogsOfFile[]): BoundLogs {
    const before = this.#bound.files;
    if (files.length === before.length && files.every((file, index) => file === before[index]))
      return this.#bound;
    this.#bound = new BoundLogs(files, this.#byClient(files, before));
    return this.#bound;
  }

  #byClient(
    files: readonly LogsOfFile[],
    before: readonly LogsOfFile[],
  ): ReadonlyMap<string, readonly LogEntry[]> {
    const known = new Set(before);
    const now = new Set(files);
    const changed = [...files.filter((file) => !known.has(file)), ...before.filter((file) => !now.has(file))];
    if (changed.length > files.length / 2) return sortedAll(files.flat());
    const byClient = new Map(this.#bound.byClient);
    for (const client of new Set(changed.flatMap((file) => [...byClientOf(file).keys()]))) {
      const own = files.flatMap((file) => byClientOf(file).get(client) ?? []);
      if (own.length > 0) byClient.set(client, inOrder(own));
      else byClient.delete(client);
    }
    return byClient;
  }
}

function sortedAll(all: readonly LogEntry[]): Map<string, readonly LogEntry[]> {
  const found = new Map<string, readonly LogEntry[]>();
  for (const [client, own] of grouped(all)) found.set(client, inOrder(own));
  return found;
}
