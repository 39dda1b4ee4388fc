/** Repairs that take sets away or move a day, and a load that falls far without a word. All data is made up. */
import { describe, expect, it } from 'vitest';
import { applyFix, around, found, sessionOf, syntaxProblems } from './check.js';

const CLIENT =
  'ready: heavy all 2026-06-01\n  max: back squat, 47.5kg x5 r2, 2026-11-23\n  max: deadlift, 60kg x5 r2, 2026-11-23';

/** The text after the first repair of the first finding of a rule, which adds no slip. */
function mended(text: string, code: string): string {
  const fix = found(text, code)[0]?.fixes[0];
  if (!fix) return text;
  const after = applyFix(text, fix);
  expect(syntaxProblems(after)).toEqual([]);
  return after;
}

const setsOf = (text: string) =>
  sessionOf(text)
    .plan('heron')
    ?.sessions.map(({ cells }) => cells.map(({ groups }) => groups[0]?.sets));

describe('much more work in a week', () => {
  it('leaves one set more in each row that has several more, and only there', () => {
    const text = around({
      client: CLIENT,
      row: 'back squat: 2x6 r3 | 5x | 3x |\n  deadlift: 2x6 r3 | 3x | |',
    });
    expect(found(text, 'volume-jump')[0]?.fixes[0]?.title).toBe(
      'One set more than in week 1, not several, in 1 row',
    );
    const after = mended(text, 'volume-jump');
    expect(after).toContain('back squat: 2x6 r3 | 3x | 3x |');
    expect(setsOf(after)).toEqual([
      [2, 2],
      [3, 3],
      [3, 3],
      [3, 3],
    ]);
  });

  it('offers nothing where the week rises by load or reps, or by a set that comes with its row', () => {
    const text = around({ client: CLIENT, row: 'back squat: 2x6 r3 | x12 | |' });
    expect(found(text, 'volume-jump')[0]?.fixes ?? []).toEqual([]);
  });

  it('does not put a digit into a number that is written in another way', () => {
    const text = around({ client: CLIENT, row: 'back squat: 2x6 r3 | 05x | |' });
    for (const { fixes } of found(text, 'volume-jump')) expect(fixes).toEqual([]);
  });
});

describe('sprints', () => {
  it('are as many as the limit takes', () => {
    const text = around({
      client: 'screened: 2026-11-01\n  ready: heavy all 2026-06-01',
      row: 'hill sprint: 8x15s off 2min',
    });
    const after = mended(text, 'sprint-dose');
    expect(after).toContain('hill sprint: 4x15s off 2min');
    expect(found(after, 'sprint-dose')).toEqual([]);
  });
});

describe('heavy work on two days running', () => {
  const of = (on: string, days = '') => around({ client: CLIENT, on, row: `back squat: 3x6 r2${days}` });
  it.each([
    ['mon tue', 'on mon wed'],
    ['mon tue thu', 'on mon tue thu'],
    ['tue wed', 'on tue thu'],
    ['sat sun', 'on sat sun'],
  ])('on %s becomes %s', (on, after) => {
    // Where no later day of the week lies two days from all others, nothing is offered.
    expect(mended(of(on), 'heavy-within-48h')).toContain(`from 2026-12-07, ${after}\n`);
  });

  it('stays where times of day are written', () => {
    const text = of('mon 18:00 tue 18:00');
    expect(found(text, 'heavy-within-48h').length).toBeGreaterThan(0);
    expect(found(text, 'heavy-within-48h')[0]?.fixes).toEqual([]);
  });
});

describe('a load that falls far', () => {
  const slips = (row: string) =>
    found(around({ client: CLIENT, row }), 'far-off').map(({ message }) => message);
  it('is told from more than a fifth on, unless reps or effort are written with it', () => {
    expect(slips('back squat: 3x6 45kg | 35kg |')[0]).toContain('35kg after 45 kg is 22 % less.');
    expect(slips('back squat: 3x6 45kg | 37.5kg |')).toEqual([]);
    expect(slips('back squat: 3x6 45kg | x12 30kg |')).toEqual([]);
    expect(slips('back squat: 3x6 45kg | 30kg r5 |')).toEqual([]);
    // With a newer max another load may well be meant.
    const newer = `${CLIENT}\n  max: back squat, 37.5kg x5 r2, 2026-12-10`;
    expect(found(around({ client: newer, row: 'back squat: 3x6 45kg | 35kg |' }), 'far-off')).toEqual([]);
    // A lost sign is told whatever else is written.
    expect(slips('back squat: 3x6 45kg | x5 2.5kg |')[0]).toContain('looks like a lost sign');
  });
});
