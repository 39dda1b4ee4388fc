import { describe, expect, it } from 'vitest';
import { group, loads, resolve, targets, works } from './studio.js';

/** The max of `lift` is a true single of 100 kg, and its kit makes every 2.5 kg from 15 on. */

describe('set groups', () => {
  it('percent of the target of the group before', () => {
    // 5 + 1 = 6: 100 × 31/36 = 86.111, load 85. The back-offs: 86.111 × 0.9 = 77.5, not 85 × 0.9 = 76.5.
    const cells = resolve('  lift: 1x5 r1 ; 3x5 -10%', { weeks: 1 });
    expect(targets(cells)).toEqual([[86.111, 77.5]]);
    expect(loads(cells)).toEqual([[85, 77.5]]);
  });

  it('kilograms of the load of the group before', () => {
    // 85 - 10 = 75, not 86.111 - 10.
    const cells = resolve('  lift: 1x5 r1 ; 3x5 -10kg', { weeks: 1 });
    expect(targets(cells)).toEqual([[86.111, 75]]);
  });

  it('`down` is the next load below that of the group before', () => {
    expect(loads(resolve('  bells: 1x8 12kg ; 2x8 down', { weeks: 1 }))).toEqual([[12, 10]]);
  });

  it('a related group takes over reps, never effort', () => {
    expect(works(resolve('  lift: 1x5 r1 ; 3x -10%', { weeks: 1 }))).toEqual(['1x5 r1 ; 3x5']);
  });

  it('a group with effort, share or load of its own is independent', () => {
    // 8 + 3 = 11: 100 × 26/36 = 72.222.
    expect(targets(resolve('  lift: 1x5 r1 ; 2x8 r3', { weeks: 1 }))).toEqual([[86.111, 72.222]]);
    expect(targets(resolve('  lift: 1x5 r1 ; 2x8 60%', { weeks: 1 }))).toEqual([[86.111, 60]]);
    expect(targets(resolve('  lift: 1x5 r1 ; 2x8 50kg', { weeks: 1 }))).toEqual([[86.111, 50]]);
  });

  it('a later cell without `;` changes the first group, and what is related follows', () => {
    // + 5 %: 90.417; back-offs × 0.9 = 81.375.
    expect(targets(resolve('  lift: 1x5 r1 ; 3x5 -10% | +5%', { weeks: 2 }))).toEqual([
      [86.111, 77.5],
      [90.417, 81.375],
    ]);
  });

  it('`; 4x` changes the second group', () => {
    expect(works(resolve('  lift: 1x5 r1 ; 3x5 -10% | ; 4x', { weeks: 2 }))).toEqual([
      '1x5 r1 ; 3x5',
      '1x5 r1 ; 4x5',
    ]);
  });

  it('`; -5%` changes how the second is related', () => {
    // 86.111 × 0.95 = 81.806.
    expect(targets(resolve('  lift: 1x5 r1 ; 3x5 -10% | ; -5%', { weeks: 2 }))[1]).toEqual([86.111, 81.806]);
  });

  it('`; +2.5kg` changes an independent second group from its own load', () => {
    expect(loads(resolve('  lift: 1x5 80kg ; 2x8 50kg | ; +2.5kg', { weeks: 2 }))).toEqual([
      [80, 50],
      [80, 52.5],
    ]);
  });

  it('`; -` drops the second group for good', () => {
    expect(works(resolve('  lift: 1x5 r1 ; 3x5 -10% | ; - | ', { weeks: 3 }))).toEqual([
      '1x5 r1 ; 3x5',
      '1x5 r1',
      '1x5 r1',
    ]);
  });

  it('a later cell may add a group', () => {
    expect(loads(resolve('  lift: 1x5 80kg | ; 2x5 -10kg', { weeks: 2 }))).toEqual([80, [80, 70]]);
  });

  it('has no load where the group before has none', () => {
    const cells = resolve('  lift: 1x5 r1 ; 3x5 -10%', { weeks: 1, client: 'born: 1980' });
    expect(group(cells[0], 1)).toMatchObject({ loadKg: null, issue: 'no-max' });
  });
});
