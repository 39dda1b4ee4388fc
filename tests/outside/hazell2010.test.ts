/**
 * Hazell et al., Eur J Appl Physiol 2010 (abstract): 30 s with 4 min, 10 s with 4 min, 10 s with 2 min; 4 times, one more
 * every second session up to 6. Seconds are computed, with the last recovery; tolerance: none.
 */

import { describe, expect, it } from 'vitest';
import { intervals } from './intervals.js';

describe('the three protocols', () => {
  it.each([
    ['4x30s off 240s', 1080, 120],
    ['4x10s off 240s', 1000, 40],
    ['4x10s off 120s', 520, 40],
    ['6x30s off 240s', 1620, 180],
  ] as const)('%s takes %i s, %i of them work', (dose, seconds, work) => {
    expect(intervals(dose).seconds).toBe(seconds);
    expect(intervals(dose).workSeconds).toBe(work);
  });

  it('with 30 s is told in the first two weeks: more than a minute all-out', () => {
    expect(intervals('4x30s off 240s').told).toBe(true);
  });

  it('with 10 s is not', () => {
    expect(intervals('4x10s off 240s').told).toBe(false);
  });
});
