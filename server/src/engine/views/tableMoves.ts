import type { FileTree, RowNode, Span } from '../../../../grammar/index.js';
import type { EngineSession } from '../session.js';
import { alignAbove } from './onEnter.js';
import { type PlacedRow, rowsOf, writtenSpan } from './rows.js';
import { lineBreakOf, lineSpanAt } from './text.js';

/** A step through a table: what is written for it, and what is selected afterwards, in the text as it is then. */
export interface TableMove {
  /** What is put right first, in other lines or in the row itself; the cursor's line keeps its number. */
  readonly format: readonly { readonly span: Span; readonly newText: string }[];
  readonly edit: { readonly span: Span; readonly newText: string } | null;
  /** `newText` has tab stops; the editor then selects by itself. */
  readonly snippet: boolean;
  readonly select: Span | null;
}

/**
 * The next or the previous week of the row at an offset. Behind the last written week the next one is begun, as long
 * as the block has one; then the next row comes. Null where the offset lies in no row, or where there is no way on.
 */
export function moveColumn(
  session: EngineSession,
  file: string,
  offset: number,
  direction: 'next' | 'previous',
): TableMove | null {
  const text = session.text(file);
  const tree = session.tree(file)?.value;
  if (text === undefined || !tree) return null;
  const rows = rowsOf(tree);
  const at = rows.findIndex(({ row }) => holds(text, row, offset));
  const placed = rows[at];
  if (!placed) return null;
  const { cells, nameSpan } = placed.row;
  const current = offset <= nameSpan.end ? -1 : cells.findLastIndex(({ span }) => span.start <= offset);
  if (direction === 'next') {
    if (current + 1 < cells.length) return to(text, placed.row, current + 1);
    if (canGrow(session, placed)) return grow(text, placed.row);
    return rows[at + 1] ? to(text, (rows[at + 1] as PlacedRow).row, 0) : null;
  }
  if (current > 0) return to(text, placed.row, current - 1);
  const above = rows[at - 1]?.row;
  return above ? to(text, above, above.cells.length - 1) : null;
}

/** A row reaches to the end of its last line, where an unfinished cell may stand. */
function holds(text: string, row: RowNode, offset: number): boolean {
  const last = row.cells[row.cells.length - 1]?.span.end ?? row.nameSpan.end;
  return lineSpanAt(text, row.nameSpan.start).start <= offset && offset <= lineSpanAt(text, last).end;
}

function to(text: string, row: RowNode, index: number): TableMove | null {
  const cell = row.cells[index];
  return cell ? { format: [], edit: null, snippet: false, select: writtenSpan(text, cell) } : null;
}

function canGrow(session: EngineSession, { program, block, row }: PlacedRow): boolean {
  const bound = session.world().programs.get(program.name.key);
  const weeks = bound?.blocks.find(({ node }) => node === block)?.weeks ?? block.weeks?.value ?? 0;
  const jumps = row.cells.some(({ groups }) => groups[0]?.items.some(({ kind }) => kind === 'week'));
  return !jumps && row.cells.length < weeks;
}

function grow(text: string, row: RowNode): TableMove | null {
  const last = row.cells[row.cells.length - 1];
  if (!last) return null;
  const at = writtenSpan(text, last).end;
  const before = /[ \t]$/.test(text.slice(0, at)) ? '' : ' ';
  const newText = `${before}| `;
  const end = at + newText.length;
  return {
    format: [],
    edit: { span: { start: at, end: at }, newText },
    snippet: false,
    select: { start: end, end },
  };
}

/**
 * Enter at the end of a row: a new row with as many columns, as a snippet. On a new row that is still empty the marks
 * are taken away again. Null where the row has one column only, or the offset is not at its end.
 */
export function newRow(
  session: EngineSession,
  file: string,
  offset: number,
  align: boolean,
): TableMove | null {
  const text = session.text(file);
  const tree = session.tree(file)?.value;
  if (text === undefined || !tree) return null;
  const line = lineSpanAt(text, offset);
  if (/^[ \t]*:[ \t|]*$/.test(text.slice(line.start, line.end))) {
    const indent = /^[ \t]*/.exec(text.slice(line.start, line.end))?.[0] ?? '';
    const at = line.start + indent.length;
    return {
      format: [],
      edit: { span: { start: at, end: line.end }, newText: '' },
      snippet: false,
      select: { start: at, end: at },
    };
  }
  const columns = columnsAt(tree, text, offset);
  if (columns < 2 || text.slice(offset, line.end).trim() !== '') return null;
  const indent = /^[ \t]*/.exec(text.slice(line.start, line.end))?.[0] || '  ';
  const stops = Array.from({ length: columns }, (_, index) => `$${index + 2}`);
  const br = lineBreakOf(text);
  const newText = `${br}${indent}$1: ${stops.join(' | ')}$0`;
  const ended = text.slice(0, line.end) + br + text.slice(line.end);
  const next = { start: line.end + br.length, end: line.end + br.length };
  const format = align ? alignAbove(ended, next).filter(({ span }) => span.end <= line.end) : [];
  return { format, edit: { span: { start: line.end, end: line.end }, newText }, snippet: true, select: null };
}

function columnsAt(tree: FileTree, text: string, offset: number): number {
  const placed = rowsOf(tree).find(({ row }) => holds(text, row, offset));
  return placed && offset > placed.row.nameSpan.end ? placed.row.cells.length : 0;
}
