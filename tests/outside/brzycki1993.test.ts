/**
 * Brzycki M. J Health Phys Educ Rec Dance 1993;64(1):88-90 (issue from memory): 1RM = 36 w/(37 - r), also printed as
 * w/(1.0278 - 0.0278 r). The multipliers are computed from the first; tolerance half of the fourth decimal. The second, and
 * examples on a public page that quotes it (200 lb × 6 is 232 lb, 220 lb × 4 is 240 lb), lie within half a per cent.
 */

import { describe, expect, it } from 'vitest';
import { curve } from '../../server/src/engine/curves.js';

/** 1RM over load for 2 to 10, 12 and 15 repetitions to failure. */
const PUBLISHED = [
  [2, 1.0286],
  [3, 1.0588],
  [4, 1.0909],
  [5, 1.125],
  [6, 1.1613],
  [7, 1.2],
  [8, 1.2414],
  [9, 1.2857],
  [10, 1.3333],
  [12, 1.44],
  [15, 1.6364],
] as const;

describe('Brzycki 1993', () => {
  it.each(PUBLISHED)('%i repetitions: %f times the load, to half of the last digit', (reps, multiplier) => {
    expect(Math.abs(1 / curve('brzycki').share(reps) - multiplier)).toBeLessThanOrEqual(0.00005);
  });

  it('takes a true single for the maximum, whatever the printed form gives', () => {
    expect(curve('brzycki').share(1)).toBe(1);
    expect(curve('brzycki').reps(1)).toBe(1);
  });

  it('lies within half a per cent of its other printed form', () => {
    for (let reps = 2; reps <= 15; reps += 1) {
      expect(Math.abs((1.0278 - 0.0278 * reps) / curve('brzycki').share(reps) - 1)).toBeLessThan(0.005);
    }
  });

  it.each([
    [200, 6, 232],
    [220, 4, 240],
  ])('%i lb × %i is %i lb in print, rounded', (load, reps, printed) => {
    expect(Math.round(load / curve('brzycki').share(reps))).toBe(printed);
  });

  it('meets Epley at ten repetitions', () => {
    // 1 + 10/30 = 36/27 = 4/3.
    expect(1 / curve('brzycki').share(10)).toBeCloseTo(4 / 3, 12);
  });
});
