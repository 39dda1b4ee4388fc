import type { PatternName } from '../../../../../grammar/index.js';

/** Patterns that load much the same muscles. Common practice, no source. */
export type MuscleGroup = 'lower body' | 'pushing' | 'pulling';

const GROUPS: Readonly<Partial<Record<PatternName, MuscleGroup>>> = {
  squat: 'lower body',
  hinge: 'lower body',
  lunge: 'lower body',
  push: 'pushing',
  press: 'pushing',
  pull: 'pulling',
  row: 'pulling',
};

/** The muscles of a pattern that it shares with others; null where nothing is known of them. */
export function musclesOf(pattern: PatternName): MuscleGroup | null {
  return GROUPS[pattern] ?? null;
}

/** Whether the large muscles of hips and legs do the work: squat, hinge, lunge and carry. */
export function isLowerBody(pattern: PatternName): boolean {
  return pattern === 'carry' || musclesOf(pattern) === 'lower body';
}
