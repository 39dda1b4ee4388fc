/**
 * Masses against an independent unit library. Tolerance: the sixth decimal, to which that library rounds.
 */

import fc from 'fast-check';
import Qty from 'js-quantities';
import { describe, expect, it } from 'vitest';
import { formatMass, fromKg, KG_PER_LB, toKg } from '../../server/src/engine/units.js';

describe('pounds and kilograms', () => {
  it('agrees with js-quantities both ways', () => {
    fc.assert(
      fc.property(fc.double({ min: 0.01, max: 1000, noNaN: true }), (value) => {
        expect(toKg(value, 'lb')).toBeCloseTo(Qty(value, 'lb').to('kg').scalar, 6);
        expect(fromKg(value, 'lb')).toBeCloseTo(Qty(value, 'kg').to('lb').scalar, 6);
        expect(toKg(value, 'kg')).toBe(value);
      }),
    );
  });

  it('has the exact pound', () => {
    // International pound, 1959: 1 lb = 0.45359237 kg (NIST SP 811 appendix B.8).
    expect(KG_PER_LB).toBe(0.45359237);
    expect(toKg(2.5, 'lb')).toBeCloseTo(1.133980925, 12);
    expect(toKg(45, 'lb')).toBeCloseTo(20.41165665, 12);
    expect(toKg(100, 'lb')).toBeCloseTo(45.359237, 12);
    expect(toKg(225, 'lb')).toBeCloseTo(102.05828325, 12);
    // Computed from the same: a 20 kg bar is 44.09 lb, not 45 lb.
    expect(formatMass(20, 'lb')).toBe('44.09 lb');
    expect(formatMass(15, 'lb')).toBe('33.07 lb');
    expect(formatMass(25, 'lb')).toBe('55.12 lb');
  });

  it('prints what was written', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 0, max: 100_000 }),
        fc.constantFrom('kg', 'lb') as fc.Arbitrary<'kg' | 'lb'>,
        (n, unit) => {
          expect(formatMass(toKg(n / 100, unit), unit)).toBe(`${n / 100} ${unit}`);
        },
      ),
    );
  });
});
