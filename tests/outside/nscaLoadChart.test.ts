/**
 * NSCA Training Load Chart (public one-page PDF), worked rows for 2 to 10 and 12 repetitions. Tolerance: none but the noise
 * of binary fractions. The textbook's table (Haff & Triplett, Essentials, 4th ed., 2016, table 17.7) has the same values up
 * to 10; beyond, the two disagree and the chart is followed.
 */

import { describe, expect, it } from 'vitest';
import { curve, estimateFromSet } from '../../server/src/engine/curves.js';

/** 1RM from a set, in the unit of the load. */
function estimate(load: number, reps: number): number {
  const result = estimateFromSet(curve('table'), load, reps);
  if ('beyondDomain' in result) throw new Error(`no estimate for ${reps} repetitions`);
  return result.estimatedOneRepMaxKg;
}

describe('NSCA Training Load Chart', () => {
  const columns = [2, 3, 4, 5, 6, 7, 8, 9, 10, 12];
  const rows: [number, number[]][] = [
    [40, [38, 37.2, 36, 34.8, 34, 33.2, 32, 30.8, 30, 28]],
    [100, [95, 93, 90, 87, 85, 83, 80, 77, 75, 70]],
    [150, [142.5, 139.5, 135, 130.5, 127.5, 124.5, 120, 115.5, 112.5, 105]],
    [200, [190, 186, 180, 174, 170, 166, 160, 154, 150, 140]],
    [250, [237.5, 232.5, 225, 217.5, 212.5, 207.5, 200, 192.5, 187.5, 175]],
    [300, [285, 279, 270, 261, 255, 249, 240, 231, 225, 210]],
  ];

  it.each(rows)('row of a 1RM of %d, both ways', (oneRepMax, loads) => {
    loads.forEach((load, index) => {
      const reps = columns[index] as number;
      expect(oneRepMax * curve('table').share(reps)).toBeCloseTo(load, 9);
      expect(curve('table').reps(load / oneRepMax)).toBeCloseTo(reps, 9);
      expect(estimate(load, reps)).toBeCloseTo(oneRepMax, 9);
    });
  });

  it('leaves 11 to interpolation and ends at 12', () => {
    // The chart prints no 11; the mean of 75 and 70 is this project's own reading.
    expect(curve('table').share(11)).toBeCloseTo(0.725, 12);
    expect(estimateFromSet(curve('table'), 40, 13)).toEqual({ beyondDomain: true });
  });

  it('gives the printed examples', () => {
    // Source: general pages working with the NSCA chart: 135 lb × 10 is a 1RM of 180 lb (75 %).
    expect(estimate(135, 10)).toBeCloseTo(180, 9);
    // Same kind of source: 135 lb × 12 is 192.857 lb (70 %), of which 8 repetitions are 154.286 lb (80 %).
    expect(estimate(135, 12)).toBeCloseTo(192.857, 3);
    expect(estimate(135, 12) * curve('table').share(8)).toBeCloseTo(154.286, 3);
  });
});
