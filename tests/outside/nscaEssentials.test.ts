/**
 * NSCA, Haff & Triplett, Essentials of Strength Training and Conditioning, 4th ed., 2016, ch. 17 (tables quoted on public
 * pages, their numbers from memory): strength 85 % and more, 6 reps or fewer, 2 to 6 sets, 2 to 5 min; power 75 to 90 %, 1 to
 * 5 reps, 3 to 5 sets, 2 to 5 min; hypertrophy 67 to 85 %, 6 to 12 reps, 3 to 6 sets, 30 s to 1.5 min; endurance 67 % and
 * less, 12 reps and more, 2 to 3 sets, 30 s and less. Beginners 2 to 3 days a week, intermediates 3 to 4. Tolerance: what the
 * tables give is taken; a rep, a set and some rest more are left alone, and what lies further off is told.
 */

import { describe, expect, it } from 'vitest';
import { around, found, KIT, sessionOf } from '../rules/check.js';

const FINE = KIT.replace('1.25kg x2', '0.25kg x2, 0.5kg x2, 1.25kg x2');

const client = (since: string) =>
  `lifting since: ${since}\n  ready: heavy all 2026-01-01\n  max: back squat, 60kg x1, 2026-11-23`;
const told = (aim: string, dose: string) =>
  found(
    around({
      client: client('2025-01'),
      kit: FINE,
      block: 'Keel, 8 weeks',
      row: `back squat: ${dose}`,
    }).replace('program Winter\n', `program Winter\n  aim: ${aim}\n`),
    'aim-mismatch',
  ).map(({ message }) => message);

describe('doses of the table', () => {
  it.each([
    ['strength', '2x6 85% rest 2min'],
    ['strength', '6x1 100% rest 5min'],
    ['power', '3x1 90% rest 2min'],
    ['power', '5x5 75% rest 5min'],
    ['endurance', '2x12 67% rest 30s'],
    ['endurance', '3x20 50% rest 30s'],
  ])('for %s: %s is taken', (aim, dose) => {
    expect(told(aim, dose)).toEqual([]);
  });

  it.each([['3x12 67% rest 30s'], ['6x6 85% rest 90s']])(
    'for size: of %s only the sets of the week are told',
    (dose) => {
      // The table counts the sets of an exercise; those of a week are from ACSM 2026.
      const [message = ''] = told('size', dose);
      expect(message).toContain('are among 10 or more a week');
      expect(message).not.toContain(';');
    },
  );

  it.each([
    ['strength', '3x15 50% rest 2min', 'have 60 % of the max or more'],
    ['power', '3x12 60% rest 2min', 'have 1 to 6 reps'],
    ['power', '3x3 80% rest 30s', 'have a minute and a half of rest or more'],
    ['size', '3x3 90% rest 5min', 'have half a minute to three minutes of rest'],
    ['endurance', '6x12 67% rest 30s', 'come in 1 to 4 sets of a movement'],
  ])('for %s: %s is told', (aim, dose, words) => {
    expect(told(aim, dose)[0]).toContain(words);
  });
});

describe('rest with heavy loads (2 to 5 min)', () => {
  it.each([
    ['60s', true],
    ['119s', true],
    ['2min', false],
    ['5min', false],
  ])('of %s is told: %s', (rest, isTold) => {
    expect(found(around({ row: `back squat: 3x5 r2 rest ${rest}` }), 'rest-short').length > 0).toBe(isTold);
  });
});

describe('days a week (beginners 2 to 3, intermediates 3 to 4, advanced 4 to 7)', () => {
  const week = (since: string, days: number) =>
    around({
      client: client(since),
      row: Array.from(
        { length: days },
        (_, day) => `${day === 0 ? '' : `day D${day}\n  `}back squat: 1x8 r4`,
      ).join('\n'),
      on: ['mon', 'tue', 'wed', 'thu', 'fri'].slice(0, days).join(' '),
    });
  it.each([
    ['2026-11-01', 3, false],
    ['2026-11-01', 4, true],
    ['2025-11-01', 4, false],
    ['2025-11-01', 5, true],
    ['2020-01-01', 5, false],
  ])('lifting since %s, %i days: told %s', (since, days, isTold) => {
    expect(found(week(since, days), 'days-many').length > 0).toBe(isTold);
  });
});

describe('what counts as heavy (strength: 85 % and more)', () => {
  it('six repetitions at 85 % are heavy', () => {
    const session = sessionOf(around({ kit: FINE, row: 'back squat: 3x6 85%' }));
    expect(session.plan('heron')?.sessions[0]?.cells[0]?.groups[0]?.stage).toBe('heavy');
  });
});
