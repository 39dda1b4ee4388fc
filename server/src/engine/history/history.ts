/** One client's history: logs bound to the plan, estimates and offers, kept while nothing of it changes. */
import type { ClientLogs, ClientPlan, IsoDate, Movement, World } from '../model.js';
import { bindLogs, type SessionDone } from './done.js';
import { type EstimatesByMovement, estimatesOf } from './estimates.js';
import { type Offer, offersFor } from './offers.js';
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
