import { describe, expect, it } from 'vitest';
import {
  deloadSets,
  firstAbove,
  formatNumber,
  formatPercent,
  roundTo,
} from '../../server/src/engine/numbers.js';
import { formatMass, toKg } from '../../server/src/engine/units.js';

describe('number text', () => {
  it('takes trailing zeros off and nothing else', () => {
    expect(formatNumber(45)).toBe('45');
    expect(formatNumber(100)).toBe('100');
    expect(formatNumber(47.5)).toBe('47.5');
    expect(formatNumber(1.25)).toBe('1.25');
    expect(formatNumber(45.9166, 3)).toBe('45.917');
    expect(formatNumber(1200, 0)).toBe('1200');
    expect(formatNumber(0.004)).toBe('0');
    expect(formatNumber(-0.004)).toBe('0');
    expect(formatNumber(-2.5)).toBe('-2.5');
  });

  it('rounds as on paper', () => {
    expect(roundTo(1.005, 2)).toBe(1.01);
    expect(roundTo(-1.005, 2)).toBe(-1.01);
    expect(roundTo(0.1 + 0.2, 1)).toBe(0.3);
    expect(roundTo(2.5, 0)).toBe(3);
    expect(formatPercent(45 / 57)).toBe('78.9 %');
  });

  it('prints what is no number without breaking', () => {
    expect(formatNumber(Infinity)).toBe('∞');
    expect(formatNumber(-Infinity)).toBe('-∞');
    expect(formatNumber(Number.NaN)).toBe('?');
  });

  it('prints masses', () => {
    expect(formatMass(45, 'kg')).toBe('45 kg');
    expect(formatMass(47.5, 'kg')).toBe('47.5 kg');
    expect(formatMass(toKg(95, 'lb'), 'lb')).toBe('95 lb');
  });
});

describe('deload sets', () => {
  it('are 40 % fewer, to the nearest, at least one', () => {
    // common practice, no source
    expect([1, 2, 3, 4, 5, 6, 7, 8, 10].map(deloadSets)).toEqual([1, 1, 2, 2, 3, 4, 4, 5, 6]);
    expect(deloadSets(0)).toBe(1);
  });
});

describe('search in ascending values', () => {
  it('finds the first that is greater', () => {
    expect(firstAbove([1, 2, 2, 3], 2)).toBe(3);
    expect(firstAbove([1, 2, 2, 3], 0)).toBe(0);
    expect(firstAbove([1, 2, 2, 3], 3)).toBe(4);
    expect(firstAbove([], 3)).toBe(0);
  });
});
