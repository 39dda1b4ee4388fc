/**
 * Wathen D. Load assignment. In: Baechle TR (ed), Essentials of Strength Training and Conditioning. Human Kinetics, 1994,
 * 435-446 (from memory, and a public page that files it wrongly): 1RM = 100 w/(48.8 + 53.8 e^(-0.075 r)). The multipliers
 * are computed from it; tolerance half of the fourth decimal.
 */

import { describe, expect, it } from 'vitest';
import { curve } from '../../server/src/engine/curves.js';

/** 1RM over load for 2 to 10, 12 and 15 repetitions to failure. */
const PUBLISHED = [
  [2, 1.0515],
  [3, 1.0898],
  [4, 1.128],
  [5, 1.1658],
  [6, 1.2033],
  [7, 1.2403],
  [8, 1.2767],
  [9, 1.3125],
  [10, 1.3475],
  [12, 1.415],
  [15, 1.5091],
] as const;

describe('Wathen 1994', () => {
  it.each(PUBLISHED)('%i repetitions: %f times the load, to half of the last digit', (reps, multiplier) => {
    expect(Math.abs(1 / curve('wathan').share(reps) - multiplier)).toBeLessThanOrEqual(0.00005);
  });

  it('takes a true single for the maximum, whatever the printed form gives', () => {
    expect(curve('wathan').share(1)).toBe(1);
    expect(curve('wathan').reps(1)).toBe(1);
  });
});
