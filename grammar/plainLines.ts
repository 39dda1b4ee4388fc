import type { DoneGroup, DoneSet, LogLine, Name } from './ast.js';
import type { LogHeader } from './logRules.js';
import type { Span } from './problem.js';
import { dateExists, nameAt } from './values.js';

/**
 * The commonest lines of logs, read without the parser: years of logs are tens of thousands of them. Each answers null
 * for anything that is not wholly plain, which the parser then reads; a test holds both to the same.
 */

const DONE = /^[ \t]*(\d{1,3}(?:\.\d{1,2})?)kg((?:[ \t]+\d{1,2})+)(?:[ \t]+r([0-5]))?[ \t]*$/;

/** `45kg 6 6 6 r1`: one load in kilograms, reps of each set, and what was left. */
export function plainDone(
  source: string,
  { start, end }: Span,
): Pick<LogLine & { kind: 'done' }, 'groups' | 'asPlanned' | 'skipped'> | null {
  const text = source.slice(start, end);
  const found = DONE.exec(text);
  const kg = Number(found?.[1]);
  if (!found || kg === 0) return null;
  const reps = found[2] as string;
  const loadStart = start + text.search(/\d/);
  const loadEnd = loadStart + (found[1] as string).length + 2;
  const sets = setsIn(reps, loadEnd);
  const last = (sets[sets.length - 1] as DoneSet).span.end;
  const reserve = found[3] === undefined ? null : Number(found[3]);
  const loadSpan = { start: loadStart, end: loadEnd };
  const group: DoneGroup = {
    load: { kind: 'load', mass: { value: kg, unit: 'kg', kg, span: loadSpan }, span: loadSpan },
    sets,
    reserve,
    span: { start: loadStart, end: reserve === null ? last : start + text.indexOf('r') + 2 },
  };
  return { groups: [group], asPlanned: false, skipped: null };
}

function setsIn(text: string, offset: number): DoneSet[] {
  const sets: DoneSet[] = [];
  for (const { 0: digits, index } of text.matchAll(/\d+/g)) {
    const span = { start: offset + index, end: offset + index + digits.length };
    sets.push({ reps: Number(digits), rightReps: null, seconds: null, metres: null, span });
  }
  return sets;
}

/** Words of letters alone, and a number behind them. */
const HEADER =
  /^[ \t]+([A-Za-z]+(?: [A-Za-z]+)*(?: \d+)?),[ \t]+((?:19|20)\d{2}-(?:0[1-9]|1[0-2])-(?:0[1-9]|[12]\d|3[01]))(?:,[ \t]+([A-Za-z]+(?: [A-Za-z]+)*(?: \d+)?))?[ \t]*$/;

/** `Heron, 2026-12-07, Lower` behind `log`: one client, a date, perhaps a day. */
export function plainLogHeader(
  source: string,
  { start, end }: Span,
): (LogHeader & { readonly date: NonNullable<LogHeader['date']> }) | null {
  const text = source.slice(start, end);
  const found = HEADER.exec(text);
  if (!found) return null;
  const name = found[1] as string;
  const iso = found[2] as string;
  if (!isOfCalendar(iso)) return null;
  const nameStart = start + text.search(/\S/);
  const dateStart = start + text.indexOf(iso);
  const day = found[3] === undefined ? null : lastName(source, start + text.trimEnd().length, found[3]);
  return {
    clients: [nameAt(source, nameStart, nameStart + name.length)],
    date: { iso, span: { start: dateStart, end: dateStart + iso.length } },
    day,
  };
}

/** Days up to the 28th are in every month. */
function isOfCalendar(iso: string): boolean {
  const day = Number(iso.slice(8));
  return day <= 28 || dateExists(Number(iso.slice(0, 4)), Number(iso.slice(5, 7)), day);
}

function lastName(source: string, end: number, name: string): Name {
  return nameAt(source, end - name.length, end);
}
