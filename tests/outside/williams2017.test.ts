/**
 * Williams et al., Br J Sports Med 2017;51(3):209-210 (abstract): rolling and weighted workload of fictitious athletes.
 * Tolerance: the last printed digit.
 */

import { describe, expect, it } from 'vitest';
import { rollingWorkloadRatio, weightedWorkloadRatio } from '../../server/src/engine/science/workload.js';

const days = (count: number, load: number) => Array.from({ length: count }, () => load);

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
