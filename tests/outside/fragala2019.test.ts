/**
 * Fragala et al., NSCA position statement on older adults, J Strength Cond Res 2019;33(8):2019-2052 (quoted on public pages):
 * 70 to 85 % of the 1RM, 2 to 3 sets, 2 to 3 days a week; power at 40 to 60 %. ACSM 2009 gives older adults 6 to 10 reps for
 * power (from memory). Tolerance: the published range.
 */

import { describe, expect, it } from 'vitest';
import { around, found, sessionOf } from '../rules/check.js';

const client =
  'born: 1955-03\n  lifting since: 2025-01\n  ready: heavy all 2026-06-01\n  max: back squat, 60kg x1, 2026-11-23';
const told = (aim: string, row: string) =>
  found(
    around({ client, block: 'Keel, 8 weeks', row }).replace(
      'program Winter\n',
      `program Winter\n  aim: ${aim}\n`,
    ),
    'aim-mismatch',
  ).length > 0;

describe('a woman of 71', () => {
  it.each(['2x8 70%', '3x8 75%', '3x6 85%'])('%s serves strength', (dose) => {
    expect(told('strength', `back squat: ${dose}`)).toBe(false);
  });
  it.each(['3x6 40%', '3x10 60%'])('%s serves power', (dose) => {
    expect(told('power', `back squat: ${dose}`)).toBe(false);
  });
  it('has the published share where eight are done with two left', () => {
    const text = around({ client, row: 'back squat: 3x8 r2' });
    const share = sessionOf(text).plan('heron')?.sessions[0]?.cells[0]?.groups[0]?.share ?? 0;
    expect(share).toBeGreaterThanOrEqual(0.7);
    expect(share).toBeLessThanOrEqual(0.85);
  });
});
