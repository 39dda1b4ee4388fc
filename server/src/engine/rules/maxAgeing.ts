import { say } from '../../../../grammar/say.js';
import { addDays, daysBetween } from '../dates.js';
import type { Block, ClientPlan, MaxEntry, MaxUse, ResolvedCell, ResolvedGroup, Session } from '../model.js';
import { daysAway } from '../resolve/calendar.js';
import type { RawFinding, Rule, RuleContext, RuleOption } from '../ruleForm.js';
import { staleLimits, testedIn } from './maxStale.js';
import { blockSessions, isHeavyWork } from './shared/cells.js';
import { fixesOf, maxForm } from './shared/fixes.js';
import { onCell } from './shared/found.js';
import { perSession, picked } from './shared/perSession.js';
import { BOATHOUSE, clientLines, winter, workspace } from './shared/sample.js';
import { countOf, possessive, workText } from './shared/words.js';

const CODE = 'max-ageing';
const LEAST_WEEKS: RuleOption = {
  key: 'leastWeeks',
  // Common practice says 4 to 6 weeks. At 4 every heavy block would be told that follows a block of four weeks (with
  // its deload) whose first week had the test: that is careful work, so the note begins a week later.
  default: 5,
  least: 1,
  most: 8,
  what: 'weeks from which on a max is old for the start of a heavy block',
};
const WEEK_DAYS = 7;

/** First day of each time that a client goes through a block. */
function startOf(plan: ClientPlan, { program, block, date }: Session): string {
  let start = date;
  for (const session of blockSessions(plan).get(block) ?? []) {
    if (session.program !== program || session.week !== 1) continue;
    const days = daysBetween(session.date, date);
    if (days >= 0 && days < 2 * WEEK_DAYS && session.date < start) start = session.date;
  }
  return start;
}

/** Whether the movement of the max is tested in the week before the block or in its first week. */
function isTestedAround(tests: Tests, start: string, movement: string): boolean {
  const from = addDays(start, -WEEK_DAYS);
  const before = addDays(start, WEEK_DAYS);
  return tests.some(
    ({ session, value }) => session.date >= from && session.date < before && value.includes(movement),
  );
}

type Tests = ReturnType<typeof testedIn>;

/** Maxes that loads of a session rest on at an age of which `max-stale` speaks. */
const oldIn = perSession(({ cells }, context) => {
  const { days } = staleLimits(context);
  return picked(cells, ({ groups }) => {
    const old = groups.filter(({ max }) => max !== null && max.ageDays > days);
    return old.length > 0 ? old.map(({ max }) => max?.entry) : null;
  });
});

/** From 8 weeks on, and after a long absence, `max-stale` speaks of the same max: one cause is one finding. */
function isLeftToStale(plan: ClientPlan, block: Block, entry: MaxEntry, context: RuleContext): boolean {
  const { awayDays } = staleLimits(context);
  if (plan.client.aways.some((away) => away.to >= entry.date && daysAway(away) >= awayDays)) return true;
  return oldIn(plan, context).some(
    ({ session, value }) => session.block === block && value.some((old) => old.includes(entry)),
  );
}

/** Heavy work of the first week of a heavy block on a max that is getting old, by numbers of cell and group. */
const ageingIn = perSession((session, context) => {
  if (session.block.stage !== 'heavy' || session.week !== 1) return null;
  const leastDays = context.option(CODE, LEAST_WEEKS) * WEEK_DAYS;
  const { days } = staleLimits(context);
  return picked(session.cells, ({ test, movement, groups }, number) => {
    const index = groups.findIndex(
      (group) =>
        isHeavyWork(group) &&
        group.max?.kind === 'max' &&
        group.loadKg !== null &&
        group.max.entry.movement === movement?.key &&
        group.max.ageDays >= leastDays &&
        group.max.ageDays <= days,
    );
    return test !== null || index < 0
      ? null
      : { number, index, entry: groups[index]?.max?.entry as MaxEntry };
  });
});

function findingOf(cell: ResolvedCell, group: ResolvedGroup, max: MaxUse): RawFinding {
  const { client, block } = cell;
  const name = max.entry.movementName.text;
  const weeks = Math.floor(max.ageDays / WEEK_DAYS);
  return onCell(cell, {
    headline: say`"${block.name}" starts heavy work on a max of ${name} that is getting old.`,
    detail: say`${client.name}: ${workText(group, client)} on ${cell.date} (week ${cell.week}). The max is of ${max.entry.date}, ${countOf(weeks, 'week')} old by then.`,
    advice: say('Plan a test in the week before or in the first week, or write a newer set down.'),
    fixes: fixesOf(maxForm(client, name, cell.date)),
    related: [
      { place: max.entry.place, message: say`${possessive(client.name)} newest max before ${cell.date}.` },
    ],
  });
}

const files = (date: string) =>
  workspace(
    BOATHOUSE,
    clientLines('Heron', ['ready: heavy squat 2026-06-01', `max: back squat, 47.5kg x5 r2, ${date}`]),
    winter('Keel, 2 weeks, heavy', { Lower: ['back squat: 3x6 r2'] }),
  );

export const maxAgeing: Rule = {
  code: CODE,
  title: 'A heavy block on an ageing max',
  severity: 'info',
  options: [LEAST_WEEKS],
  what: 'A block that is called heavy starts, in its first week, with heavy work from a max that is 5 to 8 weeks old. A test of that movement in the week before or in the first week keeps it quiet. Where the max becomes older than 8 weeks within the block, or lies before an absence of 3 weeks, "max-stale" says so instead.',
  why: 'The loads of the whole block rest on that number, and heavy work leaves the least room for it to be wrong.',
  source:
    'Common practice, no source: a new test or a fresh set every 4 to 6 weeks, before heavy work above all; the 5 weeks are its middle. At 4 weeks a test before a block of four weeks and its deload would always be noted.',
  example: files('2026-10-26'),
  better: files('2026-11-30'),
  fix: 'Plan a test, for instance "test x5", in the last week before the block or in its first week, or write down a newer set. The quick fix adds a line to fill in, as a note, so that no weight is invented.',
  checkPlan(plan, _world, context) {
    const findings: RawFinding[] = [];
    // A max that several rows of a day rest on is one cause.
    const told = new Set<string>();
    for (const { session, value } of ageingIn(plan, context)) {
      for (const { number, index, entry } of value) {
        const start = startOf(plan, session);
        const key = JSON.stringify([session.program.key, session.block.key, start, entry.movement]);
        if (told.has(key) || isTestedAround(testedIn(plan, context), start, entry.movement)) continue;
        if (isLeftToStale(plan, session.block, entry, context)) continue;
        told.add(key);
        const cell = session.cells[number] as ResolvedCell;
        const group = cell.groups[index] as ResolvedGroup;
        findings.push(findingOf(cell, group, group.max as MaxUse));
      }
    }
    return findings;
  },
};
