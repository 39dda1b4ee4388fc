/**
 * Lombardi VP. Beginning Weight Training. Dubuque: WC Brown, 1989 (from memory; general pages agree): 1RM = w r^0.10. The
 * multipliers are computed from it; tolerance half of the fourth decimal.
 */

import { describe, expect, it } from 'vitest';
import { curve } from '../../server/src/engine/curves.js';

/** 1RM over load for 2 to 10, 12 and 15 repetitions to failure. */
const PUBLISHED = [
  [2, 1.0718],
  [3, 1.1161],
  [4, 1.1487],
  [5, 1.1746],
  [6, 1.1962],
  [7, 1.2148],
  [8, 1.2311],
  [9, 1.2457],
  [10, 1.2589],
  [12, 1.2821],
  [15, 1.311],
] as const;

describe('Lombardi 1989', () => {
  it.each(PUBLISHED)('%i repetitions: %f times the load, to half of the last digit', (reps, multiplier) => {
    expect(Math.abs(1 / curve('lombardi').share(reps) - multiplier)).toBeLessThanOrEqual(0.00005);
  });

  it('takes a true single for the maximum, whatever the printed form gives', () => {
    expect(curve('lombardi').share(1)).toBe(1);
    expect(curve('lombardi').reps(1)).toBe(1);
  });
});
