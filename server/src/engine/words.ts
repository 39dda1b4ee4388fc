import { filled, say } from '../../../grammar/say.js';
import type { ResolvedGroup } from './model.js';
import { formatNumber } from './numbers.js';
import { formatMass, type MassUnit } from './units.js';

/**
 * Wording that findings, hovers, hints and printed documents share, so that all outputs say the same. Dates stand in
 * messages as they do in the notation, `2026-12-07`, so that they can be looked for; a plan has them in words.
 */

/** `Heron`, `Heron and Wren`, `Heron, Plover and Wren`. */
export function listOf(names: readonly string[], last: 'and' | 'or' = 'and'): string {
  if (names.length < 2) return names.join('');
  const [before, end] = [names.slice(0, -1).join(', '), names[names.length - 1] ?? ''];
  return last === 'or' ? say`${before} or ${end}` : say`${before} and ${end}`;
}

/** `1 week`, `3 weeks`: of one thing and of several, whose keys are `{0} week` and `{0} weeks`. */
export function countOf(count: number, one: string, many = `${one}s`): string {
  return filled(`{0} ${count === 1 ? one : many}`, formatNumber(count));
}

/** The first letter as a capital; names that a coach writes in small letters stand at the start of a line so. */
export function capitalised(text: string): string {
  const first = [...text][0] ?? '';
  return first.toUpperCase() + text.slice(first.length);
}

/** Sets and amount as a coach reads them: `3 × 6`, `3 × 6–8`, `3 × max`, `4 × 30 s`, `6 × 20 s (100 s off)`. */
export function doseText(group: ResolvedGroup): string {
  const amount = amountText(group);
  if (amount === '') return group.sets === null ? '' : countOf(group.sets, 'set');
  return group.sets === null ? amount : `${group.sets} × ${amount}`;
}

function amountText(group: ResolvedGroup): string {
  if (group.openReps) return 'max';
  if (group.seconds !== null) {
    const off = group.offSeconds === null ? '' : say` (${formatNumber(group.offSeconds)} s off)`;
    return `${formatNumber(group.seconds)} s${off}`;
  }
  if (group.metres !== null) return `${formatNumber(group.metres)} m`;
  if (group.reps === null) return '';
  const upper = group.repsUpper;
  return upper !== null && upper > group.reps ? `${group.reps}–${upper}` : `${group.reps}`;
}

/** What is lifted besides the body: `body weight`, `body weight + 5 kg`, `body weight with 10 kg of help`. */
export function bodyWeightText(addedKg: number | null, unit: MassUnit): string {
  if (addedKg === null || addedKg === 0) return say('body weight');
  return addedKg > 0
    ? say`body weight + ${formatMass(addedKg, unit)}`
    : say`body weight with ${formatMass(-addedKg, unit)} of help`;
}

/** `pack of 8 kg`, `empty pack`. */
export function packText(kg: number, unit: MassUnit): string {
  return kg === 0 ? say('empty pack') : say`pack of ${formatMass(kg, unit)}`;
}

/** `45 s`, `90 s`, `3 min`, `2 min 30 s`. */
export function durationWords(seconds: number): string {
  if (seconds < 120 && seconds !== 60) return `${formatNumber(seconds, 1)} s`;
  const minutes = Math.floor(seconds / 60);
  const rest = seconds - minutes * 60;
  return rest === 0 ? `${minutes} min` : `${minutes} min ${formatNumber(rest, 1)} s`;
}
