/** Equipment, estimates and balance: each thing that has to be told is told, and its opposite is not. */

import { describe, expect, it } from 'vitest';
import { hover } from '../../server/src/engine/views/hover.js';
import { around, FILE, found, sessionOf, syntaxProblems } from './check.js';

const told = (text: string, code: string): string => {
  expect(syntaxProblems(text)).toEqual([]);
  return found(text, code)
    .map(({ message }) => message)
    .join('\n');
};

const EASIER = `movement box squat
  pattern: squat
  with: barbell
  easier: goblet squat
`;
const box = (kit: string, max: string, row = 'box squat: 3x8 r3') =>
  around({
    kit: `${kit}\n\n${EASIER}`,
    client: `ready: heavy all 2026-06-01\n  max: box squat, ${max}, 2026-11-23`,
    row,
  });

describe('equipment', () => {
  it('a kit without what the movement needs is an error, and the movement to swap to is named', () => {
    const text = box(
      'kit Boathouse\n  dumbbells: 2kg to 20kg by 2kg\n  kettlebells: 8kg, 12kg',
      '40kg x5 r2',
    );
    expect(told(text, 'beyond-kit')).toContain('the kit has no barbell');
    expect(told(text, 'beyond-kit')).toContain('goblet squat');
  });

  it('a barbell that weighs more than the target brings the easier movement or a lighter bar', () => {
    const heavy = box(
      'kit Boathouse\n  bar: 20kg\n  plates: 1.25kg x2\n  dumbbells: 2kg to 20kg by 2kg',
      '20kg x5 r2',
    );
    const message = told(heavy, 'beyond-kit');
    expect(message).toContain('even the lightest load of the kit is too heavy');
    expect(message).toContain('Boathouse starts at 20 kg');
    expect(message).toContain('Use goblet squat or a lighter bar');
    // With a lighter bar in the kit there is nothing to tell.
    const lighter = heavy.replace('  plates', '  bar technique: 8kg\n  plates');
    expect(told(lighter, 'beyond-kit')).not.toContain('too heavy');
  });

  it('a kit that ends below the target is told with what is left in reserve', () => {
    const text = box('kit Boathouse\n  bar: 15kg\n  plates: 5kg x2', '60kg x5 r2');
    expect(told(text, 'beyond-kit')).toMatch(/the kit ends below the target.*in reserve/s);
  });

  const press = (height: string) => `kit Boathouse
  machine leg press: 20kg to 120kg by 5kg, fits 165cm to 190cm

movement leg press
  pattern: squat
  with: machine leg press

client Heron
  ${height}
  trains at: Boathouse
  ready: load squat 2026-06-01
  max: leg press, 60kg x8 r2, 2026-11-30
  follows: Winter, from 2026-12-07, on mon

program Winter

block Keel, 2 weeks
day Lower
  leg press: 2x8 r3
`;
  it.each([
    [158, true],
    [164, true],
    [165, false],
    [190, false],
    [191, true],
  ])('a machine for 165 to 190 cm and a client of %i cm: told %s', (height, isTold) => {
    const message = told(press(`height: ${height}cm`), 'machine-fit');
    expect(message !== '').toBe(isTold);
    if (isTold) expect(message).toContain(`Heron is ${height} cm tall, it fits 165 to 190 cm`);
  });
  it('a machine and a client whose height nobody wrote: nothing is guessed', () => {
    expect(told(press('units: kg'), 'machine-fit')).toBe('');
  });

  const circuit = (rows: string) =>
    around({
      client: `ready: heavy all 2026-06-01
  max: back squat, 47.5kg x5 r2, 2026-11-23
  max: overhead press, 22.5kg x6 r2, 2026-11-23
  max: goblet squat, 12kg x8 r2, 2026-11-23`,
      row: `circuit Deck, 3 rounds\n    ${rows}\n  end`,
    });
  it('two rows of a circuit at one bar with different loads', () => {
    const message = told(circuit('back squat: x8 r3\n    overhead press: x8 r3'), 'two-stations');
    expect(message).toContain('needs the only bar twice');
    expect(message).toMatch(/back squat at [\d.]+ kg and overhead press at [\d.]+ kg/);
    expect(told(circuit('back squat: x8 r3\n    push-up: x8 r3'), 'two-stations')).toBe('');
  });
});

describe('estimates', () => {
  const withMax = (max: string, row = 'back squat: 3x6 r2') =>
    around({ client: `ready: heavy all 2026-06-01\n  max: back squat, ${max}`, row });

  it('a max older than eight weeks is stale', () => {
    expect(told(withMax('47.5kg x5 r2, 2026-09-01'), 'max-stale')).toContain('13 weeks and 6 days old');
    expect(told(withMax('47.5kg x5 r2, 2026-11-23'), 'max-stale')).toBe('');
  });

  it('a single from a set of ten or more is far extrapolated', () => {
    const single = 'back squat: 1x1 r1';
    expect(told(withMax('40kg x10, 2026-11-23', single), 'max-imprecise')).toContain(
      'from 10 reps to failure',
    );
    expect(told(withMax('47.5kg x5, 2026-11-23', single), 'max-imprecise')).toBe('');
  });

  it('reps beyond what the curve tells give no load', () => {
    expect(told(withMax('47.5kg x5, 2026-11-23', 'back squat: 2x18 r4'), 'beyond-curve')).toContain(
      'goes to 20',
    );
  });

  it('a front squat above the back squat contradicts it', () => {
    const maxes = (front: string) =>
      withMax(
        `47.5kg x5 r2, 2026-11-23\n  max: front squat, ${front} x5 r2, 2026-11-23`,
        'front squat: 3x8 r4',
      );
    expect(told(maxes('55kg'), 'max-contradicts')).toContain(
      'The max of front squat is above that of back squat',
    );
    expect(told(maxes('40kg'), 'max-contradicts')).toBe('');
  });

  it('shows how far the general curve lies above the one for trained postmenopausal women', () => {
    // Brzycki at 10 reps 36/27, Kemmler 2006 at 10 reps 1.2236: the max would be 8 % lower.
    const text = withMax('40kg x8 r2, 2026-11-23\n  born: 1965-03');
    expect(1 - 1.2236 / (36 / 27)).toBeCloseTo(0.082, 3);
    expect(told(text, 'curve-fit')).toContain('the max would be 8 % lower with "curve: kemmler"');
    expect(told(text.replace('1965', '1985'), 'curve-fit')).toBe('');
    expect(told(text.replace('born:', 'curve: kemmler\n  born:'), 'curve-fit')).toBe('');
  });

  it('tells on hover how far the estimate may be off, by reserve and by curve', () => {
    const text = withMax('47.5kg x5 r2, 2026-11-23');
    const session = sessionOf(text);
    const shown = hover(session, FILE, text.indexOf('3x6 r2') + 1)?.markdown ?? '';
    // By hand at 7 reps (share 30/36): half the difference of 0.95 reps either way, and 3.3 % of the curve.
    const reserve = (57 * (30 / 29.05 - 30 / 30.95)) / 2;
    const both = 2 * Math.hypot(reserve, 57 * 0.033);
    expect(shown).toMatch(new RegExp(`Give or take ${both.toFixed(1).replace('.', '\\\\?\\.')} kg`));
    expect(shown).toContain('Halperin 2022');
    expect(shown).toContain('Kemmler 2006');
    expect(shown).toMatch(/may leave [\d.]+ to [\d.]+ reps/);
  });
});

describe('balance', () => {
  const block = (rows: readonly string[], weeks = 4) =>
    around({ client: 'ready: heavy all 2026-06-01', block: `Keel, ${weeks} weeks`, row: rows.join('\n  ') });
  const PUSH = 'push-up: 2x8';
  const SQUAT = 'bodyweight squat: 2x8';
  const PLANK = 'front plank: 2x20s';

  it('pushes and never pulls', () => {
    expect(told(block([PUSH, 'hip bridge: 2x8', PLANK]), 'one-sided')).toContain('pushes and never pulls');
    expect(told(block([PUSH, 'band row: 2x8', PLANK]), 'one-sided')).not.toContain('pushes');
  });

  it('squats and never hinges', () => {
    expect(told(block([SQUAT, 'band row: 2x8', PLANK]), 'one-sided')).toContain('squats and never hinges');
    expect(told(block([SQUAT, 'hip bridge: 2x8', PLANK]), 'one-sided')).not.toContain('squats');
  });

  it('no carry and nothing from the ground to overhead in four weeks', () => {
    expect(told(block([SQUAT, PUSH, PLANK]), 'no-carry')).toContain('4 weeks from 2026-12-07');
    expect(told(block([SQUAT, PUSH, PLANK], 3), 'no-carry')).toBe('');
    expect(told(block([SQUAT, PUSH, 'suitcase carry: 2x20m']), 'no-carry')).toBe('');
    // Two blocks of two weeks are four weeks; a carry in the third week parts them.
    const second = (row: string) => `${block([SQUAT], 2)}\nblock Mast, 2 weeks\nday Lower\n  ${row}\n`;
    expect(told(second(SQUAT), 'no-carry')).toContain('4 weeks from 2026-12-07');
    expect(told(second('farmer carry: 2x20m'), 'no-carry')).toBe('');
  });

  it('one side only', () => {
    expect(told(block(['split squat (left): 2x8', PLANK]), 'one-side-only')).toContain('Only the left side');
    expect(told(block(['split squat (left): 2x8', 'split squat (right): 2x8']), 'one-side-only')).toBe('');
    expect(told(block(['split squat: 2x8 /side']), 'one-side-only')).toBe('');
  });
});
