import { say } from '../../../../grammar/say.js';
import type { Client, FindingFix, ResolvedCell, ResolvedGroup } from '../model.js';
import type { Rule } from '../ruleForm.js';
import { addReserve } from './shared/cellFixes.js';
import { fixesOf } from './shared/fixes.js';
import { eachRow } from './shared/found.js';
import { readinessOn } from './shared/readiness.js';
import { BOATHOUSE, BOX_SQUAT, workspace } from './shared/sample.js';
import { doseText, movementText, spanText } from './shared/words.js';

function isUnwritten(group: ResolvedGroup, cell: ResolvedCell): boolean {
  return (
    group.basis === 'none' &&
    group.issue === null &&
    group.reps !== null &&
    cell.test === null &&
    cell.movement !== null &&
    cell.movement.implement.kind !== 'bodyweight' &&
    cell.movement.implement.kind !== 'band'
  );
}

/** Reserve of learning work, and of the lighter load work: the careful end. Common practice, no source. */
const LEARN_RESERVE = 5;
const LOAD_RESERVE = 4;

function carefulReserve(client: Client, cell: ResolvedCell, group: ResolvedGroup): FindingFix | null {
  const { stage } = readinessOn(client, cell.movement?.pattern ?? 'other', cell.date);
  return addReserve(cell, group, stage === 'learn' ? LEARN_RESERVE : LOAD_RESERVE);
}

const files = (row: string) =>
  workspace(
    BOATHOUSE,
    BOX_SQUAT,
    `client Heron
  trains at: Boathouse
  ready: load squat 2026-06-01
  max: box squat, 40kg x8 r2, 2026-11-23
  follows: Winter, from 2026-12-07, on mon`,
    `program Winter

block Keel, 2 weeks
day Lower
  ${row}`,
  );

export const effortUnwritten: Rule = {
  code: 'effort-unwritten',
  title: 'Neither effort nor load',
  severity: 'info',
  what: 'A row with a bar, dumbbells, a kettlebell, a pack or a machine states sets and reps, and neither a reserve nor a load or percentage. The load stays blank.',
  why: 'The client does not know how hard the sets are meant, and the load on paper is empty.',
  source: 'Part of the notation, no source needed.',
  example: files('box squat: 3x8'),
  better: files('box squat: 3x8 r3'),
  fix: 'Add the reps in reserve, for example "r3", or a line "effort: r3" to the day or block. The quick fix writes "r5" for a client whose sign-off is learn and "r4" for others, for everybody who follows the row: a light start, to be changed to what is meant.',
  checkBlock: (plan) =>
    eachRow(plan, isUnwritten, (cells, group) => ({
      headline: say`${movementText(cells[0] as ResolvedCell)}: neither effort nor load is written.`,
      detail: say`${plan.client.name}: ${doseText(group)} ${spanText(cells)} stays without a load.`,
      advice: say('Add the reps in reserve, for example "r3".'),
      fixes: fixesOf(carefulReserve(plan.client, cells[0] as ResolvedCell, group)),
    })),
};
