import { say } from '../../../../grammar/say.js';
import { daysBetween } from '../dates.js';
import type { Away, ClientPlan, MaxEntry, MaxUse, ResolvedCell, ResolvedGroup } from '../model.js';
import { daysAway } from '../resolve/calendar.js';
import { DEFAULT_LIMITS } from '../resolve/limits.js';
import type { RawFinding, Rule, RuleContext, RuleOption } from '../ruleForm.js';
import { isHeavyWork } from './shared/cells.js';
import { addClientLine, fixesOf } from './shared/fixes.js';
import { perSession, picked } from './shared/perSession.js';
import { countOf, possessive, workText } from './shared/words.js';

const CODE = 'max-stale';
const MAX_WEEKS: RuleOption = {
  key: 'maxWeeks',
  default: DEFAULT_LIMITS.staleDays / 7,
  least: 2,
  most: 26,
  what: 'weeks that a max may be old; loads from an older one are provisional, and the roster goes by it too',
};
const AWAY_DAYS: RuleOption = {
  key: 'awayDays',
  default: DEFAULT_LIMITS.awayDays,
  least: 7,
  most: 56,
  what: 'days away from which on a max from before no longer counts; loads from it are provisional',
};

/** From which age on a max is told here. */
export interface StaleLimits {
  readonly days: number;
  readonly awayDays: number;
}

/** The limits that are set. `max-ageing` ends where they begin. */
export function staleLimits(context: RuleContext): StaleLimits {
  return { days: context.option(CODE, MAX_WEEKS) * 7, awayDays: context.option(CODE, AWAY_DAYS) };
}

/** The absence after which the max no longer counts on `date`, or null. */
function absenceSince(max: MaxUse, cell: ResolvedCell, awayDays: number): Away | null {
  return (
    cell.client.aways.find(
      (away) => away.to < cell.date && away.to >= max.entry.date && daysAway(away) >= awayDays,
    ) ?? null
  );
}

function isStale({ max, loadKg }: ResolvedGroup, cell: ResolvedCell, limits: StaleLimits): boolean {
  if (max === null || loadKg === null) return false;
  return max.ageDays > limits.days || absenceSince(max, cell, limits.awayDays) !== null;
}

/** The first group of each cell of a session that rests on an old max, by the numbers of both. */
const staleIn = perSession(({ cells }, context) => {
  const limits = staleLimits(context);
  return picked(cells, (cell, number) => {
    const index = cell.groups.findIndex((group) => isStale(group, cell, limits));
    return index < 0 ? null : { number, index };
  });
});

/** Movements that are tested in a session. */
export const testedIn = perSession(({ cells }) =>
  picked(cells, ({ test, movement }) => (test && movement ? movement.key : null)),
);

/** Days on which each movement is tested: from then on a newer max is to be expected. */
function testDates(plan: ClientPlan, context: RuleContext): ReadonlyMap<string, readonly string[]> {
  const dates = new Map<string, string[]>();
  for (const { session, value } of testedIn(plan, context)) {
    for (const movement of value) dates.set(movement, [...(dates.get(movement) ?? []), session.date]);
  }
  return dates;
}

/** The newest test between a max and a session that would make the max fresh; null without one. */
function testBefore(
  dates: readonly string[],
  max: MaxEntry,
  cell: ResolvedCell,
  { days }: StaleLimits,
): string | null {
  return (
    dates.findLast((date) => date > max.date && date <= cell.date && daysBetween(date, cell.date) <= days) ??
    null
  );
}

/** Whether a test lies in the past and neither its result nor any newer set was ever written down. */
function isUnwritten(test: string, max: MaxEntry, { client }: ResolvedCell, today: string | null): boolean {
  if (today === null || test >= today) return false;
  return !client.maxes.some(({ movement, date }) => movement === max.movement && date >= test);
}

/**
 * One old max is one cause, in however many rows it is used; heavy and lighter work are told apart, and what an
 * `allow` line stands at stays by itself, so that it silences no other row.
 */
function partOf(cell: ResolvedCell): string {
  const heavy = cell.groups.some(isHeavyWork);
  const allows = [cell.row.allows, cell.day.allows, cell.block.allows];
  const own = allows.some((each) => each.some(({ code }) => code === CODE));
  return `${cell.program.key}/${heavy}/${own ? `${cell.block.key}/${cell.day.key}/${cell.row.key}` : ''}`;
}

interface Stale {
  readonly cells: ResolvedCell[];
  readonly group: ResolvedGroup;
  /** A test that was planned and whose result was never written. */
  readonly unwritten: string | null;
}

function adviceFor(heavy: boolean, unwritten: boolean, away: boolean): string {
  if (unwritten)
    return say('Write the result of the test as a "max:" line, or test again. Until then start lighter.');
  if (away)
    return say(
      'Start lighter ("back at" on the "away:" line), and write a newer set down after the first weeks back. The first days back are no time for a test.',
    );
  return heavy
    ? say(
        'Test before this date, or write a newer set down. Until then start lighter: this is heavy work, and strength may have changed either way.',
      )
    : say('Write a newer set down when one is done, or plan "test x8" in a week before.');
}

function findingOf(
  cells: readonly ResolvedCell[],
  group: ResolvedGroup,
  unwritten: string | null,
  limits: StaleLimits,
): RawFinding {
  const first = cells[0] as ResolvedCell;
  const { client } = first;
  const max = group.max as MaxUse;
  const name = max.entry.movementName.text;
  const away = absenceSince(max, first, limits.awayDays);
  const heavy = cells.some((cell) => cell.groups.some(isHeavyWork));
  const weeks = Math.floor(max.ageDays / 7);
  const days = max.ageDays % 7;
  const age = away
    ? say`from before ${countOf(daysAway(away), 'day')} away (${away.from} to ${away.to})`
    : say`${countOf(weeks, 'week')}${days === 0 ? '' : say` and ${countOf(days, 'day')}`} old by then`;
  const more = cells.length > 1 ? say`, and ${countOf(cells.length - 1, 'more session')} after it` : '';
  return {
    place: first.place,
    headline: say`This load rests on an old max of ${name}.`,
    detail: say`${client.name}: ${workText(group, client)} on ${first.date} (week ${first.week})${more}. The max is of ${max.entry.date}, ${age}.${unwritten === null ? '' : say` A test was planned on ${unwritten}, and no result of it is written.`}`,
    advice: adviceFor(heavy, unwritten !== null, away !== null),
    client: client.key,
    cell: first,
    related: [
      { place: max.entry.place, message: say`${possessive(client.name)} newest max before ${first.date}.` },
    ],
    fixes: fixesOf(
      addClientLine(
        client,
        say`-- max: ${name}, LOADkg x5 r2, ${unwritten ?? first.date} -- fill in a newer set, then take the first two dashes away`,
        say`${client.name}: add a newer max line to fill in`,
      ),
    ),
    severity: heavy ? 'warning' : 'info',
  };
}

export const maxStale: Rule = {
  code: CODE,
  title: 'A load from an old max',
  severity: 'warning',
  options: [MAX_WEEKS, AWAY_DAYS],
  what: 'The max that a load rests on is older than 8 weeks at that session, or lies before an absence of 3 weeks or more. A test of that movement planned in between keeps it quiet, until its day has passed and no result was written. A warning for heavy work, otherwise information.',
  why: 'Strength changes. An old max can be too high after weeks off, and then the load leaves fewer reps in reserve than the coach wrote.',
  source:
    'The 8 weeks are common practice, no source. Strength is held for about 3 to 4 weeks without training and falls after that: general reviews on detraining, from memory; older women lost functional gains within a month off (e-jer.org 2013600431, abstract).',
  example: `kit Boathouse
  bar: 15kg
  plates: 1.25kg x2, 2.5kg x2, 5kg x4

movement box squat
  pattern: squat
  with: barbell

client Heron
  trains at: Boathouse
  ready: load squat 2026-06-01
  max: box squat, 40kg x8 r2, 2026-08-03
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
  max: box squat, 40kg x8 r2, 2026-11-30
  follows: Winter, from 2026-12-07, on mon

program Winter

block Keel, 2 weeks
day Lower
  box squat: 3x8 r3
`,
  fix: 'Write down a newer set, or plan a test before the date. The quick fix adds a line to fill in, as a note, so that no weight is invented.',
  caution:
    'After illness, surgery or a long absence a qualified professional decides when and how to start again.',
  checkPlan(plan, _world, context) {
    const limits = staleLimits(context);
    const stale = new Map<MaxEntry, Map<string, Stale>>();
    let tests: ReadonlyMap<string, readonly string[]> | null = null;
    for (const { session, value } of staleIn(plan, context)) {
      for (const { number, index } of value) {
        const cell = session.cells[number] as ResolvedCell;
        const group = cell.groups[index] as ResolvedGroup;
        tests ??= testDates(plan, context);
        const max = (group.max as MaxUse).entry;
        const test = testBefore(tests.get(max.movement) ?? [], max, cell, limits);
        if (test !== null && !isUnwritten(test, max, cell, context.today)) continue;
        const ofMax = stale.get(max) ?? new Map<string, Stale>();
        stale.set(max, ofMax);
        const part = partOf(cell);
        const known = ofMax.get(part);
        if (known) known.cells.push(cell);
        else ofMax.set(part, { cells: [cell], group, unwritten: test });
      }
    }
    const all = [...stale.values()].flatMap((ofMax) => [...ofMax.values()]);
    return all.map(({ cells, group, unwritten }) => {
      const first = cells[0] as ResolvedCell;
      const own = first.groups.find((each) => isStale(each, first, limits)) ?? group;
      return findingOf(cells, own, unwritten, limits);
    });
  },
};
