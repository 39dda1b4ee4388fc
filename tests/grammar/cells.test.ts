import { describe, expect, test } from 'vitest';
import { type CellNode, type DayNode, type ProgramNode, parse, type RowNode } from '../../grammar/index.js';

/** The cells of one row in an eight-week block, and the problems of the file. */
function row(
  written: string,
  opener = 'block B, 8 weeks, load',
): { cells: readonly CellNode[]; problems: readonly string[] } {
  const { value, problems } = parse(`program P\n${opener}\nday D\n  squat: ${written}`);
  const program = value.sections[0] as ProgramNode;
  const day = program.blocks[0]?.days[0] as DayNode;
  return { cells: (day.entries[0] as RowNode).cells, problems: problems.map((found) => found.code) };
}

/** The items of the last cell, without their places in the text. */
function items(written: string): unknown[] {
  const { cells, problems } = row(written);
  expect(problems).toEqual([]);
  const last = cells[cells.length - 1] as CellNode;
  return last.groups.map((group) =>
    group.items.map((item) =>
      JSON.parse(JSON.stringify(item, (key, value) => (key === 'span' ? undefined : value))),
    ),
  );
}

const reps = (lower: number, upper = lower) => ({ kind: 'reps', reps: { kind: 'count', lower, upper } });

describe('the items of a cell', () => {
  test.each([
    ['3x6', [{ kind: 'dose', sets: 3, amount: reps(6) }]],
    ['3x6 | 4x', [{ kind: 'dose', sets: 4, amount: null }]],
    ['3x6 | x5', [{ kind: 'dose', sets: null, amount: reps(5) }]],
    ['3x6-8', [{ kind: 'dose', sets: 3, amount: reps(6, 8) }]],
    ['3X6\u20138', [{ kind: 'dose', sets: 3, amount: reps(6, 8) }]],
    ['3\u00d76', [{ kind: 'dose', sets: 3, amount: reps(6) }]],
    ['3xmax', [{ kind: 'dose', sets: 3, amount: { kind: 'reps', reps: { kind: 'open' } } }]],
    ['3x30s', [{ kind: 'dose', sets: 3, amount: { kind: 'seconds', seconds: 30 } }]],
    ['3x2min', [{ kind: 'dose', sets: 3, amount: { kind: 'seconds', seconds: 120 } }]],
    ['4x20m', [{ kind: 'dose', sets: 4, amount: { kind: 'metres', metres: 20 } }]],
    ['3x6 | R2', [{ kind: 'reserve', reserve: 2, writtenAs: 'r' }]],
    ['3x6 | rpe 8.5', [{ kind: 'reserve', reserve: 1.5, writtenAs: 'rpe' }]],
    ['3x6 | 80%', [{ kind: 'percent', percent: 80 }]],
    ['3x6 | 42.5kg', [{ kind: 'load', mass: { value: 42.5, unit: 'kg', kg: 42.5 } }]],
    // One pound is 0.45359237 kg by the international definition of 1959.
    ['3x6 | 100lb', [{ kind: 'load', mass: { value: 100, unit: 'lb', kg: 45.359237 } }]],
    ['3x6 | bw', [{ kind: 'bodyweight', added: null }]],
    ['3x6 | bw\u221215kg', [{ kind: 'bodyweight', added: { value: -15, unit: 'kg', kg: -15 } }]],
    ['3x6 | pack 8kg', [{ kind: 'pack', mass: { value: 8, unit: 'kg', kg: 8 } }]],
    ['3x6 | band medium', [{ kind: 'band', band: { text: 'medium', key: 'medium' } }]],
    ['3x6 | +2%', [{ kind: 'change-percent', percent: 2 }]],
    ['3x6 | \u22125%', [{ kind: 'change-percent', percent: -5 }]],
    ['3x6 | +2.5kg', [{ kind: 'change-mass', mass: { value: 2.5, unit: 'kg', kg: 2.5 } }]],
    ['3x6 | up', [{ kind: 'step', direction: 'up' }]],
    ['3x6 | +2% weekly', [{ kind: 'change-percent', percent: 2 }, { kind: 'weekly' }]],
    ['3x6 | /side rest 2min', [{ kind: 'side' }, { kind: 'rest', seconds: 120 }]],
    [
      '3x6 | tempo 3-1-1 height 45cm warm',
      [{ kind: 'tempo', tempo: [3, 1, 1] }, { kind: 'height', cm: 45 }, { kind: 'warm' }],
    ],
    ['3x6 | height 18in', [{ kind: 'height', cm: 45.72 }]],
    [
      '3x6 | no side no deload',
      [
        { kind: 'no', what: 'side' },
        { kind: 'no', what: 'deload' },
      ],
    ],
    ['3x6 | test x5', [{ kind: 'test', reps: 5 }]],
    [
      '3x6 | wk5 4x',
      [
        { kind: 'week', week: 5 },
        { kind: 'dose', sets: 4, amount: null },
      ],
    ],
    ['3x6 | -', [{ kind: 'left-out' }]],
    ['3x6 | stop', [{ kind: 'stop' }]],
    [
      '6x20s off 100s',
      [
        { kind: 'dose', sets: 6, amount: { kind: 'seconds', seconds: 20 } },
        { kind: 'off', seconds: 100 },
      ],
    ],
    [
      '3x6 "slow: down"',
      [
        { kind: 'dose', sets: 3, amount: reps(6) },
        { kind: 'text', text: 'slow: down' },
      ],
    ],
  ])('%s', (written, expected) => {
    expect(items(written)).toEqual([expected]);
  });

  test('set groups', () => {
    expect(items('1x5 r1 ; 3x5 -10% | ; 4x')).toEqual([[], [{ kind: 'dose', sets: 4, amount: null }]]);
    expect(items('1x5 r1 ; 3x5 -10% | ; -')).toEqual([[], [{ kind: 'left-out' }]]);
  });
});

describe('the cells of a row', () => {
  test('stand by position, the empty ones too', () => {
    const { cells } = row('3x6 r2 | 4x | |');
    expect(cells.map((cell) => [cell.index, cell.groups.length])).toEqual([
      [0, 1],
      [1, 1],
      [2, 0],
      [3, 0],
    ]);
  });

  test('a slip breaks its own cell only', () => {
    const { cells, problems } = row('3x6 r2 | 4y | x5');
    expect(cells.map((cell) => cell.broken)).toEqual([false, true, false]);
    expect(problems).toEqual(['unknown-word']);
  });

  test('cells past the block are broken, those before are not', () => {
    const { cells, problems } = row('3x6 r2 | 4x | x5', 'block B, 2 weeks');
    expect(cells.map((cell) => cell.broken)).toEqual([false, false, true]);
    expect(problems).toEqual(['cells-too-many']);
  });

  test('`wk` moves the count of weeks', () => {
    expect(row('3x6 r2 | wk7 4x | x5').problems).toEqual([]);
    expect(row('3x6 r2 | wk7 4x | x5 | x4').problems).toEqual(['cells-too-many']);
  });

  test('a row may begin later, behind weeks that are left out', () => {
    expect(row('- | - | 3x6 r2').problems).toEqual([]);
    expect(row('- | - | r2').problems).toEqual(['first-cell']);
  });

  test('in a block like another a lone `-` removes the row, and a row written there needs its first cell', () => {
    expect(row('-', 'block B, like A').problems).toEqual([]);
    expect(row('r2', 'block B, like A').problems).toEqual(['first-cell']);
    expect(row('3x6 r2 | 4x | 5x | 6x', 'block B, like A').problems).toEqual([]);
  });

  test('continuation lines and comments between them', () => {
    const { cells, problems } = row('3x6 r2 | 4x -- first\n -- a note\n  | x5 | up');
    expect(problems).toEqual([]);
    expect(cells).toHaveLength(4);
  });

  test.each([
    ['3x6 2,5kg', 'decimal-comma'],
    ['3x6 r2 r3', 'item-twice'],
    ['3x30s r2', 'reserve-without-reps'],
    ['3x30s | x40s | r2', 'reserve-without-reps'],
    ['3x6 r2 rest 3m', 'metres-for-minutes'],
    ['3x6 r2 | +2% weekly | 4x', 'weekly-not-last'],
    ['3x6 +2%', 'first-cell'],
    ['3x6 80% 60kg', 'item-conflict'],
  ])('%s is %s', (written, code) => {
    expect(row(written).problems).toEqual([code]);
  });
});
