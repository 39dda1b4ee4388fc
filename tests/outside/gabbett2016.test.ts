/**
 * Gabbett, Br J Sports Med 2016;50:273-280 (quoted on a secondary page): 0.8 to 1.3 and 1.5 and more as zones of the ratio of
 * the week to the month. Contested: Impellizzeri et al. 2020 and 2021 find no basis in it for setting load. So it is off by
 * default, information when it is on, and says so. Tolerance: none.
 */

import { describe, expect, it } from 'vitest';
import { RULES } from '../../server/src/engine/rules/index.js';
import { rollingWorkloadRatio } from '../../server/src/engine/science/workload.js';

const days = (count: number, load: number) => Array.from({ length: count }, () => load);
const rule = RULES.find(({ code }) => code === 'workload-ratio');

describe('the ratio of the week to the month', () => {
  it.each([
    // (7 × a) / 7 over (21 × 100 + 7 × a) / 28.
    [80, 80 / 95],
    [100, 1],
    [140, 140 / 110],
    [200, 200 / 125],
  ])('21 days at 100 and 7 at %i give %f', (load, ratio) => {
    expect(rollingWorkloadRatio([...days(21, 100), ...days(7, load)])).toBeCloseTo(ratio, 12);
  });

  it('is told from 1.5 on, only where it is asked for, and called contested', () => {
    expect(rule?.options?.find(({ key }) => key === 'maxRatio')?.default).toBe(1.5);
    expect(rule?.severity).toBe('off');
    expect(rule?.title).toContain('contested');
    expect(rule?.source).toContain('Impellizzeri');
  });
});
