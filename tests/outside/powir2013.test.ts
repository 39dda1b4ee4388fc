/**
 * POWIR trial, Winters-Stone et al., Osteoporos Int 2013;24(5), table 1 (PMC3856427): menopausal survivors of breast cancer.
 * Vest of 0 to 2 % of body mass in month 1, 3 to 5 in month 2, 6 to 8 in month 3, 9 to 10 after it; upper body 12 to 14 RM,
 * 10 to 12, 8 to 10, then 6 to 8; up to 10 sets of 10 jumps. Tolerance: the published range.
 */

import { describe, expect, it } from 'vitest';
import { around, found, KIT, sessionOf } from '../rules/check.js';

const client =
  'ready: heavy all 2026-06-01\n  screened: 2026-11-01\n  max: bench press, 47.5kg x5 r2, 2026-11-23';

describe('the upper body', () => {
  it.each([
    ['month 1', 12, 14],
    ['month 2', 10, 12],
    ['month 3', 8, 10],
    ['month 4', 6, 8],
  ])('%s: a load for %i with one left could be lifted up to %i times', (_, least, most) => {
    // Plates of a quarter of a kilogram, so that rounding down costs less than a repetition.
    const kit = KIT.replace('1.25kg x2', '0.25kg x2, 0.5kg x2, 1.25kg x2');
    const text = around({ client, kit, row: `bench press: 3x${least} r1` });
    const group = sessionOf(text).plan('heron')?.sessions[0]?.cells[0]?.groups[0];
    const possible = (group?.reps ?? 0) + (group?.reserve ?? 0);
    expect(possible).toBeGreaterThanOrEqual(least);
    expect(possible).toBeLessThanOrEqual(most);
  });
});

describe('the vest', () => {
  const stage = (kg: number) => {
    const text = around({
      client: 'mass: 60kg, 2026-11-02\n  ready: heavy all 2026-06-01',
      kit: 'kit Boathouse\n  pack: to 10kg by 0.5kg\n',
      row: `vest squat: 3x10 pack ${kg}kg`,
      others: '\nmovement vest squat\n  pattern: squat\n  with: pack\n',
    }).replace('  mass: 68kg, 2026-11-01\n', '');
    return sessionOf(text).plan('heron')?.sessions[0]?.cells[0]?.groups[0]?.stage;
  };
  it.each([1, 3, 4.5, 6])(
    'of %f kg at 60 kg of body mass is learning work, as it was for everybody',
    (kg) => {
      expect(stage(kg)).toBe('learn');
    },
  );
  it('that weighs more than the trial ever had is not', () => {
    expect(stage(6.5)).toBe('load');
  });
});

describe('jumps', () => {
  const told = (dose: string) => found(around({ client, row: `low hop: ${dose}` }), 'far-off').length > 0;
  it('of 10 sets of 10 are not told, 11 are', () => {
    expect(told('10x10')).toBe(false);
    expect(told('11x10')).toBe(true);
  });
});
