/** One client's history: logs bound to the plan, estimates and offers, kept while nothing of it changes. */
import { addDays } from '../dates.js';
import type { ClientLogs, ClientPlan, IsoDate, Movement, World } from '../model.js';
import { bindLogs, type SessionDone } from './done.js';
import { type EstimatesByMovement, estimatesOf } from './estimates.js';
import { hasSignOffAhead, type Offer, offersFor } from './offers.js';
import type { SignOffCriteria } from './signOffCriteria.js';

export interface History {
  readonly done: readonly SessionDone[];
  readonly estimates: EstimatesByMovement;
}

interface Kept {
  readonly logs: ClientLogs | undefined;
  readonly movements: ReadonlyMap<string, Movement>;
  readonly history: History;
}

const keptByPlan = new WeakMap<ClientPlan, Kept>();

/** What a client did, bound to her plan. Worked out again only when her plan, her logs or the movements change. */
export function historyOf(plan: ClientPlan, world: World): History {
  const logs = world.logsByClient.get(plan.client.key);
  const kept = keptByPlan.get(plan);
  if (kept && kept.movements === world.movements && kept.logs === logs) return kept.history;
  const done = bindLogs(plan, world);
  const history: History = { done, estimates: estimatesOf(plan.client, done, world) };
  keptByPlan.set(plan, { logs, movements: world.movements, history });
  return history;
}

/** Days that are enough for everything but sign-offs: estimates and steps look back eight weeks. */
const RECENT_DAYS = 182;

/**
 * What of a client's history bears on the decisions of a day. Years of logs are left unread where nothing that they say
 * could be told today: where a sign-off may be offered it is everything, as sessions are counted from the first.
 */
export function recentHistory(
  plan: ClientPlan,
  world: World,
  today: IsoDate,
  criteria?: readonly SignOffCriteria[],
): History {
  const logs = world.logsByClient.get(plan.client.key);
  if (!logs || hasSignOffAhead(plan.client, today, criteria)) return historyOf(plan, world);
  const done = bindLogs(plan, world, logs.since(addDays(today, -RECENT_DAYS)));
  if (!done.some(({ date }) => date <= today)) return historyOf(plan, world);
  return { done, estimates: estimatesOf(plan.client, done, world) };
}

/** What the logs up to a day suggest for a client; see `offersFor`. */
export function clientOffers(
  plan: ClientPlan,
  world: World,
  today: IsoDate,
  criteria?: readonly SignOffCriteria[],
): readonly Offer[] {
  const { done, estimates } = historyOf(plan, world);
  return offersFor({ plan, world, done, estimates, today, ...(criteria ? { criteria } : {}) });
}
