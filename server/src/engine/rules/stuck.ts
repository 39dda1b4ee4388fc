import type { CellItem, CellNode, RowNode } from '../../../../grammar/index.js';
import { say } from '../../../../grammar/say.js';
import { rowWeeks } from '../bind/weeks.js';
import type { FindingFix, ResolvedCell, ResolvedGroup } from '../model.js';
import { formatNumber, formatPercent } from '../numbers.js';
import type { RawFinding, Rule } from '../ruleForm.js';
import { stageAllows, stageOfWork } from '../stages.js';
import { formatMass } from '../units.js';
import { type RowRun, rowRuns } from './shared/cells.js';
import { nextUp, repsAtShare, sameLoad, sameMax, shareAtReps } from './shared/loads.js';
import { readinessOn } from './shared/readiness.js';
import { movementText } from './shared/words.js';

/** A written increase in percent that is there to move one group's load. */
interface Increase {
  readonly week: number;
  readonly group: number;
  readonly item: CellItem & { readonly kind: 'change-percent' };
  readonly cell: CellNode;
}

/** What happened to one group's load over the weeks that an increase counts for. */
interface Standstill {
  readonly increase: Increase;
  /** The working week before the increase, and those from it on. */
  readonly before: ResolvedCell;
  readonly after: readonly ResolvedCell[];
}

/** A load counts as the same up to this share above the target. */
const REACHED = 1.01;

const increases = new WeakMap<RowNode, boolean>();

/** Whether a row says +x % anywhere. Read once for each row, as it is the same for every client and block. */
function hasIncrease(node: RowNode): boolean {
  let known = increases.get(node);
  if (known === undefined) {
    known = node.cells.some((cell) =>
      cell.groups.some((group) =>
        group.items.some((item) => item.kind === 'change-percent' && item.percent > 0),
      ),
    );
    increases.set(node, known);
  }
  return known;
}

/** The first written increase of each group. */
function firstIncreases(run: RowRun): readonly Increase[] {
  const { cells, brokenFrom } = rowWeeks(run.row.node, run.block.weeks);
  const found = new Map<number, Increase>();
  cells.forEach((cell, index) => {
    const week = index + 1;
    if (!cell || week >= brokenFrom || run.block.deloadWeeks.has(week)) return;
    cell.groups.forEach((group, groupIndex) => {
      const item = group.items.find((each) => each.kind === 'change-percent');
      // In the first week of a back-off group the change is its distance from the top set, not a progression.
      if (item?.kind !== 'change-percent' || item.percent <= 0 || index === 0 || found.has(groupIndex))
        return;
      found.set(groupIndex, { week, group: groupIndex, item, cell });
    });
  });
  return [...found.values()];
}

function groupOf(cell: ResolvedCell, index: number): ResolvedGroup | undefined {
  return cell.groups[index];
}

/** The standstill of an increase, or null where the load moves, is not known, or other things change as well. */
function standstillOf(run: RowRun, increase: Increase): Standstill | null {
  const working = run.cells.filter((cell) => !cell.deload && cell.backShare === 1 && cell.test === null);
  const before = working.filter((cell) => cell.week < increase.week).at(-1);
  const after = working.filter((cell) => cell.week >= increase.week);
  const start = before && groupOf(before, increase.group);
  if (!before || !start || start.loadKg === null || after.length === 0) return null;
  for (const cell of after) {
    const group = groupOf(cell, increase.group);
    if (!group || group.loadKg === null || !sameLoad(group.loadKg, start.loadKg)) return null;
    if (group.reps !== start.reps || group.writtenReserve !== start.writtenReserve) return null;
    if (!sameMax(group, start) || cell.movement !== before.movement) return null;
    if (group.targetKg === null || start.targetKg === null || group.targetKg <= start.targetKg) return null;
  }
  return { increase, before, after };
}

/**
 * More reps with the same load, one or two, as far as the written reserve and the stage stay as they are. Null where
 * that is not so, and no fix is offered.
 */
function repsInstead({ increase, before }: Standstill): number | null {
  const start = groupOf(before, increase.group) as ResolvedGroup;
  const { reps, writtenReserve, estimatedOneRepMaxKg, loadKg, targetKg } = start;
  if (start.basis !== 'reserve' || start.repsUpper !== reps) return null;
  if (reps === null || writtenReserve === null || estimatedOneRepMaxKg === null || loadKg === null)
    return null;
  if (start.share === null || targetKg === null || before.movement?.liftsShare !== null) return null;
  // New reps work the target out anew; what the block has added so far stays in it.
  const factor = targetKg / (estimatedOneRepMaxKg * shareAtReps(before, reps + writtenReserve));
  for (const more of [2, 1]) {
    const target = estimatedOneRepMaxKg * shareAtReps(before, reps + more + writtenReserve) * factor;
    const predicted = repsAtShare(before, start.share) - (reps + more);
    const keepsReserve = predicted >= writtenReserve;
    const keepsLoad = target * REACHED >= loadKg;
    const stage = stageOfWork({
      reps: reps + more,
      writtenReserve,
      predictedReserve: predicted,
      leastStage: before.movement.stage,
    });
    if (keepsReserve && keepsLoad && stage === start.stage) return reps + more;
  }
  return null;
}

/** What the next load of the kit would ask for, in words, or null where there is none. */
function nextText(cell: ResolvedCell, group: ResolvedGroup): string | null {
  const next = nextUp(cell, group.loadKg ?? 0);
  if (next === null) return null;
  const kg = formatMass(next, cell.client.units);
  if (
    group.estimatedOneRepMaxKg === null ||
    group.reps === null ||
    cell.movement === null ||
    cell.movement.liftsShare !== null
  ) {
    return say`The next load of this kit is ${kg}.`;
  }
  const share = next / group.estimatedOneRepMaxKg;
  const left = repsAtShare(cell, share) - group.reps;
  const stage = stageOfWork({
    reps: group.reps,
    writtenReserve: group.writtenReserve,
    predictedReserve: left,
    leastStage: cell.movement.stage,
  });
  const ready = readinessOn(cell.client, cell.movement.pattern, cell.date).stage;
  const inReserve = left < 0.05 ? say('nothing in reserve') : say`about ${formatNumber(left, 1)} in reserve`;
  const above = stageAllows(ready, stage) ? '' : say`, above the stage "${ready}" that is signed off`;
  return say`The next load of this kit, ${kg}, would be ${formatPercent(share)} of the max with ${inReserve}${above}.`;
}

function fixOf(standstill: Standstill, reps: number, file: string): FindingFix {
  const { item, cell, group } = standstill.increase;
  const items = cell.groups[group]?.items ?? [];
  const weekly = items.find((each) => each.kind === 'weekly');
  const edits = [
    { file, span: item.span, newText: `x${reps}` },
    ...(weekly ? [{ file, span: weekly.span, newText: '' }] : []),
  ];
  return { title: say`Do ${reps} reps with the same load instead`, safe: false, edits };
}

function findingOf(run: RowRun, standstill: Standstill): RawFinding {
  const { increase, before, after } = standstill;
  const first = after[0] as ResolvedCell;
  const last = after.at(-1) as ResolvedCell;
  const { client } = first;
  const start = groupOf(before, increase.group) as ResolvedGroup;
  const end = groupOf(last, increase.group) as ResolvedGroup;
  const load = formatMass(start.loadKg ?? 0, client.units);
  const more = repsInstead(standstill);
  const next = nextText(last, end);
  const weekly = increase.cell.groups[increase.group]?.items.some((each) => each.kind === 'weekly') ?? false;
  const written = `+${formatNumber(increase.item.percent)} %${weekly ? say(' a week') : ''}`;
  const weeks = first.week === last.week ? say`week ${first.week}` : say`weeks ${first.week} to ${last.week}`;
  const targets = say`the target goes from ${formatMass(start.targetKg ?? 0, client.units)} to ${formatMass(end.targetKg ?? 0, client.units)}`;
  return {
    place: first.place,
    headline: say`${movementText(first)}: ${written} never changes the load in this block.`,
    detail: say`${client.name}: ${load} in week ${before.week} and still ${load} in ${weeks}, while ${targets}. ${next ?? say('The kit has nothing heavier.')}${more === null ? '' : say` ${more} reps with ${load} keep the reserve that is written.`}`,
    advice: say(
      'Add reps before load where that keeps the reserve, or get smaller plates; otherwise stay until a newer max carries the next load.',
    ),
    client: client.key,
    cell: first,
    related: start.max
      ? [{ place: start.max.entry.place, message: say`The max of ${client.name} that this rests on.` }]
      : [],
    fixes: more === null ? [] : [fixOf(standstill, more, run.row.place.file)],
  };
}

export const stuck: Rule = {
  code: 'stuck',
  title: 'An increase that never reaches the next load',
  severity: 'warning',
  what: 'A row says +x % (once or weekly), and the load that the kit makes is the same in every week of the block as before.',
  why: 'On paper the client progresses, at the bar nothing happens. She should know, and the coach may rather progress by reps.',
  source: 'Arithmetic of the kit. Reps before load where the step is coarse: common practice, no source.',
  example: `kit Boathouse
  bar: 15kg
  plates: 1.25kg x2, 2.5kg x2, 5kg x4, 10kg x4

movement shoulder press
  pattern: press
  with: barbell

client Heron
  trains at: Boathouse
  ready: load press 2026-06-01
  max: shoulder press, 22.5kg x6 r2, 2026-11-23
  follows: Winter, from 2026-12-07, on thu

program Winter

block Keel, 4 weeks
day Upper
  shoulder press: 3x8 r3 | | +2% weekly
`,
  better: `kit Boathouse
  bar: 15kg
  plates: 0.5kg x2, 1.25kg x2, 2.5kg x2, 5kg x4, 10kg x4

movement shoulder press
  pattern: press
  with: barbell

client Heron
  trains at: Boathouse
  ready: load press 2026-06-01
  max: shoulder press, 22.5kg x6 r2, 2026-11-23
  follows: Winter, from 2026-12-07, on thu

program Winter

block Keel, 4 weeks
day Upper
  shoulder press: 3x8 r3 | | +2% weekly
`,
  fix: 'Progress by reps, or by smaller plates. The quick fix writes more reps with the same load, only where they keep the written reserve and the stage of the row.',
  checkBlock(plan) {
    const findings: RawFinding[] = [];
    for (const run of rowRuns(plan)) {
      if (!hasIncrease(run.row.node)) continue;
      for (const increase of firstIncreases(run)) {
        const standstill = standstillOf(run, increase);
        if (standstill) findings.push(findingOf(run, standstill));
      }
    }
    return findings;
  },
};
