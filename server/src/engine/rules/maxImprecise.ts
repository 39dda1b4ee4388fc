import { say } from '../../../../grammar/say.js';
import type { MaxEntry, ResolvedCell, ResolvedGroup } from '../model.js';
import { formatNumber } from '../numbers.js';
import { DEFAULT_LIMITS } from '../resolve/limits.js';
import type { Rule, RuleContext, RuleOption } from '../ruleForm.js';
import { fixesOf, maxForm } from './shared/fixes.js';
import { onLine } from './shared/found.js';
import { perSession, picked } from './shared/perSession.js';
import { BOATHOUSE, BOX_SQUAT, workspace } from './shared/sample.js';
import { workText } from './shared/words.js';

const CODE = 'max-imprecise';
const MANY_REPS: RuleOption = {
  key: 'manyReps',
  default: DEFAULT_LIMITS.manyReps,
  least: 5,
  most: 15,
  what: 'reps to failure of a max above which it predicts poorly; also for its loads, which are then provisional',
};
const FEW_REPS: RuleOption = {
  key: 'fewReps',
  default: DEFAULT_LIMITS.fewReps,
  least: 0,
  most: 12,
  what: 'reps of a set up to which its load is read off the lowest of all curves, where the max predicts poorly',
};
const VERY_FEW_REPS: RuleOption = {
  key: 'veryFewReps',
  default: 3,
  least: 0,
  most: 8,
  what: 'reps of a set that are far from a max of many, and told whatever the load',
};

/**
 * A load that is worked out far from the set it rests on: heavy work (it could be lifted eight times or fewer) from
 * more than ten reps to failure, or a single to a triple from ten or more. Lighter work lies near such a set.
 */
function isFar(
  { basis, loadKg, reps, stage }: ResolvedGroup,
  repsToFailure: number,
  context: RuleContext,
): boolean {
  const many = context.option(CODE, MANY_REPS);
  if (loadKg === null || (basis !== 'reserve' && basis !== 'percent')) return false;
  if (reps !== null && reps <= context.option(CODE, VERY_FEW_REPS) && repsToFailure >= many) return true;
  return stage === 'heavy' && repsToFailure > many;
}

/** The maxes from which a session works out loads far away, with the numbers of a cell and a group of each. */
const farIn = perSession(({ cells }, context) =>
  picked(cells, ({ test, groups }, number) => {
    const far = groups.flatMap((group, index) =>
      group.max && !test && isFar(group, group.max.repsToFailure, context)
        ? [{ index, entry: group.max.entry }]
        : [],
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
  code: CODE,
  title: 'A max from many reps',
  severity: 'info',
  options: [MANY_REPS, FEW_REPS, VERY_FEW_REPS],
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
