import { describe, expect, it } from 'vitest';
import { cellsOf, codes, group, KIT, loads, MOVEMENTS, open, targets, works } from './studio.js';

function blocks(text: string, more = '') {
  return open(`${KIT}${MOVEMENTS}
client Heron
  trains at: Boathouse
  ready: heavy all 2020-01-01
  max: lift, 100kg x1, 2026-11-30
  max: bells, 20kg x1, 2026-11-30
  follows: Test, from 2026-12-07, on mon
program Test
${text}
${more}`);
}

const KEEL = `block Keel, 3 weeks, load, deload 3
day Lower
  lift: 3x5 80% | +5%
  bells: 3x8 10kg
`;

const inBlock = (session: ReturnType<typeof open>, block: string, row?: string) =>
  cellsOf(session, 'heron', row).filter((cell) => cell.block.name === block);

describe('blocks like another', () => {
  it('take over days, rows, weeks, stage and deloads', () => {
    const second = inBlock(blocks(`${KEEL}block Second, like Keel`), 'Second', 'lift');
    expect(targets(second)).toEqual([80, 84, 75.6]);
    expect(works(second)).toEqual(['3x5', '3x5', '2x5']);
    expect(second[0]?.block).toMatchObject({ weeks: 3, stage: 'load' });
    expect(second.map((cell) => cell.date)).toEqual(['2026-12-28', '2027-01-04', '2027-01-11']);
  });

  it('the percentage multiplies what does not come from a fixed load', () => {
    // 80 × 1.1 = 88, × 1.05 = 92.4, deload 83.16. The dumbbells stay at 10.
    const session = blocks(`${KEEL}block Second, like Keel, +10%`);
    expect(targets(inBlock(session, 'Second', 'lift'))).toEqual([88, 92.4, 83.16]);
    expect(targets(inBlock(session, 'Second', 'bells'))).toEqual([10, 10, 9]);
    expect(targets(inBlock(session, 'Keel', 'lift'))).toEqual([80, 84, 75.6]);
  });

  it('percentages of a chain multiply', () => {
    // 80 × 1.1 × 1.1 = 96.8.
    const session = blocks(`${KEEL}block Second, like Keel, +10%\nblock Third, like Second, +10%`);
    expect(targets(inBlock(session, 'Third', 'lift'))[0]).toBe(96.8);
  });

  it('a row written here replaces the row of that name and day', () => {
    const session = blocks(`${KEEL}block Second, like Keel\nday Lower\n  lift: 4x3 70%`);
    expect(works(inBlock(session, 'Second', 'lift'))).toEqual(['4x3', '4x3', '2x3']);
    expect(targets(inBlock(session, 'Second', 'lift'))).toEqual([70, 70, 63]);
    expect(loads(inBlock(session, 'Second', 'bells'))).toEqual([10, 10, 8]);
  });

  it('`-` alone removes a row', () => {
    const session = blocks(`${KEEL}block Second, like Keel\nday Lower\n  lift: -`);
    expect(inBlock(session, 'Second').map((cell) => cell.row.key)).toEqual(['bells', 'bells', 'bells']);
    expect(inBlock(session, 'Keel', 'lift')).toHaveLength(3);
  });

  it('new rows and days follow the old ones', () => {
    const session = blocks(
      `${KEEL}block Second, like Keel\nday Lower\n  plank: 3x30s\nday Extra\n  plank: 2x20s`,
    );
    const days = session.world().programs.get('test')?.blocks[1]?.days ?? [];
    expect(days.map((day) => `${day.name}: ${day.rows.map((row) => row.key).join(', ')}`)).toEqual([
      'Lower: lift, bells, plank',
      'Extra: plank',
    ]);
  });

  it('a labelled row is its own row', () => {
    const session = blocks(
      `block Keel, 1 weeks\nday Lower\n  lift: 3x5 80%\n  lift (pause): 2x3 60%\nblock Second, like Keel\nday Lower\n  lift (pause): 2x3 50%`,
    );
    expect(targets(inBlock(session, 'Second'))).toEqual([80, 50]);
  });

  it('may have more weeks', () => {
    expect(targets(inBlock(blocks(`${KEEL}block Second, 4 weeks, like Keel`), 'Second', 'lift'))).toEqual([
      80, 84, 75.6, 84,
    ]);
  });

  it('may not drop written cells or deloads: no load comes from such a block', () => {
    const session = blocks(`${KEEL}block Second, 2 weeks, like Keel`);
    expect(inBlock(session, 'Second')).toEqual([]);
    expect(session.world().structureProblems.map((problem) => problem.kind)).toEqual(['like-drops-weeks']);
    const cells = blocks(
      `block Keel, 3 weeks\nday A\n  lift: 3x5 80% | | +5%\nblock Second, 2 weeks, like Keel`,
    );
    expect(cells.world().structureProblems.map((problem) => problem.kind)).toEqual(['like-drops-weeks']);
    expect(codes(cells.findings('a.stave')).length).toBeGreaterThan(0);
  });

  it('may not go in a circle', () => {
    const session = blocks('block One, like Two\nblock Two, like One');
    const [problem, ...others] = session.world().structureProblems;
    expect(others).toEqual([]);
    expect(problem?.kind).toBe('like-circle');
    expect(problem?.message).toContain('One → Two → One');
    expect(problem?.related).toHaveLength(1);
    expect(cellsOf(session)).toEqual([]);
  });

  it('reach into another program', () => {
    const other = 'program Other\nblock Base, 2 weeks\nday A\n  lift: 3x5 60%\n';
    const session = blocks('block Mine, like Other / Base, +10%', other);
    expect(targets(inBlock(session, 'Mine'))).toEqual([66, 66]);
  });

  it('know the file in which the row is written', () => {
    const session = open('');
    session.setFile('b.stave', 'program Other\nblock Base, 2 weeks\nday A\n  lift: 3x5 60%\n');
    session.setFile(
      'a.stave',
      `${KIT}${MOVEMENTS}client Heron\n  trains at: Boathouse\n  max: lift, 100kg x1, 2026-11-30\n  follows: Test, from 2026-12-07, on mon\nprogram Test\nblock Mine, like Other / Base\n`,
    );
    expect(cellsOf(session)[0]?.row.place.file).toBe('b.stave');
    expect(session.cellsIn('b.stave')).toHaveLength(2);
    session.setFile('b.stave', 'program Other\nblock Base, 2 weeks\nday A\n  lift: 3x5 70%\n');
    expect(targets(cellsOf(session))).toEqual([70, 70]);
  });
});

describe('effort lines', () => {
  const withEffort = (block: string, day: string, row: string) =>
    cellsOf(blocks(`block Keel, 3 weeks\n${block}\nday Lower\n${day}\n${row}`));

  it('give the reserve of every row that states no effort or load', () => {
    // Six with 3, 2, 1 left: share(9) = 28/36, share(8) = 29/36, share(7) = 30/36.
    const cells = withEffort('  effort: r3 | r2 | r1', '', '  lift: 3x6');
    expect(targets(cells)).toEqual([77.778, 80.556, 83.333]);
    expect(works(cells)).toEqual(['3x6 r3', '3x6 r2', '3x6 r1']);
  });

  it('leave a row with its own effort, share or load alone', () => {
    const block = '  effort: r3 | r2 | r1';
    expect(targets(withEffort(block, '', '  lift: 3x6 r2'))).toEqual([80.556, 80.556, 80.556]);
    expect(targets(withEffort(block, '', '  lift: 3x6 60%'))).toEqual([60, 60, 60]);
    expect(targets(withEffort(block, '', '  lift: 3x6 60kg'))).toEqual([60, 60, 60]);
    expect(group(withEffort(block, '', '  lift: 3x6 60kg')[0]).writtenReserve).toBeNull();
  });

  it('of a day go before those of its block', () => {
    expect(works(withEffort('  effort: r3 | r2 | r1', '  effort: r4', '  lift: 3x6'))).toEqual([
      '3x6 r4',
      '3x6 r4',
      '3x6 r4',
    ]);
  });

  it('an empty week is as the week before', () => {
    expect(works(withEffort('  effort: r3 | | r1', '', '  lift: 3x6'))).toEqual([
      '3x6 r3',
      '3x6 r3',
      '3x6 r1',
    ]);
  });

  it('leave time and distance alone', () => {
    expect(works(withEffort('  effort: r3', '', '  plank: 3x30s'))).toEqual(['3x30s', '3x30s', '3x30s']);
  });

  it('percent changes count on top', () => {
    expect(targets(withEffort('  effort: r2', '', '  lift: 3x6 | +10%'))).toEqual([80.556, 88.611, 88.611]);
  });

  it('a deload leaves two more', () => {
    // Six with 2 left, then 6 + 4 = 10: 75.
    const cells = cellsOf(blocks('block Keel, 3 weeks, deload 3\n  effort: r3 | r2\nday Lower\n  lift: 3x6'));
    expect(works(cells)).toEqual(['3x6 r3', '3x6 r2', '2x6 r4']);
    expect(targets(cells)).toEqual([77.778, 80.556, 75]);
  });
});
