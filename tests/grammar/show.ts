import type { Outcome, Problem } from '../../grammar/index.js';

/** A problem as a person sees it: the line, the characters at fault underlined, the message, the repairs. */
export function showProblem(text: string, found: Problem): string {
  const lineStart = text.lastIndexOf('\n', found.span.start - 1) + 1;
  const nextBreak = text.indexOf('\n', found.span.start);
  const line = text.slice(lineStart, nextBreak < 0 ? text.length : nextBreak);
  const width = Math.max(1, Math.min(found.span.end, lineStart + line.length) - found.span.start);
  const number = text.slice(0, found.span.start).split('\n').length;
  const mark = ' '.repeat(found.span.start - lineStart) + '^'.repeat(width);
  const fixes = found.fixes.map(
    (fix) => `  fix: ${fix.title} -> ${JSON.stringify(fixedLine(text, fix.edits, lineStart))}`,
  );
  return [
    `${number}| ${line}`,
    `${' '.repeat(String(number).length)}  ${mark}`,
    `  ${found.code}: ${found.message}`,
    ...fixes,
  ].join('\n');
}

function fixedLine(text: string, edits: Problem['fixes'][number]['edits'], lineStart: number): string {
  const fixed = applyEdits(text, edits);
  const end = fixed.indexOf('\n', lineStart);
  return fixed.slice(lineStart, end < 0 ? fixed.length : end);
}

/** The text after a repair. */
export function applyEdits(text: string, edits: Problem['fixes'][number]['edits']): string {
  const ordered = [...edits].sort((one, other) => other.span.start - one.span.start);
  return ordered.reduce(
    (done, { span, newText }) => done.slice(0, span.start) + newText + done.slice(span.end),
    text,
  );
}

export function showProblems(text: string, outcome: Outcome<unknown>): string {
  return outcome.problems.map((found) => showProblem(text, found)).join('\n');
}
