import type { CellNode, EffortNode, RoundsNode, RowNode } from '../../../../grammar/index.js';
import { deloadSets } from '../numbers.js';

/** The cell written for each week of a block, and the first week from which a mistake makes the row mean nothing. */
export interface RowWeeks {
  /** Index 0 is week 1. Null where nothing is written: as the week before. */
  readonly cells: readonly (CellNode | null)[];
  /**
   * Week (from 1) of the first damaged cell, or 1 where there are more cells than weeks; nothing is resolved from there
   * on. Infinity when the row is sound.
   */
  readonly brokenFrom: number;
}

/** Places a row's cells on the weeks: each follows the one before, `wk5` moves to week 5. */
export function rowWeeks(row: RowNode, weeks: number): RowWeeks {
  const cells: (CellNode | null)[] = Array.from({ length: weeks }, () => null);
  let brokenFrom = Number.POSITIVE_INFINITY;
  let week = 0;
  for (const cell of row.cells) {
    const moved = cell.groups[0]?.items.find((item) => item.kind === 'week');
    week = moved?.kind === 'week' ? moved.week : week + 1;
    if (cell.broken) brokenFrom = Math.min(brokenFrom, week);
    if (week >= 1 && week <= weeks) cells[week - 1] = cell;
    // One cell too many, and nobody knows which: any of them may stand in the wrong week.
    else brokenFrom = 1;
  }
  return { cells, brokenFrom };
}

/**
 * Reserve of an `effort:` line for each week; an empty cell is as the week before. What is written in a deload week
 * holds for that week only.
 */
export function effortByWeek(
  effort: EffortNode | null,
  weeks: number,
  deloadWeeks: ReadonlySet<number>,
): readonly (number | null)[] {
  return carried(effort?.cells.map((cell) => cell?.reserve ?? null) ?? [], weeks, deloadWeeks);
}

/** Rounds of a circuit for each week: 40 % fewer in a deload, unless that week states its own. */
export function roundsByWeek(
  header: number | null,
  line: RoundsNode | null,
  weeks: number,
  deloadWeeks: ReadonlySet<number>,
): readonly (number | null)[] {
  const written = line?.cells.map((cell) => cell?.value ?? null) ?? [];
  const start = [written[0] ?? header, ...written.slice(1)];
  return carried(start, weeks, deloadWeeks).map((rounds, index) =>
    rounds !== null && deloadWeeks.has(index + 1) && (index === 0 || (written[index] ?? null) === null)
      ? deloadSets(rounds)
      : rounds,
  );
}

function carried(
  written: readonly (number | null)[],
  weeks: number,
  deloadWeeks: ReadonlySet<number>,
): (number | null)[] {
  let state: number | null = null;
  return Array.from({ length: weeks }, (_, index) => {
    const own = written[index] ?? null;
    if (own === null) return state;
    if (index === 0 || !deloadWeeks.has(index + 1)) state = own;
    return own;
  });
}
