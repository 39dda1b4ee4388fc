import { describe, expect, it } from 'vitest';
import { cellsOf, loads, open, workspace } from './studio.js';

/** A slip must not lift a weight: nothing is guessed from a damaged line. */
const issues = (rows: string, setting = {}) => {
  const session = open(workspace(rows, setting));
  expect(session.tree('a.stave')?.problems.length).toBeGreaterThan(0);
  return cellsOf(session).map((cell) => [cell.groups[0]?.loadKg ?? null, cell.groups[0]?.issue ?? null]);
};

describe('a damaged cell', () => {
  it('has no load, nor do the cells after it; those before keep theirs', () => {
    expect(issues('  lift: 3x5 80% | +5 % qq | 85%')).toEqual([
      [80, null],
      [null, 'broken'],
      [null, 'broken'],
      [null, 'broken'],
    ]);
  });

  it('in the first week leaves the row without any load', () => {
    expect(issues('  lift: 3x5 80%% | 85%').every(([load]) => load === null)).toBe(true);
  });

  it('leaves other rows alone', () => {
    const session = open(workspace('  lift: 3x5 8o%\n  bells: 3x8 10kg', { weeks: 2 }));
    expect(loads(cellsOf(session, 'heron', 'bells'))).toEqual([10, 10]);
    expect(loads(cellsOf(session, 'heron', 'lift'))).toEqual([null, null]);
  });

  it('one cell too many leaves the row without any load, as nobody knows which it is', () => {
    const found = issues('  lift: 3x5 80% | | | +5% | 90%', { weeks: 4 });
    expect(found).toEqual(Array(4).fill([null, 'broken']));
  });

  it('of a back-off leaves the whole cell without load', () => {
    expect(issues('  lift: 1x5 r1 ; 3x5 -1o%').every(([load]) => load === null)).toBe(true);
  });

  it('a decimal comma is not read as something else', () => {
    expect(issues('  lift: 3x5 42,5kg').every(([load]) => load === null)).toBe(true);
  });
});

describe('a damaged line elsewhere', () => {
  it('costs that line only', () => {
    const session = open(
      workspace('  lift: 3x5 80%', {
        weeks: 1,
        client: 'max: lift, 100kg x1, 2026-11-30\n  max: lift 200kg x1, 2026-12-01',
      }),
    );
    expect(loads(cellsOf(session))).toEqual([80]);
  });

  it('a damaged kit line only takes equipment away', () => {
    const more = '\nkit Attic\n  bar: 20kg\n  plates: 20kg x2, 5kg xx2\n  plates: 10kg x2\n';
    const session = open(workspace('  lift: 3x5 80kg', { weeks: 1, more, at: 'trains at: Attic' }));
    expect(loads(cellsOf(session))).toEqual([40]);
  });

  it('a damaged day or block leaves no rows behind that train under another name', () => {
    const session = open(workspace('  lift: 3x5 80%', { weeks: 1 }).replace('day A', 'day A | B'));
    for (const load of loads(cellsOf(session))) expect(load).toBeNull();
  });
});
