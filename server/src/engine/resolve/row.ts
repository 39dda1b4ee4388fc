import type { CellNode } from '../../../../grammar/index.js';
import { say } from '../../../../grammar/say.js';
import { type RowWeeks, rowWeeks } from '../bind/weeks.js';
import { isWithin } from '../dates.js';
import type {
  Block,
  Client,
  Day,
  Kit,
  LoadIssue,
  MaxEntry,
  Movement,
  Place,
  Program,
  ResolvedCell,
  ResolvedGroup,
  Row,
  Swap,
  World,
} from '../model.js';
import { deloadSets } from '../numbers.js';
import { isBodyweight, steppedKg } from './addedLoad.js';
import type { Slot } from './calendar.js';
import { withCautiousCurve } from './cautious.js';
import { basisKg, type GroupInput, growsWithLike, liftedBodyKg, lowerReps, resolveGroup } from './group.js';
import {
  applyCell,
  type CellEffect,
  copyRow,
  emptyRow,
  type GroupState,
  type PendingChange,
  type RowState,
} from './rowState.js';
import { curveOn, strengthOn } from './strength.js';

/** Where a row is resolved: for one client, in one block of one program. */
export interface RowContext {
  readonly world: World;
  readonly client: Client;
  readonly program: Program;
  readonly block: Block;
  readonly day: Day;
  readonly row: Row;
}

/** Two more in reserve in a derived deload, and without a reserve 10 % off (language: Deload weeks). */
const DELOAD_MORE_RESERVE = 2;
const DELOAD_LOAD_SHARE = 0.9;

const weeksByRow = new WeakMap<Row, RowWeeks>();

function weeksOf(row: Row, block: Block): RowWeeks {
  let weeks = weeksByRow.get(row);
  if (!weeks) {
    weeks = rowWeeks(row.node, block.weeks);
    weeksByRow.set(row, weeks);
  }
  return weeks;
}

/** Told of each set group while a cell is worked out again for its reasons; absent in ordinary work. */
export type RowTrace = (
  group: number,
  input: GroupInput,
  result: ResolvedGroup,
  /** What was not done, in plain words. */
  notes: readonly string[],
) => void;

/**
 * Resolves a row week by week. The state carries from week to week, so the weeks have to be asked in order; the same
 * week may be asked again for another date.
 */
export class RowRunner {
  readonly #context: RowContext;
  readonly #weeks: RowWeeks;
  #state: RowState = emptyRow();
  #week = 0;
  /** Changes that no session has made yet. */
  #pending: readonly PendingChange[] = [];
  /** Changes of weeks before a deload that no session has made: they wait until it is over. */
  #unmade: readonly PendingChange[] = [];
  #effect: CellEffect | null = null;
  /** Loads of the last week that was no deload, by group; kilogram changes start from them. */
  #lastKg: (number | null)[] = [];
  #thisWeekKg: (number | null)[] = [];
  /** The max that each movement of this row last rested on. */
  readonly #maxes = new Map<string, MaxEntry>();
  #deload: RowState | null = null;

  constructor(context: RowContext) {
    this.#context = context;
    this.#weeks = weeksOf(context.row, context.block);
  }

  /** The row on one date, or null where it is left out that week. */
  resolve(slot: Slot, kit: Kit | null, trace?: RowTrace): ResolvedCell | null {
    const { row, world } = this.#context;
    while (this.#week < slot.week) this.#nextWeek();
    const cell = this.#weeks.cells[slot.week - 1] ?? null;
    if (slot.week >= this.#weeks.brokenFrom)
      return this.#cell(slot, kit, null, [], cell, this.#state, world.movements.get(row.movement) ?? null);
    if (!this.#effect || this.#effect.leftOut || this.#state.stopped || this.#state.groups.length === 0)
      return null;
    const swap = this.#swapOn(slot.date);
    const movement = world.movements.get(swap?.to ?? row.movement) ?? null;
    const state = this.#deload ?? this.#state;
    if (!movement)
      return this.#cell(
        slot,
        kit,
        swap,
        state.groups.map((group) => bare(group, 'unknown-movement')),
        cell,
        state,
        null,
      );
    const groups = this.#groups(slot, kit, movement, swap, state, trace);
    return this.#cell(slot, kit, swap, groups, cell, state, movement);
  }

  #swapOn(date: string): Swap | null {
    const { client, row } = this.#context;
    return (
      client.swaps.findLast(
        (swap) => swap.movement === row.movement && isWithin(date, swap.from, swap.until),
      ) ?? null
    );
  }

  /** Reads the next week's cell into the state; loads are worked out when a date is asked for. */
  #nextWeek(): void {
    const { block } = this.#context;
    if (!this.#deload && this.#week > 0 && this.#thisWeekKg.length > 0) this.#lastKg = this.#thisWeekKg;
    this.#thisWeekKg = [];
    this.#week += 1;
    const wasDeload = this.#deload !== null;
    this.#deload = null;
    const cell = this.#weeks.cells[this.#week - 1] ?? null;
    if (cell && mentionsNoDeload(cell)) this.#state.trainsInDeload = true;
    const deloads = block.deloadWeeks.has(this.#week) && !this.#state.trainsInDeload;
    if (deloads && this.#state.groups.length > 0) {
      if (!wasDeload) this.#unmade = this.#growWithoutSession(this.#pending);
      const state = copyRow(this.#state);
      this.#deload = state;
      for (const group of state.groups) deriveDeload(group, this.#context.row);
      this.#effect = applyCell(state, cell, block.likeFactor);
      this.#pending = this.#effect.changes;
      for (const { group } of this.#pending) {
        // A change that is written for the deload takes the place of the derived one.
        if (!this.#effect.newBasis.has(group))
          keepWorkingLoad(state.groups[group], this.#state.groups[group]);
      }
      if (state.stopped) this.#state.stopped = true;
      return;
    }
    const repeated = [...this.#state.weekly];
    this.#effect = applyCell(this.#state, cell, block.likeFactor);
    // Changes of a week without a session (missed, or another day's turn) are still to be made.
    const unmade = wasDeload ? this.#unmade : this.#pending;
    this.#unmade = [];
    this.#pending = [...unmade, ...repeated, ...this.#effect.changes].filter(
      ({ group }) =>
        !this.#effect?.newBasis.has(group) || this.#effect.changes.some((own) => own.group === group),
    );
  }

  /** Percent changes need no load to start from, so a deload counts those of a week without a session; gives the rest. */
  #growWithoutSession(changes: readonly PendingChange[]): readonly PendingChange[] {
    for (const { group: index, change } of changes) {
      const group = this.#state.groups[index];
      if (group && change.kind === 'percent') grow(group, change.percent);
    }
    return changes.filter(({ change }) => change.kind !== 'percent');
  }

  #groups(
    slot: Slot,
    kit: Kit | null,
    movement: Movement,
    swap: Swap | null,
    state: RowState,
    trace?: RowTrace,
  ): ResolvedGroup[] {
    const { client, world, row } = this.#context;
    const curve = curveOn(client, slot.date);
    const strength = strengthOn(client, movement, slot.date, kit?.key ?? null, world);
    const newer = this.#notice(
      movement,
      'missing' in strength ? null : strength.use.kind === 'max' ? strength.use.entry : null,
    );
    if (newer) this.#startAgain(state);
    const effort = row.effortByWeek[slot.week - 1] ?? null;
    const results: ResolvedGroup[] = [];
    // A swap with a dose of its own takes the whole row's place: neither its test nor its further groups are done.
    const ownDose = swap?.dose != null;
    const test = ownDose ? null : (this.#effect as CellEffect).test;
    for (const [index, own] of state.groups.entries()) {
      if ((test || ownDose) && index > 0) break;
      const base = swap ? this.#swapped(own, swap, index) : own;
      const group = test ? testState(base, test.reps) : this.#withEffort(base, effort);
      const input: GroupInput = {
        client,
        movement,
        kit,
        date: slot.date,
        curve,
        strength,
        state: group,
        rounds: row.circuit ? (row.circuit.roundsByWeek[slot.week - 1] ?? null) : null,
        backShare: slot.back?.share ?? 1,
        before: results[index - 1] ?? null,
      };
      const notes = swap || test ? [] : this.#applyChanges(index, own, input, newer);
      if (!swap && !test && group !== own)
        Object.assign(group, { factor: own.factor, offsetKg: own.offsetKg, lost: own.lost });
      const settled = deloaded(group, input);
      const careful = withCautiousCurve({ ...input, state: settled });
      const resolved = resolveGroup(careful);
      // A test is how a max is found: that none is known yet is nothing to complain of.
      const result = test && resolved.issue === 'no-max' ? { ...resolved, issue: null } : resolved;
      trace?.(index, careful, result, notes);
      results.push(result);
    }
    // Growth written for weeks in which she does something else is not added later.
    this.#pending = [];
    if (!swap && !test) this.#thisWeekKg = results.map((result) => startingKg(result, movement));
    return results;
  }

  #swapped(own: GroupState, swap: Swap, index: number): GroupState {
    const working = this.#deload ? (this.#state.groups[index] ?? own) : own;
    if (!this.#deload || !swap.dose || index > 0) return swapped(own, swap, index);
    const group = swapped({ ...working }, swap, index);
    deriveDeload(group, this.#context.row);
    return group;
  }

  /** Whether a newer max than the one before counts from here on. */
  #notice(movement: Movement, entry: MaxEntry | null): boolean {
    if (!entry) return false;
    const before = this.#maxes.get(movement.key);
    this.#maxes.set(movement.key, entry);
    return before !== undefined && before !== entry && entry.date > before.date;
  }

  /** A newer max starts again at factor 1, offset 0, also for the weeks to come. */
  #startAgain(state: RowState): void {
    for (const group of new Set([...state.groups, ...this.#state.groups])) {
      if (group.basis.kind !== 'reserve' && group.basis.kind !== 'percent' && group.basis.kind !== 'none')
        continue;
      group.factor = 1;
      group.offsetKg = 0;
      group.lost = false;
      group.likeFactor = 1;
    }
  }

  /** `effort:` of the day or block gives the reserve of a group that states no effort or load. */
  #withEffort(group: GroupState, effort: number | null): GroupState {
    if (effort === null || group.relation || group.basis.kind !== 'none' || lowerReps(group) === null)
      return group;
    const more = group.derivedDeload ? DELOAD_MORE_RESERVE : 0;
    const weeks = this.#context.row.effortByWeek;
    const own = this.#deload && weeks[this.#week - 1] === weeks[this.#week - 2] ? effort + more : effort;
    return { ...group, basis: { kind: 'reserve' }, reserve: own };
  }

  /** Applies the changes still to be made against the week before. Returns what was not done, in plain words. */
  #applyChanges(index: number, group: GroupState, input: GroupInput, newer: boolean): string[] {
    const notes: string[] = [];
    let startKg = this.#lastKg[index] ?? null;
    for (const { group: number, change } of this.#pending) {
      if (number !== index) continue;
      const restsOnMax =
        group.basis.kind === 'reserve' || group.basis.kind === 'percent' || group.basis.kind === 'none';
      if (newer && rises(change) && restsOnMax) {
        notes.push(say('A newer max counts from this week, so the growth written here is not added on top.'));
        continue;
      }
      if (change.kind === 'percent') {
        grow(group, change.percent);
        continue;
      }
      const wantedKg = startKg === null ? null : this.#changedKg(startKg, change, input);
      const basis = basisKg(input);
      if (wantedKg === null || basis.totalKg === null) {
        group.lost = true;
        notes.push(say('The change has no load of an earlier week to start from, so no load is given.'));
        continue;
      }
      startKg = wantedKg;
      const like = growsWithLike(input.state) ? group.likeFactor : 1;
      const bodyKg = isBodyweight(input.movement)
        ? (liftedBodyKg(input.client, input.movement, input.date) ?? 0)
        : 0;
      group.offsetKg = wantedKg + bodyKg - basis.totalKg * group.factor * like;
    }
    return notes;
  }

  #changedKg(startKg: number, change: PendingChange['change'], { movement, kit }: GroupInput): number | null {
    if (change.kind === 'mass') return startKg + change.kg;
    if (change.kind === 'percent') return startKg;
    return steppedKg(kit?.model ?? null, movement, startKg, change.direction);
  }

  #cell(
    slot: Slot,
    kit: Kit | null,
    swap: Swap | null,
    groups: readonly ResolvedGroup[],
    cell: CellNode | null,
    state: RowState,
    movement: Movement | null,
  ): ResolvedCell {
    const { client, program, block, day, row } = this.#context;
    const broken = slot.week >= this.#weeks.brokenFrom;
    return {
      client,
      program,
      block,
      day,
      row,
      movement,
      swap,
      week: slot.week,
      date: slot.date,
      deload: this.#deload !== null,
      backShare: slot.back?.share ?? 1,
      kit,
      groups: broken ? [bare(null, 'broken')] : groups,
      perSide: state.perSide,
      restSeconds: state.restSeconds,
      tempo: state.tempo,
      // The height of a seat, step or hands belongs to the row's own movement.
      heightCm: swap ? null : state.heightCm,
      warm: state.warm,
      test: swap?.dose ? null : (this.#effect?.test ?? null),
      texts: this.#effect?.texts ?? [],
      place: cellPlace(row, cell),
      cellIndex: cell?.index ?? null,
    };
  }
}

/** Where a hint stands: the cell as written, or the end of a row that has none for that week. */
export function cellPlace(row: Row, cell: CellNode | null): Place {
  if (cell) return { file: row.place.file, span: cell.span };
  const end = row.place.span.end;
  return { file: row.place.file, span: { start: end, end } };
}

function mentionsNoDeload(cell: CellNode): boolean {
  return cell.groups.some((group) =>
    group.items.some((item) => item.kind === 'no' && item.what === 'deload'),
  );
}

/** Kilograms that a later change starts from: the load, for bodyweight movements the added one (0 without). */
function startingKg(result: ResolvedGroup, movement: Movement): number | null {
  if (isBodyweight(movement))
    return result.issue === null || result.issue === 'lightest-used' ? (result.loadKg ?? 0) : null;
  return result.loadKg;
}

function rises(change: PendingChange['change']): boolean {
  if (change.kind === 'step') return change.direction === 'up';
  return change.kind === 'percent' ? change.percent > 0 : change.kg > 0;
}

/** A percent change is of the whole target, kilogram changes so far included. */
function grow(group: GroupState, percent: number): void {
  group.factor *= 1 + percent / 100;
  group.offsetKg *= 1 + percent / 100;
}

/** Takes back what a derived deload did to the load; the fewer sets stay. */
function keepWorkingLoad(group: GroupState | undefined, working: GroupState | undefined): void {
  if (!group || !working) return;
  group.reserve = working.reserve;
  group.derivedDeload = false;
}

/** Deload as far as the text goes: 40 % fewer sets and two more in reserve; circuits lose rounds instead of sets. */
function deriveDeload(group: GroupState, row: Row): void {
  if (group.sets !== null && !row.circuit) group.sets = deloadSets(group.sets);
  if (group.relation) return;
  if (group.reserve !== null) group.reserve += DELOAD_MORE_RESERVE;
  group.derivedDeload = true;
}

/**
 * Lowers the load of a derived deload: target × share(n + 2) / share(n), n being the repetitions to failure before;
 * without a reserve, or beyond the curve, 10 % off the external load. Time, distance and bands lose sets only.
 */
function deloaded(group: GroupState, { curve, movement, client, date }: GroupInput): GroupState {
  const plainBodyweight = group.basis.kind === 'bodyweight' && group.basis.addedKg === null;
  const untouched = group.basis.kind === 'none' || group.basis.kind === 'band' || plainBodyweight;
  const reps = lowerReps(group);
  if (!group.derivedDeload || untouched || reps === null) return group;
  if (group.reserve === null) return externalOnly(group, DELOAD_LOAD_SHARE, movement, client, date);
  const after = reps + group.reserve;
  const ratio = curve.share(after) / curve.share(after - DELOAD_MORE_RESERVE);
  const byCurve = Number.isFinite(ratio);
  if (group.basis.kind !== 'reserve') {
    // The curve speaks of the whole target, the lifted body mass included; 10 % come off the external load alone.
    return byCurve
      ? { ...group, deloadShare: ratio }
      : externalOnly(group, DELOAD_LOAD_SHARE, movement, client, date);
  }
  if (byCurve) return { ...group, offsetKg: group.offsetKg * ratio };
  return { ...group, reserve: group.reserve - DELOAD_MORE_RESERVE, deloadShare: DELOAD_LOAD_SHARE };
}

/** For bodyweight movements the share is taken off the added load, as nobody can take it off the body. */
function externalOnly(
  group: GroupState,
  share: number,
  movement: Movement,
  client: Client,
  date: string,
): GroupState {
  if (!isBodyweight(movement)) return { ...group, deloadShare: share };
  const bodyKg = liftedBodyKg(client, movement, date) ?? 0;
  const addedKg =
    group.basis.kind === 'bodyweight'
      ? (group.basis.addedKg ?? 0)
      : group.basis.kind === 'load' || group.basis.kind === 'pack'
        ? group.basis.kg
        : 0;
  const totalKg = bodyKg + addedKg;
  return { ...group, deloadShare: totalKg > 0 ? (bodyKg + addedKg * share) / totalKg : 1 };
}

/** Sets, reps and effort of the swap's own dose, else the row's; fixed loads and kilogram changes never carry over. */
function swapped(group: GroupState, swap: Swap, index: number): GroupState {
  const fixed =
    group.basis.kind === 'load' || group.basis.kind === 'pack' || group.basis.kind === 'bodyweight';
  const own: GroupState = {
    ...group,
    basis: fixed ? (group.reserve === null ? { kind: 'none' } : { kind: 'reserve' }) : group.basis,
    factor: 1,
    offsetKg: 0,
    // Back-offs in percent hold for any movement; kilograms and steps were meant for the row's own, so none is given.
    lost: group.relation !== null && group.relation.kind !== 'percent',
    relation: group.relation?.kind === 'percent' ? group.relation : null,
  };
  if (!swap.dose || index > 0) return own;
  const row: RowState = { ...emptyRow(), groups: [{ ...own, relation: null }] };
  applyCell(row, { groups: [swap.dose], span: swap.place.span, broken: false, index: 0 }, 1);
  return row.groups[0] as GroupState;
}

/** `test x5`: one set worked up to, that leaves one; the load shown is where the steps are likely to end. */
function testState(group: GroupState, reps: number): GroupState {
  return {
    ...group,
    sets: 1,
    amount: { kind: 'reps', reps: { kind: 'count', lower: reps, upper: reps } },
    offSeconds: null,
    basis: { kind: 'reserve' },
    reserve: 1,
    factor: 1,
    offsetKg: 0,
    lost: false,
    relation: null,
    likeFactor: 1,
    derivedDeload: false,
    deloadShare: 1,
  };
}

/** A group of which nothing but the text is known. */
function bare(group: GroupState | null, issue: LoadIssue): ResolvedGroup {
  const reps =
    group?.amount?.kind === 'reps' && group.amount.reps.kind === 'count' ? group.amount.reps : null;
  return {
    sets: group?.sets ?? null,
    reps: reps?.lower ?? null,
    repsUpper: reps?.upper ?? null,
    openReps: group?.amount?.kind === 'reps' && group.amount.reps.kind === 'open',
    seconds: group?.amount?.kind === 'seconds' ? group.amount.seconds : null,
    metres: group?.amount?.kind === 'metres' ? group.amount.metres : null,
    offSeconds: group?.offSeconds ?? null,
    basis: group?.basis.kind ?? 'none',
    writtenReserve: group?.reserve ?? null,
    writtenPercent: group?.basis.kind === 'percent' ? group.basis.percent : null,
    targetKg: null,
    loadKg: null,
    eachSideKg: null,
    bar: null,
    band: null,
    estimatedOneRepMaxKg: null,
    reserve: null,
    reserveBeyond: false,
    share: null,
    provisional: false,
    provisionalReason: null,
    stage: 'learn',
    issue,
    max: null,
  };
}
