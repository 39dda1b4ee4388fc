/** The sets before the first working set, and the steps of a test, with loads that the kit can make. */

import { say } from '../../../../grammar/say.js';
import { availableLoads, chooseLoad, nextLoad } from '../kit.js';
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

/** The largest published step, so that the loads of a test start low. */
const MOST_INCREASE = { lower: 0.2, upper: 0.1 } as const;
const STEPS_BEFORE_ATTEMPT = 3;

/**
 * Loads of the three sets before the first attempt, and of that attempt: upwards by the largest step to what her max says
 * of it, each rounded down to the kit. Empty where no load is known, or the kit has too few below it.
 */
function testLoadsKg(cell: ResolvedCell, isLower: boolean): readonly number[] {
  const attemptKg = cell.groups[0]?.loadKg ?? null;
  const implement = cell.movement?.implement;
  if (attemptKg === null || attemptKg <= 0 || !cell.kit || !implement) return [];
  if (implement.kind === 'bodyweight' || implement.kind === 'band') return [];
  const { model } = cell.kit;
  const increase = 1 + (isLower ? MOST_INCREASE.lower : MOST_INCREASE.upper);
  const loads: number[] = [];
  for (let step = STEPS_BEFORE_ATTEMPT; step >= 0; step -= 1) {
    const last = loads.at(-1);
    const aimKg = attemptKg / increase ** step;
    // No further up than a step, unless the kit's own steps are larger.
    const chosen = chooseLoad(model, implement, Math.min(aimKg, (last ?? aimKg) * increase), 'down')?.loadKg;
    const next = last === undefined ? null : nextLoad(model, implement, last, 'up');
    const kg = chosen !== undefined && chosen > (last ?? 0) ? chosen : next;
    if (kg === null || kg > attemptKg) return [];
    loads.push(kg);
  }
  return loads;
}

/**
 * The steps to the heaviest set of `reps` that leaves one. After the NSCA testing steps (Haff & Triplett, Essentials of
 * Strength Training and Conditioning): light, two increases, then attempts with 2 to 4 minutes between; a failed
 * attempt goes down. Here the set ends with one in reserve, so that no repetition is missed. Where a max is known, each
 * step names a load to start from that the kit can make.
 */
export function testSteps(cell: ResolvedCell): readonly string[] {
  if (cell.test === null) return [];
  const isLower = LOWER_BODY.has(cell.movement?.pattern ?? '');
  const increase = isLower ? say('10 to 20%') : say('5 to 10%');
  const goal = cell.test.reps === 1 ? say('the heaviest single') : say`the heaviest set of ${cell.test.reps}`;
  const loads = testLoadsKg(cell, isLower).map((kg) => formatMass(kg, cell.client.units));
  const about = (step: string, index: number) => {
    const load = loads[index];
    if (load === undefined) return step;
    return index < STEPS_BEFORE_ATTEMPT ? say`${step} About ${load}.` : say`${step} First about ${load}.`;
  };
  const steps = [
    say('1. An easy load, 5 to 10 repetitions. Rest 1 min.'),
    say`2. ${increase} more, 3 to 5 repetitions. Rest 2 min.`,
    say`3. ${increase} more, 2 or 3 repetitions. Rest 2 to 4 min.`,
    say`4. ${increase} more, then smaller steps: sets of ${cell.test.reps} until one leaves just 1. Rest 2 to 4 min each time, at most 5 sets.`,
  ];
  return [
    say`Test: work up to ${goal} that leaves 1 in reserve. Have a spotter or safety pins.`,
    ...steps.map(about),
    say('5. If a set leaves less than 1, stop: the set before it counts.'),
  ];
}
