import { CURVE_NAMES, curve } from '../curves.js';
import { type GroupInput, known, lowerReps } from './group.js';
import { repsToFailure, strengthOf } from './strength.js';

/**
 * A load for few repetitions (six or fewer) that rests on a max of many (more than ten) is read off the curve that
 * gives the lowest one, since curves differ most there. Both numbers can be set. Returns the input with that curve, or the input itself.
 */
export function withCautiousCurve(input: GroupInput): GroupInput {
  const { client, movement, state } = input;
  const strength = known(input.strength);
  const reps = lowerReps(state);
  if (strength?.use.kind !== 'max' || reps === null || reps > client.limits.fewReps) return input;
  const { entry } = strength.use;
  if (repsToFailure(entry) <= client.limits.manyReps) return input;
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
