import { daysBetween } from '../dates.js';
import type { Client, Session } from '../model.js';
import { daysAway } from '../resolve/calendar.js';
import type { RawFinding, Rule, RuleOption } from '../ruleForm.js';
import { isHeavyWork } from './shared/cells.js';
import { onLine } from './shared/found.js';
import { BOATHOUSE, BOX_SQUAT, workspace } from './shared/sample.js';

const CODE = 'deload-due';
const MAX_WEEKS: RuleOption = {
  key: 'maxWeeks',
  default: 8,
  least: 2,
  most: 16,
  what: 'weeks that heavy work may go on without a deload',
};
/** An absence of so many days starts the count again. */
const REST_DAYS = 5;
/** Without heavy work for longer than this the count starts again as well. */
const LIGHT_DAYS = 10;

function isHeavy(session: Session): boolean {
  return session.cells.some((cell) => cell.groups.some(isHeavyWork));
}

function restedBetween(client: Client, from: string, to: string): boolean {
  if (daysBetween(from, to) > LIGHT_DAYS) return true;
  return client.aways.some((away) => away.to > from && away.to < to && daysAway(away) >= REST_DAYS);
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
  options: [MAX_WEEKS],
  what: 'Heavy work goes on for more than 8 weeks without a deload week, an absence of 5 days or more, or ten days of lighter work.',
  why: 'Fatigue hides strength. A planned lighter week is better than one forced by a sore joint.',
  source:
    'Rogerson et al., Sports Med Open 2024;10:26: strength and physique athletes deload every 5.6 ± 2.3 weeks for 6.4 ± 1.7 days. That this is a limit for anyone else is common practice, no source.',
  example: files('Keel, 10 weeks'),
  better: files('Keel, 10 weeks, deload 5'),
  fix: 'Mark a deload week in the block: "block Keel, 10 weeks, deload 5".',
  checkPlan(plan, _world, context) {
    const weeks = context.option(CODE, MAX_WEEKS);
    const findings: RawFinding[] = [];
    let start: Session | null = null;
    let last: Session | null = null;
    let told = false;
    for (const session of plan.sessions) {
      if (session.deload) {
        start = null;
        last = null;
        told = false;
        continue;
      }
      if (!isHeavy(session)) continue;
      if (!start || (last && restedBetween(plan.client, last.date, session.date))) {
        start = session;
        told = false;
      }
      last = session;
      if (told || daysBetween(start.date, session.date) < weeks * 7) continue;
      told = true;
      const { block, program } = session;
      findings.push(
        onLine(
          plan,
          block.place,
          {
            headline: `Heavy work for more than ${weeks} weeks without a deload.`,
            detail: `${plan.client.name}: heavy since ${start.date}, still on ${session.date} (week ${session.week} of "${block.name}").`,
            advice: `Mark a deload week, for example "deload ${Math.min(block.weeks, 5)}" after the block's weeks.`,
          },
          { program, block, day: null },
        ),
      );
    }
    return findings;
  },
};
