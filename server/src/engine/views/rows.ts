import type {
  BlockNode,
  CellNode,
  CircuitNode,
  DayNode,
  FileTree,
  ProgramNode,
  RowNode,
  Span,
} from '../../../../grammar/index.js';
import type { ResolvedCell } from '../model.js';

/** A row where it is written, with all that it stands in. */
export interface PlacedRow {
  readonly program: ProgramNode;
  readonly block: BlockNode;
  readonly day: DayNode;
  readonly circuit: CircuitNode | null;
  readonly row: RowNode;
}

/** Every row of a file, in order of place. */
export function rowsOf(tree: FileTree): PlacedRow[] {
  const rows: PlacedRow[] = [];
  for (const program of tree.sections) {
    if (program.kind !== 'program') continue;
    for (const block of program.blocks) {
      for (const day of block.days) {
        for (const entry of day.entries) {
          if (entry.kind === 'row') rows.push({ program, block, day, circuit: null, row: entry });
          if (entry.kind !== 'circuit') continue;
          for (const inner of entry.entries) {
            if (inner.kind === 'row') rows.push({ program, block, day, circuit: entry, row: inner });
          }
        }
      }
    }
  }
  return rows;
}

/** Whether a resolved cell belongs to the block that its row is written in, not to one that took it over by `like`. */
export function isOwnBlock(cell: ResolvedCell): boolean {
  const { block, row } = cell;
  const inside = block.node.span.start <= row.node.span.start && row.node.span.end <= block.node.span.end;
  return inside && block.place.file === row.place.file;
}

/** Resolved cells by the start of the row that they are written in. */
export function cellsByRow(cells: readonly ResolvedCell[]): Map<number, ResolvedCell[]> {
  const byRow = new Map<number, ResolvedCell[]>();
  for (const cell of cells) {
    const start = cell.row.node.span.start;
    const known = byRow.get(start);
    if (known) known.push(cell);
    else byRow.set(start, [cell]);
  }
  return byRow;
}

/** What is written in a cell, without the spaces around it; for an empty cell the place just after its first space. */
export function writtenSpan(text: string, cell: CellNode): Span {
  const content = text.slice(cell.span.start, cell.span.end);
  const trimmed = content.trim();
  if (trimmed === '') {
    const at = cell.span.start + (content.startsWith(' ') ? 1 : 0);
    return { start: at, end: at };
  }
  const start = cell.span.start + content.indexOf(trimmed);
  return { start, end: start + trimmed.length };
}

/** Order of clients wherever several are listed: by name. */
export function byClientName(a: ResolvedCell, b: ResolvedCell): number {
  if (a.client.name !== b.client.name) return a.client.name < b.client.name ? -1 : 1;
  return a.date < b.date ? -1 : a.date > b.date ? 1 : 0;
}
