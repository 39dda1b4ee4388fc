import { say } from '../../../../grammar/say.js';
import type { ClientPlan, ResolvedCell, ResolvedGroup } from '../model.js';
import type { RawFinding, Rule } from '../ruleForm.js';
import { cellsWhere, rowRuns } from './shared/cells.js';
import { fixesOf, maxForm } from './shared/fixes.js';
import { perSession } from './shared/perSession.js';
import { doseText, movementText, spanText } from './shared/words.js';

function lacksMax(group: ResolvedGroup, cell: ResolvedCell): boolean {
  return cell.test === null && (group.issue === 'no-max' || group.issue === 'estimate-too-heavy');
}

const lacking = perSession(({ cells }) =>
  cells.some((cell) => cell.groups.some((group) => lacksMax(group, cell))) ? true : null,
);

/** The test that was planned before a cell, whose result is not written down (yet). */
function testBefore(plan: ClientPlan, cell: ResolvedCell): ResolvedCell | null {
  for (const session of plan.sessions) {
    if (session.date >= cell.date) return null;
    const test = session.cells.find(
      (each) => each.test !== null && each.movement?.key === cell.movement?.key,
    );
    if (test) return test;
  }
  return null;
}

function headlineOf(name: string, group: ResolvedGroup): string {
  if (group.issue === 'estimate-too-heavy') {
    return say`No load for ${name}: heavy work is never set from an estimate of another movement.`;
  }
  // The max is there, but a change in kilograms found no load of the week before.
  if (group.estimatedOneRepMaxKg !== null)
    return say`No load for ${name}: there is no load of an earlier week to start from.`;
  return say`No load for ${name}: no max is known.`;
}

function adviceOf(name: string, group: ResolvedGroup, test: ResolvedCell | null): string {
  if (group.issue === 'no-max' && group.estimatedOneRepMaxKg !== null)
    return say('Write the effort or a load in this cell.');
  if (test)
    return say`Write the result of the test on ${test.date} down, for example "max: ${name}, LOADkg x5 r1, ${test.date}".`;
  return say`Have a hard but clean set done and write it down, for example "max: ${name}, LOADkg x5 r2, DATE". Until then choose the load by the reserve.`;
}

function findingOf(plan: ClientPlan, cells: readonly ResolvedCell[], group: ResolvedGroup): RawFinding {
  const first = cells[0] as ResolvedCell;
  const name = movementText(first);
  const { client } = first;
  const test = testBefore(plan, first);
  return {
    place: first.place,
    headline: headlineOf(name, group),
    detail: say`${client.name}: ${doseText(group)} ${spanText(cells)} stays blank.`,
    advice: adviceOf(name, group, test),
    client: client.key,
    cell: first,
    related: [{ place: client.place, message: say`${client.name}: no max of ${name} before ${first.date}.` }],
    fixes: fixesOf(maxForm(client, name, test?.date ?? first.date)),
    ...(test ? { severity: 'info' as const } : {}),
  };
}

export const maxUnknown: Rule = {
  code: 'max-unknown',
  title: 'A load that cannot be worked out for want of a max',
  severity: 'warning',
  what: 'A row is written in reps in reserve or in percent, and the client has neither a max of that movement nor an estimate that may be used. Information only where a test of it is planned before.',
  why: 'Without a set that was really done there is nothing to work a load out from. The load is left blank rather than guessed.',
  source:
    'Part of the notation, no source needed. That estimates between lifts are never used for heavy sets: common practice, no source.',
  example: `kit Boathouse
  bar: 15kg
  plates: 1.25kg x2, 2.5kg x2, 5kg x4

movement box squat
  pattern: squat
  with: barbell

client Heron
  trains at: Boathouse
  ready: load squat 2026-06-01
  follows: Winter, from 2026-12-07, on mon

program Winter

block Keel, 2 weeks
day Lower
  box squat: 3x8 r3
`,
  better: `kit Boathouse
  bar: 15kg
  plates: 1.25kg x2, 2.5kg x2, 5kg x4

movement box squat
  pattern: squat
  with: barbell

client Heron
  trains at: Boathouse
  ready: load squat 2026-06-01
  max: box squat, 40kg x8 r2, 2026-11-23
  follows: Winter, from 2026-12-07, on mon

program Winter

block Keel, 2 weeks
day Lower
  box squat: 3x8 r3
`,
  fix: 'Write the newest good set of the movement as a "max:" line. The quick fix adds a line to fill in, as a note, so that no weight is invented.',
  checkPlan(plan, _world, context) {
    const findings: RawFinding[] = [];
    if (lacking(plan, context).length === 0) return findings;
    for (const run of rowRuns(plan)) {
      const found = cellsWhere(run.cells, lacksMax);
      const first = found[0];
      if (first)
        findings.push(
          findingOf(
            plan,
            found.map(({ cell }) => cell),
            first.group,
          ),
        );
    }
    return findings;
  },
};
