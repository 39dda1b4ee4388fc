import { say } from '../../../../grammar/say.js';
import type { ClientPlan, FindingFix, ResolvedCell, ResolvedGroup, World } from '../model.js';
import { formatNumber } from '../numbers.js';
import type { Rule, RuleOption } from '../ruleForm.js';
import { addClientLine, fixesOf } from './shared/fixes.js';
import { eachRow } from './shared/found.js';
import { perSession } from './shared/perSession.js';
import { BOATHOUSE, clientLines, winter, workspace } from './shared/sample.js';
import { movementText, workText } from './shared/words.js';

const CODE = 'shared-load';
const HARD_RESERVE: RuleOption = {
  key: 'hardReserve',
  default: 3,
  least: 0,
  most: 8,
  what: 'reps in reserve up to which a load that is written for several is told',
};

function followersOf(world: World, program: string): number {
  let count = 0;
  for (const client of world.clients.values()) {
    if (client.follows.some((follows) => follows.program === program)) count += 1;
  }
  return count;
}

function isShared(
  group: ResolvedGroup,
  cell: ResolvedCell,
  hardReserve: number,
  followers: (program: string) => number,
): boolean {
  if (group.basis !== 'load' || group.loadKg === null || group.writtenReserve !== null || cell.deload)
    return false;
  if (group.reserve === null || group.reserveBeyond || group.reserve > hardReserve) return false;
  return followers(cell.program.key) > 1;
}

const mayBeShared = perSession(({ cells }, context) => {
  const hard = context.option(CODE, HARD_RESERVE);
  return cells.some((cell) => cell.groups.some((group) => isShared(group, cell, hard, () => 2)))
    ? true
    : null;
});

/**
 * Her own effort in place of the load, for her alone and as long as the row stays the same: the reserve that the load
 * leaves her, rounded up, so that it comes to no more. Null where the dose is no plain one, or where the movement stands
 * elsewhere too in that time: the line would change it there as well.
 */
function effortOfHerOwn(plan: ClientPlan, cells: readonly ResolvedCell[]): FindingFix | null {
  const [first] = cells;
  const group = first?.groups[0];
  if (!first?.movement || !group?.sets || first.swap || first.row.circuit || first.groups.length > 1)
    return null;
  if (group.reps === null || group.repsUpper !== group.reps || group.reserve === null) return null;
  const same = cells.filter(
    ({ groups }) =>
      groups[0]?.sets === group.sets && groups[0].reps === group.reps && groups[0].loadKg === group.loadKg,
  );
  const until = (same.at(-1) ?? first).date;
  const all = plan.sessions.flatMap(({ date, cells: those }) =>
    date >= first.date && date <= until ? those.filter(({ row }) => row.movement === first.row.movement) : [],
  );
  if (all.some((cell) => !same.includes(cell))) return null;
  const dose = `${group.sets}x${group.reps} r${Math.max(1, Math.ceil(group.reserve - NOISE))}`;
  const name = first.row.movementName.text;
  return addClientLine(
    plan.client,
    `swap: ${name}, to ${name}, ${dose}, from ${first.date} until ${until}, "${say('her own effort')}"`,
    say`${plan.client.name}: ${dose} in place of the load, until ${until}`,
  );
}

const NOISE = 1e-9;

const max = 'max: back squat, 47.5kg x5 r2, 2026-11-30';
const files = (row: string) =>
  workspace(
    BOATHOUSE,
    clientLines('Heron', ['ready: heavy squat 2026-06-01', max]),
    clientLines('Wren', ['ready: heavy squat 2026-06-01', max.replace('47.5kg', '60kg')]),
    winter('Keel, 2 weeks', { Lower: [row] }),
  );

export const sharedLoad: Rule = {
  code: CODE,
  title: 'One written load for several people',
  severity: 'info',
  options: [HARD_RESERVE],
  what: 'A program that several clients follow states a load in kilograms, and for somebody it leaves three reps or fewer in reserve.',
  why: 'The same bar is light for one and a maximum for another.',
  source: 'Common practice, no source.',
  example: files('back squat: 3x6 45kg'),
  better: files('back squat: 3x6 r2'),
  fix: 'Write the effort instead of the load, and everybody gets a load of her own. The quick fix does so for her alone, with a "swap:" line: for the others the same effort may be a heavier load.',
  checkPlan(plan, world, context) {
    if (mayBeShared(plan, context).length === 0) return [];
    const hard = context.option(CODE, HARD_RESERVE);
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
      (group, cell) => isShared(group, cell, hard, followers),
      (cells, group) => {
        const first = cells[0] as ResolvedCell;
        const reserve = Math.max(0, group.reserve ?? 0);
        return {
          headline: say`${movementText(first)}: one written load for several people.`,
          detail: say`${plan.client.name}: ${workText(group, plan.client)} leaves about ${formatNumber(reserve, 1)} in reserve.`,
          advice: say`Write the effort instead, for example "r${Math.max(1, Math.round(reserve))}".`,
          fixes: fixesOf(effortOfHerOwn(plan, cells)),
        };
      },
    );
  },
};
