/** Repairs of a run of heavy weeks without a deload. All data is made up. */
import { describe, expect, it } from 'vitest';
import { createSession } from '../../server/src/engine/session.js';
import { applyFix, check, FILE, KIT, sessionOf, syntaxProblems } from './check.js';

/** Heron squats heavily on Mondays from 2026-12-07. */
const of = (blocks: string, others = '') => `${KIT}
client Heron
  trains at: Boathouse
  ready: heavy squat 2026-06-05
  max: back squat, 47.5kg x5 r2, 2026-11-30
  follows: Winter, from 2026-12-07, on mon
${others}
program Winter

${blocks}
`;

const block = (header: string, row = '3x6 r2') => `block ${header}\nday Lower\n  back squat: ${row}\n`;

function due(text: string, today: string | null = null) {
  const session = createSession({ today });
  session.setFile(FILE, text);
  return session.allFindings().filter(({ code }) => code === 'deload-due');
}

const titles = (text: string, today: string | null = null) =>
  due(text, today).flatMap(({ fixes }) => fixes.map(({ title }) => title));

/** Takes the first repair again and again until nothing is found. */
function mended(text: string): string {
  let now = text;
  for (let round = 0; round < 10; round += 1) {
    const fix = due(now)[0]?.fixes[0];
    if (!fix) return now;
    now = applyFix(now, fix);
    expect(syntaxProblems(now)).toEqual([]);
  }
  throw new Error('does not end');
}

describe('deload-due', () => {
  it('marks the week nearest to the sixth, and again after it', () => {
    const after = mended(of(block('Keel, 20 weeks')));
    expect(after).toContain('block Keel, 20 weeks, deload 6 12\n');
    expect(due(after)).toEqual([]);
  });

  it('keeps the deloads that are there, in order', () => {
    expect(mended(of(block('Keel, 20 weeks, heavy, deload 15 -- the long one')))).toContain(
      'block Keel, 20 weeks, heavy, deload 6 15 -- the long one\n',
    );
  });

  it('leaves a week alone for which something is written', () => {
    // Cells up to week 9: what is written in a deload week would hold in it, and for it alone.
    expect(titles(of(block('Keel, 10 weeks', '3x6 r2 | 4x | 3x | 4x | 3x | 4x | 3x | 4x | 3x')))).toEqual([]);
    expect(
      due(of(block('Keel, 10 weeks', '3x6 r2 | 4x | 3x | 4x | 3x | 4x | 3x | 4x | 3x')))[0]?.message,
    ).toMatch(/take out what is written in that week's cells/);
    expect(titles(of(block('Keel, 10 weeks', '3x6 r2 | 4x | 3x | 4x | 3x | 4x | | 4x | 3x')))).toEqual([
      'Make week 7 of "Keel" a deload',
    ]);
    const effort = block('Keel, 10 weeks', '3x6').replace(
      'day Lower',
      'effort: r2 | | | | r1 | r2 | r1\nday Lower',
    );
    // Week 4 and week 8 lie equally near; the earlier one is offered.
    expect(titles(of(effort))).toEqual(['Make week 4 of "Keel" a deload']);
  });

  it('adds a week at the end of a block, in which nothing that is written moves', () => {
    const row = '3x6 r2 | 4x | 5x | 3x';
    const text = of(
      [block('Keel, 4 weeks', row), block('Ebb, 6 weeks', '3x5 r2 | 4x | 3x | 4x | 3x | 4x')].join('\n'),
    );
    expect(titles(text)).toEqual(['Add a deload week at the end of "Keel": 5 weeks instead of 4']);
    const after = mended(text);
    expect(after).toContain('block Keel, 5 weeks, deload 5\n');
    const sets = (of: string) =>
      sessionOf(of)
        .plan('heron')
        ?.sessions.map(({ cells }) => cells[0]?.groups[0]?.sets);
    expect(sets(text)).toEqual([3, 4, 5, 3, 3, 4, 3, 4, 3, 4]);
    // The new week has 40 % fewer sets than the last working week.
    expect(sets(after)).toEqual([3, 4, 5, 3, 2, 3, 4, 3, 4, 3, 4]);
  });

  it('gives no block that is like this one a week that it has not', () => {
    const blocks = (ebb: string) => of([block('Keel, 10 weeks'), `block Ebb, like Keel, ${ebb}`].join('\n'));
    expect(titles(blocks('4 weeks'))).toEqual(['Make week 4 of "Keel" a deload']);
    // With deloads of its own it takes none over.
    expect(titles(blocks('4 weeks, deload 4'))).toEqual(['Make week 6 of "Keel" a deload']);
    const inherited = mended(
      of([block('Keel, 10 weeks, deload 6'), 'block Ebb, like Keel, 20 weeks'].join('\n')),
    );
    expect(inherited).toContain('block Ebb, like Keel, 20 weeks, deload 2 6 12\n');
    expect(check(inherited).filter(({ severity }) => severity === 'error')).toEqual([]);
  });

  it('changes no week that somebody has begun', () => {
    const text = of(block('Keel, 10 weeks'));
    expect(titles(text, '2026-12-07')).toEqual(['Make week 6 of "Keel" a deload']);
    // Week 6 is the one from 2027-01-11 on.
    expect(titles(text, '2027-01-11')).toEqual(['Make week 6 of "Keel" a deload']);
    expect(titles(text, '2027-01-12')).toEqual(['Make week 7 of "Keel" a deload']);
    expect(titles(text, '2027-02-28')).toEqual([]);
    const early = `
client Wren
  trains at: Boathouse
  follows: Winter, from 2026-11-23, on mon`;
    expect(titles(of(block('Keel, 10 weeks'), early), '2027-01-06')).toEqual([
      'Make week 8 of "Keel" a deload',
    ]);
  });
});
