import type { Around } from './around.js';
import type { LogicalLine } from './lines.js';
import { type Place, type ReadLine, readLine } from './readLine.js';

interface Kept {
  /** Offset of the line in the file when it was last read. */
  start: number;
  read: ReadLine;
}

/**
 * Remembers what the lines of one file meant, so that after a keystroke one line is read again. It holds the lines
 * of the last reading and no more. Lines that did not move keep the very same nodes.
 */
export class LineCache {
  private last = new Map<string, Kept>();
  private next = new Map<string, Kept>();

  begin(): void {
    this.next = new Map();
  }

  end(): void {
    this.last = this.next;
    this.next = new Map();
  }

  read(text: string, source: string, line: LogicalLine, place: Place, around: () => Around): ReadLine {
    const { start, end } = line.span;
    const key = `${place.section} ${place.like} ${place.indent} ${place.endAhead} ${text.slice(start, end)}`;
    const kept = this.next.get(key) ?? this.last.get(key);
    const read =
      kept === undefined ? readLine(source, line, place, around) : moved(kept.read, start - kept.start);
    // What a damaged line was is judged by the lines beside it, so it is read anew every time.
    if (line.kind === 'bare' && read.meaning.form.startsWith('broken')) return read;
    // The first of equal lines is the one remembered, so that it keeps its nodes.
    if (!this.next.has(key)) this.next.set(key, { start, read });
    return read;
  }
}

/** A copy with every offset moved. */
function moved<Value>(value: Value, by: number): Value {
  if (by === 0 || typeof value !== 'object' || value === null) return value;
  if (Array.isArray(value)) return value.map((item) => moved(item, by)) as Value;
  const from = value as Record<string, unknown>;
  if (typeof from.start === 'number' && typeof from.end === 'number') {
    return { start: from.start + by, end: from.end + by } as Value;
  }
  const copy: Record<string, unknown> = {};
  for (const key of Object.keys(from)) copy[key] = moved(from[key], by);
  return copy as Value;
}
