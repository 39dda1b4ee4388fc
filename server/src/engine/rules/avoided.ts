import { say } from '../../../../grammar/say.js';
import { isWithin } from '../dates.js';
import type { Avoid, ResolvedCell } from '../model.js';
import type { BlockWorld, RawFinding, Rule } from '../ruleForm.js';
import { stageAllows } from '../stages.js';
import { rowRuns } from './shared/cells.js';
import { addClientLine, easierWithin, fixesOf, kitHas } from './shared/fixes.js';
import { readinessOn } from './shared/readiness.js';
import { BOATHOUSE, workspace } from './shared/sample.js';
import { movementText, spanText } from './shared/words.js';

/** The `avoid:` line that a cell runs into, or null. */
function avoidOf(cell: ResolvedCell): Avoid | null {
  const { movement } = cell;
  if (movement === null || cell.groups.length === 0) return null;
  return (
    cell.client.avoids.find(
      ({ what, from, until }) =>
        (what === movement.key || what === movement.pattern) && isWithin(cell.date, from, until),
    ) ?? null
  );
}

function findingOf(world: BlockWorld, avoid: Avoid, cells: readonly ResolvedCell[]): RawFinding {
  const first = cells[0] as ResolvedCell;
  const { client } = first;
  const name = movementText(first);
  const why = avoid.reason === null ? '' : say` The reason given: "${avoid.reason}".`;
  const until = avoid.until === null ? '' : say` until ${avoid.until}`;
  const easier = easierWithin(world, first.movement?.key ?? '', (key) => {
    const movement = world.movements.get(key);
    if (!movement || movement.key === avoid.what || movement.pattern === avoid.what) return false;
    if (!kitHas(first.kit, movement)) return false;
    return stageAllows(readinessOn(client, movement.pattern, first.date).stage, movement.stage);
  });
  const last = (cells.at(-1) as ResolvedCell).date;
  return {
    place: first.place,
    headline: say`${name} is to be avoided.`,
    detail: say`${client.name} avoids ${avoid.what}${until}, but does ${name} ${spanText(cells)}.${why}`,
    advice: easier
      ? say`Swap it for this time, for example to ${easier}.`
      : say('Swap it for something else in this time, or leave it out.'),
    client: client.key,
    cell: first,
    related: [{ place: avoid.place, message: say`${client.name}: what is to be avoided.` }],
    fixes: fixesOf(
      easier && !first.swap
        ? addClientLine(
            client,
            `swap: ${first.row.movementName.text}, to ${easier}, 3x10 r5, from ${first.date} until ${last}, "${say('to be avoided')}"`,
            say`${client.name}: ${easier} instead, 3x10 r5, until ${last}`,
          )
        : null,
    ),
  };
}

const files = (swap: string) =>
  workspace(
    BOATHOUSE,
    `movement low hop
  pattern: jump
  with: bodyweight
  stage: learn`,
    `movement heel drop
  pattern: brace
  with: bodyweight`,
    `client Heron
  trains at: Boathouse
  avoid: jump, from 2026-12-01 until 2027-02-01, "ankle"${swap}
  follows: Winter, from 2026-12-07, on mon`,
    `program Winter

block Keel, 2 weeks
day Lower
  low hop: 3x5`,
  );

export const avoided: Rule = {
  code: 'avoided',
  title: 'A movement that this client avoids',
  severity: 'error',
  what: 'A row comes out at a movement, or a pattern, that a line "avoid:" of the client names for that date.',
  why: 'Somebody decided that this person should not do it for now. A shared program does not know that.',
  source: 'Part of the notation, no source needed.',
  example: files(''),
  better: files('\n  swap: low hop, to heel drop, 3x10, from 2026-12-01 until 2027-02-01, "ankle"'),
  fix: 'Swap the movement for this client. Where an easier movement is allowed, the quick fix writes the "swap:" line.',
  caution: 'What is to be avoided, and for how long, is decided by a qualified professional.',
  checkBlock(plan, world) {
    if (plan.client.avoids.length === 0) return [];
    const findings: RawFinding[] = [];
    for (const run of rowRuns(plan)) {
      const byAvoid = new Map<Avoid, ResolvedCell[]>();
      for (const cell of run.cells) {
        const avoid = avoidOf(cell);
        if (!avoid) continue;
        const cells = byAvoid.get(avoid);
        if (cells) cells.push(cell);
        else byAvoid.set(avoid, [cell]);
      }
      for (const [avoid, cells] of byAvoid) findings.push(findingOf(world, avoid, cells));
    }
    return findings;
  },
};
