import { describe, expect, it } from 'vitest';
import { cellsOf, codes, group, open, rounded, work } from './studio.js';

/** The worked example of the reference, to the digit. */
const EXAMPLE = `kit Boathouse
  bar: 15kg
  plates: 1.25kg x2, 2.5kg x2, 5kg x4, 10kg x4
  dumbbells: 2kg to 20kg by 2kg

client Heron
  born: 1979-03
  trains at: Boathouse
  ready: heavy squat 2026-10-05, load press 2026-06-01
  max: back squat, 47.5kg x5 r2, 2026-11-23
  max: overhead press, 22.5kg x6 r2, 2026-11-23
  follows: Harbour winter, from 2026-12-07, on mon thu

program Harbour winter
  aim: strength

block Keel, 5 weeks, heavy, deload 5
day Lower
  back squat:     3x6 r2 warm rest 3min | 4x | x5        |  |
day Upper
  overhead press: 3x8 r3                |    | +2% weekly
`;

describe('the worked example', () => {
  const session = open(EXAMPLE);

  it('has no problem of the notation', () => {
    expect(session.tree('a.stave')?.problems).toEqual([]);
  });

  const squat = [
    // week, work, target, load, each side, reserve, share in percent
    ['2026-12-07', '3x6 r2', 45.917, 45, [10, 5], 2.58, 78.9],
    ['2026-12-14', '4x6 r2', 45.917, 45, [10, 5], 2.58, 78.9],
    ['2026-12-21', '4x5 r2', 47.5, 47.5, [10, 5, 1.25], 2.0, 83.3],
    ['2026-12-28', '4x5 r2', 47.5, 47.5, [10, 5, 1.25], 2.0, 83.3],
    ['2027-01-04', '2x5 r4', 44.333, 42.5, [10, 2.5, 1.25], 5.16, 74.6],
  ] as const;

  it.each(squat.map((row, index) => [index + 1, ...row] as const))(
    'back squat, week %i',
    (week, date, asked, targetKg, loadKg, eachSideKg, reserve, share) => {
      const cell = cellsOf(session, 'heron', 'back squat')[week - 1];
      const only = group(cell);
      expect(cell?.date).toBe(date);
      expect(cell?.week).toBe(week);
      expect(cell?.deload).toBe(week === 5);
      expect(cell?.warm).toBe(true);
      expect(cell?.restSeconds).toBe(180);
      expect(work(only)).toBe(asked);
      expect(rounded(only.targetKg)).toBe(targetKg);
      expect(only.loadKg).toBe(loadKg);
      expect(only.eachSideKg).toEqual(eachSideKg);
      expect(rounded(only.reserve, 2)).toBe(reserve);
      expect(rounded((only.share ?? 0) * 100, 1)).toBe(share);
      expect(only.estimatedOneRepMaxKg).toBeCloseTo(57, 9);
      expect(only.provisional).toBe(false);
    },
  );

  const press = [
    ['2026-12-10', '3x8 r3', 20.172, 20, [2.5]],
    ['2026-12-17', '3x8 r3', 20.172, 20, [2.5]],
    ['2026-12-24', '3x8 r3', 20.576, 20, [2.5]],
    ['2026-12-31', '3x8 r3', 20.987, 20, [2.5]],
    ['2027-01-07', '2x8 r5', 19.373, 17.5, [1.25]],
  ] as const;

  it.each(press.map((row, index) => [index + 1, ...row] as const))(
    'overhead press, week %i',
    (week, date, asked, targetKg, loadKg, eachSideKg) => {
      const cell = cellsOf(session, 'heron', 'overhead press')[week - 1];
      const only = group(cell);
      expect(cell?.date).toBe(date);
      expect(work(only)).toBe(asked);
      expect(rounded(only.targetKg)).toBe(targetKg);
      expect(only.loadKg).toBe(loadKg);
      expect(only.eachSideKg).toEqual(eachSideKg);
      expect(rounded(only.estimatedOneRepMaxKg)).toBe(27.931);
    },
  );

  it('finds the press stuck, and offers no heavier load above her stage', () => {
    const stuck = session.findings('a.stave').filter((finding) => finding.code === 'stuck');
    expect(stuck).toHaveLength(1);
    expect(EXAMPLE.slice(stuck[0]?.place.span.start, stuck[0]?.place.span.end)).toContain('+2% weekly');
    // 22.5 kg is 22.5 / 27.931 = 80.6 %, nothing in reserve: heavy, and she is signed off for load.
    for (const fix of stuck[0]?.fixes ?? []) {
      for (const edit of fix.edits) expect(edit.newText).not.toContain('22.5');
    }
  });

  it('finds nothing else about loads and names', () => {
    const about = new Set([
      'unknown-name',
      'twice-named',
      'max-unknown',
      'max-stale',
      'heavy-early',
      'jump-load',
      'effort-mismatch',
      'stuck',
      'beyond-kit',
      'stage-unsigned',
      'unused-allow',
    ]);
    expect(codes(session.findings('a.stave')).filter((code) => about.has(code))).toEqual(['stuck']);
    expect(session.findings('a.stave').filter((finding) => finding.severity === 'error')).toEqual([]);
  });
});
