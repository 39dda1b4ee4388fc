/**
 * ACSM screening, Riebe et al., Med Sci Sports Exerc 2015;47(11):2473-2479: clearance goes by activity, known disease or
 * symptoms, and intended intensity. PAR-Q+, Warburton et al. 2011: 12 months or until health changes (from memory). Tolerance:
 * none; days are whole.
 */

import { describe, expect, it } from 'vitest';
import { around, found } from '../rules/check.js';

const of = (screened: string, row: string) =>
  around({
    client: `ready: heavy all 2026-06-01\n  max: back squat, 47.5kg x5 r2, 2026-11-23${screened}`,
    row,
  });
const told = (text: string, code: string) => found(text, code).length > 0;

describe('a screening', () => {
  it('is asked for before vigorous work, and not before moderate work', () => {
    expect(told(of('', 'low hop: 3x5'), 'screening-missing')).toBe(true);
    expect(told(of('', 'hill sprint: 3x10s off 180s'), 'screening-missing')).toBe(true);
    expect(told(of('', 'back squat: 3x8 r3'), 'screening-missing')).toBe(false);
  });
  // The only session of the block is on 2026-12-07.
  const one = (screened: string) =>
    of(`\n  screened: ${screened}`, 'back squat: 3x8 r3').replace('Keel, 4 weeks', 'Keel, 1 week');
  it('counts for twelve months', () => {
    expect(told(one('2025-12-07'), 'screening-old')).toBe(false);
    expect(told(one('2025-12-06'), 'screening-old')).toBe(true);
  });
});
