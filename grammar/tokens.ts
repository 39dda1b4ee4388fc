import { createToken, type IToken, Lexer, type TokenType } from 'chevrotain';
import type { Span } from './problem.js';

/**
 * The one list of what a word of the notation can look like. The lexer, the TextMate grammar and the semantic
 * colours are all made from it.
 *
 * Every pattern reaches to the end of the word it begins (`END`), so a word is one token or none: `4x6kg` is
 * never read as `4x6` with something left over.
 */
export interface TokenSpec {
  readonly name: string;
  /** Source of a regular expression that both JavaScript and Oniguruma read, without flags; capitals are equal. */
  readonly source: string;
  /** TextMate scope without the language's suffix; null: not coloured. */
  readonly scope: string | null;
  /** May stand inside a name. */
  readonly inName: boolean;
  /** Means something in a cell (a keyword's argument does not). */
  readonly inCell: boolean;
}

/** Ends a word: a space, a mark that parts things, or the line's edge. */
export const END = '(?=[\\s,|;":]|$)';
const NUMBER = '\\d+(?:\\.\\d+)?';
const MINUS = '[-\\u2013\\u2212]';
const SIGN = '[+\\-\\u2013\\u2212]';
const TIMES = '[x\\u00d7]';
const AMOUNT = `(?:${NUMBER}(?:s|min|m)|\\d+(?:${MINUS}\\d+)?|max)`;

function mark(name: string, source: string, scope: string | null): TokenSpec {
  return { name, source, scope, inName: false, inCell: false };
}

function value(name: string, source: string, scope: string | null, inCell: boolean): TokenSpec {
  return { name, source: `(?:${source})${END}`, scope, inName: true, inCell };
}

function keyword(name: string, source: string, inCell: boolean): TokenSpec {
  return { name, source: `(?:${source})${END}`, scope: 'keyword.other', inName: true, inCell };
}

/** In the order in which they are tried. */
export const TOKEN_SPECS: readonly TokenSpec[] = [
  { ...mark('Text', '"[^"\\r\\n]*"', 'string.quoted.double'), inCell: true },
  mark('OpenText', '"[^"\\r\\n]*', 'invalid.illegal'),
  mark('Pipe', '\\|', 'punctuation.separator.week'),
  mark('Semi', ';', 'punctuation.separator.group'),
  mark(
    'DecimalComma',
    `(?:${SIGN}|bw${SIGN}|r|\\d+${TIMES})?\\d+,\\d+(?:kg|lb|%|cm|in|min|s|m)?${END}`,
    'invalid.illegal',
  ),
  mark('Comma', ',', 'punctuation.separator.item'),
  mark('Colon', ':', 'punctuation.separator.label'),
  value('DateWord', `\\d{4}${MINUS}\\d{2}${MINUS}\\d{2}`, 'constant.numeric.date', false),
  value('TimeWord', '\\d{1,2}:\\d{2}', 'constant.numeric.time', false),
  value('MonthWord', `\\d{4}${MINUS}\\d{2}`, 'constant.numeric.date', false),
  value(
    'SpacedDose',
    `\\d+[ \\t]+${TIMES}[ \\t]*${AMOUNT}|\\d+${TIMES}[ \\t]+${AMOUNT}`,
    'invalid.illegal',
    false,
  ),
  value('SpacedUnit', `${SIGN}?${NUMBER}[ \\t]+(?:kg|lb|%|cm|min|s|m)`, 'invalid.illegal', false),
  value('Times', `${TIMES}\\d+`, 'constant.numeric.dose', true),
  value('Dose', `\\d+${TIMES}${AMOUNT}?|${TIMES}${AMOUNT}`, 'constant.numeric.dose', true),
  value('Reserve', `r${NUMBER}`, 'constant.numeric.reserve', true),
  value('Percent', `${NUMBER}%`, 'constant.numeric.percent', true),
  value('ChangePercent', `${SIGN}${NUMBER}%`, 'constant.numeric.change', true),
  value('MassWord', `${NUMBER}(?:kg|lb)`, 'constant.numeric.mass', true),
  value('ChangeMass', `${SIGN}${NUMBER}(?:kg|lb)`, 'constant.numeric.change', true),
  value('Bodyweight', `bw(?:${SIGN}${NUMBER}(?:kg|lb))?`, 'constant.numeric.mass', true),
  value('Duration', `${NUMBER}(?:s|min)`, 'constant.numeric.time', false),
  value('Metres', `${NUMBER}m`, 'constant.numeric.length', false),
  value('Length', `${NUMBER}(?:cm|in)`, 'constant.numeric.length', false),
  value('TempoWord', `\\d+${MINUS}\\d+${MINUS}\\d+`, 'constant.numeric.tempo', false),
  value('WeekWord', 'wk\\d+', 'keyword.control.week', true),
  value('PerSide', '/side', 'keyword.other', true),
  value('Pair', '\\d+/\\d+', 'constant.numeric.pair', false),
  value('Integer', '\\d+', 'constant.numeric', false),
  value('Decimal', '\\d+\\.\\d+', 'constant.numeric', false),
  value('LoneMinus', MINUS, 'keyword.control.left-out', true),
  value('Slash', '/', null, false),
  keyword('Rest', 'rest', true),
  keyword('Tempo', 'tempo', true),
  keyword('Height', 'height', true),
  keyword('Warm', 'warm', true),
  keyword('No', 'no', true),
  keyword('Test', 'test', true),
  keyword('Off', 'off', true),
  keyword('Step', 'up|down', true),
  keyword('Weekly', 'weekly', true),
  keyword('Stop', 'stop', true),
  keyword('Rpe', 'rpe', true),
  keyword('Pack', 'pack', true),
  keyword('Band', 'band', true),
  keyword('Stage', 'learn|load|heavy', false),
  keyword('Weekday', 'mon|tue|wed|thu|fri|sat|sun', false),
  keyword('Machine', 'machine', false),
  keyword('To', 'to', false),
  keyword('By', 'by', false),
  keyword('Fits', 'fits', false),
  keyword('Of', 'of', false),
  keyword('BodyMass', 'mass', false),
  keyword('From', 'from', false),
  keyword('Until', 'until', false),
  keyword('On', 'on', false),
  keyword('At', 'at', false),
  keyword('Every', 'every', false),
  keyword('Days', 'days?', false),
  keyword('Weeks', 'weeks?', false),
  keyword('Rounds', 'rounds?', false),
  keyword('Deload', 'deload', false),
  keyword('Like', 'like', false),
  keyword('Back', 'back', false),
  keyword('Keep', 'keep', false),
  keyword('Dates', 'dates', false),
  keyword('Supervised', 'supervised', false),
  keyword('Alongside', 'alongside', false),
  keyword('Skipped', 'skipped', false),
  keyword('As', 'as', false),
  keyword('Planned', 'planned', false),
  { name: 'Word', source: '[^\\s,|;":]+', scope: null, inName: true, inCell: false },
];

/** Anything that may stand in a name: all but `: , | ; "`. */
export const NamePart = createToken({ name: 'NamePart', pattern: Lexer.NA });
/** Anything that can stand behind a word that needs another one. */
export const Argument = createToken({ name: 'Argument', pattern: Lexer.NA });
/** Anything that means nothing as an item of a cell. */
export const Misfit = createToken({ name: 'Misfit', pattern: Lexer.NA });

/** Items of a cell that are one word. */
export const OneWord = createToken({ name: 'OneWord', pattern: Lexer.NA });
/** Words of a cell that need another word behind them. */
export const Leading = createToken({ name: 'Leading', pattern: Lexer.NA });

const LEADING: ReadonlySet<string> = new Set([
  'Rest',
  'Tempo',
  'Height',
  'No',
  'Test',
  'Off',
  'Rpe',
  'Pack',
  'Band',
]);

function categoriesOf(spec: TokenSpec): TokenType[] {
  const categories: TokenType[] = [];
  if (spec.inName) categories.push(NamePart);
  if (spec.inName || spec.name === 'DecimalComma') categories.push(Argument);
  if (spec.name === 'Text' || spec.name === 'Pipe' || spec.name === 'Semi') return categories;
  if (!spec.inCell) categories.push(Misfit);
  else categories.push(LEADING.has(spec.name) ? Leading : OneWord);
  return categories;
}

/** Every character a plain word can begin with, so that the lexer can choose patterns by first character. */
function wordStarts(): string[] {
  const starts: string[] = [];
  for (let code = 0; code < 256; code++) {
    const char = String.fromCharCode(code);
    if (!/[\s,|;":]/.test(char)) starts.push(char);
  }
  // Above 255 the lexer keeps one bucket for each 255 codes; one character of each bucket stands for all.
  for (let code = 256; code < 65536; code += 255) starts.push(String.fromCharCode(code));
  starts.push('\uffff');
  return starts;
}

const made = new Map<string, TokenType>();
for (const spec of TOKEN_SPECS) {
  made.set(
    spec.name,
    createToken({
      name: spec.name,
      pattern: new RegExp(spec.source, 'i'),
      categories: categoriesOf(spec),
      ...(spec.name === 'Word' ? { start_chars_hint: wordStarts() } : {}),
    }),
  );
}

/** The token type of a name in the list. */
export function token(name: string): TokenType {
  const type = made.get(name);
  if (type === undefined) throw new Error(`No token is called ${name}`);
  return type;
}

const Space = createToken({ name: 'Space', pattern: /\s+/, group: Lexer.SKIPPED });

export const ALL_TOKENS: readonly TokenType[] = [
  NamePart,
  Argument,
  Misfit,
  OneWord,
  Leading,
  Space,
  ...made.values(),
];

let lexer: Lexer | null = null;

/** The words of one line, which begins at `offset` in its file. Nothing fails: what fits no pattern is a plain word. */
export function words(line: string, offset: number): IToken[] {
  lexer ??= new Lexer([...ALL_TOKENS], {
    positionTracking: 'onlyOffset',
    skipValidations: true,
    ensureOptimizations: true,
  });
  const { tokens } = lexer.tokenize(line);
  for (const part of tokens) part.startOffset += offset;
  return tokens;
}

/** Where a token stands. */
export function spanOf(part: IToken): Span {
  return { start: part.startOffset, end: part.startOffset + part.image.length };
}
