/** A set that was done as a max line of a client. */
import { estimateFromSet } from '../curves.js';
import { addDays } from '../dates.js';
import type { Client, ClientPlan, IsoDate, Movement, Place, World } from '../model.js';
import { formatNumber } from '../numbers.js';
import { curveOn, massOn } from '../resolve/strength.js';
import type { SessionDone } from './done.js';
import type { MeasuredSet } from './estimates.js';

/** `max: back squat, 45kg x6 r1, 2026-11-23`, with `from` where it counts later; null for loads that a max line cannot hold. */
export function maxLine(
  movement: Movement,
  set: MeasuredSet,
  date: IsoDate,
  world: Pick<World, 'kits'>,
  from: IsoDate | null = null,
): string | null {
  if (set.reps < 1 || set.written?.startsWith('pack') || set.written?.startsWith('band')) return null;
  const load =
    set.written ?? (set.bodyweight ? bodyweightText(set.loadKg) : `${formatNumber(set.loadKg, 3)}kg`);
  const kit = set.kit === null ? null : (world.kits.get(set.kit)?.name ?? null);
  const at = kit === null ? '' : `, at ${kit}`;
  return `max: ${movement.name}, ${load} x${formatNumber(set.reps)} r${formatNumber(set.reserve)}, ${date}${at}${from === null ? '' : `, from ${from}`}`;
}

function bodyweightText(addedKg: number): string {
  if (addedKg === 0) return 'bw';
  return `bw${addedKg < 0 ? '-' : '+'}${formatNumber(Math.abs(addedKg), 3)}kg`;
}

/**
 * The day from which a set of some day may count so that the past does not change: null where no session lies between
 * that was trained or has gone by, else the first day that is not over.
 */
export function countsFrom(
  plan: ClientPlan,
  done: readonly SessionDone[],
  date: IsoDate,
  today: IsoDate,
): IsoDate | null {
  const loggedToday = done.some((each) => each.date === today);
  const isPast = (day: IsoDate) => day > date && (day < today || (loggedToday && day === today));
  const isBetween = plan.sessions.some((each) => isPast(each.date)) || done.some((each) => isPast(each.date));
  return !isBetween ? null : loggedToday ? addDays(today, 1) : today;
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
