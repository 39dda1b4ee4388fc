import type { Block, ClientPlan, Day, Program, ResolvedCell, ResolvedGroup, Row } from '../../model.js';

/** The cells of one row of one client, in order of date: what a coach sees when looking along a row. */
export interface RowRun {
  readonly program: Program;
  readonly block: Block;
  readonly day: Day;
  readonly row: Row;
  readonly cells: readonly ResolvedCell[];
}

const runsOfPlan = new WeakMap<ClientPlan, readonly RowRun[]>();

/**
 * The rows of a plan, each once for each time that its block is gone through (a client may follow a program twice).
 * Kept for each plan, because most rules ask for it.
 */
export function rowRuns(plan: ClientPlan): readonly RowRun[] {
  const known = runsOfPlan.get(plan);
  if (known) return known;
  const runs: { program: Program; block: Block; day: Day; row: Row; cells: ResolvedCell[] }[] = [];
  const open = new Map<Block, Map<Row, ResolvedCell[]>>();
  for (const session of plan.sessions) {
    let ofBlock = open.get(session.block);
    if (!ofBlock) {
      ofBlock = new Map();
      open.set(session.block, ofBlock);
    }
    for (const cell of session.cells) {
      const cells = ofBlock.get(cell.row);
      const last = cells?.[cells.length - 1];
      if (cells && last && cell.week >= last.week) {
        cells.push(cell);
        continue;
      }
      const fresh = [cell];
      ofBlock.set(cell.row, fresh);
      runs.push({ program: cell.program, block: cell.block, day: cell.day, row: cell.row, cells: fresh });
    }
  }
  runsOfPlan.set(plan, runs);
  return runs;
}

/** The cells of a run for which a group answers, each with its first such group. */
export function cellsWhere(
  cells: readonly ResolvedCell[],
  test: (group: ResolvedGroup, cell: ResolvedCell) => boolean,
): readonly { readonly cell: ResolvedCell; readonly group: ResolvedGroup }[] {
  const found: { cell: ResolvedCell; group: ResolvedGroup }[] = [];
  for (const cell of cells) {
    const group = cell.groups.find((each) => test(each, cell));
    if (group) found.push({ cell, group });
  }
  return found;
}

/**
 * Whether it cannot be told how hard a group is: a load was written, but there is neither a max to compare it with
 * nor a written reserve. Rules about stages leave such work to `load-unchecked`.
 */
export function effortUnknown(group: ResolvedGroup): boolean {
  const loadGiven = group.basis === 'load' || group.basis === 'pack';
  return loadGiven && group.writtenReserve === null && group.reserve === null && !group.reserveBeyond;
}
