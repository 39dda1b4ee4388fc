/** Plain words for dates, durations, counts and lists, the same on every machine (no locale is asked). */

import { later, said, say } from '../../../../grammar/say.js';
import { dayNumber, type IsoDate, weekdayOf } from '../dates.js';

export { capitalised, countOf as countWords, durationWords, listOf as listWords } from '../words.js';

const WEEKDAY_WORDS = {
  mon: later('Monday'),
  tue: later('Tuesday'),
  wed: later('Wednesday'),
  thu: later('Thursday'),
  fri: later('Friday'),
  sat: later('Saturday'),
  sun: later('Sunday'),
} as const;

const SHORT_WEEKDAYS = {
  mon: later('Mon'),
  tue: later('Tue'),
  wed: later('Wed'),
  thu: later('Thu'),
  fri: later('Fri'),
  sat: later('Sat'),
  sun: later('Sun'),
} as const;

const MONTH_WORDS = [
  later('January'),
  later('February'),
  later('March'),
  later('April'),
  later('May'),
  later('June'),
  later('July'),
  later('August'),
  later('September'),
  later('October'),
  later('November'),
  later('December'),
] as const;

const SHORT_MONTHS = [
  later('Jan'),
  later('Feb'),
  later('Mar'),
  later('Apr'),
  later('May'),
  later('Jun'),
  later('Jul'),
  later('Aug'),
  later('Sep'),
  later('Oct'),
  later('Nov'),
  later('Dec'),
] as const;

/** A form for dates with the parts by name, which each language orders in its own way. */
function inForm(form: string, values: Readonly<Record<string, string>>): string {
  return said(form).replace(/\{(\w+)\}/g, (_, name: string) => values[name] ?? '');
}

function parts(date: IsoDate): { year: string; month: string; short: string; day: string } {
  // Asks the calendar first, so that a day that does not exist is never printed.
  dayNumber(date);
  const month = Number(date.slice(5, 7)) - 1;
  return {
    year: date.slice(0, 4),
    month: said(MONTH_WORDS[month] as string),
    short: said(SHORT_MONTHS[month] as string),
    day: String(Number(date.slice(8, 10))),
  };
}

/** `7 December 2026`. Throws `RangeError` when `date` is not a day. */
export function dateWords(date: IsoDate): string {
  return inForm(later('{day} {month} {year}'), parts(date));
}

/** `Monday 7 December`: inside a week whose heading has the year. */
export function dayWords(date: IsoDate): string {
  const weekday = said(WEEKDAY_WORDS[weekdayOf(date)]);
  return inForm(later('{weekday} {day} {month}'), { ...parts(date), weekday });
}

/** `Monday 7 December 2026`: standing alone. */
export function fullDayWords(date: IsoDate): string {
  const weekday = said(WEEKDAY_WORDS[weekdayOf(date)]);
  return inForm(later('{weekday} {day} {month} {year}'), { ...parts(date), weekday });
}

/** `Mon 7 Dec`: where there is little room and the year is plain. */
export function shortDayWords(date: IsoDate): string {
  const weekday = said(SHORT_WEEKDAYS[weekdayOf(date)]);
  return inForm(later('{weekday} {day} {short}'), { ...parts(date), weekday });
}

/** `18:00`, `7:30`: minutes after midnight on a clock of 24 hours. */
export function timeWords(minute: number): string {
  return `${Math.floor(minute / 60)}:${String(minute % 60).padStart(2, '0')}`;
}

/** `7 Dec`: where there is little room and the year is plain. */
export function shortDate(date: IsoDate): string {
  return inForm(later('{day} {short}'), parts(date));
}

/** `7 to 13 December 2026`, `28 December 2026 to 3 January 2027`; one day alone where both are the same. */
export function dateRangeWords(from: IsoDate, until: IsoDate): string {
  if (from === until) return dateWords(from);
  const first = parts(from);
  const last = parts(until);
  const values = { ...last, from: first.day, fromMonth: first.month };
  if (first.year !== last.year) return say`${dateWords(from)} to ${dateWords(until)}`;
  if (first.month !== last.month) return inForm(later('{from} {fromMonth} to {day} {month} {year}'), values);
  return inForm(later('{from} to {day} {month} {year}'), values);
}
