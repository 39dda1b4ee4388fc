/**
 * Logged load: Foster 1998 (Med Sci Sports Exerc 30(7):1164-1168), Williams 2017 (Br J Sports Med 51(3):209-210).
 * All logs are made up.
 */
import { describe, expect, it } from 'vitest';
import { addDays } from '../../server/src/engine/dates.js';
import {
  dailyLoads,
  loggedLoads,
  loggedWeeks,
  mondayOf,
  ratiosOn,
} from '../../server/src/engine/history/workload.js';
import { createSession } from '../../server/src/engine/session.js';
import { found } from './check.js';

type Day = readonly [date: string, lines: string];

function text(days: readonly Day[]): string {
  return `client Heron\n\n${days.map(([date, lines]) => `log Heron, ${date}\n  ${lines}\n`).join('\n')}`;
}

function logged(days: readonly Day[]) {
  const session = createSession();
  session.setFile('a', text(days));
  return loggedLoads(session.world().logsIn('a'));
}

/** A day with a load: effort 5 and a fifth of it in minutes, or none. */
const day = (date: string, load: number): Day => [date, `as planned\n  session: rpe 5, ${load / 5}min`];

const codes = (days: readonly Day[], code: string) => found(text(days), code);

/** Whole weeks from 2026-11-02, a Monday; 0 is a day off. */
const weeks = (...loads: readonly (readonly number[])[]): readonly Day[] =>
  loads.flatMap((week, index) =>
    week.flatMap((load, at) => (load === 0 ? [] : [day(addDays('2026-11-02', 7 * index + at), load)])),
  );

describe('logged loads', () => {
  it('multiply effort by minutes; half a record is none, and a session left out is no load', () => {
    const all = logged([
      ['2026-12-07', 'as planned\n  session: rpe 6, 50min'],
      ['2026-12-08', 'as planned\n  session: rpe 6'],
      ['2026-12-09', 'back squat: skipped "ill"'],
    ]);
    expect(all.map(({ load }) => load)).toEqual([300, null, 0]);
    expect(dailyLoads(all, '2026-12-07', '2026-12-09')).toBeNull();
    expect(dailyLoads(all, '2026-12-06', '2026-12-07')).toEqual([0, 300]);
    expect(loggedWeeks(all)).toEqual([]);
  });

  it('knows the Monday of a week', () => {
    expect(['2026-12-07', '2026-12-13', '2026-12-14', '1969-12-31'].map(mondayOf)).toEqual([
      '2026-12-07',
      '2026-12-07',
      '2026-12-14',
      '1969-12-29',
    ]);
  });

  // The first computed week of the science tests: load 1200, monotony 0.981, strain 1177.64.
  it('give the week of the worked table', () => {
    const [week] = loggedWeeks(logged(weeks([300, 0, 420, 0, 300, 180, 0])));
    expect(week?.load).toBe(1200);
    expect(week?.monotony).toBeCloseTo(0.981, 3);
    expect(week?.strain).toBeCloseTo(1177.64, 2);
  });

  // Williams 2017: rolling 1.43, weighted 1.25; 21 days of 300 and 7 of 500 agree with the first athlete there.
  it('give the published ratios', () => {
    const full = (load: number) => Array.from({ length: 7 }, () => load);
    const ratios = ratiosOn(logged(weeks(full(300), full(300), full(300), full(500))), '2026-11-29');
    expect(ratios?.rolling).toBeCloseTo(1.43, 2);
    expect(ratios?.weighted).toBeCloseTo(1.25, 2);
  });

  it('give no ratio before 28 days, or with half a record in them', () => {
    const level = [300, 0, 300, 0, 300, 0, 0];
    expect(ratiosOn(logged(weeks(level, level, level)), '2026-11-20')).toBeNull();
    const four = weeks(level, level, level, level);
    expect(ratiosOn(logged(four), '2026-11-29')).not.toBeNull();
    expect(ratiosOn(logged([...four, ['2026-11-29', 'as planned']]), '2026-11-29')).toBeNull();
  });
});

describe('week-monotony', () => {
  const six = [300, 300, 300, 300, 300, 300, 0];

  it('is told above 2, marked as contested, and at three days a week never', () => {
    // Six equal days and one off: mean 257.14, sample SD 113.39, monotony 2.27.
    const [told] = codes(weeks(six), 'week-monotony');
    expect(told?.severity).toBe('info');
    expect(told?.message).toContain('monotony 2.27');
    expect(told?.message).toContain('Contested');
    expect(codes(weeks([300, 0, 300, 0, 300, 0, 0]), 'week-monotony')).toEqual([]);
    expect(codes(weeks([300, 300, 300, 300, 300, 0, 0]), 'week-monotony')).toEqual([]);
    expect(codes(weeks([300, 100, 300, 100, 300, 100, 0]), 'week-monotony')).toEqual([]);
  });

  it('is told where every day is alike, and silent with half a record', () => {
    expect(codes(weeks([300, 300, 300, 300, 300, 300, 300]), 'week-monotony')[0]?.message).toContain(
      'every day is alike',
    );
    expect(codes([...weeks(six), ['2026-11-08', 'as planned']], 'week-monotony')).toEqual([]);
  });
});

describe('week-strain and workload-ratio', () => {
  const level = [300, 0, 300, 0, 300, 0, 0];
  const high = [600, 0, 600, 0, 600, 0, 0];

  it('are off unless asked for', () => {
    const session = createSession();
    session.setFile('a', text(weeks(level, level, level, level, high)));
    expect(session.allFindings().map(({ code }) => code)).toEqual(['session-overran']);
  });

  it('compare strain with her own four weeks', () => {
    // The same rhythm has the same monotony, so that twice the load is twice the strain: the limit itself.
    expect(codes(weeks(level, level, level, level, high), 'week-strain')).toEqual([]);
    const [told] = codes(weeks(level, level, level, level, [605, 0, 605, 0, 605, 0, 0]), 'week-strain');
    expect(told?.message).toContain('2 times the mean');
    expect(told?.message).toContain('Contested');
    expect(codes(weeks(level, level, level, [605, 0, 605, 0, 605, 0, 0]), 'week-strain')).toEqual([]);
  });

  it('tell a rise once', () => {
    const told = codes(weeks(level, level, level, level, high, high), 'workload-ratio');
    expect(told).toHaveLength(1);
    expect(told[0]?.message).toContain('Contested');
    expect(codes(weeks(level, level, level, level, level), 'workload-ratio')).toEqual([]);
  });
});

describe('session-overran', () => {
  const of = (minutes: readonly number[]) =>
    codes(
      minutes.map(
        (each, at): Day => [addDays('2026-11-02', 2 * at), `as planned\n  session: rpe 6, ${each}min`],
      ),
      'session-overran',
    );

  it('wants five sessions before, and more than 175 % of their middle', () => {
    expect(of([40, 40, 40, 40, 200])).toEqual([]);
    expect(of([40, 40, 40, 40, 40, 70])).toEqual([]);
    expect(of([40, 40, 40, 40, 40, 71])[0]?.message).toContain('71 min; about 40 min are usual');
    expect(of([40, 40, 40, 40, 40, 71, 75])).toHaveLength(1);
    // One long day before does not move the middle.
    expect(of([40, 40, 200, 40, 40, 71])).toHaveLength(1);
  });
});
