/**
 * Heights and weights of adults in the US (NHANES): Fryar et al., Vital Health Stat 3(46), 2021 (from memory), means of
 * women 2015 to 2018: 161.29 cm, 77.47 kg; Vital Health Stat 3(39): women 161.9 cm, 76.4 kg, men 175.9 cm, 88.8 kg; NHSR 10
 * (2008), women 2003 to 2006: 50th, 75th and 95th percentile of height 162.1, 166.6 and 173.2 cm, 85th and 95th of weight 207
 * and 250 lb (both from public pages). Tolerance: none, whole people are told or not.
 */

import { describe, expect, it } from 'vitest';
import { createSession } from '../../server/src/engine/session.js';

const found = (lines: readonly string[], rest = '') => {
  const session = createSession({ today: '2026-12-01' });
  session.setFile('a.stave', `client Number\n  ${lines.join('\n  ')}\n${rest}`);
  return session.allFindings().map(({ code }) => code);
};

describe('measured adults', () => {
  it.each([
    ['161.29cm', '77.47kg'],
    ['161.9cm', '76.4kg'],
    ['175.9cm', '88.8kg'],
    ['162.1cm', '207lb'],
    ['173.2cm', '250lb'],
  ])('of %s and %s are believed', (height, mass) => {
    expect(found([`height: ${height}`, `mass: ${mass}, 2026-11-01`])).toEqual([]);
  });

  it.each([
    ['77cm', '161kg'],
    ['161.29cm', '7.747kg'],
    ['116.29cm', '77.47kg'],
  ])('whose numbers are exchanged or lack a digit (%s, %s) are asked about', (height, mass) => {
    expect(found([`height: ${height}`, `mass: ${mass}, 2026-11-01`])).toContain('body-unlikely');
  });
});

describe('a machine for people of 173 to 190 cm', () => {
  const kit = `
kit Hall
  machine leg press: 20kg to 120kg by 5kg, fits 173cm to 190cm

movement leg press
  pattern: squat
  with: machine leg press

program Winter

block Keel, 1 week
day Lower
  leg press: 2x8 30kg
`;
  const told = (height: string) =>
    found(
      [
        'trains at: Hall',
        'follows: Winter, from 2026-12-07, on mon',
        `height: ${height}`,
        'mass: 70kg, 2026-11-01',
      ],
      kit,
    ).includes('machine-fit');

  it.each(['162.1cm', '166.6cm'])('does not fit a woman of %s, as half and three quarters are', (height) => {
    expect(told(height)).toBe(true);
  });

  it('begins to fit where 95 of 100 are shorter', () => {
    expect(told('173.2cm')).toBe(false);
  });
});
