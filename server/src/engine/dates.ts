/**
 * Calendar days as ISO text (`2026-11-23`), without clock or time zone. Arithmetic goes over whole day numbers,
 * because a plan asks for thousands of dates.
 *
 * Dates are checked with `isValidIsoDate` or `partialToDate` where they are read. The functions that compute
 * throw a `RangeError` for text that is not a date: going on with a made-up day would move somebody's training.
 */

/** A day, `YYYY-MM-DD`. Two of them compare with `<` and `>` as text. */
export type IsoDate = string;

export type Weekday = 'mon' | 'tue' | 'wed' | 'thu' | 'fri' | 'sat' | 'sun';

export const WEEKDAYS: readonly Weekday[] = ['mon', 'tue', 'wed', 'thu', 'fri', 'sat', 'sun'];

/**
 * Years that may be written. Nobody alive was born before the first; room is left after the last, so that adding
 * weeks to a valid date always gives a year of four digits.
 */
const FIRST_YEAR = 1900;
const LAST_YEAR = 2199;

const DAYS_BEFORE_MONTH = [0, 31, 59, 90, 120, 151, 181, 212, 243, 273, 304, 334];
const DAYS_IN_MONTH = [31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31];
const ISO_DATE = /^(\d{4})-(\d{2})-(\d{2})$/;

function isLeapYear(year: number): boolean {
  return year % 4 === 0 && (year % 100 !== 0 || year % 400 === 0);
}

/** Days of a month (`month` from 1 to 12) in the Gregorian calendar; 0 for a month that does not exist. */
export function daysInMonth(year: number, month: number): number {
  if (month === 2 && isLeapYear(year)) return 29;
  return DAYS_IN_MONTH[month - 1] ?? 0;
}

/** Days from 1970-01-01 to a day of the Gregorian calendar. */
function civilToDayNumber(year: number, month: number, day: number): number {
  const before = year - 1;
  const leapDays = Math.floor(before / 4) - Math.floor(before / 100) + Math.floor(before / 400);
  const inYear = (DAYS_BEFORE_MONTH[month - 1] ?? 0) + (month > 2 && isLeapYear(year) ? 1 : 0) + day - 1;
  // 719162 days lie between 0001-01-01 and 1970-01-01.
  return before * 365 + leapDays + inYear - 719162;
}

function parseDay(text: string): { year: number; month: number; day: number } | null {
  const match = ISO_DATE.exec(text);
  if (!match) return null;
  const year = Number(match[1]);
  const month = Number(match[2]);
  const day = Number(match[3]);
  return day >= 1 && day <= daysInMonth(year, month) ? { year, month, day } : null;
}

/** Whether `text` is a day that exists, written `YYYY-MM-DD`, in the years 1900 to 2199. */
export function isValidIsoDate(text: string): text is IsoDate {
  const parsed = parseDay(text);
  return parsed !== null && parsed.year >= FIRST_YEAR && parsed.year <= LAST_YEAR;
}

/** Whole days from 1970-01-01 to `date` (negative before). Throws `RangeError` when `date` is not a day. */
export function dayNumber(date: IsoDate): number {
  const known = dayNumbers.get(date);
  if (known !== undefined) return known;
  const number = readDayNumber(date);
  // A plan asks for the same few thousand days again and again; the limit only keeps the memory small.
  if (dayNumbers.size >= MOST_DAYS_KEPT) dayNumbers.clear();
  dayNumbers.set(date, number);
  return number;
}

const MOST_DAYS_KEPT = 20_000;
const dayNumbers = new Map<IsoDate, number>();

function readDayNumber(date: IsoDate): number {
  const parsed = parseDay(date);
  if (!parsed) throw new RangeError(`"${date}" is not a day of the calendar`);
  return civilToDayNumber(parsed.year, parsed.month, parsed.day);
}

/** The day that lies `days` after 1970-01-01. Throws `RangeError` for parts of a day and outside the years 1 to 9999. */
export function fromDayNumber(days: number): IsoDate {
  if (!Number.isInteger(days)) throw new RangeError(`${days} is not a whole number of days`);
  // A first guess from the mean length of a year is at most one year off.
  let year = Math.floor((days + 719162) / 365.2425) + 1;
  if (civilToDayNumber(year, 1, 1) > days) year -= 1;
  else if (civilToDayNumber(year + 1, 1, 1) <= days) year += 1;
  if (year < 1 || year > 9999) throw new RangeError(`day number ${days} is outside the calendar`);
  let left = days - civilToDayNumber(year, 1, 1);
  let month = 1;
  while (left >= daysInMonth(year, month)) {
    left -= daysInMonth(year, month);
    month += 1;
  }
  const two = (value: number) => String(value).padStart(2, '0');
  return `${String(year).padStart(4, '0')}-${two(month)}-${two(left + 1)}`;
}

/** The day `days` after `date` (before it when negative). Throws `RangeError` when `date` is not a day. */
export function addDays(date: IsoDate, days: number): IsoDate {
  return fromDayNumber(dayNumber(date) + days);
}

/** Whole days from `from` to `to`; negative when `to` lies before. Throws `RangeError` when one is not a day. */
export function daysBetween(from: IsoDate, to: IsoDate): number {
  return dayNumber(to) - dayNumber(from);
}

/** Day of the week. Throws `RangeError` when `date` is not a day. */
export function weekdayOf(date: IsoDate): Weekday {
  // 1970-01-01 was a Thursday, index 3 from Monday.
  const index = (((dayNumber(date) + 3) % 7) + 7) % 7;
  return WEEKDAYS[index] as Weekday;
}

/** Order of two days: negative when `a` is earlier, 0 when equal, positive when later. For sorting. */
export function compareDates(a: IsoDate, b: IsoDate): number {
  return a < b ? -1 : a > b ? 1 : 0;
}

export function isBefore(a: IsoDate, b: IsoDate): boolean {
  return a < b;
}

export function isAfter(a: IsoDate, b: IsoDate): boolean {
  return a > b;
}

/** Whether `date` lies in `from` to `until`, both included; an end that is null is open. */
export function isWithin(date: IsoDate, from: IsoDate | null, until: IsoDate | null): boolean {
  return (from === null || date >= from) && (until === null || date <= until);
}

/**
 * A day for a date that may be a year or a month only: its first day, or with `edge` 'end' its last
 * (`1979-03` gives `1979-03-01` or `1979-03-31`). Null when the text is no such date.
 */
export function partialToDate(text: string, edge: 'start' | 'end' = 'start'): IsoDate | null {
  const match = /^(\d{4})(?:-(\d{2}))?(?:-(\d{2}))?$/.exec(text);
  if (!match) return null;
  const year = match[1] as string;
  const month = match[2] ?? (edge === 'start' ? '01' : '12');
  const lastDay = String(daysInMonth(Number(year), Number(month))).padStart(2, '0');
  const date = `${year}-${month}-${match[3] ?? (edge === 'start' ? '01' : lastDay)}`;
  return isValidIsoDate(date) ? date : null;
}

/**
 * Age in whole years on the day `on`. With only a year or a month of birth the first day of it counts, so that
 * she is at most as old as this: cautions that depend on age come early, not late. Born on 29 February, she turns
 * a year older on 1 March of the other years. Null when `born` is no date or lies after `on`.
 */
export function ageAt(born: string, on: IsoDate): number | null {
  const birth = partialToDate(born);
  if (birth === null || !parseDay(on) || birth > on) return null;
  const years = Number(on.slice(0, 4)) - Number(birth.slice(0, 4));
  return on.slice(5) < birth.slice(5) ? years - 1 : years;
}
