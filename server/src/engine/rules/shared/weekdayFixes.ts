import { say } from '../../../../../grammar/say.js';
import { WEEKDAYS, weekdayOf } from '../../dates.js';
import type { Client, FindingFix, Follows, Program, ResolvedCell } from '../../model.js';

/** Repairs of the weekdays on a `follows:` line. */

/** The client's own line for a program, where its days can be changed by hand: null where a group or several lines say them, or times of day are written. */
function ownLine(client: Client, program: Program): Follows | null {
  const lines = client.follows.filter((line) => line.program === program.key);
  const [follows] = lines;
  if (!follows || lines.length > 1 || follows.group !== null || follows.startMinutes.size > 0) return null;
  return follows.node.on.length < 2 ? null : follows;
}

/** Days from one weekday to the next of another, the shorter way round the week. */
function apart(one: number, other: number): number {
  return Math.min((one - other + WEEKDAYS.length) % WEEKDAYS.length, (other - one + 7) % WEEKDAYS.length);
}

/**
 * Moves the later of two weekdays, on the client's own line, to the next day that lies two days from every other one.
 * Null where a group or several lines say the days, times of day are written, or no day of the week is left.
 */
export function otherWeekday(before: ResolvedCell, cell: ResolvedCell): FindingFix | null {
  const follows = ownLine(cell.client, cell.program);
  if (!follows || before.program !== cell.program) return null;
  const days = follows.node.on;
  const late = days.find(({ value }) => value === weekdayOf(cell.date));
  // Another day may be one on which she trains elsewhere.
  if (!late || cell.client.trainsAt.some(({ on }) => on.length > 0)) return null;
  const others = days.filter((day) => day !== late).map(({ value }) => WEEKDAYS.indexOf(value));
  const at = WEEKDAYS.indexOf(late.value);
  // Only on to a later day of the same week: the order of the days stays.
  const next = [1, 2, 3]
    .map((by) => at + by)
    .find((day) => day < WEEKDAYS.length && others.every((other) => apart(day, other) >= 2));
  const weekday = next === undefined ? undefined : WEEKDAYS[next];
  if (!weekday || others.some((other) => other > at && next !== undefined && other < next)) return null;
  return {
    title: say`${cell.client.name}: train on ${weekday} instead of ${late.value}`,
    safe: false,
    edits: [{ file: follows.place.file, span: late.span, newText: weekday }],
  };
}

/** The least number of days between any two of some weekdays. */
function leastApart(days: readonly number[]): number {
  return Math.min(
    ...days.flatMap((day, index) => days.slice(index + 1).map((other) => apart(day, other))),
    WEEKDAYS.length,
  );
}

/**
 * Takes the weekday out of the client's own line whose absence leaves the most days between the others; of several the
 * last. Null where a group or several lines say the days, times of day are written, or one day alone is left.
 */
export function oneDayLess(client: Client, program: Program): FindingFix | null {
  const follows = ownLine(client, program);
  if (!follows) return null;
  const days = follows.node.on;
  const numbers = days.map(({ value }) => WEEKDAYS.indexOf(value));
  const restsWithout = numbers.map((_, index) => leastApart(numbers.filter((_each, at) => at !== index)));
  const index = restsWithout.lastIndexOf(Math.max(...restsWithout));
  const day = days[index];
  const before = days[index - 1];
  const after = days[index + 1];
  if (!day) return null;
  const span = before
    ? { start: before.span.end, end: day.span.end }
    : { start: day.span.start, end: after?.span.start ?? day.span.end };
  return {
    title: say`${client.name}: no session on ${day.value}`,
    safe: false,
    edits: [{ file: follows.place.file, span, newText: '' }],
  };
}
