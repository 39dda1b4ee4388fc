import type { CellItem, CellNode, FileTree, GroupNode, RowNode, Span } from '../../../../../grammar/index.js';
import { rowsOf, writtenSpan } from '../rows.js';

/** The row that begins at an offset of a file; undefined where there is none. */
export function rowAt(tree: FileTree, start: number): RowNode | undefined {
  return rowsOf(tree).find(({ row }) => row.span.start === start)?.row;
}

/** The week of each cell of a row, from 1. */
export function weeksOfCells(row: RowNode): number[] {
  let week = 0;
  return row.cells.map((cell) => {
    const moved = weekItem(cell);
    week = moved?.kind === 'week' ? moved.week : week + 1;
    return week;
  });
}

export function weekItem(cell: CellNode): Extract<CellItem, { kind: 'week' }> | undefined {
  return cell.groups[0]?.items.find((item) => item.kind === 'week');
}

/** A text with a span replaced. */
export function spliced(text: string, { start, end }: Span, newText: string): string {
  return text.slice(0, start) + newText + text.slice(end);
}

/** Items of a group as written, apart from some. */
export function itemTexts(text: string, group: GroupNode, leave: (item: CellItem) => boolean): string[] {
  return group.items.filter((item) => !leave(item)).map(({ span }) => text.slice(span.start, span.end));
}

/** A text in which a cell of a row says something else; cells that are not there yet are made. Null: no cells. */
export function withCell(text: string, row: RowNode, index: number, content: string): string | null {
  const last = row.cells[row.cells.length - 1];
  if (!last) return null;
  const cell = row.cells[index];
  if (!cell) {
    const { end } = writtenSpan(text, last);
    return spliced(text, { start: end, end }, `${' |'.repeat(index - row.cells.length + 1)} ${content}`);
  }
  const span = writtenSpan(text, cell);
  const inside = text.slice(cell.span.start, cell.span.end);
  if (span.start < span.end) return spliced(text, span, content);
  return spliced(text, cell.span, inside.trim() === '' ? ` ${content} ` : content);
}
