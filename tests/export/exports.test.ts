import ICAL from 'ical.js';
import Papa from 'papaparse';
import { describe, expect, it } from 'vitest';
import { calendarText } from '../../server/src/cli/calendarFile.js';
import { planCalendar } from '../../server/src/engine/export/calendar.js';
import { CSV_COLUMNS, planCsv } from '../../server/src/engine/export/csv.js';
import { sessionIds } from '../../server/src/engine/export/identity.js';
import { planJson } from '../../server/src/engine/export/json.js';
import { planMarkdown } from '../../server/src/engine/export/markdown.js';
import { planSchema } from '../../server/src/engine/export/planSchema.js';
import type { ClientPlan } from '../../server/src/engine/model.js';
import { buildPlanDocument } from '../../server/src/engine/print/build.js';
import { HOSTILE_NAMES, hostileWorkspace, planIn, sessionOf, sessionWith } from './workspaces.js';

// The calendar is read back with ical.js, which shares no code with what writes it.

const MADE_AT = new Date(Date.UTC(2026, 10, 25, 12));
const winter = sessionOf('samples/winter');
const boathouse = sessionOf('samples/boathouse');
const heron = planIn(winter, 'heron');
const all = { from: null, until: null, printedOn: '2026-11-25' } as const;
const everybody = [...boathouse.world().clients.keys()].sort();

const calendarOf = (plan: ClientPlan) => calendarText(planCalendar(plan, null, null), MADE_AT);

function eventsOf(text: string): ICAL.Event[] {
  return new ICAL.Component(ICAL.parse(text))
    .getAllSubcomponents('vevent')
    .map((part) => new ICAL.Event(part));
}

function csvRows(text: string): Record<string, string>[] {
  const { data, errors, meta } = Papa.parse<Record<string, string>>(text, {
    header: true,
    skipEmptyLines: true,
  });
  expect(errors).toEqual([]);
  expect(meta.fields).toEqual([...CSV_COLUMNS]);
  return data;
}

describe('the calendar', () => {
  it.each(everybody)('has every session of %s on its date, all day', (client) => {
    const plan = planIn(boathouse, client);
    const events = eventsOf(calendarOf(plan));
    expect(events.map(({ startDate }) => startDate.toString())).toEqual(
      plan.sessions.map(({ date }) => date),
    );
    expect(events.every(({ startDate }) => startDate.isDate)).toBe(true);
    expect(new Set(events.map(({ uid }) => uid)).size).toBe(events.length);
  });

  it('says what to lift', () => {
    const [first] = eventsOf(calendarOf(heron));
    expect(first?.summary).toBe('Lower · Heron · Keel, week 1 of 5');
    expect(first?.description).toContain('Back squat: 3 × 6, leave 2 in reserve, 45 kg, each side 10 + 5 kg');
    expect(first?.location).toBe('Boathouse');
  });

  it('has lines of at most 75 bytes that end with CRLF', () => {
    for (const client of everybody) {
      const text = calendarOf(planIn(boathouse, client));
      expect(text.endsWith('END:VCALENDAR\r\n')).toBe(true);
      expect(text.replaceAll('\r\n', '')).not.toMatch(/[\r\n]/);
      for (const line of text.split('\r\n')) expect(Buffer.byteLength(line)).toBeLessThanOrEqual(75);
    }
  });

  it('keeps the identity of a session that moves or changes, and gives every session its own', () => {
    const text = winter.text('samples/winter/winter.stave') ?? '';
    const moved = planIn(sessionWith(text.replace('from 2026-12-07', 'from 2026-12-14')), 'heron');
    const heavier = planIn(sessionWith(text.replace('47.5kg x5 r2', '50kg x5 r2')), 'heron');
    expect(moved.sessions[0]?.date).toBe('2026-12-14');
    expect([...sessionIds(moved).values()]).toEqual([...sessionIds(heron).values()]);
    expect([...sessionIds(heavier).values()]).toEqual([...sessionIds(heron).values()]);
    const ids = everybody.flatMap((client) => [...sessionIds(planIn(boathouse, client)).values()]);
    expect(new Set(ids).size).toBe(ids.length);
  });

  it('keeps the identities of the sessions that are asked for', () => {
    const [whole, part] = [planCalendar(heron, null, null), planCalendar(heron, '2026-12-14', '2026-12-20')];
    expect(part.events).toEqual(
      whole.events.filter(({ date }) => date >= '2026-12-14' && date <= '2026-12-20'),
    );
    expect(part.events.length).toBe(2);
  });
});

describe('JSON', () => {
  it.each(everybody)('of %s fits the published shape', (client) => {
    const plan = planIn(boathouse, client);
    const json = JSON.parse(JSON.stringify(planJson(plan, all)));
    const parsed = planSchema.parse(json);
    expect(parsed.sessions.length).toBe(plan.sessions.length);
    expect(planSchema.safeParse({ ...json, version: 2 }).success).toBe(false);
  });

  it('has the numbers of the worked example', () => {
    // The worked example of the language's own reference.
    const squats = planJson(heron, all)
      .sessions.filter(({ day }) => day === 'Lower')
      .map(({ cells }) => cells[0]?.groups[0]);
    expect(squats.map((group) => [group?.sets, group?.reps, group?.loadKg, group?.eachSideKg])).toEqual([
      [3, 6, 45, [10, 5]],
      [4, 6, 45, [10, 5]],
      [4, 5, 47.5, [10, 5, 1.25]],
      [4, 5, 47.5, [10, 5, 1.25]],
      [2, 5, 42.5, [10, 2.5, 1.25]],
    ]);
  });
});

describe('CSV', () => {
  it.each(everybody)('of %s has a line for each set group, with the same loads', (client) => {
    const plan = planIn(boathouse, client);
    const rows = csvRows(planCsv(planJson(plan, all)));
    const groups = plan.sessions.flatMap(({ cells }) => cells.flatMap(({ groups }) => groups));
    expect(rows.length).toBe(groups.length);
    rows.forEach((row, index) => {
      const kg = groups[index]?.loadKg ?? null;
      if (kg === null) expect(row['load kg']).toBe('');
      else expect(Number(row['load kg'])).toBeCloseTo(kg, 5);
    });
  });

  it('ends every line with CRLF', () => {
    const text = planCsv(planJson(heron, all));
    expect(text.split('\r\n').length).toBe(
      1 + heron.sessions.flatMap(({ cells }) => cells.flatMap(({ groups }) => groups)).length + 1,
    );
    expect(text.replaceAll('\r\n', '')).not.toMatch(/[\r\n]/);
  });

  it('never starts a text with what a spreadsheet takes for a formula', () => {
    for (const name of HOSTILE_NAMES) {
      const plan = planIn(sessionWith(hostileWorkspace(name)), name.toLowerCase());
      expect(plan.sessions.length).toBe(2);
      for (const row of csvRows(planCsv(planJson(plan, all)))) {
        for (const value of Object.values(row)) {
          if (value !== '' && !Number.isFinite(Number(value))) expect(value).not.toMatch(/^[=+\-@\t\r]/);
        }
        expect(row.client?.replace(/^'/, '')).toBe(name);
      }
    }
  });
});

describe('Markdown', () => {
  const document = (plan: ClientPlan, world = winter.world()) =>
    buildPlanDocument(plan, world, { ...all, errors: 0 });

  it('has the words of the printed plan', () => {
    const text = planMarkdown(document(heron));
    for (const part of [
      '# Plan for Heron',
      '## Take care',
      '## Keel, week 1 of 5',
      '3 × 6<br>leave 2 in reserve',
      '45 kg<br>each side 10 + 5 kg',
      '☐ ☐ ☐',
    ])
      expect(text).toContain(part);
  });

  it.each(HOSTILE_NAMES)('keeps %s text', (name) => {
    const session = sessionWith(hostileWorkspace(name));
    const text = planMarkdown(document(planIn(session, name.toLowerCase()), session.world()));
    expect(text.replaceAll('<br>', '')).not.toMatch(/(?<!\\)<|(?<!\\)\*\*bold|(?<!\\)\[link/);
    // Every line of a table keeps its five cells.
    for (const line of text.split('\n').filter((part) => part.startsWith('| ')))
      expect(line.match(/(?<!\\)\|/g)).toHaveLength(6);
  });
});

describe('hostile names', () => {
  it.each(HOSTILE_NAMES)('%s comes back whole from the calendar', (name) => {
    const plan = planIn(sessionWith(hostileWorkspace(name)), name.toLowerCase());
    const events = eventsOf(calendarOf(plan));
    expect(events.length).toBe(2);
    expect(events[0]?.location).toBe(name);
    expect(events[0]?.summary).toContain(`· ${name} ·`);
  });
});
