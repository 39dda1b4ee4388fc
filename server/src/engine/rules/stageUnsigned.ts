import type { StageName } from '../../../../grammar/index.js';
import { say } from '../../../../grammar/say.js';
import type { ResolvedCell, ResolvedGroup } from '../model.js';
import type { BlockPlan, BlockWorld, RawFinding, Rule } from '../ruleForm.js';
import { higherStage, stageAllows } from '../stages.js';
import { isHeavyEarly } from './heavyEarly.js';
import { blockSessions, cellsOf, cellsWhere, effortUnknown, rowRuns } from './shared/cells.js';
import { easierWithin, fixesOf, kitHas, swapForEasier } from './shared/fixes.js';
import { readinessLines, readinessOn, readinessText } from './shared/readiness.js';
import { lighterText, listOf, movementText, spanText, workText } from './shared/words.js';

/** The stage that a group asks for: what the dose is, and at least what the movement is marked with. */
function stageNeeded(group: ResolvedGroup, cell: ResolvedCell): StageName {
  const ofMovement = cell.movement?.stage ?? 'learn';
  return effortUnknown(group) ? ofMovement : higherStage(group.stage, ofMovement);
}

function isUnsigned(group: ResolvedGroup, cell: ResolvedCell): boolean {
  if (cell.movement === null || isHeavyEarly(group, cell)) return false;
  const needed = stageNeeded(group, cell);
  return (
    needed !== 'learn' &&
    !stageAllows(readinessOn(cell.client, cell.movement.pattern, cell.date).stage, needed)
  );
}

function rowFinding(world: BlockWorld, cells: readonly ResolvedCell[], group: ResolvedGroup): RawFinding {
  const first = cells[0] as ResolvedCell;
  const { client } = first;
  const pattern = first.movement?.pattern ?? 'other';
  const ready = readinessOn(client, pattern, first.date);
  const needed = stageNeeded(group, first);
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
    headline: say`${movementText(first)} asks for the stage "${needed}" in ${pattern}.`,
    detail: `${client.name}: ${workText(group, client)} ${spanText(cells)}; ${readinessText(ready, pattern)}. ${lighterText(client.name, instead, allowed)}`,
    advice: say`Otherwise have the movement seen, and sign the stage off first: "ready: ${needed} ${pattern} DATE".`,
    client: client.key,
    cell: first,
    related: readinessLines(client, ready),
    fixes: fixesOf(swapForEasier(world, cells, allowed, covers)),
  };
}

/** A block of a stage that the client is signed off for in none of the patterns in it. */
function blockFindings(plan: BlockPlan): readonly RawFinding[] {
  const findings: RawFinding[] = [];
  let previous: unknown = null;
  for (const session of plan.sessions) {
    const { block, client } = session;
    if (block === previous) continue;
    previous = block;
    if (block.stage === null || block.stage === 'learn') continue;
    const stage = block.stage;
    const sessions = blockSessions(plan).get(block) ?? [];
    const covered = sessions.some(({ cells }) =>
      cells.some(
        (cell) =>
          cell.movement && stageAllows(readinessOn(client, cell.movement.pattern, cell.date).stage, stage),
      ),
    );
    if (covered) continue;
    const patterns = new Set(
      cellsOf(sessions).flatMap((cell) => (cell.movement ? [cell.movement.pattern] : [])),
    );
    if (patterns.size === 0) continue;
    const follows = client.follows.find((each) => each.program === session.program.key);
    findings.push({
      place: block.place,
      headline: say`The block "${block.name}" is for the stage "${stage}".`,
      detail: say`${client.name} starts it on ${session.date} and is signed off for ${stage} in none of its patterns (${listOf([...patterns])}).`,
      advice: say(
        'Follow a block of the stage that is signed off, or have the movements seen and sign the patterns off first.',
      ),
      client: client.key,
      cell: null,
      scope: { program: session.program, block, day: null },
      related: follows
        ? [{ place: follows.place, message: say`${client.name} follows the program here.` }]
        : [],
      fixes: [],
    });
  }
  return findings;
}

export const stageUnsigned: Rule = {
  code: 'stage-unsigned',
  title: 'Work of a stage that is not signed off',
  severity: 'warning',
  what: 'A row asks for a stage (by its dose or because the movement is marked with it) above the newest sign-off for that pattern on that day, or a client follows a block of a stage that is signed off in none of its patterns. Heavy work has a rule of its own, heavy-early.',
  why: 'The stages learn, load and heavy are opened one after the other, for each pattern, by somebody who has seen the movement. The calendar alone opens nothing.',
  source:
    'Common practice, no source. The form follows LIFTMOR, where movements were learnt with bodyweight and low loads before loads were raised (Watson et al. 2018; the first month from memory).',
  example: `kit Boathouse
  bar: 15kg
  plates: 1.25kg x2, 2.5kg x2, 5kg x4, 10kg x4

movement box squat
  pattern: squat
  with: barbell

client Wren
  trains at: Boathouse
  max: box squat, 35kg x8 r4, 2026-11-23
  follows: Winter, from 2026-12-07, on mon

program Winter

block Keel, 2 weeks
day Lower
  box squat: 3x8 r3
`,
  better: `kit Boathouse
  bar: 15kg
  plates: 1.25kg x2, 2.5kg x2, 5kg x4, 10kg x4

movement box squat
  pattern: squat
  with: barbell

client Wren
  trains at: Boathouse
  max: box squat, 35kg x8 r4, 2026-11-23
  follows: Winter, from 2026-12-07, on mon

program Winter

block Keel, 2 weeks
day Lower
  box squat: 3x10 r5
`,
  fix: 'Lower the dose or use the easier movement for this client. The quick fix writes a "swap:" line for these weeks with a dose that the sign-off covers.',
  caution: 'Screening comes first, and a qualified professional decides. Local rules prevail.',
  checkBlock(plan, world) {
    const findings: RawFinding[] = [...blockFindings(plan)];
    for (const run of rowRuns(plan)) {
      const found = cellsWhere(run.cells, isUnsigned);
      const first = found[0];
      if (first)
        findings.push(
          rowFinding(
            world,
            found.map(({ cell }) => cell),
            first.group,
          ),
        );
    }
    return findings;
  },
};
