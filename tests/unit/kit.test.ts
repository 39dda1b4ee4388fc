import { describe, expect, it } from 'vitest';
import {
  availableLoads,
  chooseLoad,
  type Implement,
  type KitModel,
  lightestLoad,
  nextLoad,
} from '../../server/src/engine/kit.js';

const kit: KitModel = {
  name: 'Mill loft',
  bars: [
    { name: null, kg: 15 },
    { name: 'Technique', kg: 8 },
    { name: 'Long', kg: 20 },
  ],
  plates: [
    { kg: 1.25, count: 2 },
    { kg: 2.5, count: 2 },
    { kg: 5, count: 4 },
    { kg: 10, count: 2 },
  ],
  dumbbells: [
    { kg: 5, count: 2 },
    { kg: 3, count: 2 },
    { kg: 8, count: 1 },
    { kg: 4, count: null },
  ],
  kettlebells: [
    { kg: 12, count: null },
    { kg: 8, count: 1 },
  ],
  pack: { fromKg: 2, toKg: 5, stepKg: 1 },
  bands: ['light', 'medium'],
  machines: { 'leg press': { name: 'Leg press', loadsKg: [30, 20, 25, 25], fitsCm: [165, 190] } },
};
const barbell: Implement = { kind: 'barbell', bar: null };

describe('available loads', () => {
  it('adds a lighter bar only below the main bar', () => {
    expect(availableLoads(kit, barbell).slice(0, 6)).toEqual([8, 10.5, 13, 15, 17.5, 20]);
    expect(availableLoads(kit, barbell).at(-1)).toBe(15 + 2 * (10 + 10 + 2.5 + 1.25));
  });

  it('uses a named bar alone, however it is spelt', () => {
    expect(availableLoads(kit, { kind: 'barbell', bar: 'technique' }).slice(0, 3)).toEqual([8, 10.5, 13]);
    expect(availableLoads(kit, { kind: 'barbell', bar: '  LONG ' })[0]).toBe(20);
    expect(availableLoads(kit, { kind: 'barbell', bar: 'trap' })).toEqual([]);
  });

  it('needs two dumbbells for a pair and one for one', () => {
    expect(availableLoads(kit, { kind: 'dumbbells' })).toEqual([3, 4, 5]);
    expect(availableLoads(kit, { kind: 'dumbbell' })).toEqual([3, 4, 5, 8]);
    expect(availableLoads(kit, { kind: 'kettlebell' })).toEqual([8, 12]);
  });

  it('leaves a pack empty or loads it in steps', () => {
    expect(availableLoads(kit, { kind: 'pack' })).toEqual([0, 2, 3, 4, 5]);
    const halves = { ...kit, pack: { fromKg: 0.1, toKg: 0.7, stepKg: 0.1 } };
    expect(availableLoads(halves, { kind: 'pack' })).toHaveLength(8);
    const stepless = { ...kit, pack: { fromKg: 4, toKg: 8, stepKg: 0 } };
    expect(availableLoads(stepless, { kind: 'pack' })).toEqual([0, 4]);
    expect(availableLoads({ ...kit, pack: null }, { kind: 'pack' })).toEqual([]);
  });

  it('sorts the loads of a machine and knows only its own', () => {
    expect(availableLoads(kit, { kind: 'machine', key: 'leg press' })).toEqual([20, 25, 30]);
    expect(availableLoads(kit, { kind: 'machine', key: 'row' })).toEqual([]);
    expect(availableLoads(kit, { kind: 'machine', key: 'constructor' })).toEqual([]);
  });

  it('has no mass for bands and none but her own for bodyweight', () => {
    expect(availableLoads(kit, { kind: 'band' })).toEqual([]);
    expect(availableLoads(kit, { kind: 'bodyweight' })).toEqual([0]);
  });

  it('is worked out once for each kit', () => {
    expect(availableLoads(kit, barbell)).toBe(availableLoads(kit, { kind: 'barbell', bar: null }));
    const bare = { ...kit, bars: [] };
    expect(availableLoads(bare, barbell)).toEqual([]);
    expect(lightestLoad(bare, barbell)).toBeNull();
  });
});

describe('the load for a target', () => {
  it('takes the main bar from its mass on', () => {
    expect(chooseLoad(kit, barbell, 21, 'down')).toEqual({ loadKg: 20, eachSideKg: [2.5], bar: null });
    expect(chooseLoad(kit, barbell, 15, 'down')).toEqual({ loadKg: 15, eachSideKg: [], bar: null });
    // 15 kg lies within 1 % of 14.9 kg and counts as reached.
    expect(chooseLoad(kit, barbell, 14.9, 'down')).toEqual({ loadKg: 15, eachSideKg: [], bar: null });
    // 18 kg (the technique bar with 5 a side) is nearer to 18.2 kg, but the main bar is not left for it.
    expect(chooseLoad(kit, barbell, 18.2, 'down')?.loadKg).toBe(17.5);
  });

  it('takes a lighter bar below it', () => {
    expect(chooseLoad(kit, barbell, 14, 'down')).toEqual({ loadKg: 13, eachSideKg: [2.5], bar: 'Technique' });
    expect(chooseLoad(kit, { kind: 'barbell', bar: 'technique' }, 30, 'down')).toEqual({
      loadKg: 28,
      eachSideKg: [10],
      bar: 'Technique',
    });
  });

  it('uses the heaviest bar that makes a load below the main bar', () => {
    const two: KitModel = {
      ...kit,
      bars: [{ name: null, kg: 20 }, ...[8, 13].map((kg) => ({ name: `${kg}`, kg }))],
    };
    // 13 kg: the 13 kg bar alone, not the 8 kg bar with 2.5 a side.
    expect(chooseLoad(two, barbell, 13, 'down')).toEqual({ loadKg: 13, eachSideKg: [], bar: '13' });
    expect(chooseLoad(two, barbell, 12, 'down')).toEqual({ loadKg: 10.5, eachSideKg: [1.25], bar: '8' });
  });

  it('rounds down unless asked for the nearest', () => {
    const pair: Implement = { kind: 'dumbbells' };
    expect(chooseLoad(kit, pair, 4.9, 'down')).toEqual({ loadKg: 4, eachSideKg: null, bar: null });
    expect(chooseLoad(kit, pair, 4.9, 'nearest')).toEqual({ loadKg: 5, eachSideKg: null, bar: null });
  });

  it('has no load when even the lightest is too heavy', () => {
    expect(chooseLoad(kit, barbell, 7.9, 'down')).toBeNull();
    expect(chooseLoad(kit, { kind: 'dumbbells' }, 2.9, 'nearest')).toBeNull();
    expect(chooseLoad(kit, { kind: 'band' }, 10, 'down')).toBeNull();
    expect(chooseLoad(kit, barbell, Number.NaN, 'down')).toBeNull();
    expect(chooseLoad(kit, { kind: 'bodyweight' }, 0, 'down')?.loadKg).toBe(0);
  });
});

describe('lightest and next load', () => {
  it('steps through what the kit has', () => {
    expect(lightestLoad(kit, barbell)).toBe(8);
    expect(nextLoad(kit, barbell, 13, 'up')).toBe(15);
    expect(nextLoad(kit, barbell, 15, 'down')).toBe(13);
    expect(nextLoad(kit, { kind: 'dumbbells' }, 4, 'up')).toBe(5);
    expect(nextLoad(kit, { kind: 'dumbbells' }, 4.2, 'down')).toBe(4);
    expect(nextLoad(kit, { kind: 'dumbbells' }, 4 + 1e-9, 'up')).toBe(5);
  });

  it('ends where the kit ends', () => {
    expect(nextLoad(kit, { kind: 'dumbbells' }, 5, 'up')).toBeNull();
    expect(nextLoad(kit, { kind: 'dumbbells' }, 3, 'down')).toBeNull();
    expect(nextLoad(kit, { kind: 'band' }, 3, 'up')).toBeNull();
  });
});
