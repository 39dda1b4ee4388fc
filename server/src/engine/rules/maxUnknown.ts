import type { ResolvedCell, ResolvedGroup } from '../model.js';
import type { RawFinding, Rule } from '../ruleForm.js';
import { cellsWhere, rowRuns } from './shared/cells.js';
import { addClientLine, fixesOf } from './shared/fixes.js';
import { doseText, movementText, spanText } from './shared/words.js';

function lacksMax(group: ResolvedGroup): boolean {
  return group.issue === 'no-max' || group.issue === 'estimate-too-heavy';
}

function findingOf(cells: readonly ResolvedCell[], group: ResolvedGroup): RawFinding {
  const first = cells[0] as ResolvedCell;
  const name = movementText(first);
  const { client } = first;
  const onlyEstimate = group.issue === 'estimate-too-heavy';
  return {
    place: first.place,
    headline: onlyEstimate
      ? `No load for ${name}: heavy work is never set from an estimate of another movement.`
      : `No load for ${name}: no max is known.`,
    detail: `${client.name}: ${doseText(group)} ${spanText(cells)} stays blank.`,
    advice: `Have a hard but clean set done and write it down, for example "max: ${name}, LOADkg x5 r2, DATE". Until then choose the load by the reserve.`,
    client: client.key,
    cell: first,
    related: [{ place: client.place, message: `${client.name}: no max of ${name} before ${first.date}.` }],
    fixes: fixesOf(
      addClientLine(
        client,
        `-- max: ${name}, LOADkg x5 r2, ${first.date} -- fill in a set that was done, then take the first two dashes away`,
        `${client.name}: add a max line to fill in`,
      ),
    ),
  };
}

export const maxUnknown: Rule = {
  code: 'max-unknown',
  title: 'A load that cannot be worked out for want of a max',
  severity: 'warning',
  what: 'A row is written in reps in reserve or in percent, and the client has neither a max of that movement nor an estimate that may be used.',
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
  checkPlan(plan) {
    const findings: RawFinding[] = [];
    for (const run of rowRuns(plan)) {
      const found = cellsWhere(run.cells, lacksMax);
      // A test in the row is how the max is found; the cells up to it need none.
      const testAt = run.cells.find((cell) => cell.test !== null)?.date ?? null;
      const open = testAt === null ? found : found.filter(({ cell }) => cell.date > testAt);
      const first = open[0];
      if (first)
        findings.push(
          findingOf(
            open.map(({ cell }) => cell),
            first.group,
          ),
        );
    }
    return findings;
  },
};
