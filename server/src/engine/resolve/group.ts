import type { Curve } from '../curves.js';
import { chooseLoad, type Implement, lightestLoad } from '../kit.js';
import type { Client, IsoDate, Kit, LoadIssue, MaxUse, Movement, ResolvedGroup } from '../model.js';
import { stageAllows, stageOfWork } from '../stages.js';
import { chooseAdded, isBodyweight, steppedKg } from './addedLoad.js';
import type { GroupState } from './rowState.js';
import { massOn, type Strength, type StrengthAnswer, signedOff } from './strength.js';

/** A pack up to this share of body mass is light. Common practice, no source. */
const LIGHT_PACK_SHARE = 0.1;
/** The same when her mass is not known, in kilograms. */
const LIGHT_PACK_KG = 6;

/** Everything that one set group of one client on one date is worked out from. */
export interface GroupInput {
  readonly client: Client;
  readonly movement: Movement;
  readonly kit: Kit | null;
  readonly date: IsoDate;
  readonly curve: Curve;
  readonly strength: StrengthAnswer;
  readonly state: GroupState;
  /** Sets by the rounds of a circuit, else null. */
  readonly rounds: number | null;
  /** Share of the target in the first weeks back, else 1. */
  readonly backShare: number;
  /** For a related group: the group before it, as resolved. */
  readonly before: ResolvedGroup | null;
}

/** Target in kilograms and what it was worked out from; for bodyweight movements the total with the lifted body mass. */
export interface Target {
  readonly totalKg: number | null;
  readonly issue: LoadIssue | null;
}

export function known(strength: StrengthAnswer): Strength | null {
  return 'missing' in strength ? null : strength;
}

/** Lower end of the reps; null for open reps, time and distance. */
export function lowerReps(state: GroupState): number | null {
  return state.amount?.kind === 'reps' && state.amount.reps.kind === 'count' ? state.amount.reps.lower : null;
}

/** Body mass that a movement lifts on a date, in kilograms: 0 when it lifts none, null when the mass is not known. */
export function liftedBodyKg(client: Client, movement: Movement, date: IsoDate): number | null {
  if (movement.liftsShare === null) return 0;
  const mass = massOn(client, date);
  return mass === null ? null : mass * movement.liftsShare;
}

/** Basis of a group at this date's e1RM, before factor and offset; total kilograms for bodyweight movements. */
export function basisKg(input: Omit<GroupInput, 'before' | 'rounds' | 'backShare'>): Target {
  const { state, strength, curve, client, movement, date } = input;
  const none: Target = { totalKg: null, issue: null };
  const bodyKg = liftedBodyKg(client, movement, date);
  const onBody = (addedKg: number): Target => ({ totalKg: (bodyKg ?? 0) + addedKg, issue: null });
  switch (state.basis.kind) {
    case 'none':
    case 'band':
      return none;
    case 'load':
      return isBodyweight(movement) ? onBody(state.basis.kg) : { totalKg: state.basis.kg, issue: null };
    case 'pack':
      return isBodyweight(movement) ? onBody(state.basis.kg) : { totalKg: state.basis.kg, issue: null };
    case 'bodyweight':
      return onBody(state.basis.addedKg ?? 0);
    case 'percent':
      if ('missing' in strength) return { totalKg: null, issue: strength.missing };
      return { totalKg: (strength.estimatedOneRepMaxKg * state.basis.percent) / 100, issue: null };
    case 'reserve': {
      const reps = lowerReps(state);
      if (reps === null) return none;
      if ('missing' in strength) return { totalKg: null, issue: strength.missing };
      const share = curve.share(reps + (state.reserve ?? 0));
      if (!Number.isFinite(share)) return { totalKg: null, issue: 'beyond-curve' };
      return { totalKg: strength.estimatedOneRepMaxKg * share, issue: null };
    }
  }
}

/** Whether the `like` percentage counts for this basis: not for loads that were written down. */
export function growsWithLike(state: GroupState): boolean {
  return state.basis.kind === 'reserve' || state.basis.kind === 'percent';
}

/** Target = basis × factor, + offset; or, for a related group, from the group before it. */
export function targetOf(input: GroupInput): Target {
  const { state, before, backShare } = input;
  if (state.relation && before) return relatedTarget(input, before);
  const basis = basisKg(input);
  if (basis.totalKg === null) return basis;
  if (state.lost) return { totalKg: null, issue: 'no-max' };
  const like = growsWithLike(state) ? state.likeFactor : 1;
  const totalKg = (basis.totalKg * state.factor * like + state.offsetKg) * state.deloadShare * backShare;
  return { totalKg, issue: null };
}

function relatedTarget({ state, client, movement, date, kit }: GroupInput, before: ResolvedGroup): Target {
  const bodyKg = isBodyweight(movement) ? (liftedBodyKg(client, movement, date) ?? 0) : 0;
  const change = state.relation;
  if (!change || before.issue === 'unknown-movement') return { totalKg: null, issue: before.issue };
  if (change.kind === 'percent') {
    if (before.targetKg === null) return { totalKg: null, issue: before.issue };
    return { totalKg: (before.targetKg + bodyKg) * (1 + change.percent / 100), issue: null };
  }
  if (before.loadKg === null) return { totalKg: null, issue: before.issue };
  if (change.kind === 'mass') return { totalKg: before.loadKg + bodyKg + change.kg, issue: null };
  const steppedToKg = steppedKg(kit?.model ?? null, movement, before.loadKg, change.direction);
  return { totalKg: steppedToKg + bodyKg, issue: null };
}

/** Works out one set group: target, load that the kit can make, predicted reserve, share, stage. */
export function resolveGroup(input: GroupInput): ResolvedGroup {
  const { state, movement, rounds } = input;
  const target = targetOf(input);
  const strength = known(input.strength);
  const max: MaxUse | null = strength?.use ?? null;
  const { amount } = state;
  const reps = amount?.kind === 'reps' && amount.reps.kind === 'count' ? amount.reps : null;
  const base: ResolvedGroup = {
    sets: rounds ?? state.sets,
    reps: reps?.lower ?? null,
    repsUpper: reps?.upper ?? null,
    openReps: amount?.kind === 'reps' && amount.reps.kind === 'open',
    seconds: amount?.kind === 'seconds' ? amount.seconds : null,
    metres: amount?.kind === 'metres' ? amount.metres : null,
    offSeconds: state.offSeconds,
    basis: state.relation ? (input.before?.basis ?? 'none') : state.basis.kind,
    writtenReserve: state.reserve,
    writtenPercent: state.basis.kind === 'percent' ? state.basis.percent : null,
    targetKg: null,
    loadKg: null,
    eachSideKg: null,
    bar: null,
    band: state.basis.kind === 'band' ? state.basis.band : null,
    estimatedOneRepMaxKg: strength?.estimatedOneRepMaxKg ?? null,
    reserve: null,
    reserveBeyond: false,
    share: null,
    provisional: false,
    provisionalReason: null,
    stage: 'learn',
    issue: target.issue,
    max: strength ? max : null,
  };
  if (state.basis.kind === 'band')
    return finish(input, { ...base, issue: bandIssue(input, state.basis.band) }, null);
  return isBodyweight(movement) ? onBodyweight(input, base, target) : onImplement(input, base, target);
}

function bandIssue({ kit }: GroupInput, band: string): LoadIssue | null {
  if (!kit) return 'no-kit';
  return kit.model.bands.includes(band) ? null : 'kit-lacks';
}

function onImplement(input: GroupInput, base: ResolvedGroup, target: Target): ResolvedGroup {
  if (target.totalKg === null) return finish(input, base, null);
  const withTarget = { ...base, targetKg: target.totalKg };
  if (!input.kit) return finish(input, { ...withTarget, issue: 'no-kit' }, null);
  const implement: Implement =
    input.state.basis.kind === 'pack' ? { kind: 'pack' } : input.movement.implement;
  const lightest = lightestLoad(input.kit.model, implement);
  if (lightest === null) return finish(input, { ...withTarget, issue: 'kit-lacks' }, null);
  const chosen = chooseLoad(input.kit.model, implement, target.totalKg, input.client.rounding);
  if (chosen) return finish(input, { ...withTarget, ...chosen }, chosen.loadKg);
  const least = chooseLoad(input.kit.model, implement, lightest, 'down');
  if (!least) return finish(input, { ...withTarget, issue: 'too-light' }, null);
  return tryLightest(input, withTarget, { ...withTarget, ...least, issue: 'lightest-used' }, least.loadKg);
}

/**
 * The lightest load is above the target: it is used only while its predicted reserve is at least the written one less
 * 1, and its stage is signed off. Otherwise there is no load.
 */
function tryLightest(
  input: GroupInput,
  without: ResolvedGroup,
  withIt: ResolvedGroup,
  totalKg: number,
): ResolvedGroup {
  const used = finish(input, withIt, totalKg);
  const ready = signedOff(input.client, input.movement.pattern, input.date).stage;
  const enough = used.reserve !== null && used.reserve >= (used.writtenReserve ?? 0) - 1 - 1e-9;
  if (enough && used.writtenReserve !== null && stageAllows(ready, used.stage)) return used;
  return finish(input, { ...without, issue: 'too-light' }, null);
}

function onBodyweight(input: GroupInput, base: ResolvedGroup, target: Target): ResolvedGroup {
  const { state, movement, kit, client, date } = input;
  const bodyKg = liftedBodyKg(client, movement, date);
  const bodyOnly = () =>
    finish(
      input,
      { ...base, issue: bodyKg === null && state.basis.kind === 'reserve' ? 'no-mass' : null },
      bodyKg,
    );
  const askedReserve = state.basis.kind === 'reserve';
  // Without a max the answer is in reps and reserve, at bodyweight: nothing to look up is missing.
  if (target.totalKg === null) {
    if (askedReserve && movement.liftsShare !== null && target.issue === 'beyond-curve')
      return finish(input, base, null);
    return bodyOnly();
  }
  if (bodyKg === null && askedReserve) return finish(input, { ...base, issue: 'no-mass' }, null);
  const lifted = bodyKg ?? 0;
  const addedKg = target.totalKg - lifted;
  const plain = state.basis.kind === 'bodyweight' && state.basis.addedKg === null && Math.abs(addedKg) < 1e-9;
  if (plain) return bodyOnly();
  const withTarget = { ...base, targetKg: addedKg };
  const made = chooseAdded(kit?.model ?? null, movement, addedKg, lifted, client.rounding);
  if (made !== null) {
    const written =
      state.basis.kind === 'load' || state.basis.kind === 'pack' || state.basis.kind === 'bodyweight';
    // A written added load of which the kit has nothing at all is a finding, not silently bodyweight.
    const lacks = written && addedKg > 0 && made === 0;
    const issue: LoadIssue | null = lacks ? (kit ? 'kit-lacks' : 'no-kit') : null;
    return finish(input, { ...withTarget, loadKg: made === 0 ? null : made, issue }, lifted + made);
  }
  const writtenKg = state.basis.kind === 'bodyweight' ? (state.basis.addedKg ?? 0) : 0;
  if (writtenKg < 0) return finish(input, { ...withTarget, issue: kit ? 'kit-lacks' : 'no-kit' }, null);
  // Lowered below bodyweight, in a deload or after an absence, and nothing takes weight off: bodyweight alone.
  if (state.basis.kind !== 'reserve' && state.basis.kind !== 'percent') return bodyOnly();
  return tryLightest(input, withTarget, { ...withTarget, issue: 'lightest-used' }, lifted);
}

/** Adds what follows from the load: predicted reserve, share, stage, and whether all of it is provisional. */
function finish(input: GroupInput, group: ResolvedGroup, totalKg: number | null): ResolvedGroup {
  const { curve, movement, client, date, state } = input;
  const strength = known(input.strength);
  const share = strength && totalKg !== null && totalKg > 0 ? totalKg / strength.estimatedOneRepMaxKg : null;
  const writtenShare = state.basis.kind === 'percent' ? (state.basis.percent / 100) * state.factor : null;
  const predicted = predictReserve(curve, share ?? (strength ? null : writtenShare), group.reps);
  const reserve = predicted === null ? null : predicted.reserve;
  const stage = stageOfWork({
    reps: group.reps,
    writtenReserve: group.writtenReserve,
    predictedReserve: predicted?.beyond ? Number.POSITIVE_INFINITY : reserve,
    light: isLight(group, movement, massOn(client, date)),
    leastStage: movement.pattern === 'jump' || movement.pattern === 'sprint' ? movement.stage : null,
  });
  const shown = share === null ? null : reserve;
  // A plain bodyweight set rests on no max unless its load was worked out from one.
  const restsOnMax = group.loadKg !== null && (group.basis === 'reserve' || group.basis === 'percent');
  const reason = restsOnMax ? (strength?.provisionalReason ?? null) : null;
  const tooHeavy = strength?.use.kind === 'estimate' && stage === 'heavy' && restsOnMax;
  // Written out, because a spread of so many properties takes several times as long.
  return {
    sets: group.sets,
    reps: group.reps,
    repsUpper: group.repsUpper,
    openReps: group.openReps,
    seconds: group.seconds,
    metres: group.metres,
    offSeconds: group.offSeconds,
    basis: group.basis,
    writtenReserve: group.writtenReserve,
    writtenPercent: group.writtenPercent,
    targetKg: group.targetKg,
    loadKg: tooHeavy ? null : group.loadKg,
    eachSideKg: tooHeavy ? null : group.eachSideKg,
    bar: tooHeavy ? null : group.bar,
    band: group.band,
    estimatedOneRepMaxKg: group.estimatedOneRepMaxKg,
    reserve: tooHeavy ? null : shown,
    reserveBeyond: !tooHeavy && share !== null && (predicted?.beyond ?? false),
    share: tooHeavy ? null : share,
    provisional: !tooHeavy && reason !== null,
    provisionalReason: tooHeavy ? null : reason,
    stage,
    issue: tooHeavy ? 'estimate-too-heavy' : group.issue,
    max: group.max,
  };
}

function predictReserve(curve: Curve, share: number | null, reps: number | null) {
  if (share === null || reps === null) return null;
  const possible = curve.reps(share);
  if (possible === null) return null;
  const beyond = possible > curve.domainMaxReps;
  return { reserve: (beyond ? curve.domainMaxReps : possible) - reps, beyond };
}

/** Bodyweight alone, a band, or a light pack: learning work whatever the reps. */
function isLight(group: ResolvedGroup, movement: Movement, massKg: number | null): boolean {
  if (group.band !== null || group.basis === 'band') return true;
  const byPack = group.basis === 'pack' || movement.implement.kind === 'pack';
  if (byPack && group.loadKg !== null) {
    return group.loadKg <= (massKg === null ? LIGHT_PACK_KG : massKg * LIGHT_PACK_SHARE);
  }
  return isBodyweight(movement) && (group.loadKg ?? 0) <= 0;
}
