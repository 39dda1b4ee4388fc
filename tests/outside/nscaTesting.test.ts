/**
 * NSCA 1RM testing steps (Haff & Triplett, Essentials, 4th ed., 2016), as quoted on public pages: light 5 to 10 reps, 1
 * min; 5 to 10 % (upper) or 10 to 20 % (lower body) more for 3 to 5, 2 min; the same again for 2 to 3, 2 to 4 min;
 * attempts with 2 to 4 min between, within 3 to 5 sets. The percentages for the lower body are partly from memory.
 * Tolerance: none.
 */

import { describe, expect, it } from 'vitest';
import { testSteps } from '../../server/src/engine/print/warmUp.js';
import { around, sessionOf } from '../rules/check.js';

function steps(lift: string, test: string): readonly string[] {
  const text = around({
    client: `ready: heavy all 2026-06-01\n  max: ${lift}, 47.5kg x5 r2, 2026-11-23`,
    row: `${lift}: 3x6 r2 | ${test} |`,
  });
  const cell = sessionOf(text).plan('heron')?.sessions[1]?.cells[0];
  return cell ? testSteps(cell) : [];
}

describe('a test', () => {
  it.each([
    ['back squat', '10 to 20%'],
    ['deadlift', '10 to 20%'],
    ['bench press', '5 to 10%'],
    ['overhead press', '5 to 10%'],
  ])('of %s rises by %s', (lift, rise) => {
    const [, first, second, third, attempts] = steps(lift, 'test x1');
    expect(first).toContain('5 to 10 repetitions. Rest 1 min.');
    expect(second).toContain(`${rise} more, 3 to 5 repetitions. Rest 2 min.`);
    expect(third).toContain(`${rise} more, 2 or 3 repetitions. Rest 2 to 4 min.`);
    expect(attempts).toContain('Rest 2 to 4 min each time, at most 5 sets.');
  });

  it('ends with one left and never goes up after a set that was too hard: stricter than the source', () => {
    const all = steps('back squat', 'test x5').join('\n');
    expect(all).toContain('the heaviest set of 5 that leaves 1 in reserve');
    expect(all).toContain('If a set leaves less than 1, stop');
    expect(all).toMatch(/spotter or safety pins/);
  });

  it.each([
    // 57 kg: five with one left are 47.5 kg. 47.5/1.2³ is 27.49, reached at 27.5 kg; then up by at most 20 %.
    ['back squat', 'test x5', ['27.5 kg', '32.5 kg', '37.5 kg', '45 kg'], 1.2],
    // A single with one left is 55 kg. 55/1.1³ is 41.3; by 10 % each time, or by the pair of plates that the kit has.
    ['bench press', 'test x1', ['40 kg', '42.5 kg', '45 kg', '47.5 kg'], 1.1],
  ])(
    'of %s, %s: names loads that the kit can make, a published step apart at most',
    (lift, test, loads, most) => {
      expect(steps(lift, test).map((step) => / [Aa]bout (.*)\.$/.exec(step)?.[1])).toEqual([
        undefined,
        ...loads,
        undefined,
      ]);
      const kg = loads.map((load) => Number.parseFloat(load));
      for (let step = 1; step < kg.length; step += 1) {
        expect((kg[step] ?? 0) / (kg[step - 1] ?? 1)).toBeGreaterThan(1);
        expect((kg[step] ?? 0) / (kg[step - 1] ?? 1)).toBeLessThanOrEqual(most);
      }
    },
  );

  it('names no load where no max is known', () => {
    const text = around({ client: 'ready: heavy all 2026-06-01', row: 'back squat: 3x6 20kg | test x5 |' });
    const cell = sessionOf(text).plan('heron')?.sessions[1]?.cells[0];
    expect(cell ? testSteps(cell).join(' ') : 'about').not.toMatch(/about/i);
  });

  it('has no steps in an ordinary week', () => {
    expect(steps('back squat', '3x6')).toEqual([]);
  });
});
