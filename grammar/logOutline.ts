import { plainLogHeader } from './plainLines.js';

/** Whose log it is and of which day, as its opening line says. */
export interface LogHead {
  /** Key of the client. */
  readonly client: string;
  readonly date: string;
}

/** A comment, or nothing. */
const EMPTY = /^[ \t]*(?:--(?:[ \t].*)?)?$/;
/** A line of a log that cannot open anything: indented, with a label that holds neither quotes nor a comment. */
const INSIDE = /^[ \t]+(?!\|)[^:"\s][^:"]*:/;
const AS_PLANNED = /^[ \t]+as planned[ \t]*$/;

/**
 * The logs of a file that holds nothing else, in order, without reading what was done in them; null for any file of
 * which that cannot be told at a glance. A test holds it to what `parse` makes of the same file.
 */
export function logOutline(text: string): readonly LogHead[] | null {
  // Most other files are told apart by their first words.
  if (!/^(?:[ \t]*(?:--[^\n]*)?\r?\n)*log[ \t]/.test(text) || /\r(?!\n)/.test(text)) return null;
  const heads: LogHead[] = [];
  for (let start = 0; start <= text.length; ) {
    const found = text.indexOf('\n', start);
    const next = found < 0 ? text.length : found;
    const end = text[next - 1] === '\r' && next > start ? next - 1 : next;
    if (text.startsWith('log ', start)) {
      const head = plainLogHeader(text, { start: start + 'log'.length, end });
      const client = head?.clients[0];
      if (!head || !client) return null;
      heads.push({ client: client.key, date: head.date.iso });
    } else if (!isInside(text.slice(start, end))) return null;
    start = next + 1;
  }
  return heads;
}

function isInside(line: string): boolean {
  if (EMPTY.test(line) || AS_PLANNED.test(line)) return true;
  const label = INSIDE.exec(line)?.[0];
  return label !== undefined && !label.includes('--');
}
