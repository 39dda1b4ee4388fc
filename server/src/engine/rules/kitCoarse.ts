import { say } from '../../../../grammar/say.js';
import type { ResolvedCell, ResolvedGroup } from '../model.js';
import { formatNumber } from '../numbers.js';
import type { Rule, RuleOption } from '../ruleForm.js';
import { formatMass } from '../units.js';
import { writeRange } from './shared/cellFixes.js';
import { fixesOf } from './shared/fixes.js';
import { eachRow } from './shared/found.js';
import { nextUp } from './shared/loads.js';
import { clientLines, winter, workspace } from './shared/sample.js';
import { movementText, spanText, workText } from './shared/words.js';

const CODE = 'kit-coarse';
const MAX_REPS: RuleOption = {
  key: 'maxReps',
  default: 4,
  least: 1,
  most: 15,
  what: 'reps that a load may leave more than written',
};

function isCoarse(group: ResolvedGroup, cell: ResolvedCell, most: number): boolean {
  if (group.basis !== 'reserve' || group.writtenReserve === null || group.reserve === null) return false;
  // A range already asks for reps before load.
  if (group.repsUpper !== null && group.repsUpper > (group.reps ?? 0)) return false;
  if (group.loadKg === null || cell.deload || cell.backShare !== 1) return false;
  return group.reserve - group.writtenReserve > most && nextUp(cell, group.loadKg) !== null;
}

/** Reps that may be added at most; a range of five is what coaches write. */
const MOST_MORE = 4;

/** How many reps more still leave what is written. */
function moreReps({ reserve, reserveBeyond, writtenReserve }: ResolvedGroup): number {
  if (reserveBeyond) return MOST_MORE;
  return Math.min(MOST_MORE, Math.floor((reserve ?? 0) - (writtenReserve ?? 0)));
}

const files = (dumbbells: string) =>
  workspace(
    `kit Boathouse
  dumbbells: ${dumbbells}`,
    `movement chest squat
  pattern: squat
  with: dumbbell`,
    clientLines('Heron', ['ready: load squat 2026-06-01', 'max: chest squat, 10kg x8 r2, 2026-11-30']),
    winter('Keel, 2 weeks', { Lower: ['chest squat: 3x8 r3'] }),
  );

export const kitCoarse: Rule = {
  code: CODE,
  title: 'Steps of the kit that are too large',
  severity: 'info',
  options: [MAX_REPS],
  what: 'The load that the kit makes leaves more than four reps more in reserve than written, because its next load is too heavy.',
  why: 'Rounding down is safe, but so light that little is trained. More reps with the same load come closer to what was meant.',
  source: 'Arithmetic of the kit. Reps before load where the step is coarse: common practice, no source.',
  example: files('4kg x2, 6kg x2, 10kg x2'),
  better: files('2kg to 20kg by 1kg'),
  fix: 'Write more reps, or a rep range such as "3x8-12", or get a load between. The quick fix writes the range; its load is that of the lower end.',
  checkBlock(plan, _world, context) {
    const most = context.option(CODE, MAX_REPS);
    return eachRow(
      plan,
      (group, cell) => isCoarse(group, cell, most),
      (cells, group) => {
        const first = cells[0] as ResolvedCell;
        const next = formatMass(nextUp(first, group.loadKg ?? 0) ?? 0, plan.client.units);
        const left = group.reserveBeyond
          ? say('more than the curve can tell')
          : say`about ${formatNumber(group.reserve ?? 0, 0)}`;
        return {
          headline: say`${movementText(first)}: the steps of the kit are coarser than the plan.`,
          detail: say`${plan.client.name}: ${workText(group, plan.client)} ${spanText(cells)} leaves ${left} in reserve, not ${formatNumber(group.writtenReserve ?? 0, 1)}; the next load is ${next}.`,
          advice: say('Add reps first, for example as a range.'),
          fixes: fixesOf(writeRange(first, group, moreReps(group))),
        };
      },
    );
  },
};
