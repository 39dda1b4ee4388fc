/**
 * Foster, Med Sci Sports Exerc 1998;30(7):1164-1168 (abstract): session load, monotony and strain. Tolerance: the last
 * digit that is given.
 */

import { mean, sampleStandardDeviation } from 'simple-statistics';
import { describe, expect, it } from 'vitest';
import { sessionLoad, weekLoad } from '../../server/src/engine/science/workload.js';

const days = (count: number, load: number) => Array.from({ length: count }, () => load);

describe('session load, monotony and strain (Foster 1998)', () => {
  it('multiplies session effort by minutes', () => {
    expect(sessionLoad(6, 50)).toBe(300);
  });

  // Foster's own worked week was not found; these weeks are computed, with the sample SD, and checked below against a
  // statistics library.
  const weeks = [
    { loads: [300, 0, 420, 0, 300, 180, 0], load: 1200, monotony: 0.981, strain: 1177.64 },
    { loads: [240, 240, 0, 240, 240, 0, 0], load: 960, monotony: 1.069, strain: 1026.28 },
    { loads: [360, 0, 270, 120, 0, 450, 0], load: 1200, monotony: 0.908, strain: 1090.06 },
  ];
  it.each(weeks)('$loads', ({ loads, load, monotony, strain }) => {
    const week = weekLoad(loads);
    expect(week.load).toBe(load);
    expect(week.monotony).toBeCloseTo(monotony, 3);
    expect(week.strain).toBeCloseTo(strain, 2);
    expect(week.monotony).toBeCloseTo(mean(loads) / sampleStandardDeviation(loads), 12);
  });

  it('has no monotony where every day is alike', () => {
    expect(weekLoad(days(7, 100))).toEqual({ load: 700, monotony: null, strain: null });
  });
});
