import type { PatternName } from '../../../../../grammar/index.js';
import { later } from '../../../../../grammar/say.js';

/** Patterns that load much the same muscles. Common practice, no source. */
export type MuscleGroup = (typeof MUSCLES)[keyof typeof MUSCLES];

const MUSCLES = { lower: later('lower body'), pushing: later('pushing'), pulling: later('pulling') } as const;

const GROUPS: Readonly<Partial<Record<PatternName, MuscleGroup>>> = {
  squat: MUSCLES.lower,
  hinge: MUSCLES.lower,
  lunge: MUSCLES.lower,
  push: MUSCLES.pushing,
  press: MUSCLES.pushing,
  pull: MUSCLES.pulling,
  row: MUSCLES.pulling,
};

/** The muscles of a pattern that it shares with others; null where nothing is known of them. */
export function musclesOf(pattern: PatternName): MuscleGroup | null {
  return GROUPS[pattern] ?? null;
}

/** Whether the large muscles of hips and legs do the work: squat, hinge, lunge and carry. */
export function isLowerBody(pattern: PatternName): boolean {
  return pattern === 'carry' || musclesOf(pattern) === MUSCLES.lower;
}
