/** Plain English for dates, durations, counts and lists, the same on every machine (no locale is asked). */

import { dayNumber, type IsoDate, weekdayOf } from '../dates.js';
import { formatNumber } from '../numbers.js';

export { capitalised, countOf as countWords, listOf as listWords } from '../words.js';

const WEEKDAY_WORDS = {
  mon: 'Monday',
  tue: 'Tuesday',
  wed: 'Wednesday',
  thu: 'Thursday',
  fri: 'Friday',
  sat: 'Saturday',
  sun: 'Sunday',
} as const;

const MONTH_WORDS = [
  'January',
  'February',
  'March',
  'April',
  'May',
  'June',
  'July',
  'August',
  'September',
  'October',
  'November',
  'December',
] as const;

function parts(date: IsoDate): { year: string; month: string; day: string } {
  // Asks the calendar first, so that a day that does not exist is never printed.
  dayNumber(date);
  const month = MONTH_WORDS[Number(date.slice(5, 7)) - 1] as string;
  return { year: date.slice(0, 4), month, day: String(Number(date.slice(8, 10))) };
}

/** `7 December 2026`. Throws `RangeError` when `date` is not a day. */
export function dateWords(date: IsoDate): string {
  const { year, month, day } = parts(date);
  return `${day} ${month} ${year}`;
}

/** `Monday 7 December`: inside a week whose heading has the year. */
export function dayWords(date: IsoDate): string {
  const { month, day } = parts(date);
  return `${WEEKDAY_WORDS[weekdayOf(date)]} ${day} ${month}`;
}

/** `18:00`, `7:30`: minutes after midnight on a clock of 24 hours. */
export function timeWords(minute: number): string {
  return `${Math.floor(minute / 60)}:${String(minute % 60).padStart(2, '0')}`;
}

/** `7 Dec`: where there is little room and the year is plain. */
export function shortDate(date: IsoDate): string {
  const { month, day } = parts(date);
  return `${day} ${month.slice(0, 3)}`;
}

/** `7 to 13 December 2026`, `28 December 2026 to 3 January 2027`; one day alone where both are the same. */
export function dateRangeWords(from: IsoDate, until: IsoDate): string {
  if (from === until) return dateWords(from);
  const first = parts(from);
  const last = parts(until);
  if (first.year !== last.year) return `${dateWords(from)} to ${dateWords(until)}`;
  if (first.month !== last.month) return `${first.day} ${first.month} to ${dateWords(until)}`;
  return `${first.day} to ${dateWords(until)}`;
}

/** `45 s`, `90 s`, `3 min`, `2 min 30 s`. */
export function durationWords(seconds: number): string {
  if (seconds < 120 && seconds !== 60) return `${formatNumber(seconds, 1)} s`;
  const minutes = Math.floor(seconds / 60);
  const rest = seconds - minutes * 60;
  return rest === 0 ? `${minutes} min` : `${minutes} min ${formatNumber(rest, 1)} s`;
}
