/** The worked example of the language reference, number by number. */

import { describe, expect, it } from 'vitest';
import { curve, estimateFromSet } from '../../server/src/engine/curves.js';
import { chooseLoad, type KitModel } from '../../server/src/engine/kit.js';
import { deloadSets, formatNumber, formatPercent } from '../../server/src/engine/numbers.js';
import { stageOfWork } from '../../server/src/engine/stages.js';

const boathouse: KitModel = {
  name: 'Boathouse',
  bars: [{ name: null, kg: 15 }],
  plates: [
    { kg: 1.25, count: 2 },
    { kg: 2.5, count: 2 },
    { kg: 5, count: 4 },
    { kg: 10, count: 4 },
  ],
  dumbbells: Array.from({ length: 10 }, (_, index) => ({ kg: 2 + 2 * index, count: null })),
  kettlebells: [],
  pack: null,
  bands: [],
  machines: {},
};
const barbell = { kind: 'barbell', bar: null } as const;
const { share, reps } = curve('brzycki');

function oneRepMax(loadKg: number, repsToFailure: number): number {
  const estimate = estimateFromSet(curve('brzycki'), loadKg, repsToFailure);
  return 'estimatedOneRepMaxKg' in estimate ? estimate.estimatedOneRepMaxKg : Number.NaN;
}

describe('back squat, 47.5 kg x5 r2', () => {
  const e1rm = oneRepMax(47.5, 7);

  it('is an e1RM of 57.0 kg', () => {
    expect(e1rm).toBeCloseTo(57, 12);
  });

  it.each([
    {
      week: 1,
      doReps: 6,
      target: '45.917',
      loadKg: 45,
      side: [10, 5],
      reserve: '2.58',
      percent: '78.9 %',
      to: 8,
    },
    {
      week: 3,
      doReps: 5,
      target: '47.5',
      loadKg: 47.5,
      side: [10, 5, 1.25],
      reserve: '2',
      percent: '83.3 %',
      to: 7,
    },
  ])('week $week', ({ doReps, target, loadKg, side, reserve, percent, to }) => {
    const targetKg = e1rm * share(to);
    expect(formatNumber(targetKg, 3)).toBe(target);
    const chosen = chooseLoad(boathouse, barbell, targetKg, 'down');
    expect(chosen).toEqual({ loadKg, eachSideKg: side, bar: null });
    const predicted = (reps(loadKg / e1rm) as number) - doReps;
    expect(formatNumber(predicted, 2)).toBe(reserve);
    expect(formatPercent(loadKg / e1rm)).toBe(percent);
    expect(stageOfWork({ reps: doReps, writtenReserve: 2, predictedReserve: predicted })).toBe('heavy');
  });

  it('deload: 2x5 r4 at 42.5 kg', () => {
    const targetKg = (e1rm * share(7) * share(9)) / share(7);
    expect(formatNumber(targetKg, 3)).toBe('44.333');
    expect(chooseLoad(boathouse, barbell, targetKg, 'down')).toEqual({
      loadKg: 42.5,
      eachSideKg: [10, 2.5, 1.25],
      bar: null,
    });
    expect(formatNumber((reps(42.5 / e1rm) as number) - 5, 2)).toBe('5.16');
    expect(formatPercent(42.5 / e1rm)).toBe('74.6 %');
    expect(deloadSets(4)).toBe(2);
  });
});

describe('overhead press, 22.5 kg x6 r2', () => {
  const e1rm = oneRepMax(22.5, 8);
  const first = e1rm * share(11);

  it('grows two per cent a week and stays at 20 kg', () => {
    expect(formatNumber(e1rm, 3)).toBe('27.931');
    expect(formatNumber(first, 3)).toBe('20.172');
    expect(formatNumber(first * 1.02, 3)).toBe('20.576');
    expect(formatNumber(first * 1.02 ** 2, 3)).toBe('20.987');
    for (const weeks of [0, 1, 2]) {
      expect(chooseLoad(boathouse, barbell, first * 1.02 ** weeks, 'down')).toEqual({
        loadKg: 20,
        eachSideKg: [2.5],
        bar: null,
      });
    }
  });

  it('deload: 2 sets of 8 at 17.5 kg', () => {
    const targetKg = (first * 1.02 ** 2 * share(13)) / share(11);
    expect(formatNumber(targetKg, 3)).toBe('19.373');
    expect(chooseLoad(boathouse, barbell, targetKg, 'down')?.loadKg).toBe(17.5);
    expect(deloadSets(3)).toBe(2);
  });

  it('22.5 kg for eight would be 80.6 % with nothing in reserve, heavy work', () => {
    expect(formatPercent(22.5 / e1rm)).toBe('80.6 %');
    const predicted = (reps(22.5 / e1rm) as number) - 8;
    expect(predicted).toBeCloseTo(0, 12);
    expect(stageOfWork({ reps: 8, writtenReserve: 3, predictedReserve: predicted })).toBe('heavy');
    expect(
      stageOfWork({ reps: 8, writtenReserve: 3, predictedReserve: (reps(20 / e1rm) as number) - 8 }),
    ).toBe('load');
  });
});
