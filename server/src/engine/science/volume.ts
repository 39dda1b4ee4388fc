/** Volume of a plan: volume-load, Prilepin's counts, and how long a session takes. */
import type { ResolvedCell, ResolvedGroup } from '../model.js';

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

/** Seconds that one repetition takes without a tempo. Common practice, no source. */
const SECONDS_PER_REP = 4;
/** Rest between sets where none is written. Common practice, no source. */
const USUAL_REST_SECONDS = 90;

/** Seconds of a cell: sets × (work + rest), both sides one after the other. Null when there are no sets to count. */
export function cellSeconds(cell: ResolvedCell): number | null {
  let total = 0;
  for (const group of cell.groups) {
    const sets = group.sets;
    const work = workSeconds(cell, group);
    if (sets === null || work === null) return null;
    total +=
      sets * (work * (cell.perSide ? 2 : 1) + (group.offSeconds ?? cell.restSeconds ?? USUAL_REST_SECONDS));
  }
  return total;
}

function workSeconds(cell: ResolvedCell, group: ResolvedGroup): number | null {
  if (group.seconds !== null) return group.seconds;
  if (group.reps === null) return null;
  const perRep = cell.tempo ? cell.tempo.reduce((sum, part) => sum + part, 0) : SECONDS_PER_REP;
  return group.reps * perRep;
}
