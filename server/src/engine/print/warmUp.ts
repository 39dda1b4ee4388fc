/** The sets before the first working set, and the steps of a test, with loads that the kit can make. */

import { say } from '../../../../grammar/say.js';
import { availableLoads, chooseLoad } from '../kit.js';
import type { ResolvedCell } from '../model.js';
import { formatMass } from '../units.js';

/** Share of the working load and repetitions. Common practice, no source. */
const RAMP = [
  { share: 0.4, reps: 8 },
  { share: 0.6, reps: 5 },
  { share: 0.8, reps: 3 },
] as const;

export interface WarmUpSet {
  readonly loadKg: number;
  readonly reps: number;
}

/**
 * Warm-up sets before the first group of a cell: 40, 60 and 80 % of its load, each rounded down to what the kit has
 * (its lightest load where that is too much), without repeats and never up to the working load. Empty without a load
 * to work up to.
 */
export function warmUpSets(cell: ResolvedCell): readonly WarmUpSet[] {
  const workKg = cell.groups[0]?.loadKg ?? null;
  if (workKg === null || workKg <= 0 || !cell.kit || !cell.movement) return [];
  const implement = cell.movement.implement;
  if (implement.kind === 'bodyweight' || implement.kind === 'band') return [];
  const lightest = availableLoads(cell.kit.model, implement)[0];
  if (lightest === undefined) return [];
  const sets: WarmUpSet[] = [];
  for (const { share, reps } of RAMP) {
    const targetKg = workKg * share;
    const chosen = chooseLoad(cell.kit.model, implement, targetKg, 'down');
    // A load up to 1 % above its target counts as reached elsewhere; a warm-up simply stays below the work.
    const loadKg = chosen?.loadKg ?? lightest;
    if (loadKg <= 0 || loadKg >= workKg || loadKg <= (sets[sets.length - 1]?.loadKg ?? 0)) continue;
    sets.push({ loadKg, reps });
  }
  return sets;
}

/** `Warm up: 8 with 15 kg, 5 with 25 kg, 3 with 35 kg.`; general words where no load can be named. Null without `warm`. */
export function warmUpWords(cell: ResolvedCell): string | null {
  if (!cell.warm) return null;
  const sets = warmUpSets(cell);
  if (sets.length === 0) return say('Warm up: one or two easier sets first.');
  return say`Warm up: ${sets.map(({ loadKg, reps }) => say`${reps} with ${formatMass(loadKg, cell.client.units)}`).join(', ')}.`;
}

/** Patterns that take the larger steps of a test. */
const LOWER_BODY: ReadonlySet<string> = new Set(['squat', 'hinge', 'lunge']);

/**
 * The steps to the heaviest set of `reps` that leaves one. After the NSCA testing steps (Haff & Triplett, Essentials of
 * Strength Training and Conditioning): light, two increases, then attempts with 2 to 4 minutes between; a failed
 * attempt goes down. Here the set ends with one in reserve, so that no repetition is missed.
 */
export function testSteps(cell: ResolvedCell): readonly string[] {
  if (cell.test === null) return [];
  const increase = LOWER_BODY.has(cell.movement?.pattern ?? '') ? say('10 to 20%') : say('5 to 10%');
  const goal = cell.test.reps === 1 ? say('the heaviest single') : say`the heaviest set of ${cell.test.reps}`;
  return [
    say`Test: work up to ${goal} that leaves 1 in reserve. Have a spotter or safety pins.`,
    say('1. An easy load, 5 to 10 repetitions. Rest 1 min.'),
    say`2. ${increase} more, 3 to 5 repetitions. Rest 2 min.`,
    say`3. ${increase} more, 2 or 3 repetitions. Rest 2 to 4 min.`,
    say`4. ${increase} more, then smaller steps: sets of ${cell.test.reps} until one leaves just 1. Rest 2 to 4 min each time, at most 5 sets.`,
    say('5. If a set leaves less than 1, stop: the set before it counts.'),
  ];
}
