import { applyEdits, formatText } from '../views/format.js';

/** A text as the formatter lays it out. */
export function laidOut(text: string): string {
  return applyEdits(text, formatText(text).edits);
}
