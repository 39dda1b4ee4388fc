/**
 * Sprint protocols. Metcalfe et al., Eur J Appl Physiol 2012;112:2767-2775 (abstract): 10 s in week 1, 15 s in weeks 2 and
 * 3, 20 s from week 4, one sprint in the first session and two after it. Boutcher et al., Med Sci Sports Exerc
 * 2019;51(7):1413-1419: 8 s and 12 s for 20 min. Tabata et al. 1996: 20 s and 10 s, 7 to 8 times.
 */

import { describe, expect, it } from 'vitest';
import { cellSeconds } from '../../server/src/engine/science/duration.js';
import { around, found, sessionOf, syntaxProblems } from '../rules/check.js';

const client = 'screened: 2026-11-01\n  ready: heavy all 2026-06-01';
const seconds = (dose: string) => {
  const text = around({ client, row: `hill sprint: ${dose}` });
  expect(syntaxProblems(text)).toEqual([]);
  const cell = sessionOf(text).plan('heron')?.sessions[0]?.cells[0];
  return cell ? cellSeconds(cell) : null;
};
const told = (dose: string) =>
  found(around({ client, row: `hill sprint: ${dose}` }), 'sprint-dose').length > 0;

describe('the time of intervals', () => {
  it.each([
    ['60x8s off 12s', 20 * 60],
    ['8x20s off 10s', 240],
    ['7x20s off 10s', 210],
    ['10x60s off 60s', 20 * 60],
  ])('%s takes %i s', (dose, published) => {
    expect(seconds(dose)).toBe(published);
  });
});

describe('all-out work in the first two weeks', () => {
  it('of the published low dose is not told', () => {
    expect(told('1x10s off 180s | 2x10s off 180s | 2x15s off 180s | 2x20s off 180s')).toBe(false);
  });
  it.each(['4x30s off 240s', '6x20s off 100s'])('%s at once is told', (dose) => {
    expect(told(dose)).toBe(true);
  });
});
