import type { Amount, CellItem, CellNode, GroupNode } from '../../../../grammar/index.js';

/** What a load rests on. */
export type Basis =
  | { readonly kind: 'none' }
  | { readonly kind: 'reserve' }
  | { readonly kind: 'percent'; readonly percent: number }
  | { readonly kind: 'load'; readonly kg: number }
  | { readonly kind: 'bodyweight'; readonly addedKg: number | null }
  | { readonly kind: 'pack'; readonly kg: number }
  | { readonly kind: 'band'; readonly band: string };

/** A change of load as written, against the week before or (in a related group) against the group before. */
export type Change =
  | { readonly kind: 'percent'; readonly percent: number }
  | { readonly kind: 'mass'; readonly kg: number }
  | { readonly kind: 'step'; readonly direction: 'up' | 'down' };

/** One set group of a row in a week, as far as the text tells. */
export interface GroupState {
  sets: number | null;
  amount: Amount | null;
  offSeconds: number | null;
  basis: Basis;
  /** Written reserve of the last set; null where none is written. */
  reserve: number | null;
  /** Product of the percent changes since the basis was written. */
  factor: number;
  /** Kilograms on top of basis × factor. */
  offsetKg: number;
  /** A kilogram change had no load to start from: no load is given until a new basis. */
  lost: boolean;
  /** The group before that this one is related to, by this change. */
  relation: Change | null;
  /** The `like … +x%` factor; back to 1 when a newer max has come. */
  likeFactor: number;
  /** Sets and reserve are those of a derived deload; the load is still to be lowered by the curve or by 10 %. */
  derivedDeload: boolean;
  /** 1, or the share of the target in a derived deload. */
  deloadShare: number;
}

/** A row in a week, as far as the text tells. */
export interface RowState {
  groups: GroupState[];
  perSide: boolean;
  restSeconds: number | null;
  tempo: readonly [number, number, number] | null;
  heightCm: number | null;
  warm: boolean;
  trainsInDeload: boolean;
  stopped: boolean;
  /** Changes that repeat every week until the end of the block. */
  weekly: PendingChange[];
}

export interface PendingChange {
  readonly group: number;
  readonly change: Change;
}

/** What a cell asks for beyond the new state. */
export interface CellEffect {
  /** Changes against the week before, in order; the resolver applies them, since it knows the loads. */
  readonly changes: readonly PendingChange[];
  readonly leftOut: boolean;
  readonly test: { readonly reps: number } | null;
  readonly texts: readonly string[];
  /** Groups that this cell gives a new basis. */
  readonly newBasis: ReadonlySet<number>;
}

export function emptyRow(): RowState {
  return {
    groups: [],
    perSide: false,
    restSeconds: null,
    tempo: null,
    heightCm: null,
    warm: false,
    trainsInDeload: false,
    stopped: false,
    weekly: [],
  };
}

/** A copy whose groups can be changed without changing the original. */
export function copyRow(state: RowState): RowState {
  return { ...state, groups: state.groups.map((group) => ({ ...group })), weekly: [...state.weekly] };
}

function newGroup(likeFactor: number): GroupState {
  return {
    sets: null,
    amount: null,
    offSeconds: null,
    basis: { kind: 'none' },
    reserve: null,
    factor: 1,
    offsetKg: 0,
    lost: false,
    relation: null,
    likeFactor,
    derivedDeload: false,
    deloadShare: 1,
  };
}

/** Changes `state` by what a cell says. An absent or empty cell changes nothing. */
export function applyCell(state: RowState, cell: CellNode | null, likeFactor: number): CellEffect {
  const changes: PendingChange[] = [];
  const texts: string[] = [];
  const newBasis = new Set<number>();
  let leftOut = false;
  let test: CellEffect['test'] = null;
  const dropped = new Set<number>();
  for (const [index, node] of (cell?.groups ?? []).entries()) {
    const kinds = new Set(node.items.map((item) => item.kind));
    if (index > 0 && kinds.has('left-out')) {
      dropped.add(index);
      continue;
    }
    for (const item of node.items) {
      if (item.kind === 'left-out') leftOut = true;
      if (item.kind === 'stop') state.stopped = true;
      if (item.kind === 'test') test = { reps: item.reps };
      if (item.kind === 'text') texts.push(item.text);
      applyAttribute(state, item);
    }
    if (!hasWork(node)) continue;
    const change = changeOf(node);
    const isNew = state.groups[index] === undefined;
    const group = groupAt(state, index, likeFactor);
    applyDose(group, node);
    const basis = applyBasis(group, node, likeFactor);
    if (basis) newBasis.add(index);
    if (!change) continue;
    if (index > 0 && !basis && (isNew || group.relation)) {
      relate(state, index, change, isNew, node);
    } else {
      changes.push({ group: index, change });
      if (kinds.has('weekly')) state.weekly.push({ group: index, change });
    }
  }
  if (dropped.size > 0) state.groups = state.groups.filter((_, index) => !dropped.has(index));
  return { changes, leftOut, test, texts, newBasis };
}

/** Whether a group says anything about the work itself (and not only about rest, tempo and the like). */
function hasWork(node: GroupNode): boolean {
  return node.items.some((item) => WORK.has(item.kind));
}

const WORK: ReadonlySet<CellItem['kind']> = new Set([
  'dose',
  'off',
  'reserve',
  'percent',
  'load',
  'bodyweight',
  'pack',
  'band',
  'change-percent',
  'change-mass',
  'step',
] as const);

/** The group of that number; groups that the text skipped stay as empty ones and are never made up. */
function groupAt(state: RowState, index: number, likeFactor: number): GroupState {
  while (state.groups.length <= index) state.groups.push(newGroup(likeFactor));
  return state.groups[index] as GroupState;
}

/** A group with only a change: takes over reps (and sets, where it states none) of the group before, never its effort. */
function relate(state: RowState, index: number, change: Change, isNew: boolean, node: GroupNode): void {
  const group = state.groups[index] as GroupState;
  const before = state.groups[index - 1] as GroupState;
  group.relation = change;
  if (!isNew) return;
  const dose = node.items.find((item) => item.kind === 'dose');
  if (dose?.kind !== 'dose' || dose.amount === null) group.amount = before.amount;
  if (dose?.kind !== 'dose' || dose.sets === null) group.sets = before.sets;
}

function changeOf(node: GroupNode): Change | null {
  for (const item of node.items) {
    if (item.kind === 'change-percent') return { kind: 'percent', percent: item.percent };
    if (item.kind === 'change-mass') return { kind: 'mass', kg: item.mass.kg };
    if (item.kind === 'step') return { kind: 'step', direction: item.direction };
  }
  return null;
}

function applyDose(group: GroupState, node: GroupNode): void {
  for (const item of node.items) {
    if (item.kind === 'dose') {
      if (item.sets !== null) group.sets = item.sets;
      if (item.amount !== null) {
        if (item.amount.kind !== group.amount?.kind) group.offSeconds = null;
        group.amount = item.amount;
      }
    }
    if (item.kind === 'off') group.offSeconds = item.seconds;
  }
}

/**
 * A new basis replaces the old and clears factor and offset. Effort beside a load leaves the load standing. Effort
 * alone, where a band, a pack or bodyweight stood, changes the effort only: it must not lift a weight.
 */
function applyBasis(group: GroupState, node: GroupNode, likeFactor: number): boolean {
  let effort: number | null = null;
  let basis: Basis | null = null;
  for (const item of node.items) {
    if (item.kind === 'reserve') effort = item.reserve;
    else basis = basisOf(item) ?? basis;
  }
  if (effort === null && !basis) return false;
  const keeps =
    group.basis.kind === 'band' || group.basis.kind === 'pack' || group.basis.kind === 'bodyweight';
  if (!basis && keeps) {
    group.reserve = effort;
    return false;
  }
  group.basis = basis ?? { kind: 'reserve' };
  group.reserve = effort;
  group.factor = 1;
  group.offsetKg = 0;
  group.lost = false;
  group.relation = null;
  group.likeFactor = likeFactor;
  group.derivedDeload = false;
  return true;
}

function basisOf(item: CellItem): Basis | null {
  switch (item.kind) {
    case 'percent':
      return { kind: 'percent', percent: item.percent };
    case 'load':
      return { kind: 'load', kg: item.mass.kg };
    case 'bodyweight':
      return { kind: 'bodyweight', addedKg: item.added?.kg ?? null };
    case 'pack':
      return { kind: 'pack', kg: item.mass.kg };
    case 'band':
      return { kind: 'band', band: item.band.key };
    default:
      return null;
  }
}

function applyAttribute(state: RowState, item: CellItem): void {
  switch (item.kind) {
    case 'side':
      state.perSide = true;
      break;
    case 'rest':
      state.restSeconds = item.seconds;
      break;
    case 'tempo':
      state.tempo = item.tempo;
      break;
    case 'height':
      state.heightCm = item.cm;
      break;
    case 'warm':
      state.warm = true;
      break;
    case 'no':
      if (item.what === 'side') state.perSide = false;
      else if (item.what === 'rest') state.restSeconds = null;
      else if (item.what === 'tempo') state.tempo = null;
      else if (item.what === 'height') state.heightCm = null;
      else if (item.what === 'warm') state.warm = false;
      else state.trainsInDeload = true;
      break;
  }
}
