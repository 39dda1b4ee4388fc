/**
 * Detraining. General reviews (from memory): strength is held for about 3 to 4 weeks without training and falls after
 * that. Older women lost functional gains within a month off (e-jer.org 2013600431, abstract). Tolerance: whole days; the
 * careful end of 3 to 4 weeks is taken.
 */

import { describe, expect, it } from 'vitest';
import { addDays } from '../../server/src/engine/dates.js';
import { around, found } from '../rules/check.js';

/** Away from 2026-12-12 for so many days, between two sessions. */
const away = (days: number, back = ', back at 70%') =>
  around({
    client: `ready: heavy all 2026-06-01\n  max: back squat, 47.5kg x5 r2, 2026-11-30\n  away: 2026-12-12 to ${addDays('2026-12-12', days - 1)}${back}`,
    row: 'back squat: 3x6 r2',
  });

describe('a max from before an absence', () => {
  it.each([14, 20])('of %i days is held', (days) => {
    expect(found(away(days), 'max-stale')).toEqual([]);
  });
  it.each([21, 28])('of %i days is doubtful at once', (days) => {
    expect(found(away(days), 'max-stale')[0]?.message).toContain(`from before ${days} days away`);
  });
});

describe('the first week back', () => {
  const advice = (days: number) => found(away(days, ''), 'back-too-fast')[0]?.message ?? '';
  it('is lighter after two weeks, and much lighter after a month', () => {
    expect(advice(7)).toBe('');
    expect(advice(14)).toContain('Take about 10 % off');
    expect(advice(30)).toContain('Take about 20 % off');
  });
});
