/**
 * LIFTMOR, Watson et al., J Bone Miner Res 2018;33(2):211-220 (abstract): 101 screened women of 65 ± 5 years with low
 * bone mass, twice weekly, supervised, 5 sets of 5 at more than 80 to 85 % of the 1RM. Supervised by clinicians: no
 * licence to do so alone. Tolerance: none.
 */

import { describe, expect, it } from 'vitest';
import { around, check, sessionOf } from '../rules/check.js';

const trial = (client: string, on = 'mon thu') =>
  around({
    client: `born: 1961\n  condition: osteoporosis\n  ready: heavy squat 2026-06-01\n  max: back squat, 50kg x1, 2026-11-23${client}`,
    block: 'Keel, 4 weeks',
    row: 'back squat: 5x5 85% rest 3min\nday Two\n  back squat: 5x5 85% rest 3min',
    on,
  });
const codes = (text: string) => check(text).map(({ code }) => code);

describe('heavy lifting with low bone mass', () => {
  it('is heavy work here, 25 repetitions a lift and session', () => {
    const groups = sessionOf(trial(''))
      .plan('heron')
      ?.sessions.flatMap(({ cells }) => cells[0]?.groups ?? []);
    expect(groups).toHaveLength(8);
    for (const group of groups ?? []) {
      expect(group.stage).toBe('heavy');
      expect((group.sets ?? 0) * (group.reps ?? 0)).toBe(25);
      // Rounded down to the plates, never up.
      expect(group.loadKg).toBeLessThanOrEqual(50 * 0.85 * 1.01);
    }
  });

  it('is told where it is not supervised, or not screened, and not where it is both, as in the trial', () => {
    const screened = '\n  screened: 2026-11-01';
    expect(codes(trial(screened))).toContain('bone-caution');
    expect(codes(trial('', 'mon thu, supervised'))).toContain('bone-caution');
    expect(codes(trial(screened, 'mon thu, supervised'))).not.toContain('bone-caution');
  });

  it('asks for the sign-off however old she is, and never for age alone', () => {
    const unsigned = trial('').replace('ready: heavy squat', 'ready: load squat');
    expect(codes(unsigned)).toContain('heavy-early');
    const born = (year: string) =>
      codes(trial('').replace('  condition: osteoporosis\n', '').replace('1961', year));
    expect(born('1941')).toEqual(born('1995'));
  });
});
