/**
 * The numbers that the rules start from: each is an option with this default. That each of them changes what is found is
 * held in settings.test.ts; their edges are in the tests of the rules. Common practice, no source, where no file of
 * tests/outside has one.
 */

import { describe, expect, it } from 'vitest';
import { sessionRoster } from '../../server/src/engine/history/kept.js';
import { rosterNumbers } from '../../server/src/engine/history/roster.js';
import { RULES } from '../../server/src/engine/rules/index.js';
import { createSession } from '../../server/src/engine/session.js';
import { around, KIT } from './check.js';

const START: readonly (readonly [string, Readonly<Record<string, number>>])[] = [
  ['load-unchecked', { learnPercent: 25, loadPercent: 50 }],
  [
    'far-off',
    {
      maxChangePercent: 20,
      leastPercent: 30,
      mostPercent: 100,
      maxSets: 10,
      maxReps: 30,
      maxReserve: 6,
      lostSignPercent: 50,
    },
  ],
  ['jump-load', { maxPercent: 10 }],
  ['deload-due', { maxWeeks: 8, restDays: 5 }],
  ['max-ageing', { leastWeeks: 5 }],
  ['max-stale', { maxWeeks: 8, awayDays: 21 }],
  ['max-imprecise', { manyReps: 10, fewReps: 6 }],
  [
    'back-too-fast',
    {
      shortDays: 14,
      shortPercent: 90,
      longDays: 28,
      longestDays: 56,
      longPercent: 80,
      longReserve: 4,
      setsPercent: 50,
    },
  ],
  ['sign-off-again', { awayDays: 56 }],
  ['sprint-dose', { maxSeconds: 60, firstWeeks: 2 }],
  ['tests-crowded', { mostTests: 1 }],
  ['pain-reported', { holdFrom: 4, stopAbove: 5 }],
  ['pain-next-morning', { withinDays: 2 }],
  ['failure-past-35', { fromAge: 35 }],
  ['reps-past-35', { fromAge: 35, manyReps: 8 }],
  ['kit-coarse', { maxReps: 4 }],
  ['heavy-soon', { minWeeks: 24 }],
  ['screening-old', { validDays: 365 }],
  ['pressure-caution', { holdSeconds: 20 }],
  ['spotter-note', { sureReserve: 2 }],
  ['shared-load', { hardReserve: 3 }],
  ['heavy-within-48h', { leastDays: 2 }],
  ['no-carry', { leastWeeks: 4 }],
];

describe('each number to start from', () => {
  it.each(START)('of %s is an option', (code, numbers) => {
    const options = RULES.find((rule) => rule.code === code)?.options ?? [];
    const defaults = Object.fromEntries(options.map((option) => [option.key, option.default]));
    expect(defaults).toMatchObject(numbers);
  });

  it('the notes on age alone are off', () => {
    const off = RULES.filter(({ severity }) => severity === 'off').map(({ code }) => code);
    expect(off).toEqual(expect.arrayContaining(['failure-past-35', 'reps-past-35']));
  });
});

const FILE = 'coach/a.stave';

function sessionWith(
  text: string,
  options: Record<string, Record<string, number>> = {},
  today = '2026-12-01',
) {
  const session = createSession({
    today,
    settingsFor: (file) => (file === FILE ? { severities: {}, options } : null),
  });
  session.setFile(FILE, text);
  return session;
}

type Made = ReturnType<typeof sessionWith>;
const first = (session: Made) => session.plan('heron')?.sessions[0]?.cells[0]?.groups[0];

describe('numbers that loads rest on', () => {
  // 40 kg for 12 with one left: 13 to failure.
  const many = around({
    client: 'ready: heavy all 2026-06-01\n  max: back squat, 40kg x12 r1, 2026-11-23',
    row: 'back squat: 3x6 r2',
    kit: KIT.replace('1.25kg x2', '0.25kg x2, 0.5kg x2, 1.25kg x2'),
  });

  it('six reps or fewer from a max of more than ten take the lowest curve, and can take her own', () => {
    // Brzycki: 40 × 36/(37 − 13) = 60 kg, of which eight to failure are 29/36: 48.33 kg.
    const own = (options: Record<string, Record<string, number>>) =>
      first(sessionWith(many, options))?.targetKg;
    expect(own({ 'max-imprecise': { fewReps: 5 } })).toBeCloseTo(48.333, 2);
    expect(own({ 'max-imprecise': { manyReps: 13 } })).toBeCloseTo(48.333, 2);
    // Lombardi: 40 × 13^0.1 / 8^0.1 = 41.99 kg.
    expect(own({})).toBeCloseTo(40 * (13 / 8) ** 0.1, 2);
  });

  it('a max is provisional from as many weeks or reps on as are set', () => {
    const reason = (text: string, options: Record<string, Record<string, number>>) =>
      first(sessionWith(text, options))?.provisionalReason ?? null;
    expect(reason(many, {})).toContain('reps to failure');
    expect(reason(many, { 'max-imprecise': { manyReps: 13 } })).toBe(null);
    const old = around({
      client: 'ready: heavy all 2026-06-01\n  max: back squat, 40kg x5 r2, 2026-10-26',
      row: 'back squat: 3x6 r2',
    });
    expect(reason(old, {})).toBe(null);
    expect(reason(old, { 'max-stale': { maxWeeks: 4 } })).toBe('the max is 6 weeks old');
    const away = old
      .replace('2026-10-26', '2026-11-02')
      .replace('  follows:', '  away: 2026-11-10 to 2026-11-24\n  follows:');
    expect(reason(away, {})).toBe(null);
    expect(reason(away, { 'max-stale': { awayDays: 14 } })).toContain('weeks away');
  });

  it('follow the settings when these change, and stay where they do not', () => {
    const session = sessionWith(many);
    const before = session.plan('heron');
    const set = (options: Record<string, Record<string, number>>) =>
      session.setOptions({ today: '2026-12-01', severities: {}, options });
    set({ stuck: {} });
    expect(session.plan('heron')).toBe(before);
    set({ 'max-imprecise': { fewReps: 5 } });
    expect(first(session)?.targetKg).toBeCloseTo(48.333, 2);
    const strict = session.plan('heron');
    set({ 'max-imprecise': { fewReps: 5 } });
    expect(session.plan('heron')).toBe(strict);
    expect(session.fork().plan('heron')).toBe(strict);
    set({});
    expect(first(session)?.targetKg).toBeCloseTo(40 * (13 / 8) ** 0.1, 2);
  });
});

describe('numbers that the roster goes by', () => {
  const text = `${around({
    client:
      'ready: heavy all 2026-06-01\n  screened: 2026-05-01\n  max: back squat, 47.5kg x5 r2, 2026-10-26',
    row: 'back squat: 3x6 r2',
  })}
log Heron, 2026-12-07
  as planned
  pain: knee 3/10
`;
  const needs = (options: Record<string, Record<string, number>>) =>
    sessionRoster(sessionWith(text, options, '2026-12-08'), '2026-12-08')
      .flatMap((line) => line.needs)
      .map(({ kind }) => kind)
      .filter((kind) => ['pain', 'screening', 'max-stale'].includes(kind));

  it('tell of pain, of a screening and of a max by what is set', () => {
    expect(needs({})).toEqual([]);
    expect(needs({ 'pain-reported': { holdFrom: 3 } })).toEqual(['pain']);
    expect(needs({ 'screening-old': { validDays: 180 } })).toEqual(['screening']);
    expect(needs({ 'max-stale': { maxWeeks: 6 } })).toEqual(['max-stale']);
  });

  it('are followed when they change', () => {
    const session = sessionWith(text, {}, '2026-12-08');
    const kinds = () =>
      sessionRoster(session, '2026-12-08').flatMap((line) => line.needs.map(({ kind }) => kind));
    expect(kinds()).not.toContain('pain');
    session.setOptions({
      today: '2026-12-08',
      severities: {},
      options: { 'pain-reported': { holdFrom: 3 } },
    });
    expect(kinds()).toContain('pain');
  });

  it('are those of the rules', () => {
    expect(rosterNumbers()).toEqual({ painHold: 4, painStop: 5, screeningDays: 365 });
    const session = sessionWith(around({ row: 'back squat: 3x6 r2' }), {
      'pain-reported': { holdFrom: 3 },
      'screening-old': { validDays: 180 },
    });
    expect(rosterNumbers(session.ruleContext('heron'))).toEqual({
      painHold: 3,
      painStop: 5,
      screeningDays: 180,
    });
  });
});
