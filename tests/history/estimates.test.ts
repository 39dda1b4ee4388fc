import { describe, expect, it } from 'vitest';
import { curve } from '../../server/src/engine/curves.js';
import {
  currentEstimate,
  errorOf,
  verdictOf,
  weightedMedian,
} from '../../server/src/engine/history/estimates.js';
import { logged } from './logs.js';

const log = (date: string, line: string) => `log Heron, ${date}\n  lift: ${line}`;

function liftVerdict(logs: readonly string[], on: string) {
  const { plan, world, history } = logged('  lift: 3x5 r2', logs.join('\n'), { weeks: 8 });
  const movement = world.movements.get('lift');
  if (!movement) throw new Error('no lift');
  return verdictOf(plan.client, movement, history.estimates.get('lift') ?? [], on, null, world);
}

describe('an estimate', () => {
  it('is load / share(reps + reserve) with the curve of the client, the best of the day', () => {
    const { history } = logged('  lift: 3x5 r2', log('2026-12-07', '80kg 5 5 5 r2 ; 85kg 3 r1'));
    const day = history.estimates.get('lift')?.find(({ date }) => date === '2026-12-07');
    // Brzycki 1993: 80 × 36/30 = 96; 85 × 36/33 = 92.7.
    expect(day?.kg).toBeCloseTo(96, 9);
  });

  it('uses another curve where the client has one', () => {
    const { history } = logged('  lift: 3x5 r2', log('2026-12-07', '80kg 5 5 5 r2'), {
      client: 'max: lift, 100kg x1, 2026-11-30\n  curve: epley',
    });
    // Epley 1985: 80 × (1 + 7/30) = 98.67.
    expect(history.estimates.get('lift')?.at(-1)?.kg).toBeCloseTo(80 * (1 + 7 / 30), 9);
  });

  it('is not made from sets without a told reserve, nor from sets as planned', () => {
    const { history } = logged(
      '  lift: 3x5 r2',
      `${log('2026-12-07', '80kg 5 5 5')}\nlog Heron, 2026-12-14, A\n  as planned`,
    );
    expect(history.estimates.get('lift')?.map(({ set }) => set.from)).toEqual(['max']);
  });

  it('adds the lifted share of the body for bodyweight movements', () => {
    const { history } = logged('  dip: 2x5', 'log Heron, 2026-12-07\n  dip: bw+10kg 4 r1', {
      client: 'mass: 60kg, 2026-11-01',
    });
    // 70 kg, 5 to failure, Brzycki: 70 × 36/32 = 78.75.
    expect(history.estimates.get('dip')?.[0]?.kg).toBeCloseTo(78.75, 9);
  });

  it('takes the weaker side', () => {
    const { history } = logged('  bells: 2x8 10kg', 'log Heron, 2026-12-07\n  bells: 10kg 8/6 r2');
    expect(history.estimates.get('bells')?.[0]?.set.reps).toBe(6);
  });

  it('has a band from the errors of reserve and curve', () => {
    const brzycki = curve('brzycki');
    // By hand: share(7) = 30/36. One error of 0.95 reps (Halperin 2022): 30/29.05 and 30/30.95, half the difference
    // 3.17 %; the curve 3.3 % (Kemmler 2006); together 4.58 %.
    const reserve = (30 / 29.05 - 30 / 30.95) / 2;
    expect(errorOf(100, 5, 2, brzycki)).toBeCloseTo(100 * Math.hypot(reserve, 0.033), 9);
    expect(errorOf(100, 5, 2, brzycki)).toBeCloseTo(4.577, 2);
    expect(errorOf(100, 1, 0, brzycki)).toBeCloseTo(2, 9);
    expect(errorOf(100, 10, 4, brzycki)).toBeGreaterThan(errorOf(100, 10, 0, brzycki));
  });
});

describe('the robust current estimate', () => {
  it('is a weighted median', () => {
    expect(weightedMedian([3, 1, 2], [1, 1, 1])).toBe(2);
    expect(weightedMedian([1, 2], [1, 1])).toBe(1.5);
    expect(weightedMedian([1, 2, 10], [1, 1, 5])).toBe(10);
  });

  it('is not moved by one slip of the pen: 800 for 80', () => {
    const sets = ['2026-12-07', '2026-12-14', '2026-12-21', '2026-12-28'].map((date) =>
      log(date, '80kg 5 r2'),
    );
    const { history } = logged('  lift: 3x5 r2', [...sets, log('2026-12-30', '800kg 5 r2')].join('\n'));
    const estimates = (history.estimates.get('lift') ?? []).filter(({ set }) => set.from === 'log');
    expect(currentEstimate(estimates, '2026-12-31')?.kg).toBeCloseTo(96, 9);
  });

  it('forgets what is older than eight weeks, and what lies ahead', () => {
    const { history } = logged(
      '  lift: 3x5 r2',
      [log('2026-12-07', '80kg 5 r2'), log('2027-03-01', '90kg 5 r2')].join('\n'),
    );
    const estimates = history.estimates.get('lift') ?? [];
    expect(currentEstimate(estimates, '2027-03-02')?.rests).toHaveLength(1);
    expect(currentEstimate(estimates, '2027-02-28')).toBeNull();
  });
});

describe('what the logs support', () => {
  it('is more than the plan when the sets of two days say so by over one standard error', () => {
    // The plan takes 100 kg; 95 × 36/30 = 114 kg.
    expect(liftVerdict([log('2026-12-07', '95kg 5 r2')], '2026-12-30')?.supports).toBe('unsure');
    const verdict = liftVerdict(
      [log('2026-12-07', '95kg 5 r2'), log('2026-12-14', '95kg 5 r2')],
      '2026-12-30',
    );
    expect(verdict?.supports).toBe('more');
    expect(verdict?.current.kg).toBeCloseTo(114, 9);
    expect(verdict?.plan?.kg).toBe(100);
  });

  it('is less', () => {
    const logs = [log('2026-12-07', '72.5kg 5 r2'), log('2026-12-14', '72.5kg 5 r2')];
    expect(liftVerdict(logs, '2026-12-30')?.supports).toBe('less');
  });

  it('is the same within the error', () => {
    const logs = [log('2026-12-07', '85kg 5 r2'), log('2026-12-14', '85kg 5 r2')];
    expect(liftVerdict(logs, '2026-12-30')?.supports).toBe('same');
  });
});
