/**
 * Sports 2024;12(9):233 (table): cubic forms for six machines, trained people of 73 ± 8 years with osteopenia or osteoporosis
 * (n = 40). That they read load × (c0 + c1 r + c2 r² + c3 r³) is inferred from the form of 2006. Stave has no such curve: this
 * shows that its two stay on both sides of them. Tolerance: the rounding of the coefficients, 1 %.
 */

import { describe, expect, it } from 'vitest';
import { CUBIC_EXERCISES, cubicMultiplier } from '../../server/reference/departures.js';
import { curve } from '../../server/src/engine/curves.js';

describe.each(CUBIC_EXERCISES)('%s', (exercise) => {
  it('gives about the load itself for a single', () => {
    expect(Math.abs(cubicMultiplier(exercise, 1) / 1.0 - 1)).toBeLessThan(0.05);
  });

  it.each([8, 9, 10])('lies between the curve for trained women and Brzycki at %i repetitions', (reps) => {
    const published = cubicMultiplier(exercise, reps);
    expect(published).toBeGreaterThan(0.99 / curve('kemmler').share(reps));
    expect(published).toBeLessThan(1.01 / curve('brzycki').share(reps));
  });
});
