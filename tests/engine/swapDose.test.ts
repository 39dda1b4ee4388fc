import { describe, expect, it } from 'vitest';
import { codes, open, resolve, works, workspace } from './studio.js';

const MAXES = 'max: lift, 100kg x1, 2026-11-30\n  max: bells, 20kg x1, 2026-11-30';
const withDose = `${MAXES}\n  swap: lift, to bells, 3x8 r4, "knee"`;
const withoutDose = `${MAXES}\n  swap: lift, to bells, "knee"`;

describe('a swap with a dose of its own takes the whole place of the row', () => {
  it('leaves out the back-offs of the row', () => {
    const row = '  lift: 1x5 r1 ; 3x5 -10% | ; 4x';
    expect(works(resolve(row, { weeks: 2, client: withDose }))).toEqual(['3x8 r4', '3x8 r4']);
    expect(resolve(row, { weeks: 2, client: withoutDose }).map((cell) => cell.groups.length)).toEqual([2, 2]);
  });

  it('is not tested in place of the row', () => {
    const row = '  lift: 3x6 r2 | test x5';
    const cells = resolve(row, { weeks: 2, client: withDose });
    expect(works(cells)).toEqual(['3x8 r4', '3x8 r4']);
    expect(cells.map((cell) => cell.test)).toEqual([null, null]);
    expect(resolve(row, { weeks: 2, client: withoutDose })[1]?.test).toEqual({ reps: 5 });
  });

  it('so that no heavy work reaches somebody who is not signed off for it', () => {
    const row = '  lift: 3x8 r4 | test x3';
    const setting = { weeks: 2, block: ', load', ready: 'load all 2020-01-01' };
    expect(codes(open(workspace(row, { ...setting, client: withDose })).allFindings())).not.toContain(
      'heavy-early',
    );
    expect(codes(open(workspace(row, { ...setting, client: withoutDose })).allFindings())).toContain(
      'heavy-early',
    );
  });
});
