import type { IToken } from 'chevrotain';
import { problem, replace, shown } from './messages.js';
import type { Problem, Span } from './problem.js';
import { decimalComma, plain, slip } from './slips.js';
import { spanOf } from './tokens.js';
import { dateSlip } from './values.js';

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
): Problem {
  const like = `Write it like \`${example}\`.`;
  if (at === null) {
    const written = source.slice(value.start, value.end).trim();
    const span = lastWord(source, value);
    const found = written === '' ? 'Found nothing behind it.' : `Found nothing after ${shown(source.slice(span.start, span.end))}.`;
    return problem(code, span, `${what} is not finished. ${found} ${like}`);
  }
  const span = spanOf(at);
  return known(at, span) ?? problem(code, span, `${what} cannot be read from ${shown(at.image)} on. ${like}`);
}

/** Slips that have an answer of their own. */
function known(at: IToken, span: Span): Problem | null {
  switch (at.tokenType.name) {
    case 'DecimalComma':
      return decimalComma(at.image, span);
    case 'OpenText':
    case 'SpacedUnit':
    case 'SpacedDose':
      return slip(at.image, span, 'statement');
    case 'Metres': {
      const better = `${plain(at.image)}in`;
      return problem('metres-for-minutes', span, `${shown(at.image)} is a distance: \`m\` is metres. If minutes are meant, write \`${better}\`.`, [
        replace(span, better),
      ]);
    }
    default:
      return dateSlip(at.image, span);
  }
}

/** Where something is missing: at the last word there is, or before the value when there is none. */
function lastWord(source: string, value: Span): Span {
  const raw = source.slice(value.start, value.end);
  const end = value.start + raw.trimEnd().length;
  const start = value.start + (raw.trimEnd().search(/\S+$/) < 0 ? 0 : raw.trimEnd().search(/\S+$/));
  return end > start ? { start, end } : { start: Math.max(0, value.start - 1), end: value.start };
}
