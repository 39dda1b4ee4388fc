import { describe, expect, it } from 'vitest';
import { compareSessions, compareWeeks } from '../../server/src/engine/history/compare.js';
import { clientOffers } from '../../server/src/engine/history/history.js';
import { betweenPrograms } from '../../server/src/engine/history/programs.js';
import { logged } from './logs.js';

const ROWS = '  lift: 3x5 r2\n  bells: 2x8 10kg\n';

describe('what was done, bound to the plan', () => {
  it('takes the whole session as planned', () => {
    const { history } = logged(ROWS, 'log Heron, 2026-12-07, A\n  as planned\n  session: rpe 7, 50min');
    const [session] = history.done;
    expect(session?.session?.date).toBe('2026-12-07');
    expect(session?.rpe).toBe(7);
    expect(session?.minutes).toBe(50);
    expect(session?.movements.map(({ key, status }) => [key, status])).toEqual([
      ['lift', 'as-planned'],
      ['bells', 'as-planned'],
    ]);
    // 100 kg, 5 and 2 in reserve, Brzycki: 100 × 30/36 = 83.3, made as 82.5.
    expect(session?.movements[0]?.groups).toMatchObject([{ loadKg: 82.5, asPlanned: true }]);
    expect(session?.movements[0]?.groups[0]?.sets).toHaveLength(3);
  });

  it('keeps what differed, and leaves open what nobody wrote', () => {
    const { history } = logged(ROWS, 'log Heron, 2026-12-07, A\n  lift: 80kg 5 5 4 r1 ; 70kg 8 r2');
    const [lift, bells] = history.done[0]?.movements ?? [];
    expect(
      lift?.groups.map(({ loadKg, reserve, sets }) => [loadKg, reserve, sets.map(({ reps }) => reps)]),
    ).toEqual([
      [80, 1, [5, 5, 4]],
      [70, 2, [8]],
    ]);
    expect(bells?.status).toBe('not-written');
    expect(bells?.groups).toEqual([]);
  });

  it('knows skipped movements, both sides, pain and notes', () => {
    const { history } = logged(
      ROWS,
      'log Heron, 2026-12-07\n  lift: skipped "knee"\n  bells: 10kg 8/7 8/8 r2\n  pain: knee 3/10\n  note: "technique steady"',
    );
    const session = history.done[0];
    expect(session?.movements[0]).toMatchObject({ status: 'skipped', skippedReason: 'knee', groups: [] });
    expect(session?.movements[1]?.groups[0]?.sets[0]).toMatchObject({ reps: 8, rightReps: 7 });
    expect(session?.pains).toMatchObject([{ where: 'knee', score: 3, date: '2026-12-07' }]);
    expect(session?.notes).toEqual(['technique steady']);
  });

  it('finds a session that was moved by a day or two when its day is named, and not a far one', () => {
    const near = logged(ROWS, 'log Heron, 2026-12-09, A\n  as planned');
    expect(near.history.done[0]?.session?.date).toBe('2026-12-07');
    const unnamed = logged(ROWS, 'log Heron, 2026-12-09\n  lift: 80kg 5');
    expect(unnamed.history.done[0]?.session).toBeNull();
    const far = logged(ROWS, 'log Heron, 2026-12-02, A\n  as planned');
    expect(far.history.done[0]?.session).toBeNull();
  });

  it('does not bind two logs to one session', () => {
    const { history } = logged(
      ROWS,
      'log Heron, 2026-12-07, A\n  as planned\nlog Heron, 2026-12-08, A\n  as planned',
    );
    expect(history.done.map(({ session }) => session?.date ?? null)).toEqual(['2026-12-07', null]);
  });

  it('keeps a movement that was not planned', () => {
    const { history } = logged(ROWS, 'log Heron, 2026-12-07, A\n  as planned\n  dip: bw+5kg 6 6 r2', {
      client: 'max: lift, 100kg x1, 2026-11-30\n  mass: 60kg, 2026-11-01',
    });
    const dip = history.done[0]?.movements.find(({ key }) => key === 'dip');
    expect(dip).toMatchObject({ cell: null, status: 'done' });
    expect(dip?.groups[0]).toMatchObject({ loadKg: 5, written: 'bw+5kg' });
  });
});

describe('plan against done', () => {
  it('counts sets, reps and volume-load, a pair of dumbbells twice', () => {
    const { plan, history } = logged(
      ROWS,
      'log Heron, 2026-12-07, A\n  as planned\n  lift: 80kg 5 5 4 r1\n  session: rpe 7, 50min',
    );
    const [first, second] = compareSessions(plan, history.done, '2026-12-20');
    // 3 × 5 × 82.5 + 2 × 8 × 2 × 10 = 1237.5 + 320 (sets × reps × load: NSCA).
    expect(first?.planned).toMatchObject({ sets: 5, reps: 31, volumeLoadKg: 1557.5 });
    expect(first?.done).toMatchObject({ sets: 5, reps: 30, volumeLoadKg: 14 * 80 + 320, minutes: 50 });
    expect(first?.state).toBe('done');
    expect(second?.state).toBe('not-logged');
  });

  it('counts adherence as sets done of sets planned, of the days that have come', () => {
    const { plan, history } = logged(
      ROWS,
      'log Heron, 2026-12-07, A\n  lift: 80kg 5 5 5\n  bells: skipped "time"',
    );
    const sessions = compareSessions(plan, history.done, '2026-12-10');
    const weeks = compareWeeks(plan, sessions);
    expect(sessions.map(({ state }) => state)).toEqual(['partly', 'ahead', 'ahead', 'ahead']);
    expect(weeks[0]?.adherence).toBeCloseTo(3 / 5);
    expect(weeks[1]?.adherence).toBeNull();
  });

  it('does not let extra sets of one session make up for another', () => {
    const { plan, history } = logged(
      ROWS,
      'log Heron, 2026-12-07, A\n  as planned\n  lift: 60kg 5 5 5 5 5 5 5 5\nlog Heron, 2026-12-14, A\n  lift: skipped "ill"\n  bells: skipped "ill"',
    );
    const sessions = compareSessions(plan, history.done, '2026-12-15');
    expect(sessions[1]?.state).toBe('skipped');
    const weeks = compareWeeks(plan, sessions);
    expect(weeks.slice(0, 2).map(({ adherence }) => adherence)).toEqual([1, 0]);
  });

  it('shows a log without a planned session as extra', () => {
    const { plan, history } = logged(ROWS, 'log Heron, 2026-12-10\n  lift: 80kg 5 5');
    const extra = compareSessions(plan, history.done, '2026-12-20').find(({ state }) => state === 'extra');
    expect(extra?.done).toMatchObject({ sets: 2, reps: 10, volumeLoadKg: 800 });
  });
});

describe('a swap on the day', () => {
  const SWAPPED =
    'log Heron, 2026-12-07, A\n  as planned\n  swap: lift, to leg press, 60kg 10 10 10 r3, "rack taken"';

  it('is what was done in the place of the planned movement', () => {
    const { history } = logged(ROWS, SWAPPED);
    const movements = history.done[0]?.movements ?? [];
    expect(movements.map(({ key, status }) => [key, status])).toEqual([
      ['leg press', 'done'],
      ['bells', 'as-planned'],
    ]);
    expect(movements[0]).toMatchObject({
      insteadOf: { name: 'lift', reason: 'rack taken' },
      groups: [{ loadKg: 60, reserve: 3, asPlanned: false }],
    });
    expect(movements[0]?.cell?.row.movement).toBe('lift');
  });

  it('counts for the planned movement: the session is done and every planned set with it', () => {
    const { plan, history } = logged(ROWS, SWAPPED);
    const [first] = compareSessions(plan, history.done, '2026-12-08');
    expect(first?.state).toBe('done');
    expect(first?.movements[0]).toMatchObject({
      planned: { sets: 3, reps: 15 },
      // 3 × 10 × 60 kg.
      doneWork: { sets: 3, reps: 30, volumeLoadKg: 1800 },
    });
    expect(compareWeeks(plan, compareSessions(plan, history.done, '2026-12-08'))[0]?.adherence).toBe(1);
  });

  it('takes over the planned sets where none are written, and never the load', () => {
    const { plan, history } = logged(ROWS, 'log Heron, 2026-12-07, A\n  swap: lift, to leg press');
    expect(history.done[0]?.movements[0]?.groups).toMatchObject([{ loadKg: null, asPlanned: true }]);
    const [first] = compareSessions(plan, history.done, '2026-12-08');
    expect(first?.movements[0]?.doneWork).toMatchObject({ sets: 3, reps: 15, volumeLoadKg: 0 });
    // A load of the plan is no load of another movement, even where only the sets were written.
    const sets = logged(ROWS, 'log Heron, 2026-12-07, A\n  swap: lift, to leg press, 10 10');
    expect(sets.history.done[0]?.movements[0]?.groups).toMatchObject([{ loadKg: null, asPlanned: false }]);
  });

  it('is measured as the movement that was done, and says nothing of the next load of the row', () => {
    const logs = ['2026-12-07', '2026-12-14']
      .map((date) => `log Heron, ${date}, A\n  swap: lift, to leg press, 90kg 9 9 9 r3`)
      .join('\n');
    const { history, plan, world } = logged(ROWS, logs);
    expect([...history.estimates.keys()].sort()).toContain('leg press');
    expect(history.estimates.get('lift')?.every(({ set }) => set.from === 'max')).toBe(true);
    const offers = clientOffers(plan, world, '2026-12-15');
    expect(offers.filter(({ kind }) => kind === 'next-load' || kind === 'step-back')).toEqual([]);
  });

  it('finds the row by its label', () => {
    const { history } = logged(
      '  lift: 3x5 r2\n  lift (pause): 2x3 r3\n',
      'log Heron, 2026-12-07, A\n  swap: lift (pause), to leg press, 60kg 10 10',
    );
    expect(history.done[0]?.movements.map(({ key, label, cell }) => [key, label, cell?.row.label])).toEqual([
      ['lift', null, null],
      ['leg press', null, 'pause'],
    ]);
  });

  it('counts a side twice only where the plan wrote it', () => {
    const { plan, history } = logged(
      '  bells: 2x8 10kg /side\n',
      'log Heron, 2026-12-07, A\n  swap: bells, to leg press, 60kg 10 10',
    );
    expect(compareSessions(plan, history.done, null)[0]?.done.reps).toBe(20);
  });
});

describe('programs that follow one another', () => {
  const rows = '  lift: 3x5 r2\n';
  const SPRING = '\nprogram Spring\nblock Mast, 4 weeks\nday A\n  lift: 3x5 r3\n';
  const between = (follows: string) => {
    const { plan, world } = logged(rows, SPRING, {
      follows: `follows: Test, from 2026-12-07, on mon\n  ${follows}`,
    });
    return betweenPrograms(plan, world).map(({ kind, before, after, days, lostSessions }) => ({
      kind,
      until: before.until,
      from: after.from,
      days,
      lostSessions,
    }));
  };

  it('have a gap when more than two weeks lie between them, unless she is away', () => {
    expect(between('follows: Spring, from 2027-01-04, on mon')).toEqual([]);
    // The last session of four weeks is on 28 December; 34 days to 1 February.
    expect(between('follows: Spring, from 2027-02-01, on mon')).toEqual([
      { kind: 'gap', until: '2026-12-28', from: '2027-02-01', days: 34, lostSessions: 0 },
    ]);
    expect(between('follows: Spring, from 2027-02-01, on mon\n  away: 2027-01-02 to 2027-01-28')).toEqual([]);
  });

  it('overlap when the next one begins before the last session of the one before', () => {
    // The sessions of 21 and 28 December are lost.
    expect(between('follows: Spring, from 2026-12-21, on mon')).toEqual([
      { kind: 'overlap', until: '2026-12-14', from: '2026-12-21', days: 8, lostSessions: 2 },
    ]);
    expect(between('follows: Spring, from 2026-12-21, on mon, alongside')).toEqual([]);
  });
});
