import type { RowNode } from '../../../../grammar/index.js';
import type { Hint } from './inlayHints.js';
import { writtenSpan } from './rows.js';

/** The hints of the cells of one row, by cell index. */
export interface RowHints {
  readonly row: RowNode;
  readonly byCell: ReadonlyMap<number, readonly Hint[]>;
}

/** Takes a place and is not seen; ordinary spaces would be drawn as one. */
const BLANK = '\u00a0';

/**
 * Hints of one table, made as wide as the widest of their column, so that columns which are under each other in the
 * text are so on the screen. A cell without a hint in a column that has some gets a blank one. Behind the last cell of
 * a row nothing has to be in line. Rows of more than one line are left as they are.
 */
export function alignHints(text: string, rows: readonly RowHints[]): Hint[] {
  const inLine = rows.filter(({ row }) => !/[\r\n]/.test(text.slice(row.nameSpan.start, endOf(row))));
  const widths = new Map<string, number>();
  for (const { byCell } of inLine)
    for (const [column, hints] of byCell)
      for (const { kind, label } of hints) {
        const key = `${column} ${kind}`;
        widths.set(key, Math.max(widths.get(key) ?? 0, label.length));
      }
  return rows.flatMap((each) => {
    if (!inLine.includes(each)) return [...each.byCell.values()].flat();
    const last = each.row.cells.length - 1;
    return each.row.cells.flatMap((cell) => {
      const own = each.byCell.get(cell.index) ?? [];
      return cell.index === last ? own : padded(own, cell.index, widths, writtenSpan(text, cell).end);
    });
  });
}

function endOf(row: RowNode): number {
  return row.cells[row.cells.length - 1]?.span.end ?? row.nameSpan.end;
}

const KINDS = ['deload', 'load', 'reserve', 'share', 'plates'] as const;

function padded(
  own: readonly Hint[],
  column: number,
  widths: ReadonlyMap<string, number>,
  offset: number,
): Hint[] {
  return KINDS.flatMap((kind): Hint[] => {
    const width = widths.get(`${column} ${kind}`);
    if (width === undefined) return [];
    const hint = own.find((each) => each.kind === kind);
    if (hint) return [{ ...hint, label: hint.label.padEnd(width, BLANK) }];
    return [{ offset, label: BLANK.repeat(width), tooltip: null, kind }];
  });
}
