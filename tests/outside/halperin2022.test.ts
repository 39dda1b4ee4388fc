/**
 * Halperin et al., Sports Med 2022;52(2):377-390 (abstract): people tell 0.95 repetitions too few left (95 % CI 0.17 to
 * 1.73). Kemmler et al., J Strength Cond Res 2006;20(4) (abstract): coefficient of variation below 3.3 %. Tolerance:
 * none for the published numbers, the sixth decimal for what is worked out by hand.
 */

import { describe, expect, it } from 'vitest';
import { curve } from '../../server/src/engine/curves.js';
import { CURVE_ERROR_SHARE, errorOf, RESERVE_ERROR_REPS } from '../../server/src/engine/history/estimates.js';

describe('the error of an estimate', () => {
  it('takes the published numbers', () => {
    expect(RESERVE_ERROR_REPS).toBe(0.95);
    expect(RESERVE_ERROR_REPS).toBeGreaterThan(0.17);
    expect(RESERVE_ERROR_REPS).toBeLessThan(1.73);
    expect(CURVE_ERROR_SHARE).toBe(0.033);
  });

  // Brzycki, share(n) = (37 − n)/36, written out here and not taken from the engine.
  const oneRepMax = (load: number, reps: number) => (load * 36) / (37 - reps);
  it.each([
    [47.5, 5, 2],
    [40, 8, 2],
    [60, 3, 1],
  ])('%f kg × %i with %i left: reserve and curve together, by hand', (load, reps, reserve) => {
    const toFailure = reps + reserve;
    const kg = oneRepMax(load, toFailure);
    const ofReserve = (oneRepMax(load, toFailure + 0.95) - oneRepMax(load, toFailure - 0.95)) / 2;
    const both = Math.sqrt(ofReserve ** 2 + (kg * 0.033) ** 2);
    expect(errorOf(kg, reps, reserve, curve('brzycki'))).toBeCloseTo(both, 6);
  });

  it('grows with the repetitions (Mayhew 2008 and Reynolds 2006: fewer than 10 predict better)', () => {
    const share = (reps: number) => errorOf(100, reps, 2, curve('brzycki'));
    expect(share(3)).toBeLessThan(share(6));
    expect(share(6)).toBeLessThan(share(12));
  });
});
