import { compareDates, daysBetween } from '../dates.js';
import type { Away, ClientPlan, MaxEntry, MaxUse, ResolvedCell, ResolvedGroup } from '../model.js';
import { daysAway } from '../resolve/calendar.js';
import { LONG_AWAY_DAYS, STALE_DAYS } from '../resolve/strength.js';
import type { RawFinding, Rule } from '../ruleForm.js';
import { cellsWhere, isHeavyWork, rowRuns } from './shared/cells.js';
import { addClientLine, fixesOf } from './shared/fixes.js';
import { countOf, possessive, workText } from './shared/words.js';

const CODE = 'max-stale';

/** The absence after which the max no longer counts on `date`, or null. */
function absenceSince(max: MaxUse, cell: ResolvedCell): Away | null {
  return (
    cell.client.aways.find(
      (away) => away.to < cell.date && away.to >= max.entry.date && daysAway(away) >= LONG_AWAY_DAYS,
    ) ?? null
  );
}

function isStale(group: ResolvedGroup, cell: ResolvedCell): boolean {
  const { max } = group;
  if (!group.provisional || max === null || group.loadKg === null) return false;
  return max.ageDays > STALE_DAYS || absenceSince(max, cell) !== null;
}

/** Days on which each movement is tested: from then on a newer max is to be expected. */
function testDates(plan: ClientPlan): ReadonlyMap<string, readonly string[]> {
  const dates = new Map<string, string[]>();
  for (const session of plan.sessions) {
    for (const cell of session.cells) {
      if (cell.test === null || cell.movement === null) continue;
      const known = dates.get(cell.movement.key);
      if (known) known.push(cell.date);
      else dates.set(cell.movement.key, [cell.date]);
    }
  }
  return dates;
}

/** A test shortly before counts as renewing the max, since its result cannot be known yet. */
function isTestedBefore(dates: readonly string[], max: MaxEntry, cell: ResolvedCell): boolean {
  return dates.some(
    (date) => date > max.date && date <= cell.date && daysBetween(date, cell.date) <= STALE_DAYS,
  );
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
}

function findingOf(cells: readonly ResolvedCell[], group: ResolvedGroup): RawFinding {
  const first = cells[0] as ResolvedCell;
  const { client } = first;
  const max = group.max as MaxUse;
  const name = max.entry.movementName.text;
  const away = absenceSince(max, first);
  const heavy = cells.some((cell) => cell.groups.some(isHeavyWork));
  const weeks = Math.floor(max.ageDays / 7);
  const days = max.ageDays % 7;
  const age = away
    ? `from before ${countOf(daysAway(away), 'day')} away (${away.from} to ${away.to})`
    : `${countOf(weeks, 'week')}${days === 0 ? '' : ` and ${countOf(days, 'day')}`} old by then`;
  const more = cells.length > 1 ? `, and ${countOf(cells.length - 1, 'more session')} after it` : '';
  return {
    place: first.place,
    headline: `This load rests on an old max of ${name}.`,
    detail: `${client.name}: ${workText(group, client)} on ${first.date} (week ${first.week})${more}. The max is of ${max.entry.date}, ${age}.`,
    advice: heavy
      ? `Test before this date, or write a newer set down. Until then start lighter: this is heavy work, and strength may have changed either way.`
      : `Write a newer set down when one is done, or plan "test x8" in a week before.`,
    client: client.key,
    cell: first,
    related: [
      { place: max.entry.place, message: `${possessive(client.name)} newest max before ${first.date}.` },
    ],
    fixes: fixesOf(
      addClientLine(
        client,
        `-- max: ${name}, LOADkg x5 r2, ${first.date} -- fill in a newer set, then take the first two dashes away`,
        `${client.name}: add a newer max line to fill in`,
      ),
    ),
    severity: heavy ? 'warning' : 'info',
  };
}

export const maxStale: Rule = {
  code: CODE,
  title: 'A load from an old max',
  severity: 'warning',
  what: 'The max that a load rests on is older than 8 weeks at that session, or lies before an absence of 3 weeks or more. A test of that movement planned in between keeps it quiet. A warning for heavy work, otherwise information.',
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
  checkPlan(plan) {
    const stale = new Map<MaxEntry, Map<string, Stale>>();
    let tests: ReadonlyMap<string, readonly string[]> | null = null;
    for (const run of rowRuns(plan)) {
      for (const { cell, group } of cellsWhere(run.cells, isStale)) {
        tests ??= testDates(plan);
        const max = (group.max as MaxUse).entry;
        if (isTestedBefore(tests.get(max.movement) ?? [], max, cell)) continue;
        const ofMax = stale.get(max) ?? new Map<string, Stale>();
        stale.set(max, ofMax);
        const part = partOf(cell);
        const known = ofMax.get(part);
        if (known) known.cells.push(cell);
        else ofMax.set(part, { cells: [cell], group });
      }
    }
    const all = [...stale.values()].flatMap((ofMax) => [...ofMax.values()]);
    return all.map(({ cells, group }) => {
      // Row after row was gone through; the first session is the one to tell.
      const inOrder = [...cells].sort((a, b) => compareDates(a.date, b.date));
      const first = inOrder[0] as ResolvedCell;
      return findingOf(inOrder, first.groups.find((each) => isStale(each, first)) ?? group);
    });
  },
};
