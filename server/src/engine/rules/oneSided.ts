import type { PatternName } from '../../../../grammar/index.js';
import { later, said, say } from '../../../../grammar/say.js';
import type { Block, Session } from '../model.js';
import type { RawFinding, Rule, RuleOption } from '../ruleForm.js';
import { type PlanWeek, planWeeks } from './shared/cells.js';
import { fixesOf, rowForm } from './shared/fixes.js';
import { onLine } from './shared/found.js';
import { perSession } from './shared/perSession.js';
import { BOATHOUSE, clientLines, winter, workspace } from './shared/sample.js';
import { countOf } from './shared/words.js';

interface Pair {
  readonly some: readonly PatternName[];
  readonly never: readonly PatternName[];
  readonly words: string;
  readonly add: string;
  /** Patterns of the row that is offered. */
  readonly offered: readonly PatternName[];
}

const PAIRS: readonly Pair[] = [
  {
    some: ['push', 'press'],
    never: ['pull', 'row'],
    words: later('pushes and never pulls'),
    add: later('a row or a pull'),
    offered: ['row', 'pull'],
  },
  {
    some: ['squat'],
    never: ['hinge', 'lunge'],
    words: later('squats and never hinges'),
    add: later('a hinge'),
    offered: ['hinge'],
  },
];

const CODE = 'one-sided';
const LEAST_WEEKS: RuleOption = {
  key: 'leastWeeks',
  default: 2,
  least: 1,
  most: 12,
  what: 'weeks of a block with the one and without the other, from which on it is told',
};
/** Movements that a block has at least before it is judged: a fragment of a program is nobody's whole week. */
const LEAST_MOVEMENTS = 3;

/** The bits of a pair: that one side is trained, and that the other is. */
const someOf = (pair: number) => 1 << (2 * pair);
const neverOf = (pair: number) => 2 << (2 * pair);

/** Of each pair the sides that a session trains. */
const sidesIn = perSession(({ cells }) => {
  const patterns = cells.flatMap(({ movement, groups }) =>
    movement && groups.length > 0 ? [movement.pattern] : [],
  );
  let sides = 0;
  for (const [index, { some, never }] of PAIRS.entries()) {
    if (some.some((pattern) => patterns.includes(pattern))) sides |= someOf(index);
    if (never.some((pattern) => patterns.includes(pattern))) sides |= neverOf(index);
  }
  return sides;
});

/** The sides that are trained in a week. */
function sidesOf(week: PlanWeek, known: ReadonlyMap<Session, number>): number {
  return week.sessions.reduce((sides, session) => sides | (known.get(session) ?? 0), 0);
}

function movementsOf(weeks: readonly PlanWeek[], block: Block): number {
  const found = new Set<string>();
  for (const week of weeks) {
    if (week.block !== block) continue;
    for (const session of week.sessions) for (const cell of session.cells) found.add(cell.row.movement);
  }
  return found.size;
}

/** Weeks that train the one side and not the other, by block. What runs alongside on the same days counts as well. */
function weeksOf(trained: readonly Trained[], pair: number): ReadonlyMap<Block, readonly PlanWeek[]> {
  const found = new Map<Block, PlanWeek[]>();
  for (const { week, sides } of trained) {
    if ((sides & someOf(pair)) === 0 || (sides & neverOf(pair)) !== 0) continue;
    const from = week.sessions[0]?.date ?? '';
    const to = week.sessions.at(-1)?.date ?? '';
    const beside = trained.some(
      (other) =>
        other.week.program !== week.program &&
        (other.sides & neverOf(pair)) !== 0 &&
        other.week.sessions.some(({ date }) => date >= from && date <= to),
    );
    if (beside) continue;
    const weeks = found.get(week.block);
    if (weeks) weeks.push(week);
    else found.set(week.block, [week]);
  }
  return found;
}

interface Trained {
  readonly week: PlanWeek;
  readonly sides: number;
}

const files = (rows: readonly string[]) =>
  workspace(
    BOATHOUSE,
    clientLines('Wren', ['mass: 60kg, 2026-11-01']),
    winter('Keel, 3 weeks', { Upper: rows }),
  );

export const oneSided: Rule = {
  code: CODE,
  title: 'Weeks that push and never pull, or squat and never hinge',
  severity: 'info',
  options: [LEAST_WEEKS],
  what: 'In a block, two weeks or more have pushes or presses and no pull or row; or squats and neither hinge nor lunge. Blocks of one or two movements are left alone.',
  why: 'What is never trained falls behind, and shoulders and hips want both directions.',
  source: 'Common practice, no source.',
  example: files(['wall push-up: 3x8', 'front plank: 2x20s', 'glute bridge: 2x10']),
  better: files(['wall push-up: 3x8', 'front plank: 2x20s', 'band row: 3x10 band light']).replace(
    '  dumbbells',
    '  bands: light, medium\n  dumbbells',
  ),
  fix: 'Add a row of the other direction to one of the days. The quick fix adds one to complete, as a note, with a movement that the kit has and her sign-offs cover.',
  checkPlan(plan, world, context) {
    const findings: RawFinding[] = [];
    const least = context.option(CODE, LEAST_WEEKS);
    const all = planWeeks(plan);
    const sides = new Map(sidesIn(plan, context).map(({ session, value }) => [session, value]));
    const trained = all.map((week) => ({ week, sides: sidesOf(week, sides) }));
    for (const [index, pair] of PAIRS.entries()) {
      for (const [block, weeks] of weeksOf(trained, index)) {
        const first = weeks[0]?.sessions[0];
        const last = weeks[0]?.sessions.at(-1);
        if (weeks.length < least || !first || movementsOf(all, block) < LEAST_MOVEMENTS) continue;
        findings.push(
          onLine(
            plan,
            block.place,
            {
              headline: say`The block "${block.name}" ${said(pair.words)}.`,
              detail: say`${plan.client.name}: ${countOf(weeks.length, 'week')} from ${first.date}.`,
              advice: say`Add ${said(pair.add)}.`,
              fixes: fixesOf(last ? rowForm(world, last, pair.offered, '3x10 r5') : null),
            },
            { program: first.program, block, day: null },
          ),
        );
      }
    }
    return findings;
  },
};
