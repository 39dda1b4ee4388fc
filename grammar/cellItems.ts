import type { IToken } from 'chevrotain';
import type { Amount, CellItem, Reps } from './ast.js';
import { problem, replace, shown } from './messages.js';
import type { Span } from './problem.js';
import { say } from './say.js';
import { decimalComma, plain, slip, units } from './slips.js';
import { spanOf } from './tokens.js';
import {
  centimetresOf,
  countOf,
  leadingNumber,
  massOf,
  nameAt,
  positiveMass,
  type Report,
  secondsOf,
} from './values.js';

/** What an item becomes: null when it was reported. */
type Read = CellItem | null;

function both(first: IToken, last: IToken | undefined): Span {
  return { start: first.startOffset, end: spanOf(last ?? first).end };
}

/** `4x6`, `4x`, `x6-8`, `3xmax`, `3x30s`, `4x20m`. */
export function doseItem(part: IToken, report: Report): Read {
  const span = spanOf(part);
  const word = plain(part.image);
  const times = word.indexOf('x');
  const before = word.slice(0, times);
  const after = word.slice(times + 1);
  const sets = before === '' ? null : countOf(Number(before), span, part.image, say('Sets'), 1, 99, report);
  const amount = after === '' ? null : amountOf(after, part, report);
  if ((before !== '' && sets === null) || (after !== '' && amount === null)) return null;
  return { kind: 'dose', sets: sets === null ? null : sets.value, amount, span };
}

function amountOf(word: string, part: IToken, report: Report): Amount | null {
  const span = spanOf(part);
  if (word === 'max') return { kind: 'reps', reps: { kind: 'open' } };
  if (word.endsWith('s') || word.endsWith('min')) {
    const seconds = secondsOf(word, span, report);
    return seconds === null ? null : { kind: 'seconds', seconds };
  }
  if (word.endsWith('m')) {
    const metres = Number.parseFloat(word);
    if (metres > 0 && metres <= 10000) return { kind: 'metres', metres };
    report(problem('out-of-range', span, say`${shown(part.image)} is no distance that can be meant.`));
    return null;
  }
  const reps = repsOf(word, part, report);
  return reps === null ? null : { kind: 'reps', reps };
}

function repsOf(word: string, part: IToken, report: Report): Reps | null {
  const [low, high] = word.split('-') as [string, string | undefined];
  const lower = countOf(Number(low), spanOf(part), part.image, say('Reps'), 1, 99, report);
  if (lower === null) return null;
  if (high === undefined) return { kind: 'count', lower: lower.value, upper: lower.value };
  const upper = countOf(Number(high), spanOf(part), part.image, say('Reps'), 1, 99, report);
  if (upper === null) return null;
  if (upper.value > lower.value) return { kind: 'count', lower: lower.value, upper: upper.value };
  report(
    problem(
      'out-of-range',
      spanOf(part),
      say`A rep range goes upwards. Found ${shown(part.image)}; write the smaller number first.`,
    ),
  );
  return null;
}

/** Whether a reserve is a whole or half number that can be meant. */
export function reserveValue(image: string, span: Span, report: Report): number | null {
  const reserve = Number.parseFloat(plain(image).replace(/^r/, ''));
  if (reserve >= 0 && reserve <= 10 && Number.isInteger(reserve * 2)) return reserve;
  report(
    problem(
      'out-of-range',
      span,
      say`Reps in reserve go from r0 to r10, in whole or half numbers. Found ${shown(image)}.`,
    ),
  );
  return null;
}

export function reserveItem(part: IToken, report: Report): Read {
  const reserve = reserveValue(part.image, spanOf(part), report);
  return reserve === null ? null : { kind: 'reserve', reserve, writtenAs: 'r', span: spanOf(part) };
}

/** The argument of a keyword when it is not what the keyword needs. */
function argumentProblem(
  word: IToken,
  argument: IToken | undefined,
  needs: string,
  example: string,
  report: Report,
): null {
  const name = plain(word.image);
  const asked = say`\`${name}\` needs ${needs} behind it, such as \`${example}\`.`;
  if (argument === undefined) {
    report(problem('syntax', spanOf(word), say`${asked} Found nothing.`));
    return null;
  }
  const span = spanOf(argument);
  const type = argument.tokenType.name;
  if (type === 'DecimalComma') report(decimalComma(argument.image, span));
  else if (type === 'SpacedUnit') report(slip(argument.image, span, 'cell'));
  else
    report(
      units(argument.image, plain(argument.image), span) ??
        problem('syntax', span, say`${asked} Found ${shown(argument.image)}.`),
    );
  return null;
}

/** `rest 2min`, `off 100s`. */
export function timeItem(
  kind: 'rest' | 'off',
  word: IToken,
  argument: IToken | undefined,
  report: Report,
): Read {
  const type = argument?.tokenType.name;
  if (argument !== undefined && type === 'Duration') {
    const seconds = secondsOf(argument.image, spanOf(argument), report, 7200);
    return seconds === null ? null : { kind, seconds, span: both(word, argument) };
  }
  if (argument !== undefined && type === 'Metres') {
    const better = `${plain(argument.image)}in`;
    report(
      problem(
        'metres-for-minutes',
        spanOf(argument),
        say`${shown(argument.image)} is a distance: \`m\` is metres. For minutes write \`${better}\`.`,
        [replace(spanOf(argument), better)],
      ),
    );
    return null;
  }
  if (argument !== undefined && (type === 'Integer' || type === 'Decimal')) {
    const figure = argument.image;
    report(
      problem(
        'unit-missing',
        spanOf(argument),
        say`${shown(`${kind} ${figure}`)} lacks its unit. Write \`${kind} ${figure}min\` or \`${kind} ${figure}s\`.`,
        [replace(spanOf(argument), `${figure}min`), replace(spanOf(argument), `${figure}s`)],
      ),
    );
    return null;
  }
  return argumentProblem(word, argument, say('a time'), `${kind} 90s`, report);
}

/** `rpe 8`. */
export function rpeItem(word: IToken, argument: IToken | undefined, report: Report): Read {
  const type = argument?.tokenType.name;
  if (argument === undefined || (type !== 'Integer' && type !== 'Decimal')) {
    return argumentProblem(word, argument, say('a number from 6 to 10'), 'rpe 8', report);
  }
  const rpe = Number(argument.image);
  if (rpe >= 6 && rpe <= 10 && Number.isInteger(rpe * 2)) {
    return { kind: 'reserve', reserve: 10 - rpe, writtenAs: 'rpe', span: both(word, argument) };
  }
  report(
    problem(
      'out-of-range',
      both(word, argument),
      say`\`rpe\` goes from 6 to 10 in halves. Found ${shown(argument.image)}.`,
    ),
  );
  return null;
}

/** `tempo 3-1-1`. */
export function tempoItem(word: IToken, argument: IToken | undefined, report: Report): Read {
  if (argument === undefined || argument.tokenType.name !== 'TempoWord') {
    return argumentProblem(
      word,
      argument,
      say('lowering, pause and lifting in seconds'),
      'tempo 3-1-1',
      report,
    );
  }
  const [lowering, pause, lifting] = plain(argument.image).split('-').map(Number) as [number, number, number];
  if (Math.max(lowering, pause, lifting) <= 60) {
    return { kind: 'tempo', tempo: [lowering, pause, lifting], span: both(word, argument) };
  }
  report(
    problem(
      'out-of-range',
      spanOf(argument),
      say`A tempo has at most 60 seconds for each part. Found ${shown(argument.image)}.`,
    ),
  );
  return null;
}

/** `height 45cm`. */
export function heightItem(word: IToken, argument: IToken | undefined, report: Report): Read {
  const type = argument?.tokenType.name;
  if (argument !== undefined && (type === 'Length' || type === 'Metres')) {
    const cm = centimetresOf(argument.image);
    if (cm > 0 && cm <= 300) return { kind: 'height', cm, span: both(word, argument) };
    report(
      problem(
        'out-of-range',
        spanOf(argument),
        say`A height lies between 1cm and 300cm. Found ${shown(argument.image)}.`,
      ),
    );
    return null;
  }
  return argumentProblem(word, argument, say('a length'), 'height 45cm', report);
}

/** `pack 8kg`. */
export function packItem(word: IToken, argument: IToken | undefined, report: Report): Read {
  if (argument === undefined || argument.tokenType.name !== 'MassWord') {
    return argumentProblem(word, argument, say('a mass'), 'pack 8kg', report);
  }
  const mass = positiveMass(argument, report);
  return mass === null ? null : { kind: 'pack', mass, span: both(word, argument) };
}

/** `band medium`: the name is one word. */
export function bandItem(source: string, word: IToken, argument: IToken | undefined, report: Report): Read {
  const type = argument?.tokenType.name;
  if (argument === undefined || !['Word', 'Stage', 'Keep', 'Back'].includes(type ?? '')) {
    return argumentProblem(
      word,
      argument,
      say('the name of a band of the kit, in one word,'),
      'band medium',
      report,
    );
  }
  const span = spanOf(argument);
  return { kind: 'band', band: nameAt(source, span.start, span.end), span: both(word, argument) };
}

/** `test x5`. */
export function testItem(word: IToken, argument: IToken | undefined, report: Report): Read {
  if (argument === undefined || argument.tokenType.name !== 'Times') {
    return argumentProblem(word, argument, say('the reps to test'), 'test x5', report);
  }
  const reps = countOf(
    leadingNumber(argument.image.slice(1)),
    spanOf(argument),
    argument.image,
    say('Reps'),
    1,
    99,
    report,
  );
  return reps === null ? null : { kind: 'test', reps: reps.value, span: both(word, argument) };
}

const ENDED = ['side', 'rest', 'tempo', 'height', 'warm', 'deload'] as const;

/** `no rest`, `no deload`. */
export function noItem(word: IToken, argument: IToken | undefined, report: Report): Read {
  const asked = argument === undefined ? '' : plain(argument.image);
  const what = ENDED.find((each) => each === asked || `/${each}` === asked);
  if (what === undefined || argument === undefined || asked.startsWith('/')) {
    return argumentProblem(
      word,
      argument,
      say('`side`, `rest`, `tempo`, `height`, `warm` or `deload`'),
      'no rest',
      report,
    );
  }
  return { kind: 'no', what, span: both(word, argument) };
}

/** `wk5`. */
export function weekItem(part: IToken, report: Report): Read {
  const week = countOf(Number(part.image.slice(2)), spanOf(part), part.image, say('Weeks'), 1, 104, report);
  return week === null ? null : { kind: 'week', week: week.value, span: spanOf(part) };
}

/** `80%`, `+2%`, `-5%`. */
export function percentItem(kind: 'percent' | 'change-percent', part: IToken, report: Report): Read {
  const percent = leadingNumber(part.image);
  const span = spanOf(part);
  if (kind === 'percent' && percent > 0 && percent <= 150) return { kind, percent, span };
  if (kind === 'change-percent' && percent !== 0 && Math.abs(percent) < 100) return { kind, percent, span };
  const bounds =
    kind === 'percent'
      ? say('A share of the max lies above 0% and up to 150%')
      : say('A change is more than 0% and less than 100%');
  report(problem('out-of-range', span, say`${bounds}. Found ${shown(part.image)}.`));
  return null;
}

/** `42.5kg`. */
export function loadItem(part: IToken, report: Report): Read {
  const mass = positiveMass(part, report);
  return mass === null ? null : { kind: 'load', mass, span: spanOf(part) };
}

/** `+2.5kg`, `-5lb`. */
export function changeMassItem(part: IToken, report: Report): Read {
  const mass = massOf(part.image, spanOf(part), report);
  if (mass === null) return null;
  if (mass.kg !== 0) return { kind: 'change-mass', mass, span: spanOf(part) };
  report(
    problem(
      'out-of-range',
      spanOf(part),
      say`${shown(part.image)} changes nothing. Leave it out, or write by how much.`,
    ),
  );
  return null;
}

/** `bw`, `bw+5kg`, `bw-15kg`; the mass's span is that of `+5kg`. */
export function bodyweightItem(part: IToken, report: Report): Read {
  const span = spanOf(part);
  if (part.image.length === 2) return { kind: 'bodyweight', added: null, span };
  const added = massOf(part.image.slice(2), { start: span.start + 2, end: span.end }, report);
  return added === null ? null : { kind: 'bodyweight', added, span };
}
