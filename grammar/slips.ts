import { insert, nearest, problem, remove, replace, shown } from './messages.js';
import type { Problem, Span } from './problem.js';
import { say } from './say.js';

/** Where the word was found, which decides what it may have been meant for. */
export type SlipPlace = 'cell' | 'statement';

const CELL_WORDS = [
  'rest',
  'tempo',
  'height',
  'warm',
  'test',
  'off',
  'weekly',
  'stop',
  'pack',
  'band',
  'rpe',
  '/side',
  'down',
] as const;

const UNIT_WORDS: Readonly<Record<string, string>> = {
  kgs: 'kg',
  kilo: 'kg',
  kilos: 'kg',
  kilogram: 'kg',
  kilograms: 'kg',
  k: 'kg',
  lbs: 'lb',
  pound: 'lb',
  pounds: 'lb',
  '#': 'lb',
  sec: 's',
  secs: 's',
  second: 's',
  seconds: 's',
  mins: 'min',
  minute: 'min',
  minutes: 'min',
  metre: 'm',
  metres: 'm',
  meter: 'm',
  meters: 'm',
  inch: 'in',
  inches: 'in',
};

/** The word in plain signs: `×` as x, `–` and `−` as -, small letters. */
export function plain(image: string): string {
  if (!/[^ -@[-~]/.test(image)) return image;
  return image
    .replace(/\u00d7/g, 'x')
    .replace(/[\u2013\u2212]/g, '-')
    .toLowerCase();
}

/** `2,5kg` where `2.5kg` is meant. */
export function decimalComma(image: string, span: Span): Problem {
  const point = image.replace(',', '.');
  return problem(
    'decimal-comma',
    span,
    say`A comma ends an item, so ${shown(image)} is not one number. Write \`${point}\` with a point${
      /[a-z%]$/i.test(image) ? '' : say(', or put a space after the comma if two numbers are meant')
    }.`,
    [replace(span, point)],
  );
}

/** A word that is no item and no value: the common slips by name, then the nearest word, then what was found. */
export function slip(image: string, span: Span, place: SlipPlace): Problem {
  const word = plain(image);
  return (
    punctuation(image, word, span) ??
    spacing(image, span) ??
    units(image, word, span) ??
    (place === 'cell' ? cellSlip(image, word, span) : null) ??
    bareNumber(image, word, span, place) ??
    unknown(image, word, span, place)
  );
}

function spacing(image: string, span: Span): Problem | null {
  if (!/[ \t]/.test(image)) return null;
  const joined = image.replace(/[ \t]+/g, '');
  return problem(
    'spaced-item',
    span,
    say`${shown(image)} has a space inside. Write it as one: \`${joined}\`.`,
    [replace(span, joined, true)],
  );
}

function punctuation(image: string, word: string, span: Span): Problem | null {
  if (image.startsWith('"')) {
    return problem(
      'quote-open',
      span,
      say(
        'This text has no closing quotation mark, so everything after it is lost. Put a " where the text ends.',
      ),
      [insert(span.end, '"', say('Close the text at the end of the line'))],
    );
  }
  if (image === ',') {
    return problem(
      'syntax',
      span,
      say('A comma has no place here. Items are parted by spaces, weeks by `|`.'),
      [remove(span, say('Leave the comma out'))],
    );
  }
  if (image.includes(',')) return decimalComma(image, span);
  if (/[\u201c\u201d\u201e]/.test(image)) {
    return problem(
      'syntax',
      span,
      say`Text stands in straight quotation marks: "like this". Found ${shown(image)}.`,
    );
  }
  if (/^\d+[*\u0445]\d+/.test(word)) {
    const better = word.replace(/[*\u0445]/, 'x');
    return problem(
      'syntax',
      span,
      say`${shown(image)} is not sets and reps. Write \`${better}\` with the letter x.`,
      [replace(span, better)],
    );
  }
  if (/^[+-]?\.\d/.test(word)) {
    const better = word.replace('.', '0.');
    return problem(
      'syntax',
      span,
      say`${shown(image)} needs a figure before the point. Write \`${better}\`.`,
      [replace(span, better, true)],
    );
  }
  if (image === ':') {
    return problem(
      'syntax',
      span,
      say('A second colon has no place here. Only the one after the name is needed.'),
    );
  }
  return null;
}

/** A number with its unit written in another way: `90sec`, `60kgs`. */
export function units(image: string, word: string, span: Span): Problem | null {
  const found = /^([+-]?\d+(?:\.\d+)?)([a-z#]+)$/.exec(word);
  const unit = found?.[2] === undefined ? undefined : UNIT_WORDS[found[2]];
  if (found === null || unit === undefined) return null;
  const better = `${found[1]}${unit}`;
  return problem(
    'syntax',
    span,
    say`${shown(image)} has a unit that is not known here. Write \`${better}\`.`,
    [replace(span, better)],
  );
}

function cellSlip(image: string, word: string, span: Span): Problem | null {
  const better = cellBetter(word);
  if (better !== null) {
    const code = better.replace(/ /g, '') === word ? 'glued-items' : 'syntax';
    const said =
      code === 'glued-items' ? say('runs two items together') : say('is not written like that here');
    return problem(code, span, say`${shown(image)} ${said}. Write \`${better}\`.`, [
      replace(span, better, code === 'glued-items'),
    ]);
  }
  if (/^\d+(\.\d+)?(s|min)$/.test(word)) {
    return problem(
      'syntax',
      span,
      say`It is open what the time ${shown(image)} is for. Write \`x${word}\` for work, \`off ${word}\` for recovery, or \`rest ${word}\`.`,
      [replace(span, `x${word}`), replace(span, `rest ${word}`), replace(span, `off ${word}`)],
    );
  }
  if (/^\d+(\.\d+)?m$/.test(word)) {
    return problem(
      'syntax',
      span,
      say`It is open what ${shown(image)} is for. Write \`x${word}\` for a distance; minutes are \`${word}in\` after \`rest\` or \`off\`.`,
      [replace(span, `x${word}`)],
    );
  }
  return null;
}

/** What the common slips in a cell were meant for; null when it is none of them. */
function cellBetter(word: string): string | null {
  const rules: readonly (readonly [RegExp, string])[] = [
    [/^(\d*x\d+(?:-\d+)?(?:s|min|m)?)(\/side)$/, '$1 $2'],
    [/^(\d*x\d+(?:-\d+)?)(r\d+(?:\.\d+)?)$/, '$1 $2'],
    [/^rpe(\d+(?:\.\d+)?)$/, 'rpe $1'],
    [/^@(\d+(?:\.\d+)?)$/, 'rpe $1'],
    [/^@(\d+(?:\.\d+)?)(kg|lb|%)$/, '$1$2'],
    [/^rir(\d+(?:\.\d+)?)$/, 'r$1'],
    [/^(\d+(?:\.\d+)?)ri?r?$/, 'r$1'],
    [/^r-(\d+)$/, 'r$1'],
    [/^(?:week|w)(\d+)$/, 'wk$1'],
    [/^(\d+)x(?:amrap|fail)$/, '$1xmax'],
    [/^amrap$/, 'xmax'],
    [/^(?:\/leg|\/arm|\/s|\/sides|ea|each|e\/s|side)$/, '/side'],
    [/^(\d+-\d+-\d+)$/, 'tempo $1'],
    [/^tempo(\d+-\d+-\d+)$/, 'tempo $1'],
    [/^rest(\d+(?:\.\d+)?(?:s|min))$/, 'rest $1'],
    [/^off(\d+(?:\.\d+)?(?:s|min))$/, 'off $1'],
    [/^height(\d+(?:\.\d+)?(?:cm|in))$/, 'height $1'],
    [/^(\d+(?:\.\d+)?(?:cm|in))$/, 'height $1'],
    [/^pack(\d+(?:\.\d+)?(?:kg|lb))$/, 'pack $1'],
    [/^bw(\d+(?:\.\d+)?(?:kg|lb))$/, 'bw+$1'],
    [/^(?:warmup|warm-up)$/, 'warm'],
    [/^(?:skip|--)$/, '-'],
  ];
  for (const [pattern, better] of rules) {
    if (pattern.test(word)) return word.replace(pattern, better);
  }
  return null;
}

function bareNumber(image: string, word: string, span: Span, place: SlipPlace): Problem | null {
  if (!/^[+-]?\d+(\.\d+)?$/.test(word)) return null;
  if (place === 'statement') {
    return problem('syntax', span, say`The number ${shown(image)} has no place here, or lacks its unit.`);
  }
  return problem(
    'unit-missing',
    span,
    say`It is open what ${shown(image)} counts. Write \`x${word}\` for reps, \`${word}x\` for sets, \`${word}kg\` for a load, \`r${word}\` for reps in reserve.`,
    [
      replace(span, `x${word}`),
      replace(span, `${word}x`),
      replace(span, `${word}kg`),
      replace(span, `r${word}`),
    ],
  );
}

function unknown(image: string, word: string, span: Span, place: SlipPlace): Problem {
  const near = place === 'cell' ? nearest(word, CELL_WORDS) : null;
  if (near !== null) {
    return problem('unknown-word', span, say`${shown(image)} is not known here. Did you mean \`${near}\`?`, [
      replace(span, near),
    ]);
  }
  if (place === 'cell') return unknownWords(image, span);
  return problem(
    'unknown-word',
    span,
    say`${shown(image)} cannot be read here. Look at the example, or put text in quotation marks.`,
  );
}

/** One or more words that mean nothing in a cell; most often text that lacks its quotation marks. */
export function unknownWords(text: string, span: Span): Problem {
  return problem(
    'unknown-word',
    span,
    say`${shown(text)} cannot be read here. A cell holds things such as \`3x6\`, \`r2\`, \`80%\`, \`42.5kg\`, \`+2%\`, \`rest 2min\`; text to be printed stands in quotation marks.`,
    [replace(span, `"${text}"`, false, say('Print it as text'))],
  );
}

/**
 * Joins what belongs to one slip: words that mean nothing side by side are one piece of text without its marks, and
 * a bare time behind a mistyped `rest` is not a second mistake.
 */
export function joinSlips(source: string, found: readonly Problem[]): readonly Problem[] {
  if (found.length < 2) return found;
  const joined: Problem[] = [];
  for (const next of found) {
    const last = joined[joined.length - 1];
    const beside =
      last !== undefined &&
      last.code === 'unknown-word' &&
      source.slice(last.span.end, next.span.start).trim() === '';
    if (!beside || last.span.end >= next.span.start) {
      joined.push(next);
      continue;
    }
    const asked = last.fixes[0]?.edits[0]?.newText ?? '';
    if (asked === 'rest' || asked === 'off') continue;
    if (next.code !== 'unknown-word') {
      joined.push(next);
      continue;
    }
    const span = { start: last.span.start, end: next.span.end };
    joined[joined.length - 1] = unknownWords(source.slice(span.start, span.end), span);
  }
  return joined;
}

const BEHIND_A_NAME =
  /\s+(?:(?:from|until)\s+\d|on\s+(?:mon|tue|wed|thu|fri|sat|sun)\b|every\s+\d|\d{4}-\d{2}-\d{2}|\d+(?:\.\d+)?(?:kg|lb)|\d+x\d|\d+\s+(?:weeks?|rounds?)\b)/i;

/** What was meant to follow a name but lacks its comma, such as `jump from 2026-10-01`; null when the name is whole. */
export function nameEndSlip(source: string, name: Span): Problem | null {
  const within = BEHIND_A_NAME.exec(source.slice(name.start, name.end));
  if (within === null) return null;
  const at = name.start + within.index;
  const start = at + within[0].length - within[0].trimStart().length;
  const before = source.slice(name.start, at);
  return problem(
    'comma-missing',
    { start, end: name.end },
    say`A comma ends a name, and none stands before ${shown(source.slice(start, name.end))}. Put one behind ${shown(before)}.`,
    [insert(at, ',', say('Put a comma there'))],
  );
}
