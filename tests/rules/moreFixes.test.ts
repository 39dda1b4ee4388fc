/** Repairs and the texts that they leave. That none lifts a load or a stage is held in tests/property/ruleFixes.test.ts. All data is made up. */

import { describe, expect, it } from 'vitest';
import { createSession } from '../../server/src/engine/session.js';
import { applyFix, around, found, KIT } from './check.js';

/** The line that a repair changed or added, of all repairs of a code. */
function changed(text: string, code: string): readonly string[] {
  const before = new Set(text.split('\n'));
  return found(text, code).flatMap(({ fixes }) =>
    fixes.map((fix) =>
      applyFix(text, fix)
        .split('\n')
        .filter((line) => !before.has(line))
        .map((line) => line.trim())
        .join(' / '),
    ),
  );
}

describe('jump-load', () => {
  it('writes the heaviest load within the limit', () => {
    expect(changed(around({ row: 'back squat: 3x6 40kg | 50kg' }), 'jump-load')).toEqual([
      'back squat: 3x6 40kg | 42.5kg',
    ]);
  });

  it('writes the limit for a larger change', () => {
    expect(changed(around({ row: 'back squat: 3x8 r3 | +15%' }), 'jump-load')).toEqual([
      'back squat: 3x8 r3 | +8%',
    ]);
  });

  it('stays at the former load where the kit has no step between', () => {
    const text = around({
      row: 'goblet squat: 3x8 6kg | 10kg',
      kit: KIT.replace('2kg to 20kg by 2kg', '6kg, 10kg, 14kg'),
    });
    expect(changed(text, 'jump-load')).toEqual(['goblet squat: 3x8 6kg | 6kg']);
  });

  it('leaves a load alone that comes from a swap', () => {
    const text = around({
      client:
        'ready: heavy all 2026-06-01\n  swap: back squat, to goblet squat, 3x8 6kg, until 2026-12-13\n  swap: back squat, to goblet squat, 3x8 10kg, from 2026-12-14',
      row: 'back squat: 3x6 40kg | 50kg',
    });
    expect(changed(text, 'jump-load')).toEqual([]);
  });
});

describe('aim-mismatch', () => {
  const of = (aim: string, row: string) =>
    changed(around({ row }).replace('program Winter', `program Winter\n  aim: ${aim}`), 'aim-mismatch');

  it('asks for more reps with the same reserve, in every cell that has fewer', () => {
    expect(of('endurance', 'back squat: 3x5 r3 | x6 | x8 |')).toEqual(['back squat: 3x12 r3 | x12 | x12 |']);
  });

  it('rests longer and never shorter', () => {
    expect(of('strength', 'back squat: 3x6 r3 rest 20s')).toEqual(['back squat: 3x6 r3 rest 1min']);
    expect(of('endurance', 'back squat: 3x14 r3 rest 5min')).toEqual([]);
  });

  it('takes sets away and adds none', () => {
    expect(of('power', 'back squat: 8x4 r3')).toEqual(['back squat: 6x4 r3']);
    expect(of('strength', 'back squat: 3x15 40%')).toEqual([]);
  });
});

describe('days-many', () => {
  const of = (on: string) =>
    changed(around({ client: 'lifting since: 2026-10-01', on, row: 'front plank: 2x20s' }), 'days-many');

  it('takes out the day that leaves the others furthest apart', () => {
    expect(of('mon tue thu sat')).toEqual(['follows: Winter, from 2026-12-07, on mon thu sat']);
    expect(of('mon wed fri sat')).toEqual(['follows: Winter, from 2026-12-07, on mon wed fri']);
  });

  it('leaves times of day to the coach', () => {
    expect(of('mon 18:00 tue thu sat')).toEqual([]);
  });
});

describe('shared-load', () => {
  const two = (row: string) =>
    around({
      row,
      others: `
client Wren
  trains at: Boathouse
  ready: heavy all 2026-06-01
  max: back squat, 80kg x5 r2, 2026-11-23
  follows: Winter, from 2026-12-07, on mon
`,
    });

  it('gives her an effort of her own, and leaves the other her load', () => {
    // 45 of 57 kg can be lifted 37 - 36 × 45/57 = 8.6 times by Brzycki: 2.6 are left, and 3 asks for no more.
    const text = two('back squat: 3x6 45kg');
    expect(changed(text, 'shared-load')).toEqual([
      'swap: back squat, to back squat, 3x6 r3, from 2026-12-07 until 2026-12-28, "her own effort"',
    ]);
  });

  it('ends where the row changes', () => {
    expect(changed(two('back squat: 3x6 45kg | | x5 45kg'), 'shared-load')[0]).toContain('until 2026-12-14');
  });

  it('is not offered where the movement stands in the day twice', () => {
    expect(changed(two('back squat: 3x6 45kg\n  back squat (pause): 2x5 20kg'), 'shared-load')).toEqual([]);
  });
});

describe('tests-crowded', () => {
  const of = (press: string, block = 'Keel, 4 weeks') =>
    changed(
      around({
        client:
          'ready: heavy all 2026-06-01\n  max: back squat, 47.5kg x5 r2, 2026-11-23\n  max: overhead press, 22.5kg x6 r2, 2026-11-23',
        block,
        row: `back squat: 3x6 r2 | | test x5 |\n  overhead press: ${press}`,
      }),
      'tests-crowded',
    );

  it('moves a test to an empty week after or before it, by a cell where the row ends', () => {
    expect(of('3x6 r2 | | test x5 |')[0]).toMatch(/^overhead press: 3x6 r2 \| +\| +\| test x5$/);
    expect(of('3x6 r2 | | test x5')[0]).toBe('overhead press: 3x6 r2 | | | test x5');
    expect(of('3x6 r2 | | test x5 | +2%')[0]).toMatch(/^overhead press: 3x6 r2 \| test x5 +\| +\| \+2%$/);
  });

  it('moves none into a deload, and none that stands with other things', () => {
    expect(of('3x6 r2 | x5 | test x5 |', 'Keel, 4 weeks, deload 4')).toEqual([
      expect.stringContaining('back squat: 3x6 r2 | test x5'),
    ]);
    expect(of('3x6 r2 | x5 | test x5 warm | +2%')[0]).toContain('back squat');
  });
});

describe('pain', () => {
  const text = (score: number, client = '') => `${KIT}
movement box squat
  pattern: squat
  with: barbell
  easier: chair squat

movement chair squat
  pattern: squat
  with: bodyweight

client Heron
  trains at: Boathouse${client}

log Heron, 2026-12-07
  box squat: 20kg 8 8
  pain: knee ${score}/10
`;

  it('offers the easier movement of what was done for two weeks', () => {
    expect(changed(text(5), 'pain-reported')).toEqual([
      'swap: box squat, to chair squat, from 2026-12-08 until 2026-12-21, "pain"',
    ]);
  });

  it('offers nothing above five, and nothing that is avoided or swapped already', () => {
    expect(found(text(6), 'pain-reported')).toHaveLength(1);
    expect(changed(text(6), 'pain-reported')).toEqual([]);
    expect(changed(text(4, '\n  avoid: squat'), 'pain-reported')).toEqual([]);
    expect(changed(text(4, '\n  swap: box squat, to wall sit'), 'pain-reported')).toEqual([]);
  });
});

describe('programs one after the other', () => {
  const of = (from: string, code: string) =>
    changed(
      `${KIT}
client Heron
  trains at: Boathouse
  follows: Winter, from 2026-12-07, on mon thu
  follows: Spring, from ${from}, on mon thu

program Winter
block Keel, 4 weeks
day Lower
  bodyweight squat: 2x8

program Spring
block Mast, 4 weeks
day Lower
  bodyweight squat: 2x10
`,
      code,
    );

  it('move by whole weeks, so that the weekdays stay', () => {
    // The last session of Winter is on Thursday, 2026-12-31.
    expect(of('2026-12-21', 'program-cut')).toEqual(['follows: Spring, from 2027-01-04, on mon thu']);
    expect(of('2027-02-01', 'program-gap')).toEqual(['follows: Spring, from 2027-01-04, on mon thu']);
  });
});

describe('session-long', () => {
  it('writes as many sets as fit, in the rows that have the most', () => {
    // 12 and 10 sets of 20 s with 4 min of rest are 52 and 43 min, the planks 5.5; nine and nine come to 83.5.
    const rows = 'back squat: 12x5 r3 rest 4min\n  front plank: 3x20s\n  overhead press: 10x5 20kg rest 4min';
    expect(changed(around({ row: rows }), 'session-long')).toEqual([
      'back squat: 9x5 r3 rest 4min / overhead press: 9x5 20kg rest 4min',
    ]);
  });
});

describe('session-overran', () => {
  const of = (last: string) => {
    const days = ['02', '05', '09', '12', '16', '19'];
    const logs = days.map(
      (day, at) =>
        `log Heron, 2026-11-${day}\n  back squat: 40kg 5\n  session: rpe 6, ${at === 5 ? last : '50min'}\n`,
    );
    return changed(`client Heron\n\n${logs.join('\n')}`, 'session-overran');
  };
  it('takes away a digit too many, and nothing else', () => {
    expect(of('480min')).toEqual(['session: rpe 6, 48min']);
    expect(of('120min')).toEqual([]);
  });
});

describe('twice-named', () => {
  it('gives the second a name that is free', () => {
    expect(
      changed('kit Hall\n  bar: 15kg\n\nkit Hall\n  bar: 20kg\n\nkit Hall 2\n  bar: 10kg\n', 'twice-named'),
    ).toEqual(['kit Hall 3']);
  });

  it('makes the second line of a client a note', () => {
    expect(
      changed('client Heron\n  height: 160cm\n\nclient Heron\n  height: 170cm\n', 'twice-named'),
    ).toEqual(['-- height: 170cm']);
  });
});

describe('circles', () => {
  const problems = (text: string) => {
    const session = createSession();
    session.setFile('a.stave', text);
    return session.allFindings().filter(({ code }) => code === 'cannot-work-out');
  };

  it('of blocks are one finding that names all of them, and those that lead into it', () => {
    const found = problems(`program Winter

block One, like Two

block Two, like Spring / Three

block Four, like One

program Spring

block Three, like Winter / One
`);
    expect(found).toHaveLength(1);
    expect(found[0]?.message).toContain('One → Two → Three → One');
    expect(found[0]?.related.map(({ message }) => message)).toEqual([
      '"Two" is one of the circle.',
      '"Three" is one of the circle.',
      '"Four" leads into it, and is left out too.',
    ]);
  });

  it('are two findings where they are two', () => {
    const one = (name: string) => `block ${name}, like ${name}\n`;
    const found = problems(`program Winter\n\n${one('Keel')}\n${one('Mast')}`);
    expect(found.map(({ message }) => message.slice(0, 35))).toEqual([
      'The block "Keel" is like itself. Wr',
      'The block "Mast" is like itself. Wr',
    ]);
  });

  it('of movements are one finding, and a line of it can be made a note', () => {
    const movement = (name: string, easier: string) =>
      `movement ${name}\n  pattern: squat\n  with: barbell\n  easier: ${easier}\n\n`;
    const text = movement('low squat', 'high squat') + movement('high squat', 'low squat');
    const [finding, ...others] = problems(text);
    expect(others).toEqual([]);
    expect(finding?.related).toHaveLength(1);
    expect(finding?.fixes.map(({ title }) => title)).toEqual([
      'Make the line "easier" of low squat a note',
      'Make the line "easier" of high squat a note',
    ]);
    for (const fix of finding?.fixes ?? []) expect(problems(applyFix(text, fix))).toEqual([]);
  });
});
