import type { Block, Day, Program, ResolvedCell, ResolvedGroup, Row, Session } from '../../model.js';
import type { BlockPlan } from '../../ruleForm.js';

/** The cells of one row of one client, in order of date: what a coach sees when looking along a row. */
export interface RowRun {
  readonly program: Program;
  readonly block: Block;
  readonly day: Day;
  readonly row: Row;
  readonly cells: readonly ResolvedCell[];
}

const runsOfPlan = new WeakMap<BlockPlan, readonly RowRun[]>();

/**
 * The rows of a plan, each once for each time that its block is gone through (a client may follow a program twice).
 * Kept for each plan, because most rules ask for it.
 */
export function rowRuns(plan: BlockPlan): readonly RowRun[] {
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
  let found: { cell: ResolvedCell; group: ResolvedGroup }[] | null = null;
  for (const cell of cells) {
    for (const group of cell.groups) {
      if (!test(group, cell)) continue;
      found ??= [];
      found.push({ cell, group });
      break;
    }
  }
  return found ?? NOTHING;
}

/** Nearly every row of nearly every rule has nothing to tell. */
const NOTHING: readonly never[] = [];

/**
 * Whether it cannot be told how hard a group is: a load was written without a max to compare it with and without a
 * reserve, or nothing was written at all. Rules about stages leave such work to `load-unchecked` and
 * `effort-unwritten`. Bodyweight alone, bands and light packs are known to be learning work.
 */
export function effortUnknown(group: ResolvedGroup): boolean {
  if (group.writtenReserve !== null || group.reserve !== null || group.reserveBeyond) return false;
  // Where the kit gives no load, its own rule says so.
  if (group.issue === 'too-light' || group.issue === 'kit-lacks' || group.issue === 'no-kit') return true;
  if (group.basis === 'none') return group.reps !== null && group.stage !== 'learn';
  if (group.basis === 'bodyweight') return (group.loadKg ?? 0) > 0;
  return group.basis === 'load' || group.basis === 'pack';
}

/** Heavy work that is known to be heavy. */
export function isHeavyWork(group: ResolvedGroup): boolean {
  return group.stage === 'heavy' && !effortUnknown(group);
}

/** The sessions of one week of one block, in order of date. */
export interface PlanWeek {
  readonly program: Program;
  readonly block: Block;
  readonly week: number;
  readonly deload: boolean;
  readonly sessions: readonly Session[];
}

const weeksOfPlan = new WeakMap<BlockPlan, readonly PlanWeek[]>();

/** The weeks of a plan, program by program in order of their first session. Kept for each plan. */
export function planWeeks(plan: BlockPlan): readonly PlanWeek[] {
  const known = weeksOfPlan.get(plan);
  if (known) return known;
  const weeks: { program: Program; block: Block; week: number; deload: boolean; sessions: Session[] }[] = [];
  const open = new Map<Program, (typeof weeks)[number]>();
  for (const session of plan.sessions) {
    const { program, block, week, deload } = session;
    const current = open.get(program);
    if (current && current.block === block && current.week === week) {
      current.sessions.push(session);
      continue;
    }
    const fresh = { program, block, week, deload, sessions: [session] };
    open.set(program, fresh);
    weeks.push(fresh);
  }
  weeksOfPlan.set(plan, weeks);
  return weeks;
}

const blocksOfPlan = new WeakMap<BlockPlan, ReadonlyMap<Block, readonly Session[]>>();

/** The sessions of a plan by block, in order of date. Kept for each plan. */
export function blockSessions(plan: BlockPlan): ReadonlyMap<Block, readonly Session[]> {
  const known = blocksOfPlan.get(plan);
  if (known) return known;
  const found = new Map<Block, Session[]>();
  for (const session of plan.sessions) {
    const own = found.get(session.block);
    if (own) own.push(session);
    else found.set(session.block, [session]);
  }
  blocksOfPlan.set(plan, found);
  return found;
}

/** All cells of several sessions. */
export function cellsOf(sessions: readonly Session[]): readonly ResolvedCell[] {
  return sessions.flatMap((session) => session.cells);
}
