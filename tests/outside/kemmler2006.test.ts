/**
 * Kemmler WK, Lauber D, Wassermann A, Mayhew JL. J Strength Cond Res 2006;20(4) (abstract): trained postmenopausal women,
 * 3 to 20 RM on machines, 1RM = w(0.988 - 0.0000584 r³ + 0.00190 r² + 0.0104 r), coefficient of variation below 3.3 %. The
 * multipliers are computed from it; tolerance half of the fourth decimal.
 */

import { describe, expect, it } from 'vitest';
import { curve } from '../../server/src/engine/curves.js';

/** 1RM over load for 2 to 10, 12 and 15 repetitions to failure. */
const PUBLISHED = [
  [2, 1.0159],
  [3, 1.0347],
  [4, 1.0563],
  [5, 1.0802],
  [6, 1.1062],
  [7, 1.1339],
  [8, 1.1629],
  [9, 1.1929],
  [10, 1.2236],
  [12, 1.2855],
  [15, 1.3744],
] as const;

describe('Kemmler et al. 2006', () => {
  it.each(PUBLISHED)('%i repetitions: %f times the load, to half of the last digit', (reps, multiplier) => {
    expect(Math.abs(1 / curve('kemmler').share(reps) - multiplier)).toBeLessThanOrEqual(0.00005);
  });

  it('takes a true single for the maximum, whatever the printed form gives', () => {
    expect(curve('kemmler').share(1)).toBe(1);
    expect(curve('kemmler').reps(1)).toBe(1);
  });

  it('gives 1 to 0.02 % at one repetition by itself', () => {
    expect(Math.abs(0.988 - 0.0000584 + 0.0019 + 0.0104 - 1)).toBeLessThan(0.0003);
  });

  it('gives seven to nine per cent less than Epley from 6 to 10 repetitions', () => {
    for (const reps of [6, 7, 8, 9, 10]) {
      const ratio = (1 + reps / 30) * curve('kemmler').share(reps);
      expect(1 - 1 / ratio).toBeGreaterThan(0.07);
      expect(1 - 1 / ratio).toBeLessThan(0.09);
    }
  });
});
