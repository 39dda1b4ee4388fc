/**
 * Metcalfe et al., Eur J Appl Physiol 2012;112:2767-2775 (abstract): sedentary people, 10 s in week 1, 15 s in weeks 2 and
 * 3, 20 s from week 4, one sprint in the first session and two after it, within 10 min. Tolerance: none.
 */

import { describe, expect, it } from 'vitest';
import { intervals } from './intervals.js';

describe('the low dose', () => {
  it.each([['2x20s off 200s', 440, 40]] as const)('%s takes %i s, %i of them work', (dose, seconds, work) => {
    expect(intervals(dose).seconds).toBe(seconds);
    expect(intervals(dose).workSeconds).toBe(work);
  });

  it('is not told in the first two weeks', () => {
    expect(intervals('1x10s off 180s | 2x10s off 180s | 2x15s off 180s | 2x20s off 180s').told).toBe(false);
  });

  it('is told where all of it comes at once, four times over', () => {
    expect(intervals('8x20s off 180s').told).toBe(true);
  });
});
