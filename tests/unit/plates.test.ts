import { describe, expect, it } from 'vitest';
import {
  allBarLoads,
  loadBar,
  type Plate,
  pickLoadIndex,
  platesFor,
} from '../../server/src/engine/plates.js';

const rack: Plate[] = [
  { kg: 1.25, count: 2 },
  { kg: 2.5, count: 2 },
  { kg: 5, count: 4 },
  { kg: 10, count: 4 },
];

describe('which load is taken', () => {
  const loads = [20, 22.5, 25];

  it('counts a load up to 1 % above the target as reached', () => {
    // common practice, no source
    expect(loads[pickLoadIndex(loads, 24.76)]).toBe(25);
    expect(loads[pickLoadIndex(loads, 24.75)]).toBe(22.5);
    expect(loads[pickLoadIndex(loads, 24.99 / 1.01)]).toBe(22.5);
  });

  it('takes an exact load although a heavier one is within 1 %', () => {
    expect([99.5, 100, 100.5, 101][pickLoadIndex([99.5, 100, 100.5, 101], 100)]).toBe(100);
    expect([99.5, 100, 100.5, 101][pickLoadIndex([99.5, 100, 100.5, 101], 100 - 1e-13)]).toBe(100);
  });

  it('takes the lighter of two equally near loads', () => {
    expect([99.5, 100.5][pickLoadIndex([99.5, 100.5], 100)]).toBe(99.5);
    expect(loads[pickLoadIndex(loads, 23.75, 'nearest')]).toBe(22.5);
  });

  it('goes up only when asked for the nearest', () => {
    expect(loads[pickLoadIndex(loads, 24.5, 'down')]).toBe(22.5);
    expect(loads[pickLoadIndex(loads, 24.5, 'nearest')]).toBe(25);
    expect(loads[pickLoadIndex(loads, 400, 'nearest')]).toBe(25);
  });

  it('takes nothing when the lightest is too heavy, also for the nearest', () => {
    expect(pickLoadIndex(loads, 19.8)).toBe(-1);
    expect(pickLoadIndex(loads, 19.8, 'nearest')).toBe(-1);
    expect(pickLoadIndex(loads, 19.81)).toBe(0);
    expect(pickLoadIndex([], 40)).toBe(-1);
  });

  it('takes nothing for a target that is no number', () => {
    for (const target of [Number.NaN, Infinity, -Infinity, -5]) expect(pickLoadIndex(loads, target)).toBe(-1);
  });
});

describe('plates on one side', () => {
  it('uses the fewest plates, then the heaviest', () => {
    // 15 a side: 10 + 5 and not 5 + 5 + ... ; 20 a side: 10 + 10.
    expect(platesFor(45, 15, rack)).toEqual([10, 5]);
    expect(platesFor(55, 15, rack)).toEqual([10, 10]);
    // Two ways with two plates: 15 + 5 goes before 10 + 10.
    const two: Plate[] = [
      { kg: 5, count: 2 },
      { kg: 10, count: 4 },
      { kg: 15, count: 2 },
    ];
    expect(platesFor(60, 20, two)).toEqual([15, 5]);
    // Fewer plates go before heavier ones: 12 + 12 instead of 20 + 2 + 2.
    const fewer: Plate[] = [
      { kg: 20, count: 2 },
      { kg: 12, count: 4 },
      { kg: 2, count: 4 },
    ];
    expect(platesFor(68, 20, fewer)).toEqual([12, 12]);
  });

  it('finds what hanging the heaviest first would miss', () => {
    // 12 a side of 10, 6, 6: greedy stops at 10.
    const plates: Plate[] = [
      { kg: 10, count: 2 },
      { kg: 6, count: 4 },
    ];
    expect(loadBar(44, 20, plates)).toEqual({ loadKg: 44, eachSideKg: [6, 6] });
  });

  it('leaves an odd plate on the floor', () => {
    expect(allBarLoads(20, [{ kg: 5, count: 3 }])).toEqual([20, 30]);
    expect(allBarLoads(20, [{ kg: 5, count: 1 }])).toEqual([20]);
    // Two single ones of the same mass are a pair.
    expect(
      allBarLoads(20, [
        { kg: 5, count: 1 },
        { kg: 5, count: 1 },
      ]),
    ).toEqual([20, 30]);
  });

  it('knows the bar alone and refuses a total that cannot be made', () => {
    expect(platesFor(15, 15, rack)).toEqual([]);
    expect(platesFor(16, 15, rack)).toBeNull();
    expect(platesFor(12.5, 15, rack)).toBeNull();
    expect(platesFor(1000, 15, rack)).toBeNull();
    expect(platesFor(Number.NaN, 15, rack)).toBeNull();
  });

  it('ignores plates that are none', () => {
    const odd: Plate[] = [
      { kg: 0, count: 4 },
      { kg: -5, count: 4 },
      { kg: 5, count: -2 },
      { kg: Number.NaN, count: 2 },
      { kg: 10, count: 2 },
    ];
    expect(allBarLoads(20, odd)).toEqual([20, 40]);
  });

  it('gives fresh lists and keeps its own', () => {
    const first = loadBar(45, 15, rack);
    first?.eachSideKg.push(99);
    expect(loadBar(45, 15, rack)?.eachSideKg).toEqual([10, 5]);
    expect(allBarLoads(15, rack)).toBe(allBarLoads(15, rack));
  });

  it('stays bounded for a rack that nobody owns', () => {
    const absurd = Array.from({ length: 24 }, (_, index) => ({ kg: 1.0137 + index * 0.3719, count: 1000 }));
    const loads = allBarLoads(20, absurd);
    expect(loads.length).toBeLessThanOrEqual(20_000);
    const chosen = loadBar(300, 20, absurd);
    const side = (chosen?.eachSideKg ?? []).reduce((total, kg) => total + kg, 0);
    expect(20 + 2 * side).toBeCloseTo(chosen?.loadKg ?? 0, 6);
    expect(chosen?.loadKg).toBeGreaterThan(299);
  });
});
