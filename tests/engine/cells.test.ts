import { describe, expect, it } from 'vitest';
import { group, loads, resolve, rounded, targets, works } from './studio.js';

/** The max of `lift` is a true single of 100 kg, and its kit makes every 2.5 kg from 15 on. */

describe('what a cell rests on', () => {
  it('reps and reserve', () => {
    // 6 + 2 = 8: 100 × 29/36 = 80.556, down to 80. The rest: 37 - 36 × 0.8 = 8.2 reps, so 2.2 left.
    const only = group(resolve('  lift: 3x6 r2', { weeks: 1 })[0]);
    expect(rounded(only.targetKg)).toBe(80.556);
    expect(only.loadKg).toBe(80);
    expect(rounded(only.reserve, 2)).toBe(2.2);
    expect(only.share).toBe(0.8);
  });

  it('rpe, in halves', () => {
    // rpe 7.5 leaves 2.5: share(8.5) = 28.5/36 = 79.167 %.
    expect(targets(resolve('  lift: 3x6 rpe 7.5', { weeks: 1 }))).toEqual([79.167]);
  });

  it('a percentage, with the reserve it leaves', () => {
    const only = group(resolve('  lift: 3x5 80%', { weeks: 1 })[0]);
    expect(only).toMatchObject({ loadKg: 80, writtenPercent: 80, writtenReserve: null });
    expect(rounded(only.reserve, 2)).toBe(3.2);
  });

  it('a load, in either unit', () => {
    expect(loads(resolve('  lift: 3x5 42.5kg', { weeks: 1 }))).toEqual([42.5]);
    // 95 lb = 43.091 kg; the kit makes 42.5 below it.
    const cells = resolve('  lift: 3x5 95lb', { weeks: 1 });
    expect(targets(cells)).toEqual([43.091]);
    expect(loads(cells)).toEqual([42.5]);
  });

  it('a load beside an effort: the load holds, the effort is only checked', () => {
    const only = group(resolve('  lift: 3x5 60kg r2', { weeks: 1 })[0]);
    expect(only).toMatchObject({ loadKg: 60, writtenReserve: 2, basis: 'load' });
    const share = group(resolve('  lift: 3x5 60% r2', { weeks: 1 })[0]);
    expect(share).toMatchObject({ loadKg: 60, writtenReserve: 2, basis: 'percent' });
  });

  it('a rep range: the load is for its lower end', () => {
    const cells = resolve('  lift: 3x6-8 r2', { weeks: 1 });
    expect(targets(cells)).toEqual([80.556]);
    expect(group(cells[0])).toMatchObject({ reps: 6, repsUpper: 8 });
  });

  it('open reps have a load only where one is written', () => {
    expect(group(resolve('  lift: 3xmax r2', { weeks: 1 })[0])).toMatchObject({
      openReps: true,
      loadKg: null,
      issue: null,
    });
    expect(group(resolve('  lift: 3xmax 60%', { weeks: 1 })[0])).toMatchObject({
      openReps: true,
      loadKg: 60,
    });
  });

  it('time, distance and intervals', () => {
    expect(works(resolve('  plank: 3x30s', { weeks: 1 }))).toEqual(['3x30s']);
    expect(works(resolve('  walk: 4x20m 12kg', { weeks: 1 }))).toEqual(['4x20m']);
    expect(loads(resolve('  walk: 4x20m 12kg', { weeks: 1 }))).toEqual([12]);
    expect(works(resolve('  plank: 6x20s off 100s', { weeks: 1 }))).toEqual(['6x20s off 100s']);
  });

  it('counts a load up to 1 % above the target as reached', () => {
    // 77 × 1.01 = 77.77, so 77.5 is reached; 76.7 × 1.01 = 77.467 is not.
    expect(loads(resolve('  lift: 3x5 77%', { weeks: 1 }))).toEqual([77.5]);
    expect(loads(resolve('  lift: 3x5 76.7%', { weeks: 1 }))).toEqual([75]);
  });

  it('rounds to the nearest where the client says so', () => {
    const client = 'rounding: nearest\n  max: lift, 100kg x1, 2026-11-30';
    // 76.5 lies between 75 and 77.5, nearer to 77.5; 76 is nearer to 75.
    expect(loads(resolve('  lift: 3x5 76.5%', { weeks: 1, client }))).toEqual([77.5]);
    expect(loads(resolve('  lift: 3x5 76%', { weeks: 1, client }))).toEqual([75]);
  });
});

describe('what carries from week to week', () => {
  it('an empty or missing cell is as the week before', () => {
    expect(works(resolve('  lift: 3x6 r2 | 4x | | x5', { weeks: 6 }))).toEqual([
      '3x6 r2',
      '4x6 r2',
      '4x6 r2',
      '4x5 r2',
      '4x5 r2',
      '4x5 r2',
    ]);
  });

  it('adds small percentages up before rounding', () => {
    // 77, × 1.02 = 78.54, = 80.111, = 81.713. Loads: 77.5 (within 1 %), 77.5, 80, 82.5 (81.713 × 1.01 = 82.530).
    const cells = resolve('  lift: 3x5 77% | +2% | +2% | +2%', { weeks: 5 });
    expect(targets(cells)).toEqual([77, 78.54, 80.111, 81.713, 81.713]);
    expect(loads(cells)).toEqual([77.5, 77.5, 80, 82.5, 82.5]);
  });

  it('`weekly` repeats its change to the end', () => {
    // 80, 80, × 0.95 = 76, = 72.2, = 68.59.
    expect(targets(resolve('  lift: 3x5 80% | | -5% weekly', { weeks: 5 }))).toEqual([
      80, 80, 76, 72.2, 68.59,
    ]);
    expect(targets(resolve('  lift: 3x5 60kg | +2.5kg weekly', { weeks: 4 }))).toEqual([60, 62.5, 65, 67.5]);
    expect(loads(resolve('  lift: 3x5 60kg | up weekly', { weeks: 4 }))).toEqual([60, 62.5, 65, 67.5]);
  });

  it('kilograms start from the load of the week before, not from its target, and hold there', () => {
    // 80.556 became 80 on the bar; 80 + 5 = 85, and 85 stays.
    const cells = resolve('  lift: 3x6 r2 | +5kg | | -2.5kg', { weeks: 4 });
    expect(targets(cells)).toEqual([80.556, 85, 85, 82.5]);
    expect(loads(cells)).toEqual([80, 85, 85, 82.5]);
  });

  it('`up` and `down` go to the next load that the kit can make', () => {
    const cells = resolve('  bells: 3x8 10kg | up | up | down', { weeks: 5 });
    expect(loads(cells)).toEqual([10, 12, 14, 12, 12]);
  });

  it('`up` at the end of the rack stays there', () => {
    expect(loads(resolve('  bells: 3x8 18kg | up | up', { weeks: 3 }))).toEqual([18, 20, 20]);
  });

  it('new reps ask for a new target under a reserve, and the factor stays', () => {
    // 100 × 29/36 × 1.02 = 82.167; then 5 reps: 100 × 30/36 × 1.02 = 85.
    expect(targets(resolve('  lift: 3x6 r2 | +2% | x5', { weeks: 3 }))).toEqual([80.556, 82.167, 85]);
  });

  it('new reps leave a percentage and a load as they are', () => {
    expect(loads(resolve('  lift: 3x5 80% | x3', { weeks: 2 }))).toEqual([80, 80]);
    expect(loads(resolve('  lift: 3x5 60kg | x3', { weeks: 2 }))).toEqual([60, 60]);
  });

  it('a new basis clears factor and offset', () => {
    // 80 × 1.05 = 84; then 80 % anew.
    expect(targets(resolve('  lift: 3x5 80% | +5% | 80%', { weeks: 3 }))).toEqual([80, 84, 80]);
    expect(targets(resolve('  lift: 3x6 r2 | +5kg | r2', { weeks: 3 }))).toEqual([80.556, 85, 80.556]);
  });

  it('`-` leaves one week out, and an empty cell resumes', () => {
    const cells = resolve('  lift: 3x5 80% | - | ', { weeks: 4 });
    expect(cells.map((cell) => cell.week)).toEqual([1, 3, 4]);
    expect(targets(cells)).toEqual([80, 80, 80]);
  });

  it('kilograms after a week left out start from the last week that was done', () => {
    expect(loads(resolve('  lift: 3x5 80kg | - | +2.5kg', { weeks: 3 }))).toEqual([80, 82.5]);
  });

  it('`stop` leaves out from here on', () => {
    expect(resolve('  lift: 3x5 80% | | stop', { weeks: 5 }).map((cell) => cell.week)).toEqual([1, 2]);
  });

  it('`wk5` moves a cell, and the weeks between repeat', () => {
    expect(works(resolve('  lift: 3x6 r2 | wk4 x5 | x4', { weeks: 6 }))).toEqual([
      '3x6 r2',
      '3x6 r2',
      '3x6 r2',
      '3x5 r2',
      '3x4 r2',
      '3x4 r2',
    ]);
  });

  it('side, rest, tempo, height and warm-up carry until they are ended', () => {
    const [one, two, three] = resolve(
      '  lift: 3x5 60kg /side rest 2min tempo 3-1-1 height 45cm warm | | no side no rest no tempo no height no warm',
      { weeks: 3 },
    );
    const said = { perSide: true, restSeconds: 120, tempo: [3, 1, 1], heightCm: 45, warm: true };
    expect(one).toMatchObject(said);
    expect(two).toMatchObject(said);
    expect(three).toMatchObject({
      perSide: false,
      restSeconds: null,
      tempo: null,
      heightCm: null,
      warm: false,
    });
  });

  it('a test is for its week alone', () => {
    // The heaviest five that leave one: six to failure, 100 × 31/36 = 86.111.
    const cells = resolve('  lift: 3x5 80% | test x5 | ', { weeks: 3 });
    expect(targets(cells)).toEqual([80, 86.111, 80]);
    expect(works(cells)).toEqual(['3x5', '1x5 r1', '3x5']);
    expect(cells.map((cell) => cell.test)).toEqual([null, { reps: 5 }, null]);
  });

  it('a test needs no max before it', () => {
    const cells = resolve('  lift: 3x5 r3 | test x5', { weeks: 2, client: 'born: 1980' });
    expect(group(cells[1])).toMatchObject({ loadKg: null, issue: null });
  });
});

describe('a newer max', () => {
  const client = 'max: lift, 100kg x1, 2026-11-30\n  max: lift, 110kg x1, 2026-12-16';

  it('starts again at factor 1', () => {
    // 80, 84, then 80 % of 110 = 88 and not 92.4.
    expect(targets(resolve('  lift: 3x5 80% | +5% | ', { weeks: 4, client }))).toEqual([80, 84, 88, 88]);
  });

  it('starts again at offset 0', () => {
    // 80, 80 + 5 = 85, then 88.
    expect(targets(resolve('  lift: 3x5 80% | +5kg | ', { weeks: 3, client }))).toEqual([80, 85, 88]);
  });

  it('lets later growth count again', () => {
    // 88 in week 3, then + 5 % = 92.4.
    expect(targets(resolve('  lift: 3x5 80% | +5% | | +5%', { weeks: 4, client }))).toEqual([
      80, 84, 88, 92.4,
    ]);
  });

  it('may be lower, and then counts as well', () => {
    const lower = 'max: lift, 100kg x1, 2026-11-30\n  max: lift, 90kg x1, 2026-12-16';
    expect(targets(resolve('  lift: 3x6 r2', { weeks: 3, client: lower }))).toEqual([80.556, 80.556, 72.5]);
  });

  it('leaves a written load alone', () => {
    expect(loads(resolve('  lift: 3x5 60kg | +2.5kg | ', { weeks: 3, client }))).toEqual([60, 62.5, 62.5]);
  });
});
