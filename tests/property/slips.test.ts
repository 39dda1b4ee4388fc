import { describe, expect, it } from 'vitest';
import type { ResolvedCell } from '../../server/src/engine/model.js';
import { createSession } from '../../server/src/engine/session.js';
import { KIT, MOVEMENTS } from '../engine/studio.js';

/** A slip must not lift a weight: one character more, less or other in a row. */

const HEAD = `${KIT}${MOVEMENTS}
client Heron
  mass: 68kg
  trains at: Boathouse
  ready: heavy all 2020-01-01
  max: lift, 100kg x1, 2026-11-30
  max: bells, 20kg x1, 2026-11-30
  max: dip, bw+10kg x5, 2026-11-30
  follows: Test, from 2026-12-07, on mon
program Test
block One, 4 weeks, deload 4
  effort: r3 | r2
day A
`;

const ROWS = [
  '  bells: 3x8 | +5%',
  '  lift: 1x5 80% ; 3x5 -10% | +2.5kg | x3 r2 |',
  '  dip: 3x6-8 r2 rest 90s | +1kg | down',
  'circuit Loop, 3 rounds',
  '  step: x10 pack 8kg',
  '  plank: x30s',
  'end',
] as const;

const MUTATED = [1, 2, 4] as const;
const ALPHABET = [...'0159.,%kxr|;-+" :', '\n', '×'];

type Loads = ReadonlyMap<string, readonly (number | null)[]>;

/** Loads by row and week; a week without the row is missing. */
function read(rows: readonly string[]): { byRow: Loads; broken: boolean; text: string } {
  const text = HEAD + rows.join('\n');
  const session = createSession();
  session.setFile('a', text);
  const byRow = new Map<string, (number | null)[]>();
  for (const cell of session.cellsIn('a'))
    byRow.set(
      keyOf(cell),
      cell.groups.map((group) => group.loadKg),
    );
  const problems = session.tree('a')?.problems ?? [];
  return { byRow, broken: problems.some((problem) => problem.severity === 'error'), text };
}

function keyOf(cell: ResolvedCell): string {
  return `${cell.row.key} week ${cell.week}`;
}

function mutations(row: string): string[] {
  const found = new Set<string>();
  const from = row.indexOf(':') + 1;
  for (let at = from; at <= row.length; at += 1) {
    if (at < row.length) found.add(row.slice(0, at) + row.slice(at + 1));
    for (const other of ALPHABET) {
      found.add(row.slice(0, at) + other + row.slice(at));
      if (at < row.length) found.add(row.slice(0, at) + other + row.slice(at + 1));
    }
  }
  found.delete(row);
  return [...found];
}

const before = read(ROWS);

describe('one wrong character', () => {
  it('starts from rows without a problem', () => {
    expect(before.broken).toBe(false);
    expect(before.byRow.size).toBe(20);
  });

  it.each(MUTATED)(
    'in row %i: no other row gets another load, and a damaged row gets none',
    (index) => {
      const row = ROWS[index] as string;
      const name = row.slice(0, row.indexOf(':')).trim();
      const lifted: string[] = [];
      const guessed: string[] = [];
      let damaged = 0;
      for (const mutated of mutations(row)) {
        const after = read(ROWS.map((line, at) => (at === index ? mutated : line)));
        if (after.broken) damaged += 1;
        for (const [key, loads] of after.byRow) {
          const own = key.startsWith(`${name} week`);
          const known = before.byRow.get(key);
          if (!own && JSON.stringify(known) !== JSON.stringify(loads))
            lifted.push(`${mutated} → ${key}: ${loads}`);
          // A line break makes two lines of one: the first is whole by itself, and the second costs itself alone.
          if (mutated.includes('\n')) continue;
          // A bar moves the cells after it to other weeks; while the block has weeks for all of them, that is what it says.
          const bars = mutated.split('|').length;
          if (bars !== row.split('|').length && bars <= 4) continue;
          // In a damaged row a week keeps the load that it had before the damage, or has none.
          const kept = loads.every((load, group) => load === null || load === known?.[group]);
          if (own && after.broken && !kept) guessed.push(`${mutated} → ${key}: ${loads} instead of ${known}`);
        }
      }
      expect(damaged).toBeGreaterThan(100);
      expect(lifted).toEqual([]);
      expect(guessed).toEqual([]);
    },
    120_000,
  );
});
