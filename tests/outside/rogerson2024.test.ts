/**
 * Rogerson et al., Sports Med Open 2024;10:26 (abstract): 246 strength and physique athletes deload every 5.6 ± 2.3 weeks, for
 * 6.4 ± 1.7 days, with fewer sets and reps, less load and more in reserve. Tolerance: a standard deviation, in whole weeks.
 */

import { describe, expect, it } from 'vitest';
import { daysBetween } from '../../server/src/engine/dates.js';
import { around, found, sessionOf } from '../rules/check.js';

const told = (text: string, code: string) => found(text, code).length > 0;

describe('a deload (every 5.6 ± 2.3 weeks)', () => {
  const block = (deload: string) => around({ block: `Keel, 12 weeks${deload}`, row: 'back squat: 3x5 r2' });
  it('is asked for in twelve weeks without, and not where it comes every fourth to eighth week', () => {
    expect(told(block(''), 'deload-due')).toBe(true);
    for (const weeks of ['4 8 12', '5 10', '6 12', '8'])
      expect(told(block(`, deload ${weeks}`), 'deload-due')).toBe(false);
  });
});

describe('a deload week (6.4 ± 1.7 days; sets and load down, reserve up)', () => {
  it('has fewer sets, less load and more in reserve for a week, and the same days', () => {
    const text = around({ block: 'Keel, 6 weeks, deload 5', row: 'back squat: 4x6 r2' });
    const cells =
      sessionOf(text)
        .plan('heron')
        ?.sessions.flatMap((session) => session.cells) ?? [];
    expect(cells.map(({ deload }) => deload)).toEqual([false, false, false, false, true, false]);
    const [before, during] = [cells[3]?.groups[0], cells[4]?.groups[0]];
    expect(during?.sets).toBeLessThan(before?.sets ?? 0);
    expect(during?.loadKg).toBeLessThan(before?.loadKg ?? 0);
    expect(during?.reserve).toBeGreaterThan(before?.reserve ?? 99);
    // From the first lighter session to the first full one.
    const days = daysBetween(cells[4]?.date ?? '', cells[5]?.date ?? '');
    expect(days).toBeGreaterThanOrEqual(6.4 - 1.7);
    expect(days).toBeLessThanOrEqual(6.4 + 1.7);
  });
});
