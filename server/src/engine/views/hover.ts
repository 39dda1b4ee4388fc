import type { FileTree, Span } from '../../../../grammar/index.js';
import { say } from '../../../../grammar/say.js';
import type { Occurrence } from '../model.js';
import { RULES } from '../rules/index.js';
import type { EngineSession } from '../session.js';
import { cellHover, rowHover } from './hoverCell.js';
import { logHover } from './hoverLog.js';
import { nameHover } from './hoverName.js';
import { wordHover } from './hoverWord.js';
import { type PlacedRow, rowsOf } from './rows.js';
import { escapeMarkdown, touches } from './text.js';

export interface Hover {
  readonly span: Span;
  readonly markdown: string;
  /** Of a cell with loads, of which the reasons can be told at length. */
  readonly explains?: boolean;
}

/**
 * What stands at an offset, in Markdown: a cell with every client's load and the reasons, a name, a rule's code in
 * an `allow` line, or a word of the notation. Null in notes, in quoted text and where there is nothing to say.
 */
export function hover(session: EngineSession, file: string, offset: number): Hover | null {
  const tree = session.tree(file)?.value;
  const text = session.text(file);
  if (!tree || text === undefined) return null;
  if (tree.comments.some(({ span }) => span.start <= offset && offset < span.end)) return null;
  const placed = rowsOf(tree).find(({ row }) => touches(row.span, offset));
  const onName = session.nameAt(file, offset);
  if (placed) {
    const inRow = hoverInRow(session, file, text, placed, offset, onName);
    if (inRow) return inRow;
  }
  const onLog = onName && onName.kind !== 'movement' ? null : logHover(session, file, tree, offset);
  if (onLog) return onLog;
  if (onName) {
    const markdown = nameHover(session, onName);
    return markdown === null ? null : { span: onName.place.span, markdown };
  }
  return allowHover(tree, offset) ?? wordHover(text, tree, offset);
}

function hoverInRow(
  session: EngineSession,
  file: string,
  text: string,
  placed: PlacedRow,
  offset: number,
  onName: Occurrence | undefined,
): Hover | null {
  const { row } = placed;
  const resolved = session.cellsIn(file).filter((cell) => cell.row.node.span.start === row.span.start);
  if (touches(row.nameSpan, offset)) {
    const summary = onName ? nameHover(session, onName) : null;
    const parts = [summary, rowHover(resolved)].filter((part) => part !== null && part !== '');
    return parts.length === 0 ? null : { span: row.nameSpan, markdown: parts.join('\n\n') };
  }
  const cell = row.cells.find(({ span }) => touches(span, offset));
  if (!cell) return null;
  return cellHover(session, text, placed, cell, resolved, offset);
}

function allowHover(tree: FileTree, offset: number): Hover | null {
  const allow = findAllow(tree.sections, offset);
  const rule = allow && RULES.find(({ code }) => code === allow.value);
  if (!rule) return null;
  const parts = [
    `**${escapeMarkdown(rule.title)}** (\`${rule.code}\`)`,
    escapeMarkdown(rule.what),
    escapeMarkdown(rule.why),
    ...(rule.caution === undefined ? [] : [say`**Caution:** ${escapeMarkdown(rule.caution)}`]),
    say`Source: ${escapeMarkdown(rule.source)}`,
  ];
  return { span: allow.span, markdown: parts.join('\n\n') };
}

/** The code of the `allow` line at an offset, wherever it stands. */
function findAllow(value: unknown, offset: number): { value: string; span: Span } | null {
  if (Array.isArray(value)) {
    for (const entry of value) {
      const found = findAllow(entry, offset);
      if (found) return found;
    }
    return null;
  }
  if (typeof value !== 'object' || value === null) return null;
  const node = value as { kind?: string; code?: { value: string; span: Span }; span?: Span };
  if (node.span && !touches(node.span, offset)) return null;
  if (node.kind === 'allow' && node.code && touches(node.code.span, offset)) return node.code;
  return findAllow(Object.values(value), offset);
}
