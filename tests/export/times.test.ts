import ICAL from 'ical.js';
import { describe, expect, it } from 'vitest';
import { parse } from '../../grammar/index.js';
import { calendarText } from '../../server/src/cli/calendarFile.js';
import { planCalendar } from '../../server/src/engine/export/calendar.js';
import { planCsv } from '../../server/src/engine/export/csv.js';
import { planJson } from '../../server/src/engine/export/json.js';
import { planSchema } from '../../server/src/engine/export/planSchema.js';
import { buildPlanDocument } from '../../server/src/engine/print/build.js';
import { buildCards } from '../../server/src/engine/print/card.js';
import { buildFloorSheet, sessionsAt } from '../../server/src/engine/print/floor.js';
import { completions } from '../../server/src/engine/views/completion.js';
import { applyEdits, formatText } from '../../server/src/engine/views/format.js';
import { planIn, sessionWith } from './workspaces.js';

const workspace = (on: string, log = '') => `kit Boathouse
  bar: 15kg
  plates: 2.5kg x2, 5kg x4

client Heron
  trains at: Boathouse
  follows: Winter, from 2026-12-07, on ${on}

client Avocet
  trains at: Boathouse
  follows: Winter, from 2026-12-07, on mon 9:15

client Wren
  trains at: Boathouse
  follows: Winter, from 2026-12-07, on mon

program Winter
block Keel, 2 weeks
day Lower
  split squat: 3x8
${log}`;

const heron = (on: string, log = '') => {
  const session = sessionWith(workspace(on, log));
  return { plan: planIn(session, 'heron'), session };
};
const startsOf = (on: string) =>
  heron(on).plan.sessions.map(({ date, startMinute }) => `${date} ${startMinute}`);
const problems = (on: string) => parse(workspace(on)).problems;

function eventsOf(text: string): ICAL.Event[] {
  return new ICAL.Component(ICAL.parse(text))
    .getAllSubcomponents('vevent')
    .map((part) => new ICAL.Event(part));
}

describe('a time of day after a weekday', () => {
  it('is that of the sessions on it', () => {
    expect(problems('mon 18:00 thu 7:30')).toEqual([]);
    expect(startsOf('mon 18:00 thu 7:30')).toEqual([
      '2026-12-07 1080',
      '2026-12-10 450',
      '2026-12-14 1080',
      '2026-12-17 450',
    ]);
  });

  it('is that of all weekdays before it that have none; those after it have none', () => {
    expect(startsOf('mon thu 18:00 sat').slice(0, 3)).toEqual([
      '2026-12-07 1080',
      '2026-12-10 1080',
      '2026-12-12 null',
    ]);
  });

  it('stands behind `every 3 days` too, for whatever weekday it is', () => {
    const every = (days: string) => workspace('mon').replace('on mon\n', `every ${days}\n`);
    expect(parse(every('3 days 18:00')).problems).toEqual([]);
    const session = sessionWith(every('3 days 18:00'));
    expect(
      planIn(session, 'heron')
        .sessions.slice(0, 3)
        .map(({ date, startMinute }) => `${date} ${startMinute}`),
    ).toEqual(['2026-12-07 1080', '2026-12-10 1080']);
    expect(
      planIn(sessionWith(every('3 days')), 'heron').sessions.every(({ startMinute }) => startMinute === null),
    ).toBe(true);
    const slip = parse(every('3 days 6pm')).problems.map(({ message }) => message);
    expect(slip.join()).toContain('Write `18:00`');
    const at = every('3 days ');
    const offered = completions(sessionWith(at), 'one.stave', at.indexOf('3 days ') + '3 days '.length);
    expect(offered.map(({ label }) => label)).toContain('9:15');
    expect(applyEdits(every('3   days  18:00'), formatText(every('3   days  18:00')).edits)).toContain(
      'every 3 days 18:00',
    );
  });

  it.each([
    ['mon 24:00', 'No clock shows `24:00`'],
    ['mon 18:75', 'No clock shows `18:75`'],
    ['mon 6pm', 'Write `18:00`'],
    ['mon 18h30', 'Write `18:30`'],
    ['mon 18.30', 'Write `18:30`'],
    ['mon 6:30 pm', 'Write `18:30`'],
    ['mon 12am', 'Write `0:00`'],
  ])('that is none is said, and no time is made up: %s', (on, words) => {
    const found = problems(on);
    expect(found.map(({ message }) => message).join()).toContain(words);
    expect(heron(on).plan.sessions.every(({ startMinute }) => startMinute === null)).toBe(true);
  });

  it('has no place where a client trains', () => {
    const text = workspace('mon').replace('trains at: Boathouse', 'trains at: Boathouse, on mon 18:00');
    expect(parse(text).problems.length).toBeGreaterThan(0);
  });
});

describe('times in what is printed and exported', () => {
  it('stand in plan, card, floor sheet, JSON and CSV', () => {
    const { plan, session } = heron('mon 18:00');
    const asked = { from: null, until: null, printedOn: '2026-11-25' };
    const document = buildPlanDocument(plan, session.world(), { ...asked, errors: 0 });
    expect(document.weeks[0]?.days[0]?.when).toBe('Monday 7 December · 18:00 · Boathouse');
    const printed = { printedOn: '2026-11-25', size: 'a4', large: false } as const;
    expect(JSON.stringify(buildCards(plan, plan.sessions.slice(0, 1), printed))).toContain('18:00');
    const data = planJson(plan, asked);
    expect(planSchema.parse(data).sessions[0]?.startTime).toBe('18:00');
    expect(planCsv(data).split('\r\n')[1]).toMatch(/,18:00$/);
  });

  it('order the floor sheet, sessions without a time last', () => {
    const { session } = heron('mon 18:00');
    const plans = ['wren', 'heron', 'avocet'].map((key) => planIn(session, key));
    const sessions = sessionsAt(plans, 'boathouse', '2026-12-07');
    expect(sessions.map(({ client }) => client.name)).toEqual(['Avocet', 'Heron', 'Wren']);
    const kit = session.world().kits.get('boathouse');
    if (!kit) throw new Error('no kit');
    const options = { date: '2026-12-07', printedOn: '2026-11-25', size: 'a4', large: false } as const;
    expect(JSON.stringify(buildFloorSheet(kit, sessions, options))).toContain('9:15');
  });

  it('are floating times of the calendar, as long as the plan takes, else as the log says', () => {
    const event = (on: string, log = '') => {
      const { plan, session } = heron(on, log);
      const document = planCalendar(plan, null, null, session.world());
      const events = eventsOf(calendarText(document, new Date(Date.UTC(2026, 10, 25))));
      return events[events.length - 1] as ICAL.Event;
    };
    const planned = event('mon 18:00');
    expect(planned.startDate.toString()).toBe('2026-12-14T18:00:00');
    expect(planned.startDate.zone.tzid).toBe('floating');
    // 3 × (8 × 4 s + 90 s) is 6.1 minutes: ten, in steps of five.
    expect(planned.duration.toSeconds()).toBe(600);
    const log = '\nlog Heron, 2026-12-07, Lower\n  as planned\n  session: rpe 6, 52min\n';
    expect(event('mon 18:00', log).duration.toSeconds()).toBe(55 * 60);
    expect(event('mon').startDate.isDate).toBe(true);
  });
});

describe('times in the editor', () => {
  it('are offered behind a weekday', () => {
    const text = workspace('mon ');
    const labels = completions(
      sessionWith(text),
      'one.stave',
      text.indexOf('on mon ') + 'on mon '.length,
    ).map(({ label }) => label);
    expect(labels).toContain('9:15');
    expect(labels).toContain('thu');
  });

  it('are kept by the formatter', () => {
    const text = workspace('mon   18:00   thu 7:30');
    expect(applyEdits(text, formatText(text).edits)).toContain('on mon 18:00 thu 7:30');
  });
});
