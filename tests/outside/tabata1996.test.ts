/**
 * Tabata et al., Med Sci Sports Exerc 1996;28(10):1327-1330: 20 s of work and 10 s of recovery, 7 or 8 times, in fit young
 * men, until the load could not be held. Seconds are computed, with the last recovery; tolerance: none.
 */

import { describe, expect, it } from 'vitest';
import { intervals } from './intervals.js';

describe('the protocol', () => {
  it.each([
    ['8x20s off 10s', 240, 160],
    ['7x20s off 10s', 210, 140],
  ] as const)('%s takes %i s, %i of them work', (dose, seconds, work) => {
    expect(intervals(dose).seconds).toBe(seconds);
    expect(intervals(dose).workSeconds).toBe(work);
  });

  it('is told in the first two weeks: it was studied in trained people', () => {
    expect(intervals('8x20s off 10s').told).toBe(true);
  });
});
