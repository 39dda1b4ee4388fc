import type { LogEntry } from '../model.js';

/** The logs of one file, in order of place. */
export type LogsOfFile = readonly LogEntry[];

/** All logs of a workspace, and those of each client in order of date. */
export interface BoundLogs {
  readonly all: readonly LogEntry[];
  readonly byClient: ReadonlyMap<string, readonly LogEntry[]>;
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

/** Clients who have a log in a file. */
export function clientsIn(logs: LogsOfFile): Iterable<string> {
  return byClientOf(logs).keys();
}

function inOrder(entries: LogEntry[]): readonly LogEntry[] {
  return entries.sort((a, b) => (a.date < b.date ? -1 : a.date > b.date ? 1 : 0));
}

/**
 * Collects the logs of all files. A client's list stays the same object while none of her logs changes, so that what
 * was read from it can be kept.
 */
export class LogBinder {
  #files: readonly LogsOfFile[] = [];
  #bound: BoundLogs = { all: [], byClient: new Map() };

  /** `files` in the order in which logs of one date count; those without any may be left out. */
  bind(files: readonly LogsOfFile[]): BoundLogs {
    const before = new Set(this.#files);
    const now = new Set(files);
    const added = files.filter((file) => !before.has(file));
    const gone = this.#files.filter((file) => !now.has(file));
    if (added.length === 0 && gone.length === 0) return this.#bound;
    const all = files.flat();
    const changed = new Set([...added, ...gone].flatMap((file) => [...clientsIn(file)]));
    const byClient = added.length > files.length / 2 ? sortedAll(all) : new Map(this.#bound.byClient);
    if (added.length <= files.length / 2) {
      for (const client of changed) {
        const own = files.flatMap((file) => byClientOf(file).get(client) ?? []);
        if (own.length > 0) byClient.set(client, inOrder(own));
        else byClient.delete(client);
      }
    }
    this.#files = files;
    this.#bound = { all, byClient };
    return this.#bound;
  }
}

function sortedAll(all: readonly LogEntry[]): Map<string, readonly LogEntry[]> {
  const found = new Map<string, readonly LogEntry[]>();
  for (const [client, own] of grouped(all)) found.set(client, inOrder(own));
  return found;
}
