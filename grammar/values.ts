import type { IToken } from 'chevrotain';
import type { DateNode, Mass, MassUnit, Name, Num } from './ast.js';
import { problem, replace, shown } from './messages.js';
import type { Problem, Span } from './problem.js';
import { say } from './say.js';
import { plain } from './slips.js';
import { spanOf } from './tokens.js';

/** Where values put what they find wrong. */
export type Report = (found: Problem) => void;

/** One pound in kilograms, exact by the international definition of 1959. */
export const KG_PER_LB = 0.45359237;

/** What names are compared by: lower case, single spaces, no space at the ends. */
export function normaliseName(text: string): string {
  const trimmed = text.trim();
  return (/\s\s|[^\S ]/.test(trimmed) ? trimmed.replace(/\s+/g, ' ') : trimmed).toLowerCase();
}

/** A name that spans `source` from `start` to `end`. */
export function nameAt(source: string, start: number, end: number): Name {
  const text = source.slice(start, end);
  return { text, key: normaliseName(text), span: { start, end } };
}

/** The words of a name, from the first to the last, with whatever spaces they were written with. */
export function nameFrom(source: string, parts: readonly IToken[]): Name {
  const first = parts[0] as IToken;
  const last = parts[parts.length - 1] as IToken;
  return nameAt(source, first.startOffset, spanOf(last).end);
}

/** The number that a word begins with, signed; NaN never reaches the tree because the pattern has seen digits. */
export function leadingNumber(image: string): number {
  return Number.parseFloat(plain(image));
}

/** A mass word, with or without a sign: `42.5kg`, `-5lb`. */
export function massOf(image: string, span: Span, report: Report): Mass | null {
  const word = plain(image);
  const unit: MassUnit = word.endsWith('lb') ? 'lb' : 'kg';
  const value = Number.parseFloat(word);
  const kg = unit === 'lb' ? value * KG_PER_LB : value;
  if (Math.abs(kg) > 1000) {
    report(
      problem('out-of-range', span, say`${shown(image)} is more than anyone lifts. Was a point left out?`),
    );
    return null;
  }
  return { value, unit, kg, span };
}

/** A mass that has to be more than nothing. */
export function positiveMass(part: IToken, report: Report): Mass | null {
  const mass = massOf(part.image, spanOf(part), report);
  if (mass !== null && mass.kg <= 0) {
    report(
      problem('out-of-range', spanOf(part), say`${shown(part.image)} is no load. Write a mass above zero.`),
    );
    return null;
  }
  return mass;
}

/** Seconds of `90s` or `2min`; null after a report. */
export function secondsOf(image: string, span: Span, report: Report, most = 14400): number | null {
  const word = plain(image);
  const value = Number.parseFloat(word);
  const seconds = word.endsWith('min') ? value * 60 : value;
  if (seconds > 0 && seconds <= most) return seconds;
  report(
    problem(
      'out-of-range',
      span,
      say`${shown(image)} is no time that can be meant. Write between 1s and ${most / 60}min.`,
    ),
  );
  return null;
}

/** Centimetres of `45cm`, `18in` or `1.72m`. */
export function centimetresOf(image: string): number {
  const word = plain(image);
  const value = Number.parseFloat(word);
  if (word.endsWith('in')) return Math.round(value * 2.54 * 1000) / 1000;
  return word.endsWith('cm') ? value : Math.round(value * 100 * 1000) / 1000;
}

/** A whole number within its bounds; null after a report. */
export function countOf(
  value: number,
  span: Span,
  image: string,
  what: string,
  least: number,
  most: number,
  report: Report,
): Num | null {
  if (Number.isInteger(value) && value >= least && value <= most) return { value, span };
  report(problem('out-of-range', span, say`${what} go from ${least} to ${most}. Found ${shown(image)}.`));
  return null;
}

/** A number above zero, in percent. */
export function percentOf(part: IToken, most: number, report: Report): Num | null {
  const value = leadingNumber(part.image);
  if (value > 0 && value <= most) return { value, span: spanOf(part) };
  report(
    problem(
      'out-of-range',
      spanOf(part),
      say`A share lies above 0% and up to ${most}%. Found ${shown(part.image)}.`,
    ),
  );
  return null;
}

const MONTH_DAYS = [31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31] as const;

function daysIn(year: number, month: number): number {
  const leap = (year % 4 === 0 && year % 100 !== 0) || year % 400 === 0;
  return month === 2 && leap ? 29 : (MONTH_DAYS[month - 1] ?? 0);
}

/** Whether the calendar has this day; month counts from 1. */
export function dateExists(year: number, month: number, day: number): boolean {
  return year >= 1900 && year <= 2199 && month >= 1 && month <= 12 && day >= 1 && day <= daysIn(year, month);
}

/** A whole date that exists; null after a report. */
export function dateOf(part: IToken, report: Report): DateNode | null {
  const iso = plain(part.image);
  const [year, month, day] = iso.split('-').map(Number) as [number, number, number];
  if (dateExists(year, month, day)) return { iso, span: spanOf(part) };
  const last = month >= 1 && month <= 12 ? daysIn(year, month) : 0;
  const hint =
    last > 0 && day > last
      ? say`That month has ${last} days.`
      : say('Dates are year-month-day, such as `2026-11-23`.');
  report(problem('no-such-date', spanOf(part), say`The calendar has no ${shown(part.image)}. ${hint}`));
  return null;
}

/** Minutes after midnight; null after a report where no clock shows that. */
export function timeOf(part: IToken, report: Report): number | null {
  const [hours, minutes] = part.image.split(':').map(Number) as [number, number];
  if (hours <= 23 && minutes <= 59) return hours * 60 + minutes;
  report(
    problem(
      'syntax',
      spanOf(part),
      say`No clock shows ${shown(part.image)}. Times go from \`0:00\` to \`23:59\`, such as \`18:00\`.`,
    ),
  );
  return null;
}

/** A time of day written another way: what to write instead, where that is certain. */
export function timeSlip(image: string, span: Span): Problem | null {
  const found = /^(\d{1,2})(?:[.:h](\d{2}))?(am|pm|h)?$/i.exec(image);
  const [hours, minutes] = [Number(found?.[1]), found?.[2] ?? '00'];
  const mark = found?.[3]?.toLowerCase();
  if (!found || (found[2] === undefined && mark === undefined) || Number(minutes) > 59) return null;
  const half = mark === 'am' || mark === 'pm';
  if (half ? hours < 1 || hours > 12 : hours > 23) return null;
  const better = `${half ? (hours % 12) + (mark === 'pm' ? 12 : 0) : hours}:${minutes}`;
  return problem(
    'syntax',
    span,
    say`Times of day go round the whole clock. Write \`${better}\` if ${shown(image)} means that.`,
    [replace(span, better)],
  );
}

/** A word that looks like a date written another way: what to write instead, where that is certain. */
export function dateSlip(image: string, span: Span): Problem | null {
  const word = plain(image);
  if (/^\d{4}-\d{2}-\d{2}$/.test(word)) return null;
  const short = /^(\d{4})[-/.](\d{1,2})[-/.](\d{1,2})$/.exec(word);
  if (short !== null) {
    const better = `${short[1]}-${(short[2] ?? '').padStart(2, '0')}-${(short[3] ?? '').padStart(2, '0')}`;
    return problem(
      'no-such-date',
      span,
      say`${shown(image)} is not written as a date. Write \`${better}\`.`,
      [replace(span, better, true)],
    );
  }
  const dayFirst = /^(\d{1,2})[-/.](\d{1,2})[-/.](\d{4}|\d{2})$/.exec(word);
  if (dayFirst === null) return null;
  return problem(
    'no-such-date',
    span,
    say`${shown(image)} could be read in more than one way. Dates are year-month-day, such as \`2026-11-23\`.`,
  );
}
