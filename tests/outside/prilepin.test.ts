/**
 * Prilepin's table as quoted by McCullough (texaspowerscene.com): made from weightlifters' logs, per lift and session.
 * Tolerance: none.
 */

import { describe, expect, it } from 'vitest';
import { PRILEPIN_ZONES, prilepinZone } from '../../server/src/engine/science/volume.js';

describe("Prilepin's table (as quoted by McCullough)", () => {
  it.each([
    [0.6, 24, 18, 30],
    [0.72, 18, 12, 24],
    [0.85, 15, 10, 20],
    [0.92, 7, 4, 10],
  ])('at %d', (share, optimal, from, to) => {
    expect(prilepinZone(share)).toMatchObject({ optimalReps: optimal, range: [from, to] });
  });
  it('starts at 55 % and keeps 90 % below its last row', () => {
    expect(prilepinZone(0.5)).toBeNull();
    expect(prilepinZone(0.9)).toBe(PRILEPIN_ZONES[2]);
  });
});
