import { say } from '../../../../grammar/say.js';
import type { ResolvedCell, ResolvedGroup } from '../model.js';
import { formatNumber, formatPercent } from '../numbers.js';
import type { RawFinding, Rule, RuleOption } from '../ruleForm.js';
import { takeLoadAway } from './shared/cellFixes.js';
import { cellsWhere, rowRuns } from './shared/cells.js';
import { fixesOf } from './shared/fixes.js';
import { doseText, movementText, spanText, workText } from './shared/words.js';

const CODE = 'effort-mismatch';
const MAX_REPS: RuleOption = {
  key: 'maxReps',
  default: 1,
  least: 0.25,
  most: 5,
  what: 'reps by which the predicted and the written reserve may differ',
};
const NOISE = 1e-9;

/** Predicted less written reserve of a group that states both a load (or share) and an effort; null where it does not. */
function difference(group: ResolvedGroup, cell: ResolvedCell): number | null {
  if (cell.deload || cell.backShare !== 1 || group.writtenReserve === null) return null;
  if (group.basis === 'reserve' || group.basis === 'none' || group.basis === 'band') return null;
  if (group.loadKg === null && group.basis !== 'bodyweight') return null;
  if (group.reserveBeyond) return Number.POSITIVE_INFINITY;
  return group.reserve === null ? null : group.reserve - group.writtenReserve;
}

function isMismatch(group: ResolvedGroup, cell: ResolvedCell, most: number): boolean {
  const gap = difference(group, cell);
  return gap !== null && Math.abs(gap) > most + NOISE;
}

function findingOf(cells: readonly ResolvedCell[], group: ResolvedGroup): RawFinding {
  const first = cells[0] as ResolvedCell;
  const { client } = first;
  const gap = difference(group, first) ?? 0;
  const harder = gap < 0;
  const written = formatNumber(group.writtenReserve ?? 0, 1);
  const predicted = predictedText(group);
  const share = group.share === null ? '' : say`, ${formatPercent(group.share)} of the max`;
  const estimate = group.provisional ? say(' The max behind this is itself uncertain.') : '';
  return {
    place: first.place,
    headline: harder
      ? say`${movementText(first)}: this load is harder than the effort written beside it.`
      : say`${movementText(first)}: this load is easier than the effort written beside it.`,
    detail: say`${client.name}: ${workText(group, client)} ${spanText(cells)}${share}, leaves ${predicted} in reserve, not ${written}.${estimate}`,
    advice: harder
      ? say`Take the load away and keep "${doseText(group).replace(' × ', 'x')} r${written}", so that it is worked out for each client, or lower it.`
      : say(`Take the load away and keep the reserve, or write the reserve that is meant.`),
    client: client.key,
    cell: first,
    related: group.max
      ? [{ place: group.max.entry.place, message: say`The max of ${client.name} that this rests on.` }]
      : [],
    // Taking an easy load away would lift the weight.
    fixes: harder ? fixesOf(takeLoadAway(first, group)) : [],
    severity: harder ? 'warning' : 'info',
  };
}

function predictedText(group: ResolvedGroup): string {
  if (group.reserveBeyond) return say('more than the curve can tell');
  const reserve = group.reserve ?? 0;
  return reserve < 0
    ? say`nothing, ${formatNumber(-reserve, 1)} reps too few,`
    : say`about ${formatNumber(reserve, 1)}`;
}

export const effortMismatch: Rule = {
  code: CODE,
  title: 'Load and effort that do not agree',
  severity: 'warning',
  options: [MAX_REPS],
  what: "A cell states a load (or a percentage) and a reserve, and the reserve that is predicted from the client's max differs by more than one rep. A warning where the load is harder than written, information where it is easier.",
  why: 'The load is what the client picks up; the reserve is what the coach wanted. If they disagree, one of them is wrong, and a load that is too heavy is the dangerous one.',
  source:
    'One rep: people predict their reps to failure to 0.95 reps on average (Halperin et al., Sports Med 2022;52(2):377-390).',
  example: `kit Boathouse
  bar: 15kg
  plates: 1.25kg x2, 2.5kg x2, 5kg x4, 10kg x4

movement box squat
  pattern: squat
  with: barbell

client Heron
  trains at: Boathouse
  ready: heavy squat 2026-10-05
  max: box squat, 47.5kg x5 r2, 2026-11-23
  follows: Winter, from 2026-12-07, on mon

program Winter

block Keel, 2 weeks
day Lower
  box squat: 3x8 45kg r3
`,
  better: `kit Boathouse
  bar: 15kg
  plates: 1.25kg x2, 2.5kg x2, 5kg x4, 10kg x4

movement box squat
  pattern: squat
  with: barbell

client Heron
  trains at: Boathouse
  ready: heavy squat 2026-10-05
  max: box squat, 47.5kg x5 r2, 2026-11-23
  follows: Winter, from 2026-12-07, on mon

program Winter

block Keel, 2 weeks
day Lower
  box squat: 3x8 40kg r3
`,
  fix: 'Write the reserve alone, and the load is worked out for each client; or correct the load. Where the load is too hard, the quick fix takes it away and keeps the reserve.',
  checkBlock(plan, _world, context) {
    const most = context.option(CODE, MAX_REPS);
    const findings: RawFinding[] = [];
    for (const run of rowRuns(plan)) {
      const found = cellsWhere(run.cells, (group, cell) => isMismatch(group, cell, most));
      // Harder work must not hide behind an easier week of the same row.
      const first = found.find(({ cell, group }) => (difference(group, cell) ?? 0) < 0) ?? found[0];
      if (!first) continue;
      const harder = (difference(first.group, first.cell) ?? 0) < 0;
      const same = found.filter(({ cell, group }) => (difference(group, cell) ?? 0) < 0 === harder);
      findings.push(
        findingOf(
          same.map(({ cell }) => cell),
          first.group,
        ),
      );
    }
    return findings;
  },
};
