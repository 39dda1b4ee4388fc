/**
 * Strength read from what was done: an estimate for each day and movement, and one robust value for now.
 *
 * Only sets with a told reserve count. Without one, nobody knows how many more there were, and a set that was logged
 * "as planned" would only hand the plan's own assumption back.
 */
import { type Curve, estimateFromSet } from '../curves.js';
import { daysBetween } from '../dates.js';
import type { Client, IsoDate, MaxUse, Movement, Place, World } from '../model.js';
import { DEFAULT_LIMITS } from '../resolve/limits.js';
import { curveOn, massOn, strengthOf, strengthOn } from '../resolve/strength.js';
import { type GroupDone, type SessionDone, weakerReps } from './done.js';

/**
 * Error of a told reserve in repetitions. People guess 0.95 repetitions too few on average (95 % CI 0.17 to 1.73):
 * Halperin et al., Sports Med 2022;52(2):377-390. The estimate itself is not raised by it, because too low is the
 * careful side; the upper end of the band is. The same number stands for the spread to both sides.
 */
export const RESERVE_ERROR_REPS = 0.95;
/** Sets end at a whole repetition while curves go on in between: half a repetition is lost on average. Arithmetic. */
const WHOLE_REPS_LOST = 0.5;
/**
 * Error of a curve as a share of the estimate. Coefficients of variation under 3.3 % in trained postmenopausal women:
 * Kemmler et al., J Strength Cond Res 2006;20(4). Others found more (Hutchins & Gearhart 2010), so more beyond ten.
 */
export const CURVE_ERROR_SHARE = 0.033;
const FAR_CURVE_ERROR_SHARE = 0.066;
/** A true single is the maximum of that day; days differ. Common practice, no source. */
const SINGLE_ERROR_SHARE = 0.02;

/** One estimate with its error. */
export interface Estimate {
  readonly date: IsoDate;
  /** Estimated one-repetition maximum, for bodyweight movements with the lifted share of the body. */
  readonly kg: number;
  /** One standard deviation of the error of reserve and curve, in kilograms. */
  readonly errorKg: number;
  /** What she would be good for if she guessed as much too low as people do on average, whole repetitions counted. */
  readonly guessedLowKg: number;
  /** The band: two errors down from the estimate, two up from `guessedLowKg`. */
  readonly lowKg: number;
  readonly highKg: number;
  /** The set that it comes from. */
  readonly set: MeasuredSet;
}

export interface MeasuredSet {
  readonly loadKg: number;
  /** The load in the notation. */
  readonly written: string | null;
  readonly bodyweight: boolean;
  readonly reps: number;
  readonly reserve: number;
  readonly kit: string | null;
  readonly place: Place;
  readonly from: 'log' | 'max';
}

/** The band reaches two standard deviations down and up: about 95 of 100 by the errors above. */
export const BAND_DEVIATIONS = 2;

/** Best estimates of each day of each movement, in order of date. */
export type EstimatesByMovement = ReadonlyMap<string, readonly Estimate[]>;

/** Estimates from logs and max lines of one client, the best of each day and movement. */
export function estimatesOf(
  client: Client,
  done: readonly SessionDone[],
  world: Pick<World, 'movements'>,
): EstimatesByMovement {
  const best = new Map<string, Map<IsoDate, Estimate>>();
  const keep = (movement: string, estimate: Estimate | null) => {
    if (!estimate) return;
    const days = best.get(movement) ?? new Map<IsoDate, Estimate>();
    best.set(movement, days);
    const before = days.get(estimate.date);
    if (!before || estimate.kg > before.kg) days.set(estimate.date, estimate);
  };
  const curves = new Map<IsoDate, Curve>();
  for (const session of done) {
    const using = curves.get(session.date) ?? curveOn(client, session.date);
    curves.set(session.date, using);
    for (const each of session.movements) {
      if (!each.movement) continue;
      for (const group of each.groups) {
        keep(each.key, estimateFromGroup(client, each.movement, session, group, using));
      }
    }
  }
  for (const entry of client.maxes) {
    const movement = world.movements.get(entry.movement);
    if (!movement) continue;
    const using = curveOn(client, entry.date);
    const kg = strengthOf(client, movement, entry, using);
    if (kg === null) continue;
    const { loadKg, reps, reserve, kit, place } = entry;
    const set: MeasuredSet = {
      loadKg,
      written: null,
      bodyweight: entry.bodyweight,
      reps,
      reserve,
      kit,
      place,
      from: 'max',
    };
    keep(entry.movement, withError(entry.date, kg, reps, reserve, set, using));
  }
  const found = new Map<string, readonly Estimate[]>();
  for (const [movement, days] of best) {
    found.set(
      movement,
      [...days.values()].sort((a, b) => (a.date < b.date ? -1 : 1)),
    );
  }
  return found;
}

function estimateFromGroup(
  client: Client,
  movement: Movement,
  session: SessionDone,
  group: GroupDone,
  using: Curve,
): Estimate | null {
  const { reserve } = group;
  if (group.asPlanned || reserve === null || group.loadKg === null || group.band !== null) return null;
  const last = group.sets[group.sets.length - 1];
  // The reserve is that of the last set, so the last set is what is measured.
  const reps = last ? weakerReps(last) : null;
  if (reps === null || reps < 1) return null;
  let liftedKg = group.loadKg;
  if (movement.liftsShare !== null) {
    const mass = massOn(client, session.date);
    if (mass === null) return null;
    liftedKg += movement.liftsShare * mass;
  }
  if (!(liftedKg > 0)) return null;
  const estimate = estimateFromSet(using, liftedKg, reps + reserve);
  if ('beyondDomain' in estimate) return null;
  const set: MeasuredSet = {
    loadKg: group.loadKg,
    written: group.written,
    bodyweight: group.written?.startsWith('bw') ?? movement.implement.kind === 'bodyweight',
    reps,
    reserve,
    kit: movement.implement.kind === 'machine' ? (session.session?.kit?.key ?? null) : null,
    place: group.place,
    from: 'log',
  };
  return withError(session.date, estimate.estimatedOneRepMaxKg, reps, reserve, set, using);
}

function withError(
  date: IsoDate,
  kg: number,
  reps: number,
  reserve: number,
  set: MeasuredSet,
  using: Curve,
): Estimate {
  const errorKg = errorOf(kg, reps, reserve, using);
  const band = BAND_DEVIATIONS * errorKg;
  const toFailure = reps + reserve;
  const more = Math.min(using.domainMaxReps, toFailure + RESERVE_ERROR_REPS + WHOLE_REPS_LOST);
  const guessedLowKg = toFailure <= 1 ? kg : (kg * using.share(toFailure)) / using.share(more);
  return { date, kg, errorKg, guessedLowKg, lowKg: kg - band, highKg: guessedLowKg + band, set };
}

/** One standard deviation in kilograms: the errors of reserve and curve, as independent errors add. */
export function errorOf(kg: number, reps: number, reserve: number, using: Curve): number {
  const toFailure = reps + reserve;
  if (toFailure <= 1) return kg * SINGLE_ERROR_SHARE;
  // Half the difference between one error more and one less, so that the bend of the curve counts.
  const here = using.share(toFailure);
  const less = using.share(Math.max(1, toFailure - RESERVE_ERROR_REPS));
  const more = using.share(Math.min(using.domainMaxReps, toFailure + RESERVE_ERROR_REPS));
  const reserveShare = (here / more - here / less) / 2;
  const curveShare = toFailure <= DEFAULT_LIMITS.manyReps ? CURVE_ERROR_SHARE : FAR_CURVE_ERROR_SHARE;
  return kg * Math.hypot(reserveShare, curveShare);
}

// ---------------------------------------------------------------- now

/** After so many days an estimate counts half. Common practice, no source. */
export const HALF_LIFE_DAYS = 14;
/** A movement needs estimates of so many days before anything is said of its max. Common practice, no source. */
export const LEAST_DAYS = 2;

export interface CurrentEstimate {
  readonly kg: number;
  readonly errorKg: number;
  readonly lowKg: number;
  readonly highKg: number;
  /** The estimates that it rests on, oldest first. */
  readonly rests: readonly Estimate[];
}

/**
 * The weighted median of the best estimates of the last eight weeks up to a date: each weighs 1 / error², halved for
 * every two weeks of age. One slip of the pen cannot pull a median far. The error is the weighted median of the
 * single errors and does not shrink with more sets, because the error in telling a reserve is mostly the same
 * person's each time. Null without any.
 */
export function currentEstimate(estimates: readonly Estimate[], on: IsoDate): CurrentEstimate | null {
  const rests = estimates.filter(
    ({ date }) => date <= on && daysBetween(date, on) <= DEFAULT_LIMITS.staleDays,
  );
  if (rests.length === 0) return null;
  const weights = rests.map(({ date, kg, errorKg }) => {
    const share = errorKg / kg;
    return 0.5 ** (daysBetween(date, on) / HALF_LIFE_DAYS) / share ** 2;
  });
  const kg = weightedMedian(
    rests.map((estimate) => estimate.kg),
    weights,
  );
  const share = weightedMedian(
    rests.map((estimate) => estimate.errorKg / estimate.kg),
    weights,
  );
  const errorKg = kg * share;
  const band = BAND_DEVIATIONS * errorKg;
  const low = weightedMedian(
    rests.map((estimate) => estimate.guessedLowKg / estimate.kg),
    weights,
  );
  return { kg, errorKg, lowKg: kg - band, highKg: kg * low + band, rests };
}

/**
 * The value at which half of the weight lies on each side; between two values where it falls exactly between them,
 * their mean. `values` must not be empty.
 */
export function weightedMedian(values: readonly number[], weights: readonly number[]): number {
  const order = values
    .map((value, index) => ({ value, weight: weights[index] ?? 0 }))
    .sort((a, b) => a.value - b.value);
  const half = order.reduce((sum, { weight }) => sum + weight, 0) / 2;
  let sum = 0;
  for (const [index, { value, weight }] of order.entries()) {
    sum += weight;
    const next = order[index + 1];
    if (Math.abs(sum - half) <= half * 1e-12 && next) return (value + next.value) / 2;
    if (sum > half) return value;
  }
  return order[order.length - 1]?.value ?? Number.NaN;
}

export interface StrengthVerdict {
  readonly movement: Movement;
  readonly current: CurrentEstimate;
  /** What the plan takes on that date; null where it knows none. */
  readonly plan: { readonly kg: number; readonly use: MaxUse } | null;
  /** `more`: the logs show more than the plan takes; `unsure`: too few days since the max line to tell. */
  readonly supports: 'more' | 'same' | 'less' | 'unsure';
}

/**
 * Whether the sets logged after the plan's max show more or less than it by over one standard deviation. Needs sets
 * of two days; the max line itself is no witness.
 */
export function verdictOf(
  client: Client,
  movement: Movement,
  estimates: readonly Estimate[],
  on: IsoDate,
  kit: string | null,
  world: Pick<World, 'movements'>,
): StrengthVerdict | null {
  const answer = strengthOn(client, movement, on, kit, world);
  const plan = 'missing' in answer ? null : { kg: answer.estimatedOneRepMaxKg, use: answer.use };
  const since = plan?.use.kind === 'max' ? plan.use.entry.date : '';
  const newer = estimates.filter(({ date, set }) => set.from === 'log' && date > since);
  const current = currentEstimate(newer, on);
  if (!current) {
    const all = currentEstimate(estimates, on);
    return all ? { movement, current: all, plan, supports: 'unsure' } : null;
  }
  if (current.rests.length < LEAST_DAYS) return { movement, current, plan, supports: 'unsure' };
  if (!plan) return { movement, current, plan, supports: 'more' };
  const above = current.kg - plan.kg;
  const supports = above > current.errorKg ? 'more' : -above > current.errorKg ? 'less' : 'same';
  return { movement, current, plan, supports };
}
