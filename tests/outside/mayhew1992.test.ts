/**
 * Mayhew JL, Ball TE, Arnold MD, Bowen JC. J Appl Sport Sci Res 1992;6(4):200-206 (from memory, and a public page that
 * files it wrongly): 1RM = 100 w/(52.2 + 41.9 e^(-0.055 r)). The multipliers are computed from it; tolerance half of the
 * fourth decimal.
 */

import { describe, expect, it } from 'vitest';
import { curve } from '../../server/src/engine/curves.js';

/** 1RM over load for 2 to 10, 12 and 15 repetitions to failure. */
const PUBLISHED = [
  [2, 1.1144],
  [3, 1.1399],
  [4, 1.1652],
  [5, 1.1901],
  [6, 1.2147],
  [7, 1.239],
  [8, 1.2629],
  [9, 1.2863],
  [10, 1.3093],
  [12, 1.354],
  [15, 1.4172],
] as const;

describe('Mayhew et al. 1992', () => {
  it.each(PUBLISHED)('%i repetitions: %f times the load, to half of the last digit', (reps, multiplier) => {
    expect(Math.abs(1 / curve('mayhew').share(reps) - multiplier)).toBeLessThanOrEqual(0.00005);
  });

  it('takes a true single for the maximum, whatever the printed form gives', () => {
    expect(curve('mayhew').share(1)).toBe(1);
    expect(curve('mayhew').reps(1)).toBe(1);
  });
});
