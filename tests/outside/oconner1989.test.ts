/**
 * O'Conner B, Simmons J, O'Shea P. Weight Training Today. St Paul: West, 1989 (from memory): 1RM = w(1 + r/40). The
 * multipliers are computed from it; tolerance half of the fourth decimal.
 */

import { describe, expect, it } from 'vitest';
import { curve } from '../../server/src/engine/curves.js';

/** 1RM over load for 2 to 10, 12 and 15 repetitions to failure. */
const PUBLISHED = [
  [2, 1.05],
  [3, 1.075],
  [4, 1.1],
  [5, 1.125],
  [6, 1.15],
  [7, 1.175],
  [8, 1.2],
  [9, 1.225],
  [10, 1.25],
  [12, 1.3],
  [15, 1.375],
] as const;

describe("O'Conner et al. 1989", () => {
  it.each(PUBLISHED)('%i repetitions: %f times the load, to half of the last digit', (reps, multiplier) => {
    expect(Math.abs(1 / curve('oconner').share(reps) - multiplier)).toBeLessThanOrEqual(0.00005);
  });

  it('takes a true single for the maximum, whatever the printed form gives', () => {
    expect(curve('oconner').share(1)).toBe(1);
    expect(curve('oconner').reps(1)).toBe(1);
  });
});
