import { say } from '../../../../grammar/say.js';
import { type Curve, curve, DEFAULT_CURVE, estimateFromSet } from '../curves.js';
import { compareDates, daysBetween } from '../dates.js';
import type { Client, IsoDate, MaxEntry, MaxUse, Movement, World } from '../model.js';
import { formatNumber } from '../numbers.js';
import { compareStages } from '../stages.js';
import { daysAway } from './calendar.js';

/** Estimated one-repetition maximum of a movement on a date, and what it rests on. */
export interface Strength {
  readonly estimatedOneRepMaxKg: number;
  readonly use: MaxUse;
  /** In plain words; null when it is fresh and direct. */
  readonly provisionalReason: string | null;
  /** Movements whose `estimate:` lines were followed, the asked one first. Empty for a max of its own. */
  readonly estimatedThrough: readonly Movement[];
}

export type StrengthAnswer = Strength | { readonly missing: 'no-max' | 'beyond-curve' | 'no-mass' };

/** Curve of a client on a date: the newest `curve:` line that holds by then. */
export function curveOn(client: Client, date: IsoDate): Curve {
  let best: { from: IsoDate; value: Parameters<typeof curve>[0] } | null = null;
  for (const { value, from } of client.curves) {
    const since = from ?? '';
    if (since <= date && (!best || since >= best.from)) best = { from: since, value };
  }
  return curve(best?.value ?? DEFAULT_CURVE);
}

/** Body mass known on a date: the newest dated line by then, else the earliest there is. Null without any. */
export function massOn(client: Client, date: IsoDate): number | null {
  let known: (typeof client.masses)[number] | null = null;
  let earliest: (typeof client.masses)[number] | null = null;
  for (const mass of client.masses) {
    const since = mass.date ?? '';
    if (since <= date && (!known || since >= (known.date ?? ''))) known = mass;
    if (!earliest || since < (earliest.date ?? '')) earliest = mass;
  }
  return (known ?? earliest)?.kg ?? null;
}

/** Repetitions to failure of a max line: those done and those left. */
export function repsToFailure(entry: MaxEntry): number {
  return entry.reps + entry.reserve;
}

const byMovement = new WeakMap<Client, Map<string, readonly MaxEntry[]>>();

/** Max lines of one movement, newest first. */
function maxesOf(client: Client, movement: string): readonly MaxEntry[] {
  let all = byMovement.get(client);
  if (!all) {
    all = new Map();
    for (const entry of client.maxes) all.set(entry.movement, [...(all.get(entry.movement) ?? []), entry]);
    for (const [key, entries] of all)
      all.set(
        key,
        [...entries].sort((a, b) => compareDates(b.date, a.date)),
      );
    byMovement.set(client, all);
  }
  return all.get(movement) ?? [];
}

/** e1RM that one max line gives; null beyond the curve, or for a bodyweight movement without a body mass. */
export function strengthOf(client: Client, movement: Movement, entry: MaxEntry, using: Curve): number | null {
  let loadKg = entry.loadKg;
  if (movement.liftsShare !== null) {
    const mass = massOn(client, entry.date);
    if (mass === null) return null;
    loadKg += movement.liftsShare * mass;
  }
  // A true single, nothing left, is the maximum itself whatever the curve says.
  const estimate = estimateFromSet(using, loadKg, repsToFailure(entry));
  return 'beyondDomain' in estimate ? null : estimate.estimatedOneRepMaxKg;
}

/**
 * The max line that counts on a date: the newest one dated before it that counts by then (same day: the strongest). One
 * from many repetitions to failure (more than ten) counts only if none from fewer is less than eight weeks older.
 */
function chooseMax(
  client: Client,
  movement: Movement,
  date: IsoDate,
  kit: string | null,
  using: Curve,
): MaxEntry | null {
  const all = maxesOf(client, movement.key);
  const isUsable = (entry: MaxEntry) =>
    entry.date < date &&
    (entry.from === null || entry.from <= date) &&
    (entry.kit === null || entry.kit === kit);
  const newest = all.find(isUsable);
  if (!newest) return null;
  const isReliable = (entry: MaxEntry) => repsToFailure(entry) <= client.limits.manyReps;
  const strongestOf = (first: MaxEntry, counts: (entry: MaxEntry) => boolean) => {
    let best = first;
    for (const entry of all) {
      if (entry === first || entry.date !== first.date || !isUsable(entry) || !counts(entry)) continue;
      const better =
        (strengthOf(client, movement, entry, using) ?? 0) > (strengthOf(client, movement, best, using) ?? 0);
      if (better) best = entry;
    }
    return best;
  };
  const reliable = isReliable(newest)
    ? newest
    : all.find(
        (entry) =>
          isUsable(entry) &&
          isReliable(entry) &&
          daysBetween(entry.date, newest.date) < client.limits.staleDays,
      );
  return reliable ? strongestOf(reliable, isReliable) : strongestOf(newest, () => true);
}

/**
 * e1RM of a movement for one client on a date, from what was known before that day: her own max, else the movement's
 * `estimate:` of another one. An estimate is always provisional.
 */
export function strengthOn(
  client: Client,
  movement: Movement,
  date: IsoDate,
  kit: string | null,
  world: Pick<World, 'movements'>,
  path: readonly string[] = [],
): StrengthAnswer {
  const using = curveOn(client, date);
  const entry = chooseMax(client, movement, date, kit, using);
  if (entry) {
    const kg = strengthOf(client, movement, entry, using);
    if (kg === null) {
      const noMass = movement.liftsShare !== null && massOn(client, entry.date) === null;
      return { missing: noMass ? 'no-mass' : 'beyond-curve' };
    }
    const use: MaxUse = {
      kind: 'max',
      entry,
      repsToFailure: repsToFailure(entry),
      ageDays: daysBetween(entry.date, date),
    };
    return {
      estimatedOneRepMaxKg: kg,
      use,
      provisionalReason: doubt(client, use, date),
      estimatedThrough: [],
    };
  }
  const other = movement.estimate ? world.movements.get(movement.estimate.of) : undefined;
  if (!movement.estimate || !other || path.includes(other.key)) return { missing: 'no-max' };
  const from = strengthOn(client, other, date, kit, world, [...path, movement.key]);
  if ('missing' in from) return from;
  return {
    estimatedOneRepMaxKg: from.estimatedOneRepMaxKg * movement.estimate.share,
    use: { ...from.use, kind: 'estimate' },
    provisionalReason: say`estimated as ${formatNumber(movement.estimate.share * 100)} % of ${other.name}, never tested`,
    estimatedThrough: [movement, ...from.estimatedThrough],
  };
}

/** Why a max is only provisional on a date, in plain words; null when it is sound. */
function doubt(client: Client, use: MaxUse, date: IsoDate): string | null {
  const { staleDays, awayDays, manyReps } = client.limits;
  if (use.ageDays > staleDays) return say`the max is ${Math.floor(use.ageDays / 7)} weeks old`;
  const away = client.aways.find(
    (absence) => absence.to < date && absence.to >= use.entry.date && daysAway(absence) >= awayDays,
  );
  if (away) return say`the max is from before ${Math.floor(daysAway(away) / 7)} weeks away`;
  if (use.repsToFailure > manyReps) {
    return say`the max comes from ${formatNumber(use.repsToFailure)} reps to failure, which predicts poorly`;
  }
  return null;
}

/** Stage signed off for a pattern on a date: the newest sign-off by then counts; without one it is `learn`. */
export function signedOff(client: Client, pattern: Movement['pattern'], date: IsoDate) {
  let best: Client['signOffs'][number] | null = null;
  for (const signOff of client.signOffs) {
    if (signOff.date > date || (signOff.pattern !== pattern && signOff.pattern !== 'all')) continue;
    const newer = !best || signOff.date > best.date;
    const sameDay = best !== null && signOff.date === best.date;
    const closer = sameDay && best?.pattern === 'all' && signOff.pattern !== 'all';
    // Two of one day that contradict each other: the lower one counts.
    const lower =
      sameDay && best?.pattern === signOff.pattern && compareStages(signOff.stage, best.stage) < 0;
    if (newer || closer || lower) best = signOff;
  }
  return { stage: best?.stage ?? ('learn' as const), signOff: best };
}
