/**
 * Zourdos et al., J Strength Cond Res 2016;30(1):267-275: the scale of effort by repetitions in reserve, as quoted on
 * public pages; "RPE 10 = 0, RPE 9 = 1, and so forth" stands in the abstract. Tolerance: none.
 */

import { describe, expect, it } from 'vitest';
import { around, sessionOf, syntaxProblems } from '../rules/check.js';

function reserveOf(rpe: string): number | null | undefined {
  const text = around({ row: `back squat: 3x5 rpe ${rpe}` });
  expect(syntaxProblems(text)).toEqual([]);
  return sessionOf(text).plan('heron')?.sessions[0]?.cells[0]?.groups[0]?.writtenReserve;
}

describe('effort of 6 to 10', () => {
  it.each([
    ['10', 0],
    ['9', 1],
    ['8', 2],
    ['7', 3],
  ])('RPE %s leaves %i', (rpe, reserve) => {
    expect(reserveOf(rpe)).toBe(reserve);
  });

  it.each([
    ['8.5', 1, 2],
    ['7.5', 2, 3],
    ['6', 4, 6],
  ])('RPE %s leaves between %i and %i', (rpe, least, most) => {
    expect(reserveOf(rpe)).toBeGreaterThanOrEqual(least);
    expect(reserveOf(rpe)).toBeLessThanOrEqual(most);
  });

  it('RPE 9.5 is printed as none left; half a repetition is counted here, which makes the load lighter', () => {
    expect(reserveOf('9.5')).toBe(0.5);
  });

  it.each(['5', '11', '8.3'])(
    'RPE %s, where the scale is not linear or has no such step, is a mistake',
    (rpe) => {
      expect(syntaxProblems(around({ row: `back squat: 3x5 rpe ${rpe}` })).length).toBeGreaterThan(0);
    },
  );
});
