import { plural, say } from '../../../../../grammar/say.js';
import type { FindingFix, Movement, ResolvedCell } from '../../model.js';
import { setsEdit } from './cellFixes.js';
import { cellsOf, type PlanWeek } from './cells.js';

type Counts = (movement: Movement) => boolean;

/**
 * Lowers the sets that a week states and the week before it did not have: one more than before stays, as sets are added
 * one at a time. Null where the rise comes from elsewhere, or no row rises by more than a set.
 */
export function addOneSetOnly(before: PlanWeek, week: PlanWeek, counts: Counts): FindingFix | null {
  return fewerSets(before, week, counts, 1, (rows) =>
    plural(
      rows,
      say`One set more than in week ${before.week}, not several, in ${rows} row`,
      say`One set more than in week ${before.week}, not several, in ${rows} rows`,
    ),
  );
}

/** Keeps the sets of the week before in each row that a week gives more. Null where the rise comes from elsewhere. */
export function keepSets(before: PlanWeek, week: PlanWeek, counts: Counts): FindingFix | null {
  return fewerSets(before, week, counts, 0, (rows) =>
    plural(
      rows,
      say`Keep the sets of week ${before.week} in ${rows} row`,
      say`Keep the sets of week ${before.week} in ${rows} rows`,
    ),
  );
}

function fewerSets(
  before: PlanWeek,
  week: PlanWeek,
  counts: Counts,
  more: number,
  title: (rows: number) => string,
): FindingFix | null {
  const former = cellsOf(before.sessions);
  const edits = new Map<string, FindingFix['edits'][number]>();
  for (const cell of cellsOf(week.sessions)) {
    if (cell.movement === null || !counts(cell.movement)) continue;
    for (const edit of editsOf(former, cell, more)) edits.set(`${edit.file} ${edit.span.start}`, edit);
  }
  if (edits.size === 0) return null;
  return { title: title(edits.size), safe: false, edits: [...edits.values()] };
}

function editsOf(former: readonly ResolvedCell[], cell: ResolvedCell, more: number): FindingFix['edits'] {
  const was = former.find(({ row }) => row === cell.row);
  return cell.groups.flatMap((group, index) => {
    const sets = was?.groups[index]?.sets ?? null;
    if (sets === null || group.sets === null || group.sets <= sets + more) return [];
    const edit = setsEdit(cell, group, sets + more);
    return edit ? [edit] : [];
  });
}
