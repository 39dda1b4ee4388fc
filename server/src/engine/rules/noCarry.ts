import { say } from '../../../../grammar/say.js';
import { mondayOf } from '../history/workload.js';
import type { ClientPlan, Session, World } from '../model.js';
import type { RawFinding, Rule, RuleOption } from '../ruleForm.js';
import { fixesOf, rowForm } from './shared/fixes.js';
import { onLine } from './shared/found.js';
import { perSession } from './shared/perSession.js';
import { BOATHOUSE, clientLines, winter, workspace } from './shared/sample.js';
import { countOf } from './shared/words.js';

const CODE = 'no-carry';
const LEAST_WEEKS: RuleOption = {
  key: 'leastWeeks',
  default: 4,
  least: 1,
  most: 26,
  what: 'weeks of training running without one, from which on it is told',
};
/** Ground to overhead counts as well. */
const LIFTED = /\b(clean|snatch|ground to overhead|get-?up|clean and (press|jerk))\b/i;

const carriesIn = perSession(({ cells }) =>
  cells.some(
    ({ movement, groups }) =>
      movement !== null && groups.length > 0 && (movement.pattern === 'carry' || LIFTED.test(movement.name)),
  )
    ? true
    : null,
);

/** Sessions of each week from Monday to Sunday in which she trains, whatever program and block they are of. */
function weeksOf({ sessions }: ClientPlan): Iterable<readonly Session[]> {
  const weeks = new Map<string, Session[]>();
  for (const session of sessions) {
    const monday = mondayOf(session.date);
    const own = weeks.get(monday);
    if (own) own.push(session);
    else weeks.set(monday, [session]);
  }
  return weeks.values();
}

function findingOf(plan: ClientPlan, world: World, weeks: readonly (readonly Session[])[]): RawFinding {
  const first = weeks[0]?.[0] as Session;
  const { block, program, date } = first;
  return onLine(
    plan,
    block.place,
    {
      headline: say`From the block "${block.name}" on nothing is carried for weeks.`,
      detail: say`${plan.client.name}: ${countOf(weeks.length, 'week')} from ${date} without a carry or a lift from the ground to overhead.`,
      advice: say('Add a carry to one of the days.'),
      fixes: fixesOf(rowForm(world, weeks[0]?.at(-1) ?? first, ['carry'], '3x20m LOADkg')),
    },
    { program, block, day: null },
  );
}

const files = (rows: readonly string[]) =>
  workspace(
    BOATHOUSE,
    clientLines('Wren', ['mass: 60kg, 2026-11-01']),
    winter('Keel, 4 weeks', { Whole: rows }),
  );

export const noCarry: Rule = {
  code: CODE,
  title: 'Nothing carried in four weeks',
  severity: 'off',
  options: [LEAST_WEEKS],
  what: 'Four weeks of training or more, one after the other, have no carry and nothing that goes from the ground to overhead, in whichever blocks and programs. A note, off by default.',
  why: 'Carrying is what people most need strength for in daily life.',
  source: 'Common practice, no source.',
  example: files(['front plank: 2x20s']),
  better: files(['front plank: 2x20s', 'suitcase carry: 2x20m 4kg']),
  fix: 'Add a carry to one of the days. The quick fix adds one to complete, as a note, with a movement that the kit has and her sign-offs cover.',
  checkPlan(plan, world, context) {
    const least = context.option(CODE, LEAST_WEEKS);
    const carried = new Set(carriesIn(plan, context).map(({ session }) => session));
    const findings: RawFinding[] = [];
    let without: (readonly Session[])[] = [];
    const tell = () => {
      if (without.length >= least) findings.push(findingOf(plan, world, without));
      without = [];
    };
    for (const sessions of weeksOf(plan)) {
      if (sessions.some((session) => carried.has(session))) tell();
      else without.push(sessions);
    }
    tell();
    return findings;
  },
};
