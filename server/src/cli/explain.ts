/** `stave explain`: what a code means, why it matters and where it comes from. */
import { PROBLEM_CODES, type ProblemCode } from '../../../grammar/index.js';
import { rulePlainText } from '../engine/ruleReference.js';
import { RULES } from '../engine/rules/index.js';
import { nearestName } from '../engine/rules/shared/nearest.js';
import { quoted } from './files.js';
import { EXIT, type Io, Misuse } from './io.js';
import { padText, wrapText } from './text.js';

export function explain(code: string | null, io: Io): number {
  if (code === null) {
    io.out(ruleList(io));
    return EXIT.clean;
  }
  const wanted = code.trim().toLowerCase();
  const rule = RULES.find((known) => known.code === wanted);
  if (rule) {
    io.out(rulePlainText(rule, io.width));
    return EXIT.clean;
  }
  const notation = PROBLEM_CODES.find((known) => known.code === wanted);
  if (notation) {
    io.out(notationText(notation, io));
    return EXIT.clean;
  }
  const all = [...RULES.map((known) => known.code), ...PROBLEM_CODES.map((known) => known.code)].map(
    (key) => ({ key }),
  );
  const near = nearestName(wanted, all);
  throw new Misuse(
    `No finding has the code ${quoted(code)}. ${near ? `Did you mean ${near.key}?` : '`stave explain` lists them.'}`,
  );
}

/** The page of a mistake in the notation. */
function notationText({ code, title, why, example, better }: ProblemCode, io: Io): string {
  const text = (words: string) => wrapText(words.replaceAll('`', ''), io.width, '  ');
  const lines = (notation: string) =>
    notation
      .split('\n')
      .map((line) => `    ${line}`.trimEnd())
      .join('\n');
  return [
    `${code}: ${title}`,
    `Why it matters\n${text(why)}`,
    `Example\n${lines(example)}`,
    `Better\n${lines(better)}`,
  ]
    .join('\n\n')
    .concat('\n');
}

function ruleList(io: Io): string {
  const severities = new Map(RULES.map(({ code, severity }) => [code, severity]));
  const known = [...RULES, ...PROBLEM_CODES].sort((a, b) => (a.code < b.code ? -1 : 1));
  const width = Math.max(...known.map(({ code }) => code.length)) + 2;
  const lines = known.map(({ code, title }) => {
    const text = wrapText(`${title} (${severities.get(code) ?? 'error'})`, io.width, ' '.repeat(width));
    return padText(code, width) + text.trimStart();
  });
  return `${lines.join('\n')}\n`;
}
