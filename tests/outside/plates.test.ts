/**
 * Plates against rule books and against trying out every combination. Tolerance: the noise of binary fractions.
 */

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { allBarLoads, loadBar, type Plate, platesFor } from '../../server/src/engine/plates.js';
import { KG_PER_LB } from '../../server/src/engine/units.js';

/** One pair of every disc. IWF Technical and Competition Rules: 25 to 0.5 kg. */
const IWF_DISCS: Plate[] = [25, 20, 15, 10, 5, 2.5, 2, 1.5, 1, 0.5].map((kg) => ({ kg, count: 2 }));
/** Discs of the IPF technical rules; several pairs of the largest. */
const IPF_DISCS: Plate[] = [
  { kg: 25, count: 8 },
  ...[20, 15, 10, 5, 2.5, 1.25].map((kg) => ({ kg, count: 2 })),
];

describe('competition bars', () => {
  it('loads 60 kg on the 15 kg bar', () => {
    // IWF women's bar 15 kg, no collars: 22.5 kg a side.
    expect(loadBar(60, 15, IWF_DISCS)).toEqual({ loadKg: 60, eachSideKg: [20, 2.5] });
    // With the 2.5 kg collars the bar counts 20 kg: 20 kg a side.
    expect(loadBar(60, 15 + 2 * 2.5, IWF_DISCS)).toEqual({ loadKg: 60, eachSideKg: [20] });
  });

  it('makes every kilogram on the IWF bars and every 2.5 kg on the IPF bar', () => {
    // Smallest pairs 2 × 0.5 kg and 2 × 1.25 kg: steps of 1 and 2.5 kg (from memory of both rule books).
    for (let total = 15; total <= 180; total += 1) {
      expect(allBarLoads(15, IWF_DISCS)).toContain(total);
      expect(loadBar(total, 15, IWF_DISCS)?.loadKg).toBe(total);
    }
    for (let total = 25; total <= 300; total += 2.5) {
      expect(loadBar(total, 25, IPF_DISCS)?.loadKg).toBe(total);
    }
    expect(allBarLoads(25, IPF_DISCS)).not.toContain(26);
  });

  it('loads lightest with the collars at 20 and 25 kg', () => {
    // IWF: women 15 + 2 × 2.5 kg, men 20 + 2 × 2.5 kg.
    expect(allBarLoads(15 + 5, IWF_DISCS)[0]).toBe(20);
    expect(allBarLoads(20 + 5, IWF_DISCS)[0]).toBe(25);
  });

  it('makes 135 and 225 lb with one and two pairs of 45 lb on a 45 lb bar', () => {
    // 1 lb = 0.45359237 kg (NIST SP 811); 225 lb = 102.05828325 kg.
    const pounds = [45, 35, 25, 10, 5, 2.5].map((lb) => ({ kg: lb * KG_PER_LB, count: 4 }));
    const bar = 45 * KG_PER_LB;
    const light = loadBar(135 * KG_PER_LB, bar, pounds);
    expect(light?.eachSideKg).toHaveLength(1);
    expect(light?.loadKg).toBeCloseTo(61.23496995, 10);
    const heavy = loadBar(225 * KG_PER_LB, bar, pounds);
    expect(heavy?.eachSideKg.map((kg) => kg / KG_PER_LB)).toEqual([45, 45]);
    expect(heavy?.loadKg).toBeCloseTo(102.05828325, 10);
  });
});

/** All ways to hang plates on one side, tried out one after another. */
function everySide(plates: readonly Plate[]): number[][] {
  const byMass = new Map<number, number>();
  for (const { kg, count } of plates) byMass.set(kg, (byMass.get(kg) ?? 0) + count);
  let ways: number[][] = [[]];
  for (const [kg, count] of [...byMass].sort((a, b) => b[0] - a[0])) {
    const next: number[][] = [];
    for (const way of ways) {
      for (let used = 0; used <= Math.floor(count / 2); used += 1)
        next.push([...way, ...Array(used).fill(kg)]);
    }
    ways = next;
  }
  return ways;
}

const sum = (values: readonly number[]) => values.reduce((total, value) => total + value, 0);

/** Fewest plates first, then heaviest first. */
function better(a: number[], b: number[]): boolean {
  if (a.length !== b.length) return a.length < b.length;
  const difference = a.findIndex((kg, index) => kg !== b[index]);
  return difference >= 0 && (a[difference] as number) > (b[difference] as number);
}

const kilogramPlate = fc.record({
  kg: fc.constantFrom(0.5, 1, 1.25, 1.5, 2, 2.5, 5, 7.5, 10, 15, 20, 25),
  count: fc.integer({ min: 0, max: 7 }),
});
const poundPlate = fc.record({
  kg: fc.constantFrom(...[2.5, 5, 10, 25, 35, 45].map((lb) => lb * KG_PER_LB)),
  count: fc.integer({ min: 0, max: 5 }),
});

describe('against trying out everything', () => {
  for (const [name, plate] of [
    ['kilogram plates', kilogramPlate],
    ['pound plates', poundPlate],
    ['both in one rack', fc.oneof(kilogramPlate, poundPlate)],
  ] as const) {
    it(`finds the same total and plates: ${name}`, () => {
      fc.assert(
        fc.property(
          fc.array(plate, { maxLength: 5 }),
          fc.constantFrom(8, 15, 20, 45 * KG_PER_LB),
          fc.double({ min: 0, max: 200, noNaN: true }),
          fc.constantFrom('down', 'nearest') as fc.Arbitrary<'down' | 'nearest'>,
          (plates, barKg, targetKg, rounding) => {
            const ways = everySide(plates);
            const allowed = ways.filter(
              (way) => rounding === 'nearest' || barKg + 2 * sum(way) <= targetKg * 1.01 + 1e-9,
            );
            const found = loadBar(targetKg, barKg, plates, 0.01, rounding);
            if (barKg > targetKg * 1.01 + 1e-9) {
              expect(found).toBeNull();
              return;
            }
            const smallestError = Math.min(
              ...allowed.map((way) => Math.abs(barKg + 2 * sum(way) - targetKg)),
            );
            expect(found).not.toBeNull();
            if (!found) return;
            expect(Math.abs(found.loadKg - targetKg)).toBeCloseTo(smallestError, 7);
            expect(barKg + 2 * sum(found.eachSideKg)).toBeCloseTo(found.loadKg, 7);
            // Of all ways to this total, none is better.
            const same = ways.filter((way) => Math.abs(barKg + 2 * sum(way) - found.loadKg) < 1e-7);
            expect(same.some((way) => way.length === found.eachSideKg.length)).toBe(true);
            for (const way of same) expect(better(way, found.eachSideKg.map(nominal(plates)))).toBe(false);
          },
        ),
        { numRuns: 400 },
      );
    });
  }

  it('lists every total once, ascending, and hangs each of them', () => {
    fc.assert(
      fc.property(fc.array(fc.oneof(kilogramPlate, poundPlate), { maxLength: 4 }), (plates) => {
        const totals = everySide(plates)
          .map((way) => 15 + 2 * sum(way))
          .sort((a, b) => a - b)
          .filter((total, index, all) => index === 0 || total - (all[index - 1] as number) > 1e-7);
        const loads = allBarLoads(15, plates);
        expect(loads).toHaveLength(totals.length);
        loads.forEach((kg, index) => {
          expect(kg).toBeCloseTo(totals[index] as number, 7);
        });
        for (let index = 1; index < loads.length; index += 1) {
          expect(loads[index]).toBeGreaterThan(loads[index - 1] as number);
        }
        for (const total of loads) {
          const side = platesFor(total, 15, plates);
          expect(15 + 2 * sum(side ?? [Number.NaN])).toBeCloseTo(total, 7);
        }
      }),
      { numRuns: 150 },
    );
  });
});

/** The stated mass of a plate, so that pound plates compare without noise. */
function nominal(plates: readonly Plate[]): (kg: number) => number {
  return (kg) => plates.find((plate) => Math.abs(plate.kg - kg) < 1e-8)?.kg ?? Number.NaN;
}
