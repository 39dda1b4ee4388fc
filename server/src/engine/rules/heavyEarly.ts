import { say } from '../../../../grammar/say.js';
import type { FindingFix, ResolvedCell, ResolvedGroup } from '../model.js';
import { formatNumber } from '../numbers.js';
import type { BlockWorld, RawFinding, Rule } from '../ruleForm.js';
import { stageAllows } from '../stages.js';
import { cellsWhere, isHeavyWork, rowRuns } from './shared/cells.js';
import { easierWithin, fixesOf, kitHas, swapForEasier } from './shared/fixes.js';
import { readinessLines, readinessOn, readinessText } from './shared/readiness.js';
import { lighterText, movementText, spanText, workText } from './shared/words.js';

/** Whether a group is heavy work for a client who is not signed off for it on that day. */
export function isHeavyEarly(group: ResolvedGroup, cell: ResolvedCell): boolean {
  if (!isHeavyWork(group) || cell.movement === null) return false;
  return !stageAllows(readinessOn(cell.client, cell.movement.pattern, cell.date).stage, 'heavy');
}

/** Why the work counts as heavy, in numbers. */
function whyHeavy(cell: ResolvedCell, group: ResolvedGroup): string {
  if (cell.movement?.stage === 'heavy')
    return say`${cell.movement.name} is a heavy movement by its definition.`;
  if (group.reps === null) return '';
  const known = [group.writtenReserve, group.reserve].filter((reserve) => reserve !== null);
  const reserve = known.length === 0 ? null : Math.min(...known);
  if (reserve === null) return say`${group.reps} reps without a known reserve count as heavy.`;
  const times = formatNumber(Math.max(0, group.reps + reserve), 1);
  return say`That load could be lifted about ${times} times; 8 or fewer count as heavy.`;
}

/** A test of more reps stays below heavy: eight that leave one could be lifted nine times. */
const LIGHTER_TEST = 'test x8';

function testInstead(allowed: 'learn' | 'load'): string {
  return allowed === 'load'
    ? say`"${LIGHTER_TEST}" stays within that stage.`
    : say`A test waits as well; "${LIGHTER_TEST}" asks for less, and still for the stage "load".`;
}

function testFixes(cell: ResolvedCell, allowed: 'learn' | 'load'): readonly FindingFix[] {
  const written = cell.row.node.cells.find((each) => each.index === cell.cellIndex);
  const item = written?.groups.flatMap((group) => group.items).find((each) => each.kind === 'test');
  if (!item) return [];
  const edits = [{ file: cell.row.place.file, span: item.span, newText: LIGHTER_TEST }];
  const still = allowed === 'load' ? '' : say(', which still asks for the stage "load"');
  return [{ title: say`Change to "${LIGHTER_TEST}"${still}`, safe: false, edits }];
}

function findingOf(world: BlockWorld, cells: readonly ResolvedCell[], group: ResolvedGroup): RawFinding {
  const first = cells[0] as ResolvedCell;
  const { client } = first;
  const pattern = first.movement?.pattern ?? 'other';
  const ready = readinessOn(client, pattern, first.date);
  const allowed = ready.stage === 'load' ? 'load' : 'learn';
  const covers = (key: string) => {
    const easierOne = world.movements.get(key);
    return stageAllows(allowed, easierOne?.stage ?? 'heavy') && kitHas(first.kit, easierOne);
  };
  const easier = first.movement ? easierWithin(world, first.movement.key, covers) : null;
  // A lighter dose of a movement that itself asks for more does not help.
  const instead =
    easier ?? (stageAllows(allowed, first.movement?.stage ?? 'learn') ? null : say('an easier movement'));
  return {
    place: first.place,
    headline: say`Heavy work before the sign-off for ${pattern}: ${movementText(first)}.`,
    detail: [
      `${client.name}: ${workText(group, client)} ${spanText(cells)}; ${readinessText(ready, pattern)}.`,
      whyHeavy(first, group),
      first.test ? testInstead(allowed) : lighterText(client.name, instead, allowed),
    ].join(' '),
    advice: say`Heavy work waits until somebody qualified has seen the movement and you write "ready: heavy ${pattern} DATE".`,
    client: client.key,
    cell: first,
    related: readinessLines(client, ready),
    fixes: first.test ? testFixes(first, allowed) : fixesOf(swapForEasier(world, cells, allowed, covers)),
  };
}

export const heavyEarly: Rule = {
  code: 'heavy-early',
  title: 'Heavy work before the sign-off',
  severity: 'warning',
  what: 'Heavy work for a client whose newest sign-off for that movement pattern, on that day, is below heavy. Heavy is a load that could be lifted 8 times or fewer (for example six reps with two in reserve, about 80 % of the max and more), and jumps and sprints that are marked heavy.',
  why: 'Heavy loads, jumps and sprints forgive little. Tissue and technique need months of lighter work first, and a program that is shared by several people puts the least prepared of them under the same bar.',
  source:
    'Stages opened by a coach: common practice, no source; six to eight months from the first session to heavy work is common practice. LIFTMOR used more than 80 to 85 % of the max only with screened and supervised participants, after a first month of bodyweight and low-load variants (Watson et al., J Bone Miner Res 2018;33(2):211-220; the first month from memory).',
  example: `kit Boathouse
  bar: 15kg
  plates: 1.25kg x2, 2.5kg x2, 5kg x4, 10kg x4

movement box squat
  pattern: squat
  with: barbell

client Heron
  trains at: Boathouse
  ready: load squat 2026-06-01
  max: box squat, 47.5kg x5 r2, 2026-11-23
  follows: Winter, from 2026-12-07, on mon

program Winter

block Keel, 3 weeks
day Lower
  box squat: 3x8 r3 | | 3x6 r2
`,
  better: `kit Boathouse
  bar: 15kg
  plates: 1.25kg x2, 2.5kg x2, 5kg x4, 10kg x4

movement box squat
  pattern: squat
  with: barbell

client Heron
  trains at: Boathouse
  ready: load squat 2026-06-01, heavy squat 2026-12-14
  max: box squat, 47.5kg x5 r2, 2026-11-23
  follows: Winter, from 2026-12-07, on mon

program Winter

block Keel, 3 weeks
day Lower
  box squat: 3x8 r3 | | 3x6 r2
`,
  fix: 'Lower the dose, or use the easier movement for this client. The quick fix writes a "swap:" line for these weeks with a dose that the sign-off covers. Write a sign-off only after having seen the movement.',
  caution:
    'Screening comes first, and a qualified professional decides. Stop at chest discomfort, dizziness, faintness, unusual breathlessness or sharp pain. Local rules prevail.',
  checkBlock(plan, world) {
    const findings: RawFinding[] = [];
    for (const run of rowRuns(plan)) {
      const found = cellsWhere(run.cells, isHeavyEarly);
      const first = found[0];
      if (first)
        findings.push(
          findingOf(
            world,
            found.map(({ cell }) => cell),
            first.group,
          ),
        );
    }
    return findings;
  },
};
