import { normaliseName } from '../../../../grammar/index.js';
import { say } from '../../../../grammar/say.js';
import type { NameKind } from '../model.js';
import { RULES } from '../rules/index.js';
import type { EngineSession } from '../session.js';
import type { CompletionKind } from './completionParts.js';
import { nameHover } from './hoverName.js';
import { escapeMarkdown } from './text.js';

const NAMES: ReadonlySet<CompletionKind> = new Set([
  'movement',
  'client',
  'kit',
  'program',
  'block',
  'band',
  'machine',
  'bar',
]);

/**
 * What is told of an offered word when the coach stops at it, in Markdown: what a name stands for, what a rule looks
 * for and why, else a line that shows the word. Null where there is nothing to say.
 */
export function completionHelp(
  session: EngineSession,
  file: string,
  {
    kind,
    label,
    example,
  }: { readonly kind: CompletionKind; readonly label: string; readonly example: string },
): string | null {
  if (kind === 'rule') {
    const rule = RULES.find(({ code }) => code === label);
    return rule
      ? `${escapeMarkdown(rule.what)}\n\n${escapeMarkdown(rule.why)}\n\n${say`Source: ${escapeMarkdown(rule.source)}`}`
      : null;
  }
  if (NAMES.has(kind)) {
    const name = kind === 'machine' ? label.replace(/^machine /, '') : label;
    const key = name.split('/').map(normaliseName).join(' / ');
    const place = { file, span: { start: 0, end: 0 } };
    const found = nameHover(session, { kind: kind as NameKind, key, role: 'use', place });
    if (found !== null) return found;
  }
  return example === '' ? null : `\`\`\`stave\n${example}\n\`\`\``;
}
