/**
 * Curves beside one another, and against an inversion by halving that uses nothing but their shares. Tolerance: that
 * of halving, the eighth decimal; published forms have files of their own.
 */

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { CURVE_NAMES, type CurveName, curve, estimateFromSet } from '../../server/src/engine/curves.js';
import { KG_PER_LB } from '../../server/src/engine/units.js';

/** e1RM or a failed test; the unit of the answer is the unit of the load. */
function estimate(name: CurveName, load: number, reps: number): number {
  const result = estimateFromSet(curve(name), load, reps);
  if ('beyondDomain' in result) throw new Error(`${name} has no estimate for ${reps} repetitions`);
  return result.estimatedOneRepMaxKg;
}

describe('the curves beside one another', () => {
  it('Epley and Brzycki meet at ten repetitions and nowhere else below 20', () => {
    expect(curve('epley').share(10)).toBeCloseTo(curve('brzycki').share(10), 12);
    for (const reps of [2, 5, 9, 11, 15, 20]) {
      const sign = Math.sign(curve('epley').share(reps) - curve('brzycki').share(reps));
      expect(sign).toBe(reps < 10 ? -1 : 1);
    }
  });

  it('spreads at 15 repetitions as widely as the published forms do', () => {
    // Computed over the general forms: 1.31 (Lombardi) to 1.64 (Brzycki).
    const names: CurveName[] = ['epley', 'brzycki', 'lombardi', 'mayhew', 'oconner', 'wathan'];
    const at15 = names.map((name) => 1 / curve(name).share(15));
    expect(Math.min(...at15)).toBeCloseTo(1.311, 3);
    expect(Math.max(...at15)).toBeCloseTo(1.636, 3);
  });

  it('does not mind the unit', () => {
    fc.assert(
      fc.property(fc.constantFrom(...CURVE_NAMES), fc.integer({ min: 1, max: 12 }), (name, reps) => {
        expect(estimate(name, 95 * KG_PER_LB, reps) / KG_PER_LB).toBeCloseTo(estimate(name, 95, reps), 9);
      }),
    );
  });
});

describe('every curve', () => {
  it.each(CURVE_NAMES)('%s falls strictly over its domain and above the maximum', (name) => {
    const { share, domainMaxReps } = curve(name);
    const steps: number[] = [];
    for (let hundredths = -200; hundredths <= domainMaxReps * 100; hundredths += 1) {
      steps.push(share(hundredths / 100));
    }
    for (let index = 1; index < steps.length; index += 1) {
      expect(steps[index]).toBeLessThan(steps[index - 1] as number);
    }
    // Lowest of all at the end of its domain is Brzycki's 17/36.
    expect(steps.at(-1)).toBeGreaterThanOrEqual(17 / 36);
  });

  it.each(CURVE_NAMES)('%s is inverted as halving inverts it', (name) => {
    const { share, reps, domainMaxReps } = curve(name);
    /** Inverse by halving, using nothing but `share`. */
    const byHalving = (wanted: number): number => {
      let low = -2;
      let high = domainMaxReps;
      for (let step = 0; step < 80; step += 1) {
        const middle = (low + high) / 2;
        if (share(middle) > wanted) low = middle;
        else high = middle;
      }
      return (low + high) / 2;
    };
    fc.assert(
      fc.property(fc.double({ min: share(domainMaxReps), max: share(-1.5), noNaN: true }), (wanted) => {
        expect(reps(wanted)).toBeCloseTo(byHalving(wanted), 8);
      }),
      { numRuns: 300 },
    );
    for (let n = 1; n <= domainMaxReps; n += 0.25) expect(reps(share(n))).toBeCloseTo(n, 9);
  });

  it.each(CURVE_NAMES)('%s says "beyond" past its domain instead of guessing', (name) => {
    const { share, reps, domainMaxReps } = curve(name);
    expect(share(domainMaxReps + 0.01)).toBeNaN();
    expect(reps(share(domainMaxReps))).toBeCloseTo(domainMaxReps, 9);
    expect(reps(share(domainMaxReps) - 1e-6)).toBe(Infinity);
    expect(reps(0)).toBe(Infinity);
    expect(reps(-0.2)).toBe(Infinity);
    expect(reps(Number.NaN)).toBeNull();
    expect(share(Number.NaN)).toBeNaN();
    expect(estimateFromSet(curve(name), 50, domainMaxReps + 1)).toEqual({ beyondDomain: true });
    expect(estimateFromSet(curve(name), 50, 0)).toEqual({ beyondDomain: true });
  });

  it.each(CURVE_NAMES)('%s shows less than one repetition above the maximum, and ever less', (name) => {
    const { reps } = curve(name);
    expect(reps(1.01)).toBeLessThan(1);
    expect(reps(1.1)).toBeLessThan(reps(1.05) as number);
    // A triple with a load 20 % above the maximum misses repetitions: its reserve is negative.
    expect((reps(1.2) as number) - 3).toBeLessThan(-2);
  });

  it('reaches 20 repetitions, except the load chart', () => {
    for (const name of CURVE_NAMES) expect(curve(name).domainMaxReps).toBe(name === 'table' ? 12 : 20);
  });
});
