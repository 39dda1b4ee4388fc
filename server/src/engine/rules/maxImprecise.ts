import { say } from '../../../../grammar/say.js';
import type { MaxEntry, ResolvedCell, ResolvedGroup } from '../model.js';
import { formatNumber } from '../numbers.js';
import { RELIABLE_REPS } from '../resolve/strength.js';
import type { Rule } from '../ruleForm.js';
import { fixesOf, maxForm } from './shared/fixes.js';
import { onLine } from './shared/found.js';
import { perSession, picked } from './shared/perSession.js';
import { BOATHOUSE, BOX_SQUAT, workspace } from './shared/sample.js';
import { workText } from './shared/words.js';

/** A load for so few reps is far from a set of ten. */
const VERY_FEW_REPS = 3;

/**
 * A load that is worked out far from the set it rests on: heavy work (it could be lifted eight times or fewer) from
 * more than ten reps to failure, or a single to a triple from ten or more. Lighter work lies near such a set.
 */
function isFar({ basis, loadKg, reps, stage }: ResolvedGroup, repsToFailure: number): boolean {
  if (loadKg === null || (basis !== 'reserve' && basis !== 'percent')) return false;
  if (reps !== null && reps <= VERY_FEW_REPS && repsToFailure >= RELIABLE_REPS) return true;
  return stage === 'heavy' && repsToFailure > RELIABLE_REPS;
}

/** The maxes from which a session works out loads far away, with the numbers of a cell and a group of each. */
const farIn = perSession(({ cells }) =>
  picked(cells, ({ test, groups }, number) => {
    const far = groups.flatMap((group, index) =>
      group.max && !test && isFar(group, group.max.repsToFailure) ? [{ index, entry: group.max.entry }] : [],
    );
    return far.length > 0 ? { number, far } : null;
  }),
);

const files = (max: string) =>
  workspace(
    BOATHOUSE,
    BOX_SQUAT,
    `client Heron
  trains at: Boathouse
  ready: heavy squat 2026-06-01
  max: box squat, ${max}, 2026-11-30
  follows: Winter, from 2026-12-07, on mon`,
    `program Winter

block Keel, 2 weeks
day Lower
  box squat: 3x6 r2`,
  );

export const maxImprecise: Rule = {
  code: 'max-imprecise',
  title: 'A max from many reps',
  severity: 'info',
  what: 'Heavy loads rest on a max from more than 10 reps to failure (reps done and reps left together), or singles to triples on one from 10 or more. Lighter work from such a max is only marked as provisional.',
  why: 'The more reps, the more people differ in how many they can do. The load may be off by several kilograms.',
  source:
    'Mayhew et al., J Strength Cond Res 2008;22(5):1570-1577: prediction was more accurate with fewer than 10 reps. Reynolds et al. 2006: no more than 10.',
  example: files('35kg x12 r2'),
  better: files('45kg x6 r2'),
  fix: 'Have a set of 4 to 8 reps done when the movement is sure, and write it down. The quick fix adds a line to fill in, as a note, so that no weight is invented.',
  caution:
    'For somebody who is still learning the movement a set of more reps is the safer test. Then take the load as a first guess.',
  checkPlan(plan, _world, context) {
    const first = new Map<MaxEntry, { readonly cell: ResolvedCell; readonly group: ResolvedGroup }>();
    for (const { session, value } of farIn(plan, context)) {
      for (const { number, far } of value) {
        for (const { index, entry } of far) {
          if (first.has(entry)) continue;
          const cell = session.cells[number] as ResolvedCell;
          first.set(entry, { cell, group: cell.groups[index] as ResolvedGroup });
        }
      }
    }
    return [...first].map(([entry, { cell, group }]) =>
      onLine(plan, entry.place, {
        headline: say`A max from ${formatNumber(entry.reps + entry.reserve, 1)} reps to failure predicts poorly.`,
        detail: say`${plan.client.name}: ${workText(group, plan.client)} of ${entry.movementName.text} on ${cell.date} rests on it.`,
        advice: say(
          'Start below the load that it gives, and write a set of fewer reps down when one is done.',
        ),
        fixes: fixesOf(maxForm(plan.client, entry.movementName.text, cell.date)),
        related: [{ place: cell.place, message: say`First used on ${cell.date}.` }],
      }),
    );
  },
};
