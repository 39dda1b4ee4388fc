import { say } from '../../../../grammar/say.js';
import type { ResolvedCell } from '../model.js';
import type { Rule } from '../ruleForm.js';
import { writeReserve } from './shared/cellFixes.js';
import { fixesOf } from './shared/fixes.js';
import { eachRow } from './shared/found.js';
import { readinessOn, readinessText } from './shared/readiness.js';
import { BOATHOUSE, workspace } from './shared/sample.js';
import { doseText, movementText, spanText } from './shared/words.js';

const files = (row: string) =>
  workspace(
    BOATHOUSE,
    `client Wren
  trains at: Boathouse
  follows: Winter, from 2026-12-07, on mon`,
    `program Winter

block Keel, 2 weeks
day Lower
  bodyweight squat: ${row}`,
  );

export const failureEarly: Rule = {
  code: 'failure-early',
  title: 'Sets to failure while learning',
  severity: 'warning',
  what: 'A set that leaves nothing in reserve, for a client whose sign-off for that pattern is learn.',
  why: 'The last reps before failure are the least clean. Somebody who is learning practises just those.',
  source:
    'That training to failure does not consistently matter for results: ACSM 2026 overview of reviews (seen in reports of it). That it is kept away from beginners: common practice, no source.',
  example: files('2xmax r0'),
  better: files('2x10 r4'),
  fix: 'Leave at least four in reserve until the pattern is signed off. The quick fix writes "r4", for everybody who follows the row.',
  checkBlock: (plan) =>
    eachRow(
      plan,
      (group, cell) =>
        group.writtenReserve !== null &&
        group.writtenReserve < 1 &&
        cell.movement !== null &&
        readinessOn(plan.client, cell.movement.pattern, cell.date).stage === 'learn',
      (cells, group) => {
        const first = cells[0] as ResolvedCell;
        const pattern = first.movement?.pattern ?? 'other';
        return {
          headline: say`${movementText(first)} to failure while ${pattern} is still being learnt.`,
          detail: `${plan.client.name}: ${doseText(group)} ${spanText(cells)}; ${readinessText(readinessOn(plan.client, pattern, first.date), pattern)}.`,
          advice: say('Leave at least four in reserve.'),
          fixes: fixesOf(writeReserve(first, group, 4)),
        };
      },
    ),
};
