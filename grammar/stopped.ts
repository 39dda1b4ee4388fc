import type { IToken } from 'chevrotain';
import { problem, replace, shown } from './messages.js';
import type { Problem, Span } from './problem.js';
import { say } from './say.js';
import { decimalComma, nameEndSlip, plain, slip, units } from './slips.js';
import { spanOf } from './tokens.js';
import { dateSlip, timeSlip } from './values.js';

/**
 * The problem of a line that fits no form from one word on (null: it stops too early). `what` names the line,
 * `example` shows how it is written.
 */
export function stoppedProblem(
  source: string,
  value: Span,
  at: IToken | null,
  what: string,
  example: string,
  code = 'syntax',
  nameFirst = false,
): Problem {
  const comma = source.indexOf(',', value.start);
  const name = {
    start: value.start + (/^\s*/.exec(source.slice(value.start, value.end))?.[0].length ?? 0),
    end: comma < 0 || comma > value.end ? value.end : comma,
  };
  const unended = nameFirst ? nameEndSlip(source, name) : null;
  if (unended !== null) return unended;
  const like = say`Write it like \`${example}\`.`;
  if (at === null) {
    const written = source.slice(value.start, value.end).trim();
    const span = lastWord(source, value);
    const found =
      written === ''
        ? say('Found nothing behind it.')
        : say`Found nothing after ${shown(source.slice(span.start, span.end))}.`;
    return problem(code, span, say`${what} is not finished. ${found} ${like}`);
  }
  const span = spanOf(at);
  return (
    known(source, at, span) ??
    number(source, at, span, like) ??
    problem(code, span, say`${what} cannot be read from ${shown(at.image)} on. ${like}`)
  );
}

function weekday(image: string, span: Span): Problem | null {
  const found =
    /^(mon|tue|wed|thu|fri|sat|sun)(?:s|day|days|sday|nesday|rsday|urday|r|rs|nes|sdays)?[.]?$/i.exec(image);
  if (found === null || found[1] === undefined) return null;
  const better = found[1].toLowerCase();
  return problem('syntax', span, say`Weekdays have three letters. Write \`${better}\` for ${shown(image)}.`, [
    replace(span, better),
  ]);
}

/** A time after a weekday, or after `every 3 days`, that is not written as one. */
function clock(source: string, at: IToken, span: Span): Problem | null {
  const before = source.slice(0, span.start);
  // `6:30 pm`: the time before it was read, and would be that of the morning.
  const half = /^[ap]m$/i.test(at.image) ? /(\d{1,2}:\d{2})\s*$/.exec(before) : null;
  if (half?.[1] !== undefined) {
    const start = span.start - half[0].length;
    return timeSlip(`${half[1]}${at.image}`, { start, end: span.end });
  }
  return /\b(?:mon|tue|wed|thu|fri|sat|sun|days?)\s+$/i.test(before.slice(-12))
    ? timeSlip(at.image, span)
    : null;
}

/** Slips that have an answer of their own. */
function known(source: string, at: IToken, span: Span): Problem | null {
  switch (at.tokenType.name) {
    case 'DecimalComma':
      return decimalComma(at.image, span);
    case 'OpenText':
    case 'SpacedUnit':
    case 'SpacedDose':
      return slip(at.image, span, 'statement');
    case 'Metres': {
      const better = `${plain(at.image)}in`;
      return problem(
        'metres-for-minutes',
        span,
        say`${shown(at.image)} is a distance: \`m\` is metres. If minutes are meant, write \`${better}\`.`,
        [replace(span, better)],
      );
    }
    default:
      return (
        dateSlip(at.image, span) ??
        clock(source, at, span) ??
        weekday(at.image, span) ??
        units(at.image, plain(at.image), span)
      );
  }
}

/** A bare number where a mass, a count or a share belongs. */
function number(source: string, at: IToken, span: Span, like: string): Problem | null {
  const type = at.tokenType.name;
  const units = ['kg', 'cm', '%'].filter((unit) => new RegExp(`\\d${unit}`).test(like));
  const unit = units[0];
  if ((type !== 'Integer' && type !== 'Decimal') || unit === undefined) return null;
  const behindMass = /\d(?:kg|lb)\s+$/i.test(source.slice(0, span.start).slice(-12));
  const better = behindMass && /x\d/.test(like) ? `x${at.image}` : `${at.image}${unit}`;
  return problem(
    'unit-missing',
    span,
    say`It is open what the number ${shown(at.image)} counts. Write \`${better}\` if that is meant. ${like}`,
    [replace(span, better)],
  );
}

/** Where something is missing: at the last word there is, or before the value when there is none. */
function lastWord(source: string, value: Span): Span {
  const raw = source.slice(value.start, value.end);
  const end = value.start + raw.trimEnd().length;
  const start = value.start + Math.max(0, raw.trimEnd().search(/\S+$/));
  return end > start ? { start, end } : { start: Math.max(0, value.start - 1), end: value.start };
}
