import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  compareStages,
  higherStage,
  STAGES,
  stageAllows,
  stageOfWork,
} from '../../server/src/engine/stages.js';

const work = (
  reps: number | null,
  writtenReserve: number | null,
  predictedReserve: number | null = null,
) => ({
  reps,
  writtenReserve,
  predictedReserve,
});

// The limits are common practice, no source.
describe('stage of a set', () => {
  it('is heavy up to eight possible repetitions', () => {
    expect(stageOfWork(work(6, 2))).toBe('heavy');
    expect(stageOfWork(work(6, 3))).toBe('load');
    expect(stageOfWork(work(1, 5))).toBe('heavy');
    expect(stageOfWork(work(5, 3 + 1e-12))).toBe('heavy');
  });

  it('is learning from twelve with four in reserve on', () => {
    expect(stageOfWork(work(8, 4))).toBe('learn');
    expect(stageOfWork(work(9, 3))).toBe('load');
    expect(stageOfWork(work(15, 3))).toBe('load');
    expect(stageOfWork(work(7, 4))).toBe('load');
  });

  it('goes by the smaller of written and predicted reserve', () => {
    expect(stageOfWork(work(6, 2, 6))).toBe('heavy');
    expect(stageOfWork(work(6, 6, 2))).toBe('heavy');
    expect(stageOfWork(work(8, 5, 3))).toBe('load');
    expect(stageOfWork(work(8, 5, Infinity))).toBe('learn');
    expect(stageOfWork(work(8, null, 4))).toBe('learn');
    expect(stageOfWork(work(12, 4, -1))).toBe('load');
  });

  it('asks for the higher stage when nothing is known', () => {
    expect(stageOfWork(work(8, null))).toBe('heavy');
    expect(stageOfWork(work(15, null))).toBe('load');
  });

  it('knows light work, work without repetitions and the least stage of a movement', () => {
    expect(stageOfWork({ ...work(5, 1), light: true })).toBe('learn');
    expect(stageOfWork(work(null, null))).toBe('load');
    expect(stageOfWork({ ...work(null, null), light: true })).toBe('learn');
    expect(stageOfWork({ ...work(5, null), light: true, leastStage: 'heavy' })).toBe('heavy');
    expect(stageOfWork({ ...work(15, 5), leastStage: 'load' })).toBe('load');
    expect(stageOfWork({ ...work(5, 1), leastStage: 'learn' })).toBe('heavy');
  });

  it('never falls when the reserve does', () => {
    const reserve = fc.double({ min: -3, max: 15, noNaN: true });
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 20 }), reserve, reserve, reserve, (reps, written, one, other) => {
        const less = stageOfWork(work(reps, written, Math.min(one, other)));
        const more = stageOfWork(work(reps, written, Math.max(one, other)));
        expect(compareStages(less, more)).toBeGreaterThanOrEqual(0);
      }),
    );
  });
});

describe('order of stages', () => {
  it('goes from learn over load to heavy', () => {
    expect([...STAGES].sort(compareStages)).toEqual(['learn', 'load', 'heavy']);
    expect(higherStage('learn', 'heavy')).toBe('heavy');
    expect(higherStage('load', 'learn')).toBe('load');
  });

  it('lets a sign-off cover its own stage and those below', () => {
    expect(stageAllows('load', 'learn')).toBe(true);
    expect(stageAllows('load', 'load')).toBe(true);
    expect(stageAllows('load', 'heavy')).toBe(false);
  });
});
