/** Volume of a plan: volume-load, Prilepin's counts and hard sets. */
import type { ResolvedCell, ResolvedGroup } from '../model.js';
import { countedReserve } from '../stages.js';

/** Repetitions of all sets of a group; the lower end of a range, both sides where the cell says so. Null without reps. */
export function totalReps(cell: ResolvedCell, group: ResolvedGroup): number | null {
  if (group.reps === null || group.sets === null) return null;
  return group.sets * group.reps * (cell.perSide ? 2 : 1);
}

/**
 * Volume-load in kilograms: sets × reps × load, each implement as written (one dumbbell of a pair counts twice).
 * Null where no external load is given. Source: common practice, as printed in NSCA texts (3 × 10 × 40 kg = 1,200 kg).
 */
export function volumeLoadKg(cell: ResolvedCell, group: ResolvedGroup): number | null {
  const reps = totalReps(cell, group);
  if (reps === null || group.loadKg === null || group.loadKg < 0) return null;
  const pieces = cell.movement?.implement.kind === 'dumbbells' ? 2 : 1;
  return reps * group.loadKg * pieces;
}

/** A row of Prilepin's table. */
export interface PrilepinZone {
  readonly fromShare: number;
  readonly repsPerSet: readonly [number, number];
  readonly optimalReps: number;
  readonly range: readonly [number, number];
}

/**
 * Prilepin's table (attributed to A. S. Prilepin, 1974–75, quoted by McCullough), made for the snatch and the clean and
 * jerk of elite lifters; totals are per exercise and session. Its bands leave gaps; here a band reaches up to the next.
 */
export const PRILEPIN_ZONES: readonly PrilepinZone[] = [
  { fromShare: 0.55, repsPerSet: [3, 6], optimalReps: 24, range: [18, 30] },
  { fromShare: 0.7, repsPerSet: [3, 6], optimalReps: 18, range: [12, 24] },
  { fromShare: 0.8, repsPerSet: [2, 4], optimalReps: 15, range: [10, 20] },
  { fromShare: 0.9, repsPerSet: [1, 2], optimalReps: 7, range: [4, 10] },
];

/** The zone of a load share (0–1); null below 55 %. Exactly 90 % still belongs to the zone below. */
export function prilepinZone(share: number): PrilepinZone | null {
  return (
    PRILEPIN_ZONES.findLast((zone) => (zone.fromShare === 0.9 ? share > 0.9 : share >= zone.fromShare)) ??
    null
  );
}

/** Repetitions of one zone of Prilepin's table. */
export interface ZoneReps {
  readonly zone: PrilepinZone;
  readonly reps: number;
  /** Below, within or above the published range of a session. */
  readonly judged: 'below' | 'within' | 'above';
}

/** Prilepin's count of one movement in one session: repetitions by zone, the lightest zone first. */
export function prilepinCounts(cells: readonly ResolvedCell[]): readonly ZoneReps[] {
  const counts = new Map<PrilepinZone, number>();
  for (const cell of cells) {
    for (const group of cell.groups) {
      const zone = group.share === null ? null : prilepinZone(group.share);
      const reps = totalReps(cell, group);
      if (zone !== null && reps !== null) counts.set(zone, (counts.get(zone) ?? 0) + reps);
    }
  }
  return PRILEPIN_ZONES.flatMap((zone) => {
    const reps = counts.get(zone);
    if (reps === undefined) return [];
    const judged = reps < zone.range[0] ? 'below' : reps > zone.range[1] ? 'above' : 'within';
    return [{ zone, reps, judged }];
  });
}

/** A set that leaves less than this is hard; learning work keeps at least so many. Common practice, no source. */
export const HARD_RESERVE = 4;

/** Sets that leave fewer than four in reserve, by the smaller of written and predicted reserve. */
export function hardSets(cells: readonly ResolvedCell[]): number {
  let sets = 0;
  for (const { groups } of cells) {
    for (const { reps, openReps, sets: count, writtenReserve, reserve } of groups) {
      if ((reps === null && !openReps) || (writtenReserve === null && reserve === null)) continue;
      if (countedReserve(writtenReserve, reserve) < HARD_RESERVE) sets += count ?? 1;
    }
  }
  return sets;
}

/** Volume-load of several cells in kilograms. What has no load counts as nothing. */
export function volumeLoadOf(cells: readonly ResolvedCell[]): number {
  return cells.reduce(
    (sum, cell) => sum + cell.groups.reduce((own, group) => own + (volumeLoadKg(cell, group) ?? 0), 0),
    0,
  );
}
