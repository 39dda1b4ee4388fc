import type { PatternName } from '../../../../grammar/index.js';
import { said, say } from '../../../../grammar/say.js';
import { daysBetween } from '../dates.js';
import type { ClientPlan, ResolvedCell } from '../model.js';
import type { RawFinding, Rule, RuleContext, RuleOption } from '../ruleForm.js';
import { isHeavyWork } from './shared/cells.js';
import { fixesOf } from './shared/fixes.js';
import { onCell } from './shared/found.js';
import { musclesOf } from './shared/muscles.js';
import { type OfSession, perSession, picked } from './shared/perSession.js';
import { BOATHOUSE, BOX_SQUAT, workspace } from './shared/sample.js';
import { otherWeekday } from './shared/weekdayFixes.js';
import { movementText, sentence } from './shared/words.js';

const CODE = 'heavy-within-48h';
const LEAST_DAYS: RuleOption = {
  key: 'leastDays',
  default: 2,
  least: 1,
  most: 4,
  what: 'days from one heavy session to the next of the same muscles at least, counted from date to date',
};
const UNTESTED = new Set(['other', 'brace', 'carry']);

/** A heavy cell of a session: its number, its pattern and the key of its row. */
interface Heavy {
  readonly number: number;
  readonly pattern: PatternName;
  readonly row: string;
}

const heavyIn = perSession(({ cells }) =>
  picked(cells, ({ movement, groups, row }, number): Heavy | null =>
    movement !== null && !UNTESTED.has(movement.pattern) && groups.some(isHeavyWork)
      ? { number, pattern: movement.pattern, row: row.key }
      : null,
  ),
);

const NOTHING: readonly Heavy[] = [];

/** The newest heavy work before a day, by pattern. */
type Last = Map<PatternName, OfSession<Heavy>>;

/** What was heavy too shortly before: the same pattern, or else one that shares its muscles. */
function tooSoonAfter(
  last: Last,
  date: string,
  pattern: PatternName,
  leastDays: number,
): OfSession<Heavy> | null {
  const isSoon = (before: OfSession<Heavy> | undefined): before is OfSession<Heavy> =>
    before !== undefined &&
    before.session.date !== date &&
    daysBetween(before.session.date, date) < leastDays;
  const same = last.get(pattern);
  if (isSoon(same)) return same;
  const muscles = musclesOf(pattern);
  if (muscles === null) return null;
  for (const [other, before] of last) if (musclesOf(other) === muscles && isSoon(before)) return before;
  return null;
}

function findingsOf(plan: ClientPlan, context: RuleContext): RawFinding[] {
  const leastDays = context.option(CODE, LEAST_DAYS);
  const findings: RawFinding[] = [];
  const told = new Set<string>();
  const last: Last = new Map();
  let newest: string | null = null;
  for (const { session, value: heavy } of heavyIn(plan, context)) {
    // Mostly nothing heavy is near at all.
    const near = newest !== null && daysBetween(newest, session.date) < leastDays;
    if (newest === null || session.date > newest) newest = session.date;
    const found = (near ? heavy : NOTHING).flatMap((each) => {
      const before = tooSoonAfter(last, session.date, each.pattern, leastDays);
      return before === null ? [] : [{ each, before, same: before.value.pattern === each.pattern }];
    });
    for (const value of heavy) last.set(value.pattern, { session, value });
    // Where a pattern itself comes again, its muscles need not be told once more.
    const again = new Set(found.flatMap(({ each, same }) => (same ? [musclesOf(each.pattern)] : [])));
    for (const { each, before, same } of found) {
      const muscles = musclesOf(each.pattern);
      if (!same && again.has(muscles)) continue;
      // Every week of the same two rows is one cause; so are all rows of a day that share muscles with the day before.
      const from = before.session;
      const pair = same
        ? `${from.block.key}/${before.value.row}/${each.row}/${session.day.key}`
        : `${from.block.key}/${from.day.key}/${muscles}/${session.day.key}`;
      if (told.has(pair)) continue;
      told.add(pair);
      const cells = [from.cells[before.value.number], session.cells[each.number]] as const;
      findings.push(
        findingOf(cells[0] as ResolvedCell, cells[1] as ResolvedCell, each.pattern, same, leastDays),
      );
    }
  }
  return findings;
}

function findingOf(
  before: ResolvedCell,
  cell: ResolvedCell,
  pattern: PatternName,
  same: boolean,
  leastDays: number,
): RawFinding {
  const hours = leastDays * 24;
  const other = before.movement?.pattern ?? 'other';
  const shared = same
    ? ''
    : say` ${sentence(other)} and ${pattern} are different patterns and share muscles (${said(musclesOf(pattern) ?? '')}).`;
  return onCell(cell, {
    headline: same
      ? say`Heavy ${pattern} work again within ${hours} hours.`
      : say`Heavy ${pattern} work within ${hours} hours of heavy ${other} work.`,
    detail: say`${cell.client.name}: ${movementText(before)} on ${before.date} and ${movementText(cell)} on ${cell.date} (week ${cell.week}).${shared}`,
    advice: same
      ? say('Leave two days between, or make one of the two lighter.')
      : say('Leave two days between, put both on one day, or make one of the two lighter.'),
    fixes: fixesOf(otherWeekday(before, cell)),
    related: [{ place: before.place, message: say`${movementText(before)} on ${before.date}.` }],
    severity: same ? 'warning' : 'info',
  });
}

const files = (days: string) =>
  workspace(
    BOATHOUSE,
    BOX_SQUAT,
    `client Heron
  trains at: Boathouse
  ready: heavy squat 2026-06-05
  max: box squat, 47.5kg x5 r2, 2026-11-30
  follows: Winter, from 2026-12-07, on ${days}`,
    `program Winter

block Keel, 2 weeks
day Lower
  box squat: 3x6 r2`,
  );

export const heavyWithin48h: Rule = {
  code: CODE,
  title: 'The same muscles heavy on two days running',
  severity: 'warning',
  options: [LEAST_DAYS],
  what: 'Two sessions with heavy work of the same pattern lie less than two days apart; or of two patterns that share muscles (squat, hinge and lunge; push and press; pull and row), which is information. Work that is not heavy is left alone.',
  why: 'Muscle and tendon need about two days to recover from heavy work. The second session is done with less strength than the loads assume.',
  source:
    'ACSM position stand 2011 (Garber et al., Med Sci Sports Exerc 43(7):1334-1359): 48 hours or more between sessions for one muscle group (from memory). Which patterns share a muscle group is common practice, no source.',
  example: files('mon tue'),
  better: files('mon thu'),
  fix: 'Choose other weekdays, or make one of the two lighter. Where the client trains on two weekdays running, the quick fix moves the later one by a day or two, as far as two days lie between all of them.',
  checkPlan: (plan, _world, context) => findingsOf(plan, context),
};
