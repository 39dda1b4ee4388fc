/**
 * Boutcher et al., Med Sci Sports Exerc 2019;51(7):1413-1419 (abstract): postmenopausal women, 8 s of pedalling and 12 s
 * light, 20 min, three days a week for eight weeks, "8 h of exercise" in all. The same dose: Trapp et al., Int J Obes
 * 2008;32:684-691 (from memory), Kong et al. 2016 and Maillard et al. 2016 (abstracts). Tolerance: none.
 */

import { describe, expect, it } from 'vitest';
import { around, sessionOf } from '../rules/check.js';
import { intervals } from './intervals.js';

describe('the protocol', () => {
  it.each([['60x8s off 12s', 1200, 480]] as const)(
    '%s takes %i s, %i of them work',
    (dose, seconds, work) => {
      expect(intervals(dose).seconds).toBe(seconds);
      expect(intervals(dose).workSeconds).toBe(work);
    },
  );

  it('comes to 24 sessions and 8 hours in eight weeks', () => {
    const rows = 'hill sprint: 60x8s off 12s';
    const text = around({
      block: 'Keel, 8 weeks',
      on: 'mon wed fri',
      row: rows,
      client: 'ready: heavy all 2026-06-01',
    });
    const sessions = sessionOf(text).plan('heron')?.sessions ?? [];
    expect(sessions).toHaveLength(24);
    expect((sessions.length * (intervals('60x8s off 12s').seconds ?? 0)) / 3600).toBe(8);
  });
});
