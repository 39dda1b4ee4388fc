/**
 * Epley B. Poundage chart. Boyd Epley Workout. Lincoln NE: Body Enterprises, 1985 (from memory): 1RM = w(1 + r/30). The
 * multipliers are computed from it; tolerance half of the fourth decimal. Its other printed form, w + 0.033 r w, and an
 * example in print (A Christian Guide to Body Stewardship, Diet and Exercise, 3rd ed., appendix E, p. 202: 225 lb × 10 is
 * 299.25 lb) lie within half a per cent.
 */

import { describe, expect, it } from 'vitest';
import { curve, estimateFromSet } from '../../server/src/engine/curves.js';

/** 1RM over load for 2 to 10, 12 and 15 repetitions to failure. */
const PUBLISHED = [
  [2, 1.0667],
  [3, 1.1],
  [4, 1.1333],
  [5, 1.1667],
  [6, 1.2],
  [7, 1.2333],
  [8, 1.2667],
  [9, 1.3],
  [10, 1.3333],
  [12, 1.4],
  [15, 1.5],
] as const;

describe('Epley 1985', () => {
  it.each(PUBLISHED)('%i repetitions: %f times the load, to half of the last digit', (reps, multiplier) => {
    expect(Math.abs(1 / curve('epley').share(reps) - multiplier)).toBeLessThanOrEqual(0.00005);
  });

  it('takes a true single for the maximum, whatever the printed form gives', () => {
    expect(curve('epley').share(1)).toBe(1);
    expect(curve('epley').reps(1)).toBe(1);
  });

  it('lies within half a per cent of its other printed form, and of the example in print', () => {
    for (let reps = 2; reps <= 15; reps += 1) {
      expect(Math.abs(1 / curve('epley').share(reps) / (1 + 0.033 * reps) - 1)).toBeLessThan(0.005);
    }
    const printed = estimateFromSet(curve('epley'), 225, 10);
    expect(printed).toEqual({ estimatedOneRepMaxKg: expect.closeTo(300, 9) });
    expect(300 / 299.25 - 1).toBeLessThan(0.005);
  });
});
