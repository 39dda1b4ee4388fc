import type * as ast from './ast.js';
import { problem, shown } from './messages.js';
import type { Problem, Span } from './problem.js';
import { trimmedSpan } from './readLine.js';
import { say } from './say.js';
import { nameAt } from './values.js';

/** Movement and label of `back squat (pause)`. */
export function movementOf(
  source: string,
  span: Span,
): { readonly movement: ast.Name; readonly label: ast.Name | null } | Problem {
  const text = source.slice(span.start, span.end);
  const illegal = /[,;|"]/.exec(text);
  if (illegal !== null) {
    const at = span.start + illegal.index;
    return problem(
      'syntax',
      { start: at, end: at + 1 },
      say`A name has no ${shown(illegal[0])} in it. Take it out, or look for a colon that is too far right.`,
    );
  }
  if (!/[()]/.test(text)) return { movement: nameAt(source, span.start, span.end), label: null };
  const found = /^([^()]*[^()\s])\s*\(([^()]*[^()\s][^()]*)\)$/.exec(text);
  if (found === null) {
    return problem(
      'syntax',
      span,
      say`The label of a movement stands in one pair of brackets behind its name, such as \`back squat (pause)\`. Found ${shown(text)}.`,
    );
  }
  const open = span.start + text.indexOf('(');
  const label = trimmedSpan(source, open + 1, span.end - 1);
  return {
    movement: nameAt(source, span.start, span.start + (found[1] ?? '').length),
    label: nameAt(source, label.start, label.end),
  };
}
