import type { Mark } from '../previewMessages.js';

/** Where the cursor stands: number of the source, line and character from 0. */
export interface Cursor {
  readonly source: number;
  readonly line: number;
  readonly character: number;
}

/**
 * The marks of the cell in which the cursor stands: the cell that holds it, else the last one that begins before it
 * on its line, else the first one of the line. A cell that is printed several times has the same mark each time.
 */
export function marksAt(marks: readonly Mark[], cursor: Cursor): readonly Mark[] {
  const onLine = marks.filter(
    ({ source, line, endLine }) => source === cursor.source && line <= cursor.line && cursor.line <= endLine,
  );
  const begins = (mark: Mark): boolean =>
    mark.line < cursor.line || (mark.line === cursor.line && mark.character <= cursor.character);
  const before = onLine.filter(begins);
  const order = (a: Mark, b: Mark): number => a.line - b.line || a.character - b.character;
  const best = before.length > 0 ? before.sort(order).at(-1) : [...onLine].sort(order)[0];
  if (!best) return [];
  return onLine.filter((mark) => mark.line === best.line && mark.character === best.character);
}
