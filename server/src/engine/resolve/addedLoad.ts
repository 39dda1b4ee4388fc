import { availableLoads, type KitModel, nextLoad } from '../kit.js';
import type { Movement } from '../model.js';
import { firstAbove } from '../numbers.js';
import { REACHED_TOLERANCE, type Rounding } from '../plates.js';

/** Binary noise in kilograms of a computed target. */
const NOISE_KG = 1e-9;

interface Added {
  /** Loads that can be carried on top of bodyweight, ascending, in kilograms. */
  readonly loadsKg: readonly number[];
  /** Loads that take weight off, ascending. */
  readonly assistsKg: readonly number[];
}

const byKit = new WeakMap<KitModel, Map<string, Added>>();
const NOTHING: Added = { loadsKg: [], assistsKg: [] };

/**
 * What a kit has to add to bodyweight (pack, single dumbbell, kettlebell) and to take off it: the movement's own
 * machine, or one whose name starts with "assist". A movement with a pack adds by the pack alone.
 */
function addedOf(kit: KitModel, movement: Movement): Added {
  const { implement } = movement;
  const key = implement.kind === 'machine' ? `machine:${implement.key}` : implement.kind;
  let kept = byKit.get(kit);
  if (!kept) {
    kept = new Map();
    byKit.set(kit, kept);
  }
  let added = kept.get(key);
  if (!added) {
    const packOnly = implement.kind === 'pack';
    const loads = [
      ...availableLoads(kit, { kind: 'pack' }),
      ...(packOnly ? [] : availableLoads(kit, { kind: 'dumbbell' })),
      ...(packOnly ? [] : availableLoads(kit, { kind: 'kettlebell' })),
    ].filter((kg) => kg > 0);
    const machines = Object.keys(kit.machines).filter((name) =>
      implement.kind === 'machine' ? name === implement.key : name.startsWith('assist'),
    );
    const assists = machines.flatMap((name) => availableLoads(kit, { kind: 'machine', key: name }));
    const ascending = (values: readonly number[]) => [...new Set(values)].sort((a, b) => a - b);
    added = { loadsKg: ascending(loads), assistsKg: ascending(assists) };
    kept.set(key, added);
  }
  return added;
}

/** Everything that can be added, ascending: assisting loads as negative numbers, 0 for bodyweight alone, added loads. */
function allOf({ loadsKg, assistsKg }: Added): number[] {
  return [...assistsKg.map((kg) => -kg).reverse(), 0, ...loadsKg];
}

/**
 * The added load (negative: assisting) for a target on top of `bodyKg`, all in kilograms: with `down` never heavier
 * than the target by more than 1 % of the total, and of these the nearest to the target, so that what can be made
 * exactly is made exactly. 0 is bodyweight alone. Null when the target is lighter than anything there is.
 */
export function chooseAdded(
  kit: KitModel | null,
  movement: Movement,
  targetAddedKg: number,
  bodyKg: number,
  rounding: Rounding,
): number | null {
  const all = allOf(kit ? addedOf(kit, movement) : NOTHING);
  const mostKg = targetAddedKg + REACHED_TOLERANCE * Math.max(0, bodyKg + targetAddedKg) + NOISE_KG;
  if ((all[0] as number) > mostKg) return null;
  const above = firstAbove(all, targetAddedKg + NOISE_KG);
  const overKg = all[above];
  const underKg = all[above - 1];
  if (underKg === undefined) return overKg ?? null;
  if (overKg === undefined || (rounding === 'down' && overKg > mostKg)) return underKg;
  return overKg - targetAddedKg < targetAddedKg - underKg - NOISE_KG ? overKg : underKg;
}

/** One step of the kit up or down from a load; for bodyweight movements from the added load. At the end it stays. */
export function steppedKg(
  kit: KitModel | null,
  movement: Movement,
  fromKg: number,
  direction: 'up' | 'down',
): number {
  const next = isBodyweight(movement)
    ? nextAdded(kit, movement, fromKg, direction)
    : kit && nextLoad(kit, movement.implement, fromKg, direction);
  return next ?? fromKg;
}

/** Loads of this movement are added to (or taken off) bodyweight. */
export function isBodyweight(movement: Movement): boolean {
  return movement.implement.kind === 'bodyweight' || movement.liftsShare !== null;
}

/** The next added load up or down from `fromKg`; null at the end of what there is. */
function nextAdded(
  kit: KitModel | null,
  movement: Movement,
  fromKg: number,
  direction: 'up' | 'down',
): number | null {
  const all = allOf(kit ? addedOf(kit, movement) : NOTHING);
  const beyond = 1e-6;
  if (direction === 'up') return all.find((kg) => kg > fromKg + beyond) ?? null;
  return all.findLast((kg) => kg < fromKg - beyond) ?? null;
}
