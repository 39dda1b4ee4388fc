/** The roster and the reviews of a session, each worked out again only for the clients of whom something changed. */
import type { IsoDate } from '../model.js';
import type { EngineSession } from '../session.js';
import { type Review, reviewOf } from './review.js';
import { byUrgency, type RosterLine, type RosterSettings, rosterLine, rosterNumbers } from './roster.js';

interface Kept<Value> {
  readonly inputs: readonly unknown[];
  readonly value: Value;
}

/** Values by client, kept beside a session as long as the session lives. */
class ByClient<Value> {
  readonly #kept = new WeakMap<EngineSession, Map<string, Kept<Value>>>();

  /** What is kept for a client, else what `make` gives. `more` is what else it rests on. */
  of(session: EngineSession, clientKey: string, more: readonly unknown[], make: () => Value): Value {
    let ofSession = this.#kept.get(session);
    if (!ofSession) {
      ofSession = new Map();
      this.#kept.set(session, ofSession);
    }
    const logs = session.world().logsByClient.get(clientKey);
    const inputs = [...session.inputs(clientKey), logs, ...more];
    const before = ofSession.get(clientKey);
    if (before && same(before.inputs, inputs)) return before.value;
    const value = make();
    ofSession.set(clientKey, { inputs, value });
    return value;
  }

  /** Forgets clients who are there no more. */
  forgetOthers(session: EngineSession, keys: ReadonlyMap<string, unknown>): void {
    const ofSession = this.#kept.get(session);
    for (const key of ofSession?.keys() ?? []) if (!keys.has(key)) ofSession?.delete(key);
  }
}

function same(a: readonly unknown[], b: readonly unknown[]): boolean {
  return a.length === b.length && a.every((value, index) => value === b[index]);
}

const lines = new ByClient<RosterLine | null>();
const reviews = new ByClient<Review | null>();

/** The roster of all clients of a session on a day, as `rosterOf` gives it. Plans are let go of one by one. */
export function sessionRoster(session: EngineSession, today: IsoDate): readonly RosterLine[] {
  const { clients } = session.world();
  lines.forgetOthers(session, clients);
  return [...clients.keys()]
    .flatMap(
      (key) =>
        lines.of(session, key, [today, JSON.stringify(rosterSettings(session, key))], () => {
          const plan = session.plan(key);
          return plan ? rosterLine(plan, session.world(), today, rosterSettings(session, key)) : null;
        }) ?? [],
    )
    .sort(byUrgency);
}

/** What the roster goes by for one client of a session. */
export function rosterSettings(session: EngineSession, clientKey: string): RosterSettings {
  return {
    criteria: session.signOffCriteria(clientKey),
    numbers: rosterNumbers(session.ruleContext(clientKey)),
  };
}

/** The review of one client on a day, her years in it, as `reviewOf` gives it; null for nobody of that key. */
export function sessionReview(session: EngineSession, clientKey: string, today: IsoDate): Review | null {
  reviews.forgetOthers(session, session.world().clients);
  return reviews.of(session, clientKey, [today, criteriaKey(session, clientKey)], () => {
    const plan = session.plan(clientKey);
    return plan ? reviewOf(plan, session.world(), today, session.signOffCriteria(clientKey)) : null;
  });
}

/** Settings are read anew when files come and go; what they say is what counts. */
function criteriaKey(session: EngineSession, clientKey: string): string {
  return JSON.stringify(session.signOffCriteria(clientKey));
}
