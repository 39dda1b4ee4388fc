/** What a kit can make for a movement: available loads, the load for a target, and the next one up or down. */

import { firstAbove } from './numbers.js';
import { allBarLoads, type Plate, pickLoadIndex, platesFor, type Rounding } from './plates.js';

export type { Plate, Rounding } from './plates.js';

/** A bar of the kit; the first has usually no name. */
export interface Bar {
  name: string | null;
  kg: number;
}

/** Single weights of one mass; `count` null means that there are as many as needed. */
export interface SingleWeight {
  kg: number;
  count: number | null;
}

export interface Machine {
  name: string;
  /** Selectable loads in kilograms. */
  loadsKg: number[];
  /** Shortest and tallest body height in centimetres that the machine fits; null when not stated. */
  fitsCm: [number, number] | null;
}

export interface KitModel {
  name: string;
  /** The first is the main bar. */
  bars: Bar[];
  plates: Plate[];
  dumbbells: SingleWeight[];
  kettlebells: SingleWeight[];
  /** A backpack that is loaded in steps; it can always be left empty (0 kg) as well. */
  pack: { fromKg: number; toKg: number; stepKg: number } | null;
  /** Names of the bands, lightest first. */
  bands: string[];
  machines: Readonly<Record<string, Machine>>;
}

/** With what a movement is loaded. */
export type Implement =
  | { kind: 'barbell'; bar: string | null }
  | { kind: 'dumbbells' }
  | { kind: 'dumbbell' }
  | { kind: 'kettlebell' }
  | { kind: 'pack' }
  | { kind: 'band' }
  | { kind: 'machine'; key: string }
  | { kind: 'bodyweight' };

export interface ChosenLoad {
  /** Total of bar and plates; one dumbbell of a pair; the machine's stack; the added mass of a pack. */
  loadKg: number;
  /** Plates of one side, heaviest first; null when there is no bar. */
  eachSideKg: number[] | null;
  /** Name of the bar; null for an unnamed bar and for everything that is no bar. */
  bar: string | null;
}

/** Loads of an implement, ascending; `bars` names the bar of each load and is null for everything else. */
interface LoadTable {
  loadsKg: readonly number[];
  bars: readonly Bar[] | null;
}

/** Two loads closer than this are the same. */
const SAME_KG = 1e-6;
const NO_LOADS: LoadTable = { loadsKg: [], bars: null };

const tables = new WeakMap<KitModel, Map<string, LoadTable>>();

function foldName(name: string): string {
  return name.trim().replace(/\s+/g, ' ').toLowerCase();
}

function distinctAscending(loadsKg: readonly number[]): number[] {
  const ascending = [...loadsKg].sort((a, b) => a - b);
  return ascending.filter((kg, index) => index === 0 || kg - (ascending[index - 1] as number) > SAME_KG);
}

function plain(loadsKg: readonly number[]): LoadTable {
  return { loadsKg: distinctAscending(loadsKg), bars: null };
}

function singles(weights: readonly SingleWeight[], needed: number): LoadTable {
  return plain(
    weights.filter((weight) => weight.count === null || weight.count >= needed).map((weight) => weight.kg),
  );
}

function packLoads(pack: KitModel['pack']): LoadTable {
  if (!pack) return NO_LOADS;
  const { fromKg, toKg, stepKg } = pack;
  const steps = stepKg > 0 ? Math.floor((toKg - fromKg) / stepKg + SAME_KG) : 0;
  // Each load is a multiple of the step, not a running sum, so that no noise adds up.
  const loads = Array.from({ length: Math.max(0, steps) + 1 }, (_, step) => fromKg + step * stepKg);
  return plain([0, ...loads.filter((kg) => kg >= 0 && kg <= toKg + SAME_KG)]);
}

/** Loads of the main bar, and below it those of lighter bars, each with the heaviest bar that makes it. */
function barbellLoads(kit: KitModel, barName: string | null): LoadTable {
  const main = kit.bars[0];
  if (!main) return NO_LOADS;
  if (barName !== null) {
    const wanted = foldName(barName);
    const named = kit.bars.find((bar) => bar.name !== null && foldName(bar.name) === wanted);
    return named ? oneBar(named, kit.plates) : NO_LOADS;
  }
  const below: { kg: number; bar: Bar }[] = [];
  const lighterBars = kit.bars.filter((bar) => bar.kg < main.kg).sort((a, b) => b.kg - a.kg);
  for (const bar of lighterBars) {
    for (const kg of allBarLoads(bar.kg, kit.plates)) {
      if (kg >= main.kg - SAME_KG) break;
      if (!below.some((known) => Math.abs(known.kg - kg) <= SAME_KG)) below.push({ kg, bar });
    }
  }
  below.sort((a, b) => a.kg - b.kg);
  const ofMain = oneBar(main, kit.plates);
  return {
    loadsKg: [...below.map((load) => load.kg), ...ofMain.loadsKg],
    bars: [...below.map((load) => load.bar), ...(ofMain.bars ?? [])],
  };
}

function oneBar(bar: Bar, plates: readonly Plate[]): LoadTable {
  const loadsKg = allBarLoads(bar.kg, plates);
  return { loadsKg, bars: loadsKg.map(() => bar) };
}

function buildTable(kit: KitModel, implement: Implement): LoadTable {
  switch (implement.kind) {
    case 'barbell':
      return barbellLoads(kit, implement.bar);
    case 'dumbbells':
      return singles(kit.dumbbells, 2);
    case 'dumbbell':
      return singles(kit.dumbbells, 1);
    case 'kettlebell':
      return singles(kit.kettlebells, 1);
    case 'pack':
      return packLoads(kit.pack);
    case 'machine':
      return Object.hasOwn(kit.machines, implement.key)
        ? plain((kit.machines[implement.key] as Machine).loadsKg)
        : NO_LOADS;
    case 'band':
      return NO_LOADS;
    case 'bodyweight':
      return plain([0]);
  }
}

function tableOf(kit: KitModel, implement: Implement): LoadTable {
  let ofKit = tables.get(kit);
  if (!ofKit) {
    ofKit = new Map();
    tables.set(kit, ofKit);
  }
  const detail =
    implement.kind === 'barbell' ? implement.bar : implement.kind === 'machine' ? implement.key : null;
  const key = detail === null ? implement.kind : `${implement.kind}:${detail}`;
  let table = ofKit.get(key);
  if (!table) {
    table = buildTable(kit, implement);
    ofKit.set(key, table);
  }
  return table;
}

/**
 * Loads in kilograms that the kit has for the implement, ascending and distinct: totals of bar and plates, one
 * dumbbell of a pair (both have to exist), a machine's stack, a pack's content (0 when left empty), 0 for bodyweight.
 * Empty when the kit has none, and for bands, which have no mass. The list is kept and shared: do not change it; nor
 * change a kit once it has been asked.
 */
export function availableLoads(kit: KitModel, implement: Implement): readonly number[] {
  return tableOf(kit, implement).loadsKg;
}

/**
 * The load for a target, by `rounding` (a load up to 1 % above the target counts as reached). The main bar is used
 * unless the target lies below it and a lighter one reaches it, or the implement names another. Null when even the
 * lightest load is more than 1 % above the target, or there is none.
 */
export function chooseLoad(
  kit: KitModel,
  implement: Implement,
  targetKg: number,
  rounding: Rounding,
): ChosenLoad | null {
  const table = tableOf(kit, implement);
  const index = pickLoadIndex(table.loadsKg, targetKg, rounding);
  if (index < 0) return null;
  const loadKg = table.loadsKg[index] as number;
  const bar = table.bars?.[index];
  if (!bar) return { loadKg, eachSideKg: null, bar: null };
  return { loadKg, eachSideKg: platesFor(loadKg, bar.kg, kit.plates), bar: bar.name };
}

/** The lightest load in kilograms that the kit has for the implement; null when it has none. */
export function lightestLoad(kit: KitModel, implement: Implement): number | null {
  return tableOf(kit, implement).loadsKg[0] ?? null;
}

/**
 * The next load in kilograms above or below `fromKg`, which need not be a load of the kit itself. Null at the end of
 * what the kit has.
 */
export function nextLoad(
  kit: KitModel,
  implement: Implement,
  fromKg: number,
  direction: 'up' | 'down',
): number | null {
  const { loadsKg } = tableOf(kit, implement);
  if (direction === 'up') return loadsKg[firstAbove(loadsKg, fromKg + SAME_KG)] ?? null;
  const notBelow = firstAbove(loadsKg, fromKg - SAME_KG);
  return loadsKg[notBelow - 1] ?? null;
}
