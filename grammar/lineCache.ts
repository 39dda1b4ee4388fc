import type { Around } from './around.js';
import type { LogicalLine } from './lines.js';
import { type Place, type ReadLine, readLine } from './readLine.js';

interface Kept {
  /** Offset of the line in the file when it was last read. */
  start: number;
  read: ReadLine;
}

/** So many lines are remembered for other files; a practice writes the same ones again and again. */
const MOST_SHARED = 20_000;

/** Lines of several files that are read one after another: each wording is read once. */
export class SharedLines {
  readonly #lines = new Map<string, Kept>();

  get(key: string): Kept | undefined {
    return this.#lines.get(key);
  }

  add(key: string, kept: Kept): void {
    if (this.#lines.size < MOST_SHARED) this.#lines.set(key, kept);
  }
}

/**
 * Remembers what the lines of one file meant, so that after a keystroke one line is read again. It holds the lines
 * of the last reading and no more. Lines that did not move keep the very same nodes.
 */
export class LineCache {
  private last = new Map<string, Kept>();
  private next = new Map<string, Kept>();

  constructor(private readonly shared?: SharedLines) {}

  /** Another cache that remembers the same lines so far. */
  fork(): LineCache {
    const copy = new LineCache(this.shared);
    copy.last = this.last;
    return copy;
  }

  begin(): void {
    this.next = new Map();
  }

  end(): void {
    this.last = this.next;
    this.next = new Map();
  }

  read(text: string, source: string, line: LogicalLine, place: Place, around: () => Around): ReadLine {
    const { start, end } = line.span;
    // Read as fast as it is looked up, and hardly ever twice the same.
    if (this.shared && isOfLog(text, line, place)) return readLine(source, line, place, around);
    const key = `${place.section} ${place.like} ${place.indent} ${place.endAhead} ${text.slice(start, end)}`;
    const own = this.next.get(key) ?? this.last.get(key);
    const other = own ? undefined : this.shared?.get(key);
    const read = own
      ? moved(own.read, start - own.start)
      : other
        ? // No two files have a node in common, even where a line stands at the same place in both.
          copied(other.read, start - other.start)
        : readLine(source, line, place, around);
    // What a damaged line was is judged by the lines beside it, so it is read anew every time.
    if (line.kind === 'bare' && read.meaning.form.startsWith('broken')) return read;
    // The first of equal lines is the one remembered, so that it keeps its nodes.
    if (!this.next.has(key)) this.next.set(key, { start, read });
    if (!own && !other) this.shared?.add(key, { start, read });
    return read;
  }
}

/** Whether a line opens a log or says which sets were done. */
function isOfLog(text: string, { kind, span, colon }: LogicalLine, place: Place): boolean {
  if (kind === 'bare') return text.startsWith('log ', span.start);
  return kind === 'labelled' && place.section === 'log' && isDigit(text.charCodeAt(colon + 2));
}

function isDigit(code: number): boolean {
  return code >= 48 && code <= 57;
}

/** The value with every offset moved: the very same when it did not move. */
function moved<Value>(value: Value, by: number): Value {
  return by === 0 ? value : copied(value, by);
}

/** A copy with every offset moved. */
function copied<Value>(value: Value, by: number): Value {
  if (typeof value !== 'object' || value === null) return value;
  if (Array.isArray(value)) return value.map((item) => copied(item, by)) as Value;
  const from = value as Record<string, unknown>;
  if (typeof from.start === 'number' && typeof from.end === 'number') {
    return { start: from.start + by, end: from.end + by } as Value;
  }
  const copy: Record<string, unknown> = {};
  for (const key of Object.keys(from)) copy[key] = copied(from[key], by);
  return copy as Value;
}
