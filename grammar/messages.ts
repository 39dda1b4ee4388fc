import { distance } from 'fastest-levenshtein';
import type { Fix, Problem, Span, TextEdit } from './problem.js';
import { say } from './say.js';

/** One code of the notation's own problems, for `stave explain` and the help pages. */
export interface ProblemCode {
  readonly code: string;
  readonly title: string;
  readonly why: string;
  /** Holds the problem. */
  readonly example: string;
  /** The same, as it should be written. */
  readonly better: string;
}

const inDay = (row: string): string => `program P\nblock B, 4 weeks, load\nday Lower\n  ${row}`;
const inClient = (line: string): string => `client Heron\n  ${line}`;

function entry(code: string, title: string, why: string, example: string, better: string): ProblemCode {
  return { code, title, why, example, better };
}

/** Every code that reading a file can give. The code of each problem in this folder stands here. */
export const PROBLEM_CODES: readonly ProblemCode[] = [
  entry(
    'syntax',
    'Something in this line cannot be read',
    'A line or cell that cannot be read means nothing at all, so that a slip never becomes a load. Lines around it keep their meaning.',
    inDay('back squat: 3x6 r2 rest'),
    inDay('back squat: 3x6 r2 rest 2min'),
  ),
  entry(
    'unknown-word',
    'A word that means nothing here',
    'Only known items stand in a cell, so that a mistyped one is noticed. Text to be printed stands in quotation marks.',
    inDay('back squat: 3x6 r2 knees out'),
    inDay('back squat: 3x6 r2 "knees out"'),
  ),
  entry(
    'decimal-comma',
    'A comma inside a number',
    'A comma ends a name or parts two things, so `2,5kg` could be two numbers. Decimals are written with a point.',
    inDay('back squat: 3x6 r2 | +2,5kg'),
    inDay('back squat: 3x6 r2 | +2.5kg'),
  ),
  entry(
    'metres-for-minutes',
    'Metres where minutes are meant',
    '`m` is metres everywhere, so that a carry of 20m and a rest of 20 minutes can never be confused. Minutes are `min`.',
    inDay('back squat: 3x6 r2 rest 3m'),
    inDay('back squat: 3x6 r2 rest 3min'),
  ),
  entry(
    'unit-missing',
    'A number without its unit',
    'A bare number could be kilograms, seconds or reps. The unit stands directly behind the number.',
    inDay('back squat: 3x6 r2 rest 3'),
    inDay('back squat: 3x6 r2 rest 3min'),
  ),
  entry(
    'spaced-item',
    'A space inside one item',
    'Spaces part the items of a cell. Sets × reps and a number with its unit are each one item.',
    inDay('back squat: 3 x 6 r2'),
    inDay('back squat: 3x6 r2'),
  ),
  entry(
    'glued-items',
    'Two items without a space between them',
    'Spaces part the items of a cell; written together they are one word that means nothing.',
    inDay('back squat: 3x6r2'),
    inDay('back squat: 3x6 r2'),
  ),
  entry(
    'item-twice',
    'The same thing said twice in one group',
    'Each kind of item stands at most once in a group, because nobody can say which of the two counts.',
    inDay('back squat: 3x6 r2 r3'),
    inDay('back squat: 3x6 r3'),
  ),
  entry(
    'item-conflict',
    'Two items that cannot both hold',
    'A group has one load. Two loads, or a load and a change of load, leave open what goes on the bar.',
    inDay('back squat: 3x6 80% 60kg'),
    inDay('back squat: 3x6 80%'),
  ),
  entry(
    'reserve-without-reps',
    'Reps in reserve on timed or measured work',
    'Reps in reserve count reps. A hold for time or a carry for distance has none.',
    inDay('plank: 3x30s r2'),
    inDay('plank: 3x30s'),
  ),
  entry(
    'first-cell',
    'The first cell of a row is not complete',
    'Later cells say only what changes, so the first one has to say sets and reps (or time, or distance) and cannot be a change.',
    inDay('back squat: r2 | 4x'),
    inDay('back squat: 3x6 r2 | 4x'),
  ),
  entry(
    'circuit-cell',
    'Sets inside a circuit',
    'The rounds of the circuit are the sets, so a row inside has reps, time or distance alone.',
    inDay('circuit Finisher, 3 rounds\n  push-up: 3x10\nend'),
    inDay('circuit Finisher, 3 rounds\n  push-up: x10\nend'),
  ),
  entry(
    'cells-too-many',
    'More cells than weeks',
    'A cell is a week. Cells past the end of the block would never be trained.',
    inDay('back squat: 3x6 r2 | | | | 4x'),
    inDay('back squat: 3x6 r2 | | | 4x'),
  ),
  entry(
    'weekly-not-last',
    '`weekly` before the last written cell',
    '`weekly` goes on to the end of the block, so nothing may be written after it.',
    inDay('back squat: 3x6 r2 | +2% weekly | 4x'),
    inDay('back squat: 3x6 r2 | 4x | +2% weekly'),
  ),
  entry(
    'week-order',
    'A `wk` that does not move forward',
    '`wk5` says that this cell is week 5. It stands first in its cell, after the weeks before it, inside the block.',
    inDay('back squat: 3x6 r2 | 4x | wk2 5x'),
    inDay('back squat: 3x6 r2 | 4x | wk3 5x'),
  ),
  entry(
    'out-of-range',
    'A number that cannot be meant',
    'A number far outside what anyone trains is more likely a slip of the finger than a plan.',
    inDay('back squat: 3x6 rpe 11'),
    inDay('back squat: 3x6 rpe 9'),
  ),
  entry(
    'no-such-date',
    'A date that does not exist, or is not written as one',
    'Dates are year-month-day (`2026-11-23`), so that day and month cannot be confused.',
    inClient('screened: 2026-02-30'),
    inClient('screened: 2026-02-28'),
  ),
  entry(
    'quote-open',
    'A quotation mark that is never closed',
    'Quoted text ends at the next mark on the same line. Without it nobody knows where the text ends and the program goes on.',
    inDay('back squat: 3x6 r2 "knees out'),
    inDay('back squat: 3x6 r2 "knees out"'),
  ),
  entry(
    'comma-missing',
    'A name that is not ended by a comma',
    'A name may have any number of words, so only a comma shows where it ends and what follows begins.',
    inClient('follows: Harbour winter from 2026-12-07, on mon thu'),
    inClient('follows: Harbour winter, from 2026-12-07, on mon thu'),
  ),
  entry(
    'missing-colon',
    'A line that lacks its colon',
    'A line that states something has a colon after its first words; a line without one opens something.',
    inDay('back squat 3x6 r2'),
    inDay('back squat: 3x6 r2'),
  ),
  entry(
    'unknown-line',
    'A line that is neither a statement nor an opener',
    'A line with a colon states something, a line without one opens something. Text to be printed stands in quotation marks, a note for the coach after ` -- `. What follows an opener that cannot be read is left aside, so that it is not added to the section before.',
    inDay('back squat: 3x6 r2\n  keep it tidy'),
    inDay('back squat: 3x6 r2\n  "keep it tidy"'),
  ),
  entry(
    'unknown-label',
    'A statement that this section does not have',
    'Each section has its own statements, so that a mistyped one is noticed at once.',
    inClient('borm: 1979'),
    inClient('born: 1979'),
  ),
  entry(
    'out-of-place',
    'A line that stands where it means nothing',
    'Rows stand in a day, days in a block, blocks in a program, statements in their section.',
    'program P\nback squat: 3x6 r2',
    inDay('back squat: 3x6 r2'),
  ),
  entry(
    'line-twice',
    'A statement that may stand once stands twice',
    'Where only one value can hold, a second one leaves open which is meant.',
    inClient('born: 1979\n  born: 1980'),
    inClient('born: 1979'),
  ),
  entry(
    'circuit-open',
    'A circuit without its `end`',
    'A circuit goes on to `end`. Without it the rows that follow would be read as part of it.',
    inDay('circuit Finisher, 3 rounds\n  push-up: x10'),
    inDay('circuit Finisher, 3 rounds\n  push-up: x10\nend'),
  ),
  entry(
    'end-alone',
    'An `end` without a circuit',
    'Only a circuit has an `end`; days, blocks and programs end where the next one begins.',
    inDay('back squat: 3x6 r2\nend'),
    inDay('back squat: 3x6 r2'),
  ),
  entry(
    'opener-incomplete',
    'A line that opens a section cannot be read',
    'The lines under it are left aside until the next one of its kind, because they must not be added to the section before.',
    'program P\nblock B\nday Lower\n  back squat: 3x6 r2',
    inDay('back squat: 3x6 r2'),
  ),
  entry(
    'reason-missing',
    'An `allow` without its reason',
    'Someone will read the program later and must see why a finding was silenced.',
    inClient('allow: heavy-early'),
    inClient('allow: heavy-early "lifted for ten years elsewhere"'),
  ),
];

export const NO_FIXES: readonly Fix[] = [];

/** A problem of the notation. All of them are errors: the line or cell means nothing until it is mended. */
export function problem(
  code: string,
  span: Span,
  message: string,
  fixes: readonly Fix[] = NO_FIXES,
): Problem {
  return { code, severity: 'error', message, span, fixes };
}

/** A repair that replaces the characters of `span`. */
export function replace(span: Span, newText: string, safe = false, title?: string): Fix {
  const edits: readonly TextEdit[] = [{ span, newText }];
  return { title: title ?? say`Write \`${newText}\``, safe, edits };
}

export function remove(span: Span, title: string): Fix {
  return { title, safe: false, edits: [{ span, newText: '' }] };
}

export function insert(at: number, newText: string, title: string, safe = false): Fix {
  return { title, safe, edits: [{ span: { start: at, end: at }, newText }] };
}

/** The nearest word of a list, or null when none is near enough to be worth asking about. */
export function nearest(word: string, known: readonly string[]): string | null {
  const wanted = word.toLowerCase();
  let best: string | null = null;
  let bestDistance = wanted.length <= 3 ? 2 : wanted.length <= 6 ? 3 : 4;
  for (const candidate of known) {
    if (Math.abs(candidate.length - wanted.length) >= bestDistance) continue;
    const apart = apartness(wanted, candidate);
    if (apart < bestDistance && apart < Math.max(candidate.length, wanted.length) - 1) {
      best = candidate;
      bestDistance = apart;
    }
  }
  return best;
}

/** Letters to change; two neighbours that changed places count once. */
function apartness(word: string, other: string): number {
  const apart = distance(word, other);
  if (apart !== 2 || word.length !== other.length) return apart;
  const at = [...word].findIndex((char, index) => char !== other[index]);
  const swapped = word.slice(0, at) + (word[at + 1] ?? '') + (word[at] ?? '') + word.slice(at + 2);
  return swapped === other ? 1 : apart;
}

/** `a, b or c`. */
export function orList(items: readonly string[]): string {
  if (items.length <= 1) return items[0] ?? '';
  return say`${items.slice(0, -1).join(', ')} or ${items[items.length - 1] ?? ''}`;
}

/** What stands there, shortened, between backquotes. */
export function shown(text: string): string {
  const single = text.trim().replace(/\s+/g, ' ');
  return single.length > 40 ? `\`${single.slice(0, 37)}…\`` : `\`${single}\``;
}
