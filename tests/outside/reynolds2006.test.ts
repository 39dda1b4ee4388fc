/**
 * Reynolds, Gordon, Robergs, J Strength Cond Res 2006;20(3):584-592 (abstract), 70 adults of 18 to 69 years, 5RM only:
 * chest press 1RM = 1.1307 · 5RM + 0.6999 kg (standard error 2.98 kg), leg press 1RM = 1.0970 · 5RM + 14.2546 kg (16.16
 * kg). No more than 10 repetitions should be used in linear equations. Tolerance: the standard errors that the paper
 * states.
 */

import { describe, expect, it } from 'vitest';
import { CURVE_NAMES, type CurveName, curve, estimateFromSet } from '../../server/src/engine/curves.js';
import { around, found } from '../rules/check.js';

const estimate = (name: CurveName, load: number) => {
  const result = estimateFromSet(curve(name), load, 5);
  return 'beyondDomain' in result ? Number.NaN : result.estimatedOneRepMaxKg;
};

describe('one repetition from a set of five', () => {
  it.each([15, 20, 30, 40, 50])(
    'chest press, %i kg: the usual curve lies within the standard error',
    (load) => {
      const published = 1.1307 * load + 0.6999;
      expect(Math.abs(estimate('brzycki', load) - published)).toBeLessThan(2.98);
      expect(estimate('brzycki', load), 'below: the careful side').toBeLessThan(published);
    },
  );

  it.each([80, 100, 150])('leg press, %i kg: within the standard error, and below', (load) => {
    const published = 1.097 * load + 14.2546;
    expect(Math.abs(estimate('brzycki', load) - published)).toBeLessThan(16.16);
    expect(estimate('brzycki', load)).toBeLessThan(published);
  });

  it.each(CURVE_NAMES)('no curve lies above the leg press equation: %s', (name) => {
    for (const load of [80, 100, 150]) expect(estimate(name, load)).toBeLessThan(1.097 * load + 14.2546);
  });

  it('heavy work from more than ten repetitions is told, from ten it is not', () => {
    const from = (reps: number) =>
      found(
        around({
          client: `ready: heavy all 2026-06-01\n  max: back squat, 40kg x${reps}, 2026-11-23`,
          row: 'back squat: 3x5 r1',
        }),
        'max-imprecise',
      ).length;
    expect([from(8), from(10), from(11), from(14)]).toEqual([0, 0, 1, 1]);
  });
});
