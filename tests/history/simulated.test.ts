import { describe, expect, it } from 'vitest';
import {
  ASKED_WEEKS,
  LOAD_LEAST_SHARE,
  LOAD_MOST_SHARE,
  lifterResult,
  SEEDS,
} from '../../server/reference/simulatedLifter.js';

describe('a simulated lifter', () => {
  const results = Array.from({ length: SEEDS }, (_, seed) => lifterResult(seed + 1));
  const runs = results.map(({ asked }) => asked);

  it('has the robust estimate within the stated error of her true strength in 95 of 100 seeds, whenever asked', () => {
    expect(SEEDS).toBe(100);
    for (const [index, week] of ASKED_WEEKS.entries()) {
      const inside = runs.filter((run) => run[index]?.inside).length;
      expect(inside, `week ${week}`).toBeGreaterThanOrEqual(95);
    }
  });

  it('has an error that says something: under a seventh of her strength', () => {
    for (const run of runs) for (const { bandShare } of run) expect(bandShare).toBeLessThan(1 / 7);
  });

  it('is estimated low rather than high on average, as people guess too few repetitions', () => {
    const all = runs.flat().map(({ errorShare }) => errorShare);
    const mean = all.reduce((sum, error) => sum + error, 0) / all.length;
    expect(mean).toBeLessThan(0);
    expect(mean).toBeGreaterThan(-0.08);
  });

  it('is offered a max line that is never above her true strength by more than the stated error, 95 times of 100', () => {
    const good = results.filter(
      ({ offeredShare }) =>
        offeredShare !== null && offeredShare <= LOAD_MOST_SHARE && offeredShare >= LOAD_LEAST_SHARE,
    );
    expect(good.length).toBeGreaterThanOrEqual(95);
  });
});
