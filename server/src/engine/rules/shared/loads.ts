import { nextLoad } from '../../kit.js';
import type { ResolvedCell, ResolvedGroup } from '../../model.js';
import { curveOn } from '../../resolve/strength.js';

/** Two loads closer than this are the same. */
const SAME_KG = 1e-6;

export function sameLoad(a: number, b: number): boolean {
  return Math.abs(a - b) <= SAME_KG;
}

/** Mass that is lifted besides the load that is printed: the share of the body in a bodyweight movement. */
export function lifted(group: ResolvedGroup): number | null {
  if (group.loadKg === null) return null;
  if (group.share !== null && group.estimatedOneRepMaxKg !== null)
    return group.share * group.estimatedOneRepMaxKg;
  return group.loadKg;
}

/** The next load of the client's kit above one, or null at the top (or without a kit). */
export function nextUp(cell: ResolvedCell, loadKg: number): number | null {
  if (cell.kit === null || cell.movement === null) return null;
  return nextLoad(cell.kit.model, cell.movement.implement, loadKg, 'up');
}

/** Reps to failure at a share of the max by the client's curve; Infinity beyond what the curve tells. */
export function repsAtShare(cell: ResolvedCell, share: number): number {
  return curveOn(cell.client, cell.date).reps(share) ?? Number.POSITIVE_INFINITY;
}

/** Share of the max that can be lifted so many times; NaN beyond what the curve tells. */
export function shareAtReps(cell: ResolvedCell, reps: number): number {
  return curveOn(cell.client, cell.date).share(reps);
}

/** Whether two groups rest on the same set, so that their loads may be compared week by week. */
export function sameMax(a: ResolvedGroup, b: ResolvedGroup): boolean {
  if (a.max === null || b.max === null) return a.max === b.max;
  return a.max.entry === b.max.entry && a.max.kind === b.max.kind;
}
