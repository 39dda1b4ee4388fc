/**
 * Low-volume interval training (Gibala model; sports science exchange 139 and PMC5010533, abstract): 10 times 60 s with 60 s.
 * Little et al., J Physiol 2010;588:1011-1022 (from memory): 8 to 12 times 60 s with 75 s. Gillen et al., PLoS ONE 2016 (from
 * memory): 3 times 20 s with 2 min. Burgomaster et al., J Physiol 2008;586:151-160 (from memory): 4 to 6 times 30 s with
 * 4.5 min. Seconds are computed, with the last recovery; tolerance: none.
 */

import { describe, expect, it } from 'vitest';
import { intervals } from './intervals.js';

describe('the protocols', () => {
  it.each([
    ['10x60s off 60s', 1200, 600],
    ['8x60s off 75s', 1080, 480],
    ['12x60s off 75s', 1620, 720],
    ['3x20s off 120s', 420, 60],
    ['6x30s off 270s', 1800, 180],
  ] as const)('%s takes %i s, %i of them work', (dose, seconds, work) => {
    expect(intervals(dose).seconds).toBe(seconds);
    expect(intervals(dose).workSeconds).toBe(work);
  });

  it('of three times 20 s is not told in the first two weeks: a minute all-out in all', () => {
    expect(intervals('3x20s off 120s').told).toBe(false);
  });
});
