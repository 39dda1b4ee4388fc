/**
 * Hackett et al., J Strength Cond Res 2017;31(8):2162-2168 (abstract): 53 men and 28 women tell their repetitions in reserve
 * about 1 wrong with 0 to 5 left, more than 2 wrong with 7 to 10 left. Tolerance: whole repetitions.
 */

import { describe, expect, it } from 'vitest';
import { RESERVE_ERROR_REPS } from '../../server/src/engine/history/estimates.js';
import { around, found } from '../rules/check.js';

const told = (row: string, code: string) => found(around({ row }), code).length > 0;

describe('a reserve that is written', () => {
  it.each([0, 1, 2, 3, 4, 5])('of %i is not told: it can be felt to about one', (reserve) => {
    expect(told(`back squat: 3x6 r${reserve}`, 'far-off')).toBe(false);
  });
  it.each([7, 8, 10])('of %i is told: it is felt more than two wrong', (reserve) => {
    expect(told(`back squat: 3x6 r${reserve}`, 'far-off')).toBe(true);
  });
});

describe('load and reserve side by side', () => {
  // 1RM 57 kg: 40 kg can be lifted 37 - 36 × 40/57 = 11.74 times by Brzycki, 3.74 more than eight.
  it('may differ by a repetition, and not by two', () => {
    expect(told('back squat: 3x8 40kg r4', 'effort-mismatch')).toBe(false);
    expect(told('back squat: 3x8 40kg r3', 'effort-mismatch')).toBe(false);
    expect(told('back squat: 3x8 40kg r2', 'effort-mismatch')).toBe(true);
    expect(told('back squat: 3x8 40kg r6', 'effort-mismatch')).toBe(true);
  });
});

it('the error that is taken for a told reserve is about one repetition', () => {
  expect(Math.round(RESERVE_ERROR_REPS)).toBe(1);
});
