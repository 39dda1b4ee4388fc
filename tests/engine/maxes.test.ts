import { describe, expect, it } from 'vitest';
import { group, loads, resolve, rounded, targets } from './studio.js';

/** Shares of the default curve, Brzycki: (37 - n) / 36, so that share(5) = 32/36 and share(8) = 29/36. */

function maxOf(client: string, setting = {}) {
  return resolve('  lift: 3x5 80%', { client, weeks: 1, ...setting }).map((cell) => group(cell));
}

describe('which max counts', () => {
  it('counts from the day after it was done', () => {
    // Weeks are 12-07, 12-14, 12-21. A max done on 12-14 counts from 12-21: 80 % of 120 is 96.
    const cells = resolve('  lift: 3x5 80%', {
      weeks: 3,
      client: 'max: lift, 100kg x1, 2026-11-30\n  max: lift, 120kg x1, 2026-12-14',
    });
    expect(targets(cells)).toEqual([80, 80, 96]);
  });

  it('counts from a later day where the line says so, with its age from the day it was done', () => {
    const cells = resolve('  lift: 3x5 80%', {
      weeks: 3,
      client: 'max: lift, 100kg x1, 2026-11-30\n  max: lift, 120kg x1, 2026-12-01, from 2026-12-14',
    });
    // Weeks are 12-07, 12-14, 12-21: it counts on the day itself.
    expect(targets(cells)).toEqual([80, 96, 96]);
    expect(group(cells[1] as (typeof cells)[number]).max?.ageDays).toBe(13);
  });

  it('keeps a past week as it was known then, whatever comes later', () => {
    const before = resolve('  lift: 3x5 80%', { weeks: 3 });
    const after = resolve('  lift: 3x5 80%', {
      weeks: 3,
      client: 'max: lift, 100kg x1, 2026-11-30\n  max: lift, 90kg x1, 2026-12-20',
    });
    expect(targets(after).slice(0, 2)).toEqual(targets(before).slice(0, 2));
    expect(targets(after)[2]).toBe(72); // 80 % of 90
  });

  it('takes the newest, even where an older one was higher', () => {
    const [only] = maxOf('max: lift, 120kg x1, 2026-11-01\n  max: lift, 100kg x1, 2026-11-30');
    expect(only?.estimatedOneRepMaxKg).toBe(100);
  });

  it('takes the highest of one day', () => {
    // 90 kg x 3 with 2 left is 5 to failure: 90 × 36/32 = 101.25, more than the single of 100.
    const [only] = maxOf('max: lift, 100kg x1, 2026-11-30\n  max: lift, 90kg x3 r2, 2026-11-30');
    expect(only?.estimatedOneRepMaxKg).toBe(101.25);
  });

  it('adds the reserve to the reps, and takes a true single as it stands', () => {
    expect(maxOf('max: lift, 100kg x1, 2026-11-30')[0]?.estimatedOneRepMaxKg).toBe(100);
    // A single with one left is two to failure: 100 × 36/35 = 102.857.
    expect(rounded(maxOf('max: lift, 100kg x1 r1, 2026-11-30')[0]?.estimatedOneRepMaxKg)).toBe(102.857);
  });

  it('reads pounds', () => {
    // 220 lb = 220 × 0.45359237 = 99.790 kg.
    expect(rounded(maxOf('max: lift, 220lb x1, 2026-11-30')[0]?.estimatedOneRepMaxKg)).toBe(99.79);
  });

  it('prefers a max from 10 or fewer reps that is less than eight weeks older', () => {
    // From 12 reps: 50 × 36/25 = 72. From 5, 55 days earlier: 60 × 36/32 = 67.5.
    const [only] = maxOf('max: lift, 50kg x12, 2026-11-30\n  max: lift, 60kg x5, 2026-10-06');
    expect(only?.estimatedOneRepMaxKg).toBe(67.5);
    expect(only?.max?.entry.date).toBe('2026-10-06');
  });

  it('takes the one from more than 10 reps when the other is eight weeks older', () => {
    // 2026-10-05 to 2026-11-30 is 56 days, so not less than eight weeks: 50 × 36/25 = 72.
    const client = 'max: lift, 50kg x12, 2026-11-30\n  max: lift, 60kg x5, 2026-10-05';
    const only = group(resolve('  lift: 3x10 50%', { client, weeks: 1 })[0]);
    expect(only.estimatedOneRepMaxKg).toBe(72);
    expect(only.provisional).toBe(true);
  });

  it('takes ten reps to failure as few', () => {
    // 8 with 2 left is ten: 50 × 36/27 = 66.667, and no older max is looked for.
    const [only] = maxOf('max: lift, 50kg x8 r2, 2026-11-30\n  max: lift, 60kg x5, 2026-10-20');
    expect(rounded(only?.estimatedOneRepMaxKg)).toBe(66.667);
    expect(only?.provisional).toBe(false);
  });

  it('gives no load from a max beyond the curve', () => {
    const [only] = maxOf('max: lift, 30kg x18 r3, 2026-11-30');
    expect(only).toMatchObject({ loadKg: null, targetKg: null, issue: 'beyond-curve' });
  });

  it('uses a max with a place only there', () => {
    const more = '\nkit Elsewhere\n  bar: 20kg\n  plates: 20kg x6\n';
    const client = 'max: lift, 100kg x1, 2026-10-30\n  max: lift, 120kg x1, 2026-11-30 at Elsewhere';
    expect(maxOf(client, { more })[0]?.estimatedOneRepMaxKg).toBe(100);
    expect(maxOf(client, { more, at: 'trains at: Elsewhere' })[0]?.estimatedOneRepMaxKg).toBe(120);
  });

  it('has no load without a max, only reps and reserve', () => {
    const cells = resolve('  lift: 3x5 r2', { weeks: 1, client: 'born: 1980' });
    expect(group(cells[0])).toMatchObject({
      sets: 3,
      reps: 5,
      writtenReserve: 2,
      loadKg: null,
      issue: 'no-max',
    });
  });
});

describe('estimates', () => {
  const more = '\nmovement squat jump lift\n  pattern: squat\n  with: barbell\n  estimate: 80% of lift\n';

  it('takes the share of the other movement, and calls it provisional', () => {
    // 80 % of 100 is 80; ten with four left: 80 × 23/36 = 51.111.
    const cells = resolve('  squat jump lift: 3x10 r4', { weeks: 1, more });
    expect(targets(cells)).toEqual([51.111]);
    expect(loads(cells)).toEqual([50]);
    expect(group(cells[0])).toMatchObject({ provisional: true, estimatedOneRepMaxKg: 80 });
    expect(group(cells[0]).max?.kind).toBe('estimate');
  });

  it('is never used for heavy sets', () => {
    // Five with two left is seven: heavy (8 or fewer).
    const cells = resolve('  squat jump lift: 3x5 r2', { weeks: 1, more });
    expect(group(cells[0])).toMatchObject({ loadKg: null, issue: 'estimate-too-heavy', eachSideKg: null });
  });

  it('is never used for heavy percentages either', () => {
    const cells = resolve('  squat jump lift: 3x5 85%', { weeks: 1, more });
    expect(group(cells[0])).toMatchObject({ loadKg: null, issue: 'estimate-too-heavy' });
  });

  it('gives way to a max of its own', () => {
    const cells = resolve('  squat jump lift: 3x10 r4', {
      weeks: 1,
      more,
      client: 'max: lift, 100kg x1, 2026-11-30\n  max: squat jump lift, 60kg x1, 2026-06-30',
    });
    expect(group(cells[0]).estimatedOneRepMaxKg).toBe(60);
    expect(group(cells[0]).max?.kind).toBe('max');
  });

  it('follows a chain, and gives nothing in a circle', () => {
    const chain = `${more}\nmovement third\n  with: barbell\n  estimate: 50% of squat jump lift\n`;
    // 50 % of 80 % of 100.
    expect(group(resolve('  third: 3x10 r4', { weeks: 1, more: chain })[0]).estimatedOneRepMaxKg).toBe(40);
    const circle =
      '\nmovement a\n  with: barbell\n  estimate: 50% of b\nmovement b\n  with: barbell\n  estimate: 50% of a\n';
    expect(group(resolve('  a: 3x10 r4', { weeks: 1, more: circle })[0])).toMatchObject({
      loadKg: null,
      issue: 'no-max',
    });
  });
});

describe('curves', () => {
  // e1RM from 47.5 kg x 5 with 2 left (7 to failure), and the target of 6 with 2 left (8 to failure).
  it.each([
    ['brzycki', 57, 45.917], // × 36/30, then × 29/36
    ['epley', 58.583, 46.25], // × (1 + 7/30), then ÷ (1 + 8/30)
    ['mayhew', 58.852, 46.602], // ÷ 0.80711 (52.2 + 41.9 e^-0.385), then × 0.791851
    ['lombardi', 57.704, 46.87], // × 7^0.1 = 1.214814, then × 8^-0.1
    ['wathan', 58.914, 46.145], // ÷ 0.806257 (48.8 + 53.8 e^-0.525), then × 0.783261
    ['oconner', 55.813, 46.51], // × (1 + 7/40), then ÷ (1 + 8/40)
    ['kemmler', 53.859, 46.314], // × (0.988 + 0.0728 + 0.0931 - 0.0200312), then ÷ 1.1628992
    ['table', 57.229, 45.783], // ÷ 0.83, then × 0.80 (NSCA Training Load Chart)
  ])('%s', (name, estimatedKg, targetKg) => {
    const cells = resolve('  lift: 3x6 r2', {
      weeks: 1,
      client: `curve: ${name}\n  max: lift, 47.5kg x5 r2, 2026-11-23`,
    });
    expect(rounded(group(cells[0]).estimatedOneRepMaxKg)).toBe(estimatedKg);
    expect(targets(cells)).toEqual([targetKg]);
  });

  it('changes from its date on', () => {
    const cells = resolve('  lift: 3x6 r2', {
      weeks: 2,
      client: 'curve: epley, from 2026-12-14\n  max: lift, 47.5kg x5 r2, 2026-11-23',
    });
    expect(targets(cells)).toEqual([45.917, 46.25]);
  });

  it('reaches as far as its own domain: the load chart ends at 12', () => {
    const client = 'curve: table\n  max: lift, 100kg x1, 2026-11-30';
    // Ten with two left is twelve: 70 %.
    expect(targets(resolve('  lift: 3x10 r2', { weeks: 1, client }))).toEqual([70]);
    expect(group(resolve('  lift: 3x11 r2', { weeks: 1, client })[0])).toMatchObject({
      loadKg: null,
      issue: 'beyond-curve',
    });
  });

  it('prints a predicted reserve beyond the domain as more than that', () => {
    // 40 % by Brzycki would be 22.6 reps; the curve ends at 20, so with 5 done more than 15 are left.
    const only = group(resolve('  lift: 3x5 40%', { weeks: 1 })[0]);
    expect(only).toMatchObject({ loadKg: 40, reserve: 15, reserveBeyond: true });
  });
});

describe('provisional loads', () => {
  const on = (date: string, more = '') =>
    group(resolve('  lift: 3x5 80%', { weeks: 1, client: `max: lift, 100kg x1, ${date}${more}` })[0])
      .provisional;

  it('come from a max older than eight weeks', () => {
    // 2026-10-12 to 2026-12-07 is 19 + 30 + 7 = 56 days: eight weeks, not older.
    expect(on('2026-10-12')).toBe(false);
    expect(on('2026-10-11')).toBe(true);
  });

  it('come at once after three weeks away', () => {
    // 2026-11-10 to 2026-11-30 are 21 days, the max is 30 days old.
    expect(on('2026-11-07', '\n  away: 2026-11-10 to 2026-11-30')).toBe(true);
    expect(on('2026-11-07', '\n  away: 2026-11-11 to 2026-11-30')).toBe(false);
    expect(on('2026-12-02', '\n  away: 2026-11-10 to 2026-11-30')).toBe(false);
  });

  it('do not come from a load that was written down', () => {
    const cells = resolve('  lift: 3x5 60kg', { weeks: 1, client: 'max: lift, 100kg x1, 2025-11-30' });
    expect(group(cells[0])).toMatchObject({ loadKg: 60, provisional: false });
  });
});
