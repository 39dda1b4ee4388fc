/**
 * IWF Technical and Competition Rules: bars of 20 and 15 kg, collars of 2.5 kg each, discs from 0.5 kg. IPF rules: bar and
 * collars 25 kg, discs from 1.25 kg. Tolerance: the noise of binary fractions.
 */

import { describe, expect, it } from 'vitest';
import { allBarLoads, loadBar } from '../../server/src/engine/plates.js';

const discs = (all: readonly number[]) => all.map((kg) => ({ kg, count: kg >= 20 ? 8 : 2 }));
const IWF = discs([25, 20, 15, 10, 5, 2.5, 2, 1.5, 1, 0.5]);
const IPF = discs([25, 20, 15, 10, 5, 2.5, 1.25]);

describe('bars and discs', () => {
  it.each([
    ["women's bar with collars", 20, IWF, 1],
    ["men's bar with collars", 25, IWF, 1],
    ['powerlifting bar with collars', 25, IPF, 2.5],
  ] as const)('the %s starts at %i kg and rises by the smallest pair', (_, barKg, plates, stepKg) => {
    const [first = 0, second = 0] = allBarLoads(barKg, plates);
    expect(first).toBe(barKg);
    expect(second - first).toBeCloseTo(stepKg, 9);
  });

  it('60 kg are 20 and 2.5 on each side of a bar of 15 kg, and 20 with collars', () => {
    expect(loadBar(60, 15, IWF)?.eachSideKg).toEqual([20, 2.5]);
    expect(loadBar(60, 20, IWF)?.eachSideKg).toEqual([20]);
  });
});
