import { describe, expect, it } from 'vitest';
import { CURVE_NAMES, curve } from '../../server/src/engine/curves.js';
import { createSession } from '../../server/src/engine/session.js';

const first = (max: string, cell: string) => {
  const session = createSession();
  session.setFile(
    'quay.stave',
    `kit Quay
  bar: 15kg
  plates: 0.5kg x2, 1.25kg x2, 2.5kg x2, 5kg x2, 10kg x4
client Heron
  trains at: Quay
  ready: heavy all 2026-01-01
  max: back squat, ${max}, 2026-11-23
  follows: Quay, from 2026-12-07, on mon
program Quay
block One, 1 weeks, heavy
day A
  back squat: ${cell}
`,
  );
  const cell0 = session.plan('heron')?.sessions[0]?.cells[0];
  return { group: cell0?.groups[0], reasons: cell0 ? session.reasons(cell0, 0).map(({ text }) => text) : [] };
};

describe('few reps from a max of many', () => {
  it('uses the curve that gives the lowest load (common practice, no source)', () => {
    // 40 kg × 12 to failure for 5 reps with 1 in reserve: share(6) / share(12) of each curve that reaches so far.
    const loads = CURVE_NAMES.map((name) => (40 * curve(name).share(6)) / curve(name).share(12)).filter(
      Number.isFinite,
    );
    const { group, reasons } = first('40kg x12', '3x5 r1');
    expect(group?.targetKg).toBeCloseTo(Math.min(...loads), 9);
    expect(group?.targetKg).toBeLessThan(40 * (31 / 36 / (25 / 36)));
    expect(reasons.join(' ')).toContain('the lowest load');
  });
  it('leaves work of more reps, and maxes of ten or fewer, to her own curve', () => {
    expect(first('40kg x12', '3x8 r1').group?.targetKg).toBeCloseTo((40 * 28) / 25, 9);
    expect(first('40kg x10', '3x5 r1').group?.targetKg).toBeCloseTo((40 * 31) / 27, 9);
  });
});

describe('the error of an estimate', () => {
  it('stands in the reasons, in kilograms and in reps', () => {
    const { reasons } = first('47.5kg x5 r2', '3x6 r2');
    expect(reasons.find((text) => text.startsWith('Give or take'))).toMatch(
      /^Give or take [\d.]+ kg .*may leave [\d.]+ to [\d.]+ reps\.$/,
    );
  });
  it('is not told of a true single', () => {
    expect(first('60kg x1', '3x6 r2').reasons.some((text) => text.startsWith('Give or take'))).toBe(false);
  });
});
