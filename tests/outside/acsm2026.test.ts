/**
 * ACSM 2026, overview of reviews of resistance training (seen in reports of it): strength from 80 % of the 1RM with 2 to 3
 * sets; about 10 sets a week and muscle group for size, for which load matters less; power at 30 to 70 %. Tolerance: none at
 * the edges that are given here.
 */

import { describe, expect, it } from 'vitest';
import { around, found, KIT, sessionOf } from '../rules/check.js';

const FINE = KIT.replace('1.25kg x2', '0.25kg x2, 0.5kg x2, 1.25kg x2');

const told = (aim: string, row: string) =>
  found(
    around({
      client:
        'lifting since: 2025-01\n  ready: heavy all 2026-06-01\n  max: back squat, 60kg x1, 2026-11-23\n  max: deadlift, 80kg x1, 2026-11-23',
      kit: FINE,
      row,
    }).replace('program Winter\n', `program Winter\n  aim: ${aim}\n`),
    'aim-mismatch',
  ).map(({ message }) => message);

describe('strength (80 % and more)', () => {
  it.each([
    [75, 'load'],
    [81, 'heavy'],
    [90, 'heavy'],
  ])('%i % of the 1RM for 3 is %s', (percent, stage) => {
    const session = sessionOf(around({ kit: FINE, row: `back squat: 3x3 ${percent}%` }));
    expect(session.plan('heron')?.sessions[0]?.cells[0]?.groups[0]?.stage).toBe(stage);
  });

  it.each(['2x5 80%', '3x5 85%'])('a dose of %s serves the aim', (dose) => {
    expect(told('strength', `back squat: ${dose}`)).toEqual([]);
  });
});

describe('size (about 10 sets a week, at any load)', () => {
  it('takes ten sets at 40 % as at 80 %, and tells of eight', () => {
    const week = (sets: number, share: number) =>
      told('size', `back squat: 5x8 ${share}%\n  deadlift: ${sets}x8 ${share}%`);
    expect(week(5, 40)).toEqual([]);
    expect(week(5, 80)).toEqual([]);
    expect(week(3, 80)[0]).toContain('are among 10 or more a week');
  });
});

describe('power (30 to 70 %)', () => {
  it.each([30, 50, 70])('%i % serves the aim', (share) => {
    expect(told('power', `back squat: 4x3 ${share}% rest 3min`)).toEqual([]);
  });
});
