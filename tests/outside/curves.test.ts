/** Curves against published numbers and against independent arithmetic. */

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

describe('NSCA Training Load Chart', () => {
  // Source: NSCA Training Load Chart, worked rows; columns 2 to 10 and 12 repetitions.
  const columns = [2, 3, 4, 5, 6, 7, 8, 9, 10, 12];
  const rows: [number, number[]][] = [
    [40, [38, 37.2, 36, 34.8, 34, 33.2, 32, 30.8, 30, 28]],
    [100, [95, 93, 90, 87, 85, 83, 80, 77, 75, 70]],
    [150, [142.5, 139.5, 135, 130.5, 127.5, 124.5, 120, 115.5, 112.5, 105]],
    [200, [190, 186, 180, 174, 170, 166, 160, 154, 150, 140]],
    [250, [237.5, 232.5, 225, 217.5, 212.5, 207.5, 200, 192.5, 187.5, 175]],
    [300, [285, 279, 270, 261, 255, 249, 240, 231, 225, 210]],
  ];

  it.each(rows)('row of a 1RM of %d, both ways', (oneRepMax, loads) => {
    loads.forEach((load, index) => {
      const reps = columns[index] as number;
      expect(oneRepMax * curve('table').share(reps)).toBeCloseTo(load, 9);
      expect(curve('table').reps(load / oneRepMax)).toBeCloseTo(reps, 9);
      expect(estimate('table', load, reps)).toBeCloseTo(oneRepMax, 9);
    });
  });

  it('leaves 11 to interpolation and ends at 12', () => {
    // The chart prints no 11; the mean of 75 and 70 is this project's own reading.
    expect(curve('table').share(11)).toBeCloseTo(0.725, 12);
    expect(estimateFromSet(curve('table'), 40, 13)).toEqual({ beyondDomain: true });
  });

  it('gives the printed examples', () => {
    // Source: general pages working with the NSCA chart: 135 lb × 10 is a 1RM of 180 lb (75 %).
    expect(estimate('table', 135, 10)).toBeCloseTo(180, 9);
    // Same kind of source: 135 lb × 12 is 192.857 lb (70 %), of which 8 repetitions are 154.286 lb (80 %).
    expect(estimate('table', 135, 12)).toBeCloseTo(192.857, 3);
    expect(estimate('table', 135, 12) * curve('table').share(8)).toBeCloseTo(154.286, 3);
  });
});

describe('published multipliers, 1RM / load', () => {
  // Computed from the published equations (see the `source` of each curve); repetitions 2 to 10, 12 and 15.
  const reps = [2, 3, 4, 5, 6, 7, 8, 9, 10, 12, 15];
  const multipliers: [CurveName, number[]][] = [
    ['epley', [1.0667, 1.1, 1.1333, 1.1667, 1.2, 1.2333, 1.2667, 1.3, 1.3333, 1.4, 1.5]],
    ['brzycki', [1.0286, 1.0588, 1.0909, 1.125, 1.1613, 1.2, 1.2414, 1.2857, 1.3333, 1.44, 1.6364]],
    ['lombardi', [1.0718, 1.1161, 1.1487, 1.1746, 1.1962, 1.2148, 1.2311, 1.2457, 1.2589, 1.2821, 1.311]],
    ['mayhew', [1.1144, 1.1399, 1.1652, 1.1901, 1.2147, 1.239, 1.2629, 1.2863, 1.3093, 1.354, 1.4172]],
    ['oconner', [1.05, 1.075, 1.1, 1.125, 1.15, 1.175, 1.2, 1.225, 1.25, 1.3, 1.375]],
    ['wathan', [1.0515, 1.0898, 1.128, 1.1658, 1.2033, 1.2403, 1.2767, 1.3125, 1.3475, 1.415, 1.5091]],
    ['kemmler', [1.0159, 1.0347, 1.0563, 1.0802, 1.1062, 1.1339, 1.1629, 1.1929, 1.2236, 1.2855, 1.3744]],
  ];

  it.each(multipliers)('%s', (name, expected) => {
    expect(reps.map((n) => Number((1 / curve(name).share(n)).toFixed(4)))).toEqual(expected);
  });

  it('treats a true single as the maximum, whatever the printed form gives', () => {
    for (const name of CURVE_NAMES) {
      expect(curve(name).share(1)).toBe(1);
      expect(curve(name).reps(1)).toBe(1);
      expect(estimate(name, 47.5, 1)).toBe(47.5);
    }
  });
});

describe('printed examples and cross-checks', () => {
  it('Epley with 0.033 lies within half a percent', () => {
    // Source: A Christian Guide to Body Stewardship, Diet and Exercise, 3rd ed., appendix E: 225 lb × 10 is 299.25 lb.
    expect(Math.abs(estimate('epley', 225, 10) / 299.25 - 1)).toBeLessThan(0.005);
    expect(estimate('epley', 225, 10)).toBeCloseTo(300, 9);
    for (let reps = 2; reps <= 15; reps += 1) {
      // Epley's other printed form: (0.033 × reps × load) + load.
      expect(Math.abs(estimate('epley', 100, reps) / (100 * (1 + 0.033 * reps)) - 1)).toBeLessThan(0.005);
    }
  });

  it('Brzycki with 1.0278 lies within half a percent', () => {
    // Source: a public page that quotes the equation: 200 lb × 6 is 232 lb, 220 lb × 4 is 240 lb.
    expect(estimate('brzycki', 200, 6)).toBeCloseTo(232.26, 2);
    expect(Math.round(estimate('brzycki', 200, 6))).toBe(232);
    expect(Math.round(estimate('brzycki', 220, 4))).toBe(240);
    for (let reps = 2; reps <= 15; reps += 1) {
      // Brzycki's other printed form: load / (1.0278 - 0.0278 × reps).
      expect(Math.abs(estimate('brzycki', 100, reps) * (1.0278 - 0.0278 * reps) * 0.01 - 1)).toBeLessThan(
        0.005,
      );
    }
  });

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

  it('Kemmler gives seven to nine percent less than Epley from 6 to 10 repetitions', () => {
    // Computed from both published forms; "about 8 %".
    for (const reps of [6, 7, 8, 9, 10]) {
      const ratio = estimate('kemmler', 100, reps) / estimate('epley', 100, reps);
      expect(1 - ratio).toBeGreaterThan(0.07);
      expect(1 - ratio).toBeLessThan(0.09);
    }
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
