import { lineSpanAt } from '../text.js';

/** Where the lines of something begin: with the notes right above its opener. */
export function startWithNotes(text: string, opener: number): number {
  let { start } = lineSpanAt(text, opener);
  while (start > 0) {
    const breakLength = text.slice(Math.max(0, start - 2), start) === '\r\n' ? 2 : 1;
    const above = lineSpanAt(text, start - breakLength);
    if (!/^\s*--(?:\s|$)/.test(text.slice(above.start, above.end))) break;
    start = above.start;
  }
  return start;
}
