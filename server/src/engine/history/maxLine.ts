/** A set that was done as a max line of a client. */
import { estimateFromSet } from '../curves.js';
import type { Client, IsoDate, Movement, Place, World } from '../model.js';
import { formatNumber } from '../numbers.js';
import { curveOn, massOn } from '../resolve/strength.js';
import type { MeasuredSet } from './estimates.js';

/** `max: back squat, 45kg x6 r1, 2026-11-23`; null for loads that a max line cannot hold. */
export function maxLine(
  movement: Movement,
  set: MeasuredSet,
  date: IsoDate,
  world: Pick<World, 'kits'>,
): string | null {
  if (set.reps < 1 || set.written?.startsWith('pack') || set.written?.startsWith('band')) return null;
  const load =
    set.written ?? (set.bodyweight ? bodyweightText(set.loadKg) : `${formatNumber(set.loadKg, 3)}kg`);
  const kit = set.kit === null ? null : (world.kits.get(set.kit)?.name ?? null);
  const at = kit === null ? '' : `, at ${kit}`;
  return `max: ${movement.name}, ${load} x${formatNumber(set.reps)} r${formatNumber(set.reserve)}, ${date}${at}`;
}

function bodyweightText(addedKg: number): string {
  if (addedKg === 0) return 'bw';
  return `bw${addedKg < 0 ? '-' : '+'}${formatNumber(Math.abs(addedKg), 3)}kg`;
}

/** Under the last max line of the movement, else under the last of any, else under the client's name. */
export function underMaxes(client: Client, movement: string): Place {
  const own = client.maxes.filter((entry) => entry.movement === movement);
  return (own[own.length - 1] ?? client.maxes[client.maxes.length - 1])?.place ?? client.place;
}

/** e1RM that a set would give as a max line, in kilograms; null where it gives none. */
export function strengthOfSet(
  client: Client,
  movement: Movement,
  set: MeasuredSet,
  date: IsoDate,
): number | null {
  const mass = movement.liftsShare === null ? 0 : massOn(client, date);
  if (mass === null) return null;
  const lifted = set.loadKg + (movement.liftsShare ?? 0) * mass;
  const answer = estimateFromSet(curveOn(client, date), lifted, set.reps + set.reserve);
  return 'beyondDomain' in answer ? null : answer.estimatedOneRepMaxKg;
}
