import { say } from '../../../../grammar/say.js';
import type { ResolvedCell, ResolvedGroup, World } from '../model.js';
import { formatNumber } from '../numbers.js';
import type { Rule } from '../ruleForm.js';
import { eachRow } from './shared/found.js';
import { perSession } from './shared/perSession.js';
import { BOATHOUSE, clientLines, winter, workspace } from './shared/sample.js';
import { movementText, workText } from './shared/words.js';

/** A load that is written for all is a note where it leaves somebody at most this many reps in reserve. */
const HARD_RESERVE = 3;

function followersOf(world: World, program: string): number {
  let count = 0;
  for (const client of world.clients.values()) {
    if (client.follows.some((follows) => follows.program === program)) count += 1;
  }
  return count;
}

function isShared(group: ResolvedGroup, cell: ResolvedCell, followers: (program: string) => number): boolean {
  if (group.basis !== 'load' || group.loadKg === null || group.writtenReserve !== null || cell.deload)
    return false;
  if (group.reserve === null || group.reserveBeyond || group.reserve > HARD_RESERVE) return false;
  return followers(cell.program.key) > 1;
}

const mayBeShared = perSession(({ cells }) =>
  cells.some((cell) => cell.groups.some((group) => isShared(group, cell, () => 2))) ? true : null,
);

const max = 'max: back squat, 47.5kg x5 r2, 2026-11-30';
const files = (row: string) =>
  workspace(
    BOATHOUSE,
    clientLines('Heron', ['ready: heavy squat 2026-06-01', max]),
    clientLines('Wren', ['ready: heavy squat 2026-06-01', max.replace('47.5kg', '60kg')]),
    winter('Keel, 2 weeks', { Lower: [row] }),
  );

export const sharedLoad: Rule = {
  code: 'shared-load',
  title: 'One written load for several people',
  severity: 'info',
  what: 'A program that several clients follow states a load in kilograms, and for somebody it leaves three reps or fewer in reserve.',
  why: 'The same bar is light for one and a maximum for another.',
  source: 'Common practice, no source.',
  example: files('back squat: 3x6 45kg'),
  better: files('back squat: 3x6 r2'),
  fix: 'Write the effort instead of the load, and everybody gets a load of her own.',
  checkPlan(plan, world, context) {
    if (mayBeShared(plan, context).length === 0) return [];
    const known = new Map<string, number>();
    const followers = (program: string) => {
      let count = known.get(program);
      if (count === undefined) {
        count = followersOf(world, program);
        known.set(program, count);
      }
      return count;
    };
    return eachRow(
      plan,
      (group, cell) => isShared(group, cell, followers),
      (cells, group) => {
        const first = cells[0] as ResolvedCell;
        const reserve = Math.max(0, group.reserve ?? 0);
        return {
          headline: say`${movementText(first)}: one written load for several people.`,
          detail: say`${plan.client.name}: ${workText(group, plan.client)} leaves about ${formatNumber(reserve, 1)} in reserve.`,
          advice: say`Write the effort instead, for example "r${Math.max(1, Math.round(reserve))}".`,
        };
      },
    );
  },
};
