import type { Span } from '../../../grammar/index.js';

/** A part of a tree: anything with a span and parts that have spans. */
interface Part {
  readonly span: Span;
}

const known = new WeakMap<Part, { readonly before: Part; readonly by: number | null }>();

/**
 * By how many characters a part of a tree lies further on than another that says the same; null where they do not say
 * the same. Kept for the pair that was asked last, because every client who follows a program asks.
 */
export function movedBy(before: Part, now: Part): number | null {
  if (before === now) return 0;
  const kept = known.get(now);
  if (kept?.before === before) return kept.by;
  const by = now.span.start - before.span.start;
  const found = sayTheSame(before, now, by) ? by : null;
  known.set(now, { before, by: found });
  return found;
}

/** Whether two values are equal but for their offsets, which are larger by so many in the second. */
export function sayTheSame(a: unknown, b: unknown, by: number): boolean {
  if (a === b && (by === 0 || typeof a !== 'object' || a === null)) return true;
  if (typeof a !== 'object' || typeof b !== 'object' || a === null || b === null) return false;
  if (Array.isArray(a)) {
    if (!Array.isArray(b) || a.length !== b.length) return false;
    for (let index = 0; index < a.length; index += 1) if (!sayTheSame(a[index], b[index], by)) return false;
    return true;
  }
  if (isSpan(a)) return isSpan(b) && a.start + by === b.start && a.end + by === b.end;
  const one = a as Readonly<Record<string, unknown>>;
  const other = b as Readonly<Record<string, unknown>>;
  const keys = Object.keys(one);
  if (keys.length !== Object.keys(other).length) return false;
  for (const key of keys) if (!(key in other) || !sayTheSame(one[key], other[key], by)) return false;
  return true;
}

function isSpan(value: object): value is Span {
  const { start, end } = value as Partial<Span>;
  return typeof start === 'number' && typeof end === 'number';
}
