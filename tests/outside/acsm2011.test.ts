/**
 * ACSM position stand 2011, Garber et al., Med Sci Sports Exerc 43(7):1334-1359 (from memory): 48 hours and more between
 * sessions for one muscle group. Tolerance: none; days are whole.
 */

import { describe, expect, it } from 'vitest';
import { around, found } from '../rules/check.js';

const told = (text: string, code: string) => found(text, code).length > 0;

describe('hours between heavy sessions (48)', () => {
  it.each([
    ['mon tue', true],
    ['mon wed', false],
    ['mon thu', false],
  ])('on %s is told: %s', (on, isTold) => {
    const text = around({ row: 'back squat: 3x5 r2\nday Two\n  back squat: 3x5 r2', on });
    expect(told(text, 'heavy-within-48h')).toBe(isTold);
  });
});
