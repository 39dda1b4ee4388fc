import { mean, sampleStandardDeviation } from 'simple-statistics';
import { describe, expect, it } from 'vitest';
import { PRILEPIN_ZONES, prilepinZone } from '../../server/src/engine/science/volume.js';
import {
  rollingWorkloadRatio,
  sessionLoad,
  weekLoad,
  weightedWorkloadRatio,
} from '../../server/src/engine/science/workload.js';

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

describe('workload ratios', () => {
  // Williams 2017 on three fictitious athletes: rolling 1.43 for all, weighted 1.25 for the first. 21 days at 300, then
  // 7 at 500 agrees with the first; that these are his data is an inference.
  const loads = [...days(21, 300), ...days(7, 500)];
  it('rolling: 1.43 (Williams 2017)', () => {
    expect(rollingWorkloadRatio(loads)).toBeCloseTo(1.43, 2);
    expect(rollingWorkloadRatio(loads, false)).toBeCloseTo(500 / 300, 12);
  });
  it('weighted: 1.25 (Williams 2017)', () => {
    expect(weightedWorkloadRatio(loads)).toBeCloseTo(1.25, 2);
    expect(weightedWorkloadRatio(loads)).toBeCloseTo(473.303 / 378.72, 4);
  });
  it('tells weeks apart that the rolling ratio does not', () => {
    const rising = [...days(7, 4), ...days(7, 6), ...days(7, 8), ...days(7, 10)];
    expect(rollingWorkloadRatio(rising)).toBeCloseTo(1.4286, 4);
    expect(weightedWorkloadRatio(rising)).toBeCloseTo(1.2744, 4);
  });
  it('says nothing before 28 days', () => {
    expect(rollingWorkloadRatio(days(27, 300))).toBeNull();
    expect(weightedWorkloadRatio([])).toBeNull();
  });
});

describe("Prilepin's table (as quoted by McCullough)", () => {
  it.each([
    [0.6, 24, 18, 30],
    [0.72, 18, 12, 24],
    [0.85, 15, 10, 20],
    [0.92, 7, 4, 10],
  ])('at %d', (share, optimal, from, to) => {
    expect(prilepinZone(share)).toMatchObject({ optimalReps: optimal, range: [from, to] });
  });
  it('starts at 55 % and keeps 90 % below its last row', () => {
    expect(prilepinZone(0.5)).toBeNull();
    expect(prilepinZone(0.9)).toBe(PRILEPIN_ZONES[2]);
  });
});
