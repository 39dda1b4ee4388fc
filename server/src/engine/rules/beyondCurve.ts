import { say } from '../../../../grammar/say.js';
import type { ResolvedCell, ResolvedGroup } from '../model.js';
import { curveOn } from '../resolve/strength.js';
import type { Rule } from '../ruleForm.js';
import { fixesOf, maxForm } from './shared/fixes.js';
import { eachRow } from './shared/found.js';
import { BOATHOUSE, BOX_SQUAT, workspace } from './shared/sample.js';
import { doseText, movementText, spanText } from './shared/words.js';

/** Whether it is the max that has too many reps, and not the row. */
function isOfMax({ reps, writtenReserve }: ResolvedGroup, mostReps: number): boolean {
  return reps !== null && reps + (writtenReserve ?? 0) <= mostReps;
}

const files = (row: string) =>
  workspace(
    BOATHOUSE,
    BOX_SQUAT,
    `client Heron
  trains at: Boathouse
  ready: load squat 2026-06-01
  max: box squat, 47.5kg x5 r2, 2026-11-30
  follows: Winter, from 2026-12-07, on mon`,
    `program Winter

block Keel, 2 weeks
day Lower
  ${row}`,
  );

export const beyondCurve: Rule = {
  code: 'beyond-curve',
  title: 'More reps than any curve can tell',
  severity: 'warning',
  what: 'Reps and reserve together, in the row or in the max that it rests on, are more than the curve of the client covers (20 for most, 12 for the NSCA chart). No load is given.',
  why: 'How many times a light load can be lifted differs so much between people that a number would be made up.',
  source:
    'Reynolds et al., J Strength Cond Res 2006;20(3):584-592: no more than 10 reps should be used in linear equations. The limit of 20 is that of the widest study used here (Kemmler et al. 2006: 3 to 20 reps).',
  example: files('box squat: 2x18 r4'),
  better: files('box squat: 2x12 r4'),
  fix: 'Write fewer reps, or a load of your own for such light work. Where it is the max that has too many reps, the quick fix adds a line to fill in, as a note, so that no weight is invented. A row is left to the coach: with fewer reps a load would come out of nothing.',
  checkBlock: (plan) =>
    eachRow(
      plan,
      (group) => group.issue === 'beyond-curve',
      (cells, group) => {
        const first = cells[0] as ResolvedCell;
        const curve = curveOn(plan.client, first.date);
        return {
          headline: say`${movementText(first)}: too many reps to work out a load.`,
          detail: say`${plan.client.name}: ${doseText(group)} ${spanText(cells)}${group.writtenReserve === null ? '' : say` with ${group.writtenReserve} in reserve`}; the ${curve.title} curve goes to ${curve.domainMaxReps}.`,
          advice: isOfMax(group, curve.domainMaxReps)
            ? say('Write a set of fewer reps down as a max when one is done.')
            : say('Write fewer reps or a load.'),
          fixes: fixesOf(
            isOfMax(group, curve.domainMaxReps)
              ? maxForm(plan.client, movementText(first), first.date)
              : null,
          ),
        };
      },
    ),
};
