import { CURVE_NAMES, curve } from '../curves.js';
import { type GroupInput, known, lowerReps } from './group.js';
import { RELIABLE_REPS, repsToFailure, strengthOf } from './strength.js';

/** Work of so few repetitions lies far from a max of many. Common practice, no source. */
const FEW_REPS = 6;

/**
 * A load for six repetitions or fewer that rests on a max of more than ten is read off the curve that gives the
 * lowest one, since curves differ most there. Returns the input with that curve, or the input itself.
 */
export function withCautiousCurve(input: GroupInput): GroupInput {
  const { client, movement, state } = input;
  const strength = known(input.strength);
  const reps = lowerReps(state);
  if (strength?.use.kind !== 'max' || reps === null || reps > FEW_REPS) return input;
  const { entry } = strength.use;
  if (repsToFailure(entry) <= RELIABLE_REPS) return input;
  const n = reps + (state.reserve ?? 0);
  let lowest = { curve: input.curve, kg: strength.estimatedOneRepMaxKg };
  for (const name of CURVE_NAMES) {
    const other = curve(name);
    const kg = strengthOf(client, movement, entry, other);
    if (kg !== null && kg * other.share(n) < lowest.kg * lowest.curve.share(n)) lowest = { curve: other, kg };
  }
  if (lowest.curve === input.curve) return input;
  return { ...input, curve: lowest.curve, strength: { ...strength, estimatedOneRepMaxKg: lowest.kg } };
}
