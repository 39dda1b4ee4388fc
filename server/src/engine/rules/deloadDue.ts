import { say } from '../../../../grammar/say.js';
import { daysBetween } from '../dates.js';
import type { Block, Client, FindingFix, Session } from '../model.js';
import { daysAway } from '../resolve/calendar.js';
import type { RawFinding, Rule, RuleContext, RuleOption } from '../ruleForm.js';
import { isHeavyWork } from './shared/cells.js';
import { addDeload, markDeload } from './shared/deloadFixes.js';
import { fixesOf } from './shared/fixes.js';
import { onLine } from './shared/found.js';
import { perSession } from './shared/perSession.js';
import { BOATHOUSE, BOX_SQUAT, workspace } from './shared/sample.js';

const CODE = 'deload-due';
const MAX_WEEKS: RuleOption = {
  key: 'maxWeeks',
  default: 8,
  least: 2,
  most: 16,
  what: 'weeks that heavy work may go on without a deload',
};
const REST_DAYS: RuleOption = {
  key: 'restDays',
  default: 5,
  least: 2,
  most: 28,
  what: 'days away from which on the count starts again',
};
const LIGHT_DAYS: RuleOption = {
  key: 'lightDays',
  default: 10,
  least: 7,
  most: 56,
  what: 'days without heavy work beyond which the count starts again',
};

/** Sessions with heavy work, and those of deload weeks. */
const heavyIn = perSession(({ deload, cells }) =>
  deload || cells.some((cell) => cell.groups.some(isHeavyWork)) ? true : null,
);

function restedBetween(client: Client, from: string, to: string, context: RuleContext): boolean {
  if (daysBetween(from, to) > context.option(CODE, LIGHT_DAYS)) return true;
  const restDays = context.option(CODE, REST_DAYS);
  return client.aways.some((away) => away.to > from && away.to < to && daysAway(away) >= restDays);
}

const files = (block: string) =>
  workspace(
    BOATHOUSE,
    BOX_SQUAT,
    `client Heron
  trains at: Boathouse
  ready: heavy squat 2026-06-05
  max: box squat, 47.5kg x5 r2, 2026-11-30
  follows: Winter, from 2026-12-07, on mon`,
    `program Winter

block ${block}
day Lower
  box squat: 3x6 r2`,
  );

export const deloadDue: Rule = {
  code: CODE,
  title: 'Many heavy weeks without a deload',
  severity: 'info',
  options: [MAX_WEEKS, REST_DAYS, LIGHT_DAYS],
  what: 'Heavy work goes on for more than 8 weeks without a deload week, an absence of 5 days or more, or ten days of lighter work.',
  why: 'Fatigue hides strength. A planned lighter week is better than one forced by a sore joint.',
  source:
    'Rogerson et al., Sports Med Open 2024;10:26: strength and physique athletes deload every 5.6 ± 2.3 weeks for 6.4 ± 1.7 days. That this is a limit for anyone else is common practice, no source.',
  example: files('Keel, 10 weeks'),
  better: files('Keel, 10 weeks, deload 5'),
  fix: 'Mark a deload week in the block: "block Keel, 10 weeks, deload 5". The quick fix marks the week nearest to the sixth for which nothing is written and which nobody has begun, or adds a week at the end of a block: what comes after it then comes a week later.',
  checkPlan(plan, world, context) {
    const weeks = context.option(CODE, MAX_WEEKS);
    const findings: RawFinding[] = [];
    let start: Session | null = null;
    let last: Session | null = null;
    let told = false;
    for (const { session } of heavyIn(plan, context)) {
      if (session.deload) {
        start = null;
        last = null;
        told = false;
        continue;
      }
      if (!start || (last && restedBetween(plan.client, last.date, session.date, context))) {
        start = session;
        told = false;
      }
      last = session;
      if (told || daysBetween(start.date, session.date) < weeks * 7) continue;
      told = true;
      const { block, program } = session;
      const run = { plan, world, start, late: session, today: context.today };
      const fixes = fixesOf(markDeload(run), addDeload(run));
      findings.push(
        onLine(
          plan,
          block.place,
          {
            headline: say`Heavy work for more than ${weeks} weeks without a deload.`,
            detail: say`${plan.client.name}: heavy since ${start.date}, still on ${session.date} (week ${session.week} of "${block.name}").`,
            advice: adviceFor(fixes, block),
            fixes,
          },
          { program, block, day: null },
        ),
      );
    }
    return findings;
  },
};

function adviceFor([first]: readonly FindingFix[], block: Block): string {
  if (first)
    return say`${first.title}, or another week that suits her: "deload" and its number on the line of the block.`;
  return say`Mark a deload week, for example "deload ${Math.min(block.weeks, 5)}" on the line of the block, and take out what is written in that week's cells: it would hold in the deload too.`;
}
