import { say } from '../../../../grammar/say.js';
import type { ResolvedCell } from '../model.js';
import type { Rule, RuleOption } from '../ruleForm.js';
import { writeReserve } from './shared/cellFixes.js';
import { fixesOf } from './shared/fixes.js';
import { eachRow } from './shared/found.js';
import { BOATHOUSE, clientLines, winter, workspace } from './shared/sample.js';
import { ageOn, doseText, movementText, spanText } from './shared/words.js';

const CODE = 'failure-past-35';
const FROM_AGE: RuleOption = {
  key: 'fromAge',
  default: 35,
  least: 18,
  most: 100,
  what: 'age in years from which on it is told',
};

const files = (row: string) =>
  workspace(
    BOATHOUSE,
    clientLines('Heron', [
      'born: 1979-03',
      'ready: heavy squat 2026-06-01',
      'max: back squat, 47.5kg x5 r2, 2026-11-30',
    ]),
    winter('Keel, 2 weeks', { Lower: [row] }),
  );

export const failurePast35: Rule = {
  code: CODE,
  title: 'Sets to failure past the mid-thirties',
  severity: 'off',
  options: [FROM_AGE],
  what: 'A set that leaves nothing in reserve, for a client of 35 years or more. A note, off by default: age alone says little.',
  why: 'Recovery from sets to failure takes longer, and they bring little that sets short of it do not.',
  source:
    'Common practice, no source. The ACSM 2026 overview of reviews finds no consistent benefit of training to failure (seen in reports of it), at any age.',
  example: files('back squat: 3x6 r0'),
  better: files('back squat: 3x6 r2'),
  fix: 'Leave one or two in reserve. The quick fix writes "r1", for everybody who follows the row.',
  checkBlock: (plan, _world, context) =>
    plan.client.born === null
      ? []
      : eachRow(
          plan,
          (group, cell) =>
            group.writtenReserve !== null &&
            group.writtenReserve < 1 &&
            (ageOn(plan.client, cell.date) ?? 0) >= context.option(CODE, FROM_AGE),
          (cells, group) => ({
            headline: say`${movementText(cells[0] as ResolvedCell)}: sets to failure.`,
            detail: `${plan.client.name}: ${doseText(group)} ${spanText(cells)}.`,
            advice: say('Leave one or two in reserve: that costs little, and recovery is faster.'),
            fixes: fixesOf(writeReserve(cells[0] as ResolvedCell, group, 1)),
          }),
        ),
};
