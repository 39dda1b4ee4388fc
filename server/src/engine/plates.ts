/**
 * Which totals a bar and the plates that exist can make, and with which plates on each side.
 *
 * Masses are counted in whole units of 1e-10 kg. A hundredth of a pound is exactly 45 359 237 of them, so kilogram
 * and pound plates add up without rounding, and a total of 500 kg is still far below the largest exact integer.
 * What a set of plates can make is worked out once and kept as long as the plates are; a question is a binary search.
 */

import { firstAbove } from './numbers.js';

/** Plates of one mass: `count` of them in all, both sides together. An odd one cannot be used in pairs. */
export interface Plate {
  kg: number;
  count: number;
}

/** `down`: the reached load that is nearest to the target; `nearest`: the nearest of all, ties downwards. */
export type Rounding = 'down' | 'nearest';

/** A load up to this share above its target counts as reached. Common practice, no source. */
export const REACHED_TOLERANCE = 0.01;

const UNITS_PER_KG = 1e10;
/** Sums above this per side are not made: more than anybody has lifted. */
const MAX_SIDE_UNITS = 250 * UNITS_PER_KG;
/** More plates do not fit on a sleeve of 415 mm (IWF men's bar, common practice for the thickness). */
const MAX_PLATES_PER_SIDE = 20;
/**
 * A rack that nobody owns must not hold up the rest. Beyond `MAX_SUMS` different sums, only the one with the fewest
 * plates is kept of those in the same 50 g (a full kilogram and a full pound set together come so far); beyond
 * `MAX_STEPS` ways looked at, the lightest plates are left aside. What is kept stays exact.
 */
const MAX_SUMS = 20_000;
const MERGE_UNITS = 0.05 * UNITS_PER_KG;
const MAX_STEPS = 1_000_000;
/** Binary noise in kilograms of a computed target. */
const NOISE_KG = 1e-9;
/** A total that is asked for by its number may be off by half a gram. */
const SAME_TOTAL_UNITS = 0.0005 * UNITS_PER_KG;

/** One way to make a sum on one side: plates added after `before`, heaviest first. */
interface SideSum {
  units: number;
  plates: number;
  before: SideSum | null;
  plateUnits: number;
  added: number;
}

interface SideTable {
  sums: SideSum[];
  units: Float64Array;
  eachSideKg: (number[] | undefined)[];
  barLoads: Map<number, readonly number[]>;
}

const tables = new WeakMap<readonly Plate[], SideTable>();

function toUnits(kg: number): number {
  return Math.round(kg * UNITS_PER_KG);
}

/** Pairs by mass, heaviest first; the same mass stated twice is counted together. */
function pairsByMass(plates: readonly Plate[]): { units: number; pairs: number }[] {
  const counts = new Map<number, number>();
  for (const plate of plates) {
    const units = toUnits(plate.kg);
    if (units > 0 && plate.count > 0) counts.set(units, (counts.get(units) ?? 0) + plate.count);
  }
  return [...counts]
    .map(([units, count]) => ({ units, pairs: Math.min(Math.floor(count / 2), MAX_PLATES_PER_SIDE) }))
    .filter((kind) => kind.pairs > 0)
    .sort((a, b) => b.units - a.units);
}

/** How many plates of each mass a way uses, heaviest first. */
function additions(way: SideSum): SideSum[] {
  const steps: SideSum[] = [];
  for (let step: SideSum | null = way; step?.before; step = step.before) steps.push(step);
  return steps.reverse();
}

/** Whether `a` is the better way to make the same sum: fewer plates, then more of the heaviest. */
function isBetter(a: SideSum, b: SideSum): boolean {
  if (a.plates !== b.plates) return a.plates < b.plates;
  const ofA = additions(a);
  const ofB = additions(b);
  for (let index = 0; index < Math.min(ofA.length, ofB.length); index += 1) {
    const stepA = ofA[index] as SideSum;
    const stepB = ofB[index] as SideSum;
    if (stepA.plateUnits !== stepB.plateUnits) return stepA.plateUnits > stepB.plateUnits;
    if (stepA.added !== stepB.added) return stepA.added > stepB.added;
  }
  return false;
}

/** Of the sums within the same `MERGE_UNITS` the one that is made best. */
function thinned(sums: ReadonlyMap<number, SideSum>): Map<number, SideSum> {
  const kept = new Map<number, SideSum>();
  for (const sum of sums.values()) {
    const place = Math.round(sum.units / MERGE_UNITS);
    const known = kept.get(place);
    if (!known || isBetter(sum, known)) kept.set(place, sum);
  }
  return new Map([...kept.values()].map((sum) => [sum.units, sum]));
}

function buildTable(plates: readonly Plate[]): SideTable {
  const empty: SideSum = { units: 0, plates: 0, before: null, plateUnits: 0, added: 0 };
  let sums = new Map<number, SideSum>([[0, empty]]);
  let steps = 0;
  for (const kind of pairsByMass(plates)) {
    if (steps > MAX_STEPS) break;
    for (const before of [...sums.values()]) {
      const most = Math.min(kind.pairs, MAX_PLATES_PER_SIDE - before.plates);
      for (let added = 1; added <= most; added += 1) {
        const units = before.units + added * kind.units;
        if (units > MAX_SIDE_UNITS) break;
        steps += 1;
        const way = { units, plates: before.plates + added, before, plateUnits: kind.units, added };
        const known = sums.get(units);
        if (!known || isBetter(way, known)) sums.set(units, way);
      }
    }
    if (sums.size > MAX_SUMS) sums = thinned(sums);
  }
  const ordered = [...sums.values()].sort((a, b) => a.units - b.units);
  return {
    sums: ordered,
    units: Float64Array.from(ordered, (sum) => sum.units),
    eachSideKg: new Array(ordered.length),
    barLoads: new Map(),
  };
}

function tableOf(plates: readonly Plate[]): SideTable {
  let table = tables.get(plates);
  if (!table) {
    table = buildTable(plates);
    tables.set(plates, table);
  }
  return table;
}

/** Plates of one side for the sum at `index`, heaviest first (a fresh list). */
function sideAt(table: SideTable, index: number): number[] {
  let side = table.eachSideKg[index];
  if (!side) {
    side = additions(table.sums[index] as SideSum).flatMap((step) =>
      new Array<number>(step.added).fill(step.plateUnits / UNITS_PER_KG),
    );
    table.eachSideKg[index] = side;
  }
  return side.slice();
}

/**
 * Index of the load to take for `targetKg` out of ascending `loadsKg`, or -1 when even the lightest is more than
 * `tolerance` above the target (or the target is no finite number). With `down` only loads up to target × (1 +
 * tolerance) are looked at, and of these the nearest to the target is taken, so that a load that can be made exactly
 * is made exactly; with `nearest` all are. Of two equally near ones the lighter is taken.
 */
export function pickLoadIndex(
  loadsKg: ArrayLike<number>,
  targetKg: number,
  rounding: Rounding = 'down',
  tolerance = REACHED_TOLERANCE,
): number {
  const limitKg = targetKg * (1 + tolerance) + NOISE_KG;
  if (!Number.isFinite(limitKg) || loadsKg.length === 0 || (loadsKg[0] as number) > limitKg) return -1;
  const above = firstAbove(loadsKg, targetKg + NOISE_KG);
  if (above === 0) return 0;
  if (above === loadsKg.length) return above - 1;
  const overKg = loadsKg[above] as number;
  if (rounding === 'down' && overKg > limitKg) return above - 1;
  const belowKg = loadsKg[above - 1] as number;
  return overKg - targetKg < targetKg - belowKg - NOISE_KG ? above : above - 1;
}

/**
 * All totals in kilograms, ascending and distinct, that a bar of `barKg` makes with these plates; the first is the bar
 * alone. The list is kept and shared: do not change it.
 */
export function allBarLoads(barKg: number, plates: readonly Plate[]): readonly number[] {
  const table = tableOf(plates);
  let loads = table.barLoads.get(barKg);
  if (!loads) {
    const barUnits = toUnits(barKg);
    loads = Array.from(table.units, (side) => (barUnits + 2 * side) / UNITS_PER_KG);
    table.barLoads.set(barKg, loads);
  }
  return loads;
}

/**
 * Plates for one side of a bar of `barKg` to weigh `totalKg`, heaviest first: the fewest plates, and of equally many
 * the way with more of the heaviest. Empty for the bar alone; null when these plates do not make that total.
 */
export function platesFor(totalKg: number, barKg: number, plates: readonly Plate[]): number[] | null {
  const table = tableOf(plates);
  const sideUnits = (toUnits(totalKg) - toUnits(barKg)) / 2;
  const after = firstAbove(table.units, sideUnits + SAME_TOTAL_UNITS / 2);
  let best = -1;
  let bestError = SAME_TOTAL_UNITS / 2;
  for (let index = after - 1; index >= 0; index -= 1) {
    const error = Math.abs((table.units[index] as number) - sideUnits);
    // Written so that a total that is no number is none, too.
    if (!(error <= bestError)) break;
    best = index;
    bestError = error;
  }
  return best < 0 ? null : sideAt(table, best);
}

/**
 * Loads a bar of `barKg` for a target total of `targetKg`; see `pickLoadIndex` for which total is taken and
 * `platesFor` for which plates make it. Null when even the bar alone is more than `tolerance` above the target.
 */
export function loadBar(
  targetKg: number,
  barKg: number,
  plates: readonly Plate[],
  tolerance = REACHED_TOLERANCE,
  rounding: Rounding = 'down',
): { loadKg: number; eachSideKg: number[] } | null {
  const loads = allBarLoads(barKg, plates);
  const index = pickLoadIndex(loads, targetKg, rounding, tolerance);
  if (index < 0) return null;
  // Totals and sums of one side stand in the same order.
  return { loadKg: loads[index] as number, eachSideKg: sideAt(tableOf(plates), index) };
}
