/**
 * 2-for-2 rule (Graves & Baechle; Baechle & Earle, Essentials of Strength Training and Conditioning, 2008, quoted on public
 * pages): two or more repetitions over the goal in the last set, in two sessions one after the other. Tolerance: none.
 */

import { describe, expect, it } from 'vitest';
import { clientOffers } from '../../server/src/engine/history/history.js';
import { around, KIT, sessionOf } from '../rules/check.js';

/** Sources of the offers of a next load after sessions of 3 sets of 8 whose last set has so many repetitions. */
function offered(lastSets: readonly number[], sets = '8 8'): readonly string[] {
  const logs = lastSets.map(
    (reps, week) =>
      `log Heron, 2026-12-${7 + 7 * week < 10 ? '0' : ''}${7 + 7 * week}, Lower\n  back squat: 40kg ${sets} ${reps}`,
  );
  const session = sessionOf(
    `${around({ kit: KIT.replace('1.25kg x2', '0.5kg x2, 1.25kg x2'), row: 'back squat: 3x8 40kg' })}\n${logs.join('\n\n')}\n`,
  );
  const plan = session.plan('heron');
  if (!plan) throw new Error('no plan');
  return clientOffers(plan, session.world(), '2026-12-23')
    .filter(({ kind }) => kind === 'next-load')
    .map(({ source }) => source);
}

describe('two for two', () => {
  it('offers the next load after two sessions with two over', () => {
    expect(offered([10, 10])[0]).toContain('2-for-2');
    expect(offered([8, 10, 11])[0]).toContain('2-for-2');
  });
  it('does not after one such session, or where one of the two has less', () => {
    expect(offered([10])).toEqual([]);
    expect(offered([10, 8])).toEqual([]);
    expect(offered([8, 10])).toEqual([]);
    // One over each time is the rule of ACSM 2009, and says so.
    expect(offered([9, 10])[0]).not.toContain('2-for-2');
  });
  it('looks at the last set: repetitions over the goal before it count for nothing', () => {
    expect(offered([8, 8], '10 10')).toEqual([]);
  });
});
