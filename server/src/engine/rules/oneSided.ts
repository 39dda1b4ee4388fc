import type { PatternName } from '../../../../grammar/index.js';
import type { ClientPlan } from '../model.js';
import type { RawFinding, Rule } from '../ruleForm.js';
import { cellsOf, type PlanWeek, planWeeks } from './shared/cells.js';
import { onLine } from './shared/found.js';
import { BOATHOUSE, clientLines, winter, workspace } from './shared/sample.js';
import { countOf } from './shared/words.js';

interface Pair {
  readonly some: readonly PatternName[];
  readonly never: readonly PatternName[];
  readonly words: string;
  readonly add: string;
}

const PAIRS: readonly Pair[] = [
  {
    some: ['push', 'press'],
    never: ['pull', 'row'],
    words: 'pushes and never pulls',
    add: 'a row or a pull',
  },
  { some: ['squat'], never: ['hinge', 'lunge'], words: 'squats and never hinges', add: 'a hinge' },
];

/** Working sets of some patterns in a week. */
function setsOf(week: PlanWeek, patterns: readonly PatternName[]): number {
  return cellsOf(week.sessions)
    .filter((cell) => cell.movement !== null && patterns.includes(cell.movement.pattern))
    .reduce((sum, cell) => sum + cell.groups.reduce((sets, group) => sets + (group.sets ?? 1), 0), 0);
}

/** Movements that a block has at least before it is judged: a fragment of a program is nobody's whole week. */
const LEAST_MOVEMENTS = 3;

function movementsOf(plan: ClientPlan, week: PlanWeek): number {
  const sameWeeks = planWeeks(plan).filter(({ block }) => block === week.block);
  return new Set(sameWeeks.flatMap((each) => cellsOf(each.sessions).map((cell) => cell.movement?.key))).size;
}

/** Weeks are seen together: what runs alongside in the same days counts as well. */
function weeksOf(plan: ClientPlan, pair: Pair): ReadonlyMap<PlanWeek['block'], readonly PlanWeek[]> {
  const all = planWeeks(plan);
  const found = new Map<PlanWeek['block'], PlanWeek[]>();
  for (const week of all) {
    if (setsOf(week, pair.some) === 0 || setsOf(week, pair.never) > 0) continue;
    const from = week.sessions[0]?.date ?? '';
    const to = week.sessions.at(-1)?.date ?? '';
    const beside = all.some(
      (other) =>
        other.program !== week.program &&
        setsOf(other, pair.never) > 0 &&
        other.sessions.some(({ date }) => date >= from && date <= to),
    );
    if (beside) continue;
    const weeks = found.get(week.block);
    if (weeks) weeks.push(week);
    else found.set(week.block, [week]);
  }
  return found;
}

const files = (rows: readonly string[]) =>
  workspace(
    BOATHOUSE,
    clientLines('Wren', ['mass: 60kg, 2026-11-01']),
    winter('Keel, 3 weeks', { Upper: rows }),
  );

export const oneSided: Rule = {
  code: 'one-sided',
  title: 'Weeks that push and never pull, or squat and never hinge',
  severity: 'info',
  what: 'In a block, two weeks or more have pushes or presses and no pull or row; or squats and neither hinge nor lunge. Blocks of one or two movements are left alone.',
  why: 'What is never trained falls behind, and shoulders and hips want both directions.',
  source: 'Common practice, no source.',
  example: files(['wall push-up: 3x8', 'front plank: 2x20s', 'glute bridge: 2x10']),
  better: files(['wall push-up: 3x8', 'front plank: 2x20s', 'band row: 3x10 band light']).replace(
    '  dumbbells',
    '  bands: light, medium\n  dumbbells',
  ),
  fix: 'Add a row of the other direction to one of the days.',
  checkPlan(plan) {
    const findings: RawFinding[] = [];
    for (const pair of PAIRS) {
      for (const [block, weeks] of weeksOf(plan, pair)) {
        const first = weeks[0]?.sessions[0];
        if (weeks.length < 2 || !first || movementsOf(plan, weeks[0] as PlanWeek) < LEAST_MOVEMENTS) continue;
        findings.push(
          onLine(
            plan,
            block.place,
            {
              headline: `The block "${block.name}" ${pair.words}.`,
              detail: `${plan.client.name}: ${countOf(weeks.length, 'week')} from ${first.date}.`,
              advice: `Add ${pair.add}.`,
            },
            { program: first.program, block, day: null },
          ),
        );
      }
    }
    return findings;
  },
};
