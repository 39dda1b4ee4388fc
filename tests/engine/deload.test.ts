import { describe, expect, it } from 'vitest';
import { group, loads, resolve, targets, works } from './studio.js';

/** The max of `lift` is a true single of 100 kg. Week 3 of 4 is a deload. */
const deload3 = { weeks: 4, block: ', deload 3' };

describe('derived deload weeks', () => {
  it.each([
    [1, 1], // 0.6
    [2, 1], // 1.2
    [3, 2], // 1.8
    [4, 2], // 2.4
    [5, 3], // 3
    [6, 4], // 3.6
  ])('%i sets become %i', (before, after) => {
    const cells = resolve(`  lift: ${before}x6 r2`, deload3);
    expect(cells.map((cell) => group(cell).sets)).toEqual([before, before, after, before]);
  });

  it('keep the reps and leave two more', () => {
    // 6 + 4 = 10: 100 × 27/36 = 75.
    const cells = resolve('  lift: 3x6 r2', deload3);
    expect(works(cells)).toEqual(['3x6 r2', '3x6 r2', '2x6 r4', '3x6 r2']);
    expect(targets(cells)).toEqual([80.556, 80.556, 75, 80.556]);
    expect(cells.map((cell) => cell.deload)).toEqual([false, false, true, false]);
  });

  it('keep the growth of the working weeks', () => {
    // 80.556 × 1.1 = 88.611; the deload 88.611 × 27/29 = 82.5.
    expect(targets(resolve('  lift: 3x6 r2 | +10%', deload3))).toEqual([80.556, 88.611, 82.5, 88.611]);
  });

  it('scale a kilogram change with the rest', () => {
    // 80 + 5 = 85; the deload 85 × 27/29 = 79.138; then 85 again.
    expect(targets(resolve('  lift: 3x6 r2 | +5kg', deload3))).toEqual([80.556, 85, 79.138, 85]);
  });

  it('a percentage with a reserve beside it falls along the curve', () => {
    // n = 5 + 2: 80 × share(9)/share(7) = 80 × 28/30 = 74.667.
    expect(targets(resolve('  lift: 3x5 80% r2', deload3))[2]).toBe(74.667);
  });

  it('without a reserve 10 % come off the load', () => {
    expect(targets(resolve('  lift: 3x5 80%', deload3))[2]).toBe(72);
    expect(targets(resolve('  lift: 3x5 60kg', deload3))[2]).toBe(54);
    expect(targets(resolve('  step: 3x8 pack 10kg', deload3))[2]).toBe(9);
  });

  it('of bodyweight movements only the added load gets lighter', () => {
    const client = 'mass: 68kg';
    expect(targets(resolve('  dip: 3x5 bw+10kg', { ...deload3, client }))[2]).toBe(9);
    expect(works(resolve('  dip: 3x5 bw', { ...deload3, client }))).toEqual(['3x5', '3x5', '2x5', '3x5']);
    expect(loads(resolve('  dip: 3x5 bw', { ...deload3, client }))).toEqual([null, null, null, null]);
  });

  it('of a bodyweight movement with a reserve the total falls along the curve', () => {
    // 78 × 36/32 = 87.75; 5 + 4 = 9: × 28/36 = 68.25, less 68 is 0.25: nothing added.
    const client = 'mass: 68kg\n  max: dip, bw+10kg x5, 2026-11-30';
    const cells = resolve('  dip: 3x5 r2', { ...deload3, client });
    expect(targets(cells)).toEqual([5.125, 5.125, 0.25, 5.125]);
    expect(loads(cells)).toEqual([5, 5, null, 5]);
  });

  it('time, distance, intervals and bands lose sets only', () => {
    expect(works(resolve('  plank: 3x30s', deload3))[2]).toBe('2x30s');
    expect(works(resolve('  plank: 6x20s off 100s', deload3))[2]).toBe('4x20s off 100s');
    expect(loads(resolve('  walk: 4x20m 12kg', deload3))).toEqual([12, 12, 12, 12]);
    expect(works(resolve('  walk: 4x20m 12kg', deload3))[2]).toBe('2x20m');
    expect(group(resolve('  pull: 3x12 band medium', deload3)[2])).toMatchObject({ sets: 2, band: 'medium' });
  });

  it('related groups keep their relation', () => {
    // 5 + 3 = 8: 80.556; back-offs × 0.9 = 72.5, two sets of three.
    const cells = resolve('  lift: 1x5 r1 ; 3x5 -10%', deload3);
    expect(targets(cells)[2]).toEqual([80.556, 72.5]);
    expect(works(cells)[2]).toBe('1x5 r3 ; 2x5');
  });

  it('rest on the max of their own date', () => {
    const client = 'max: lift, 100kg x1, 2026-11-30\n  max: lift, 110kg x1, 2026-12-16';
    // Week 3 is 2026-12-21: 110 × 27/36 = 82.5.
    expect(targets(resolve('  lift: 3x6 r2', { ...deload3, client }))[2]).toBe(82.5);
  });

  it('the next week goes on from the last working week', () => {
    // 80 + 2.5 from week 2, not from the deload.
    expect(loads(resolve('  lift: 3x5 80kg | | | +2.5kg', deload3))).toEqual([80, 80, 72.5, 82.5]);
  });

  it('`weekly` changes neither happen nor count there', () => {
    // 80, 82.5, deload 82.5 × 0.9 = 74.25, then 85.
    expect(targets(resolve('  lift: 3x5 80kg | +2.5kg weekly', deload3))).toEqual([80, 82.5, 74.25, 85]);
    expect(targets(resolve('  lift: 3x5 80% | +5% weekly', deload3))).toEqual([80, 84, 75.6, 88.2]);
  });

  it('`no deload` trains on', () => {
    const cells = resolve('  lift: 3x6 r2 no deload', deload3);
    expect(works(cells)).toEqual(['3x6 r2', '3x6 r2', '3x6 r2', '3x6 r2']);
    expect(cells.map((cell) => cell.deload)).toEqual([false, false, false, false]);
  });

  it('`weekly` goes on through a deload that the row does not take', () => {
    expect(targets(resolve('  lift: 3x5 80kg no deload | +2.5kg weekly', deload3))).toEqual([
      80, 82.5, 85, 87.5,
    ]);
  });
});

describe('what is written in a deload week', () => {
  it('overrides what is derived, item by item, and does not carry', () => {
    expect(works(resolve('  lift: 3x6 r2 | | 1x', deload3))).toEqual([
      '3x6 r2',
      '3x6 r2',
      '1x6 r4',
      '3x6 r2',
    ]);
    expect(works(resolve('  lift: 3x6 r2 | | x4', deload3))).toEqual([
      '3x6 r2',
      '3x6 r2',
      '2x4 r4',
      '3x6 r2',
    ]);
  });

  it('an effort written there is taken as written', () => {
    // 6 + 3 = 9: 100 × 28/36 = 77.778.
    const cells = resolve('  lift: 3x6 r2 | | r3', deload3);
    expect(works(cells)[2]).toBe('2x6 r3');
    expect(targets(cells)).toEqual([80.556, 80.556, 77.778, 80.556]);
  });

  it('a load or share written there is taken as written', () => {
    expect(targets(resolve('  lift: 3x5 80kg | | 60kg', deload3))).toEqual([80, 80, 60, 80]);
    expect(targets(resolve('  lift: 3x5 80% | | 65%', deload3))).toEqual([80, 80, 65, 80]);
  });

  it('a change written there is the whole change of load', () => {
    expect(targets(resolve('  lift: 3x5 80kg | | -10kg', deload3))).toEqual([80, 80, 70, 80]);
    expect(targets(resolve('  lift: 3x5 80% | | -15%', deload3))).toEqual([80, 80, 68, 80]);
    // 80.556 × 0.85 = 68.472.
    expect(targets(resolve('  lift: 3x6 r2 | | -15%', deload3))).toEqual([80.556, 80.556, 68.472, 80.556]);
  });

  it('`-` leaves the row out of the deload week', () => {
    expect(resolve('  lift: 3x6 r2 | | - | ', deload3).map((cell) => cell.week)).toEqual([1, 2, 4]);
  });

  it('a text or a test there is for that week', () => {
    const cells = resolve('  lift: 3x6 r2 | | test x3', deload3);
    // Three that leave one: four to failure, 100 × 33/36 = 91.667.
    expect(targets(cells)).toEqual([80.556, 80.556, 91.667, 80.556]);
  });
});

describe('circuits', () => {
  const circuit = (rounds: string, line = '') =>
    `circuit Loop${rounds}\n${line}\n  dip: x8 bw\n  plank: x30s\nend`;

  it('the rounds are the sets', () => {
    const cells = resolve(circuit(', 3 rounds, rest 90s'), { weeks: 2, client: 'mass: 68kg' }, 'dip');
    expect(works(cells)).toEqual(['3x8', '3x8']);
    expect(cells[0]?.row.circuit).toMatchObject({ name: 'Loop', restSeconds: 90 });
  });

  it('`rounds:` changes them by week, and an empty week is as the week before', () => {
    const cells = resolve(circuit('', '  rounds: 2 | | 3'), { weeks: 4, client: 'mass: 68kg' }, 'plank');
    expect(works(cells)).toEqual(['2x30s', '2x30s', '3x30s', '3x30s']);
  });

  it('a deload takes rounds', () => {
    const cells = resolve(circuit(', 3 rounds'), { ...deload3, client: 'mass: 68kg' }, 'dip');
    expect(works(cells)).toEqual(['3x8', '3x8', '2x8', '3x8']);
  });

  it('rounds written in a deload week are taken as written and do not carry', () => {
    const cells = resolve(circuit('', '  rounds: 4 | | 1'), { ...deload3, client: 'mass: 68kg' }, 'dip');
    expect(works(cells)).toEqual(['4x8', '4x8', '1x8', '4x8']);
  });

  it('timed circuits have no number of sets', () => {
    const cells = resolve(circuit(', 12min'), { weeks: 1, client: 'mass: 68kg' }, 'dip');
    expect(group(cells[0]).sets).toBeNull();
    expect(cells[0]?.row.circuit).toMatchObject({ seconds: 720 });
    const every = resolve(circuit(', 5 rounds, every 2min'), { weeks: 1, client: 'mass: 68kg' }, 'dip');
    expect(every[0]?.row.circuit).toMatchObject({ everySeconds: 120 });
    expect(works(every)).toEqual(['5x8']);
  });
});
