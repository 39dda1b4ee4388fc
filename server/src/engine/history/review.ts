/** Everything that a review of one client shows, worked out once for text, JSON and HTML. */
import type { Client, ClientPlan, IsoDate, World } from '../model.js';
import { massOn } from '../resolve/strength.js';
import {
  adherenceOf,
  compareSessions,
  compareWeeks,
  type SessionComparison,
  type WeekComparison,
} from './compare.js';
import type { Estimate, StrengthVerdict } from './estimates.js';
import { historyOf } from './history.js';
import { type Offer, offersFor, verdictsFor } from './offers.js';
import { betweenPrograms, type SpanBetween } from './programs.js';
import type { SignOffCriteria } from './signOffCriteria.js';
import { type YearOfTraining, yearsOf } from './years.js';

export interface MovementReview extends StrengthVerdict {
  /** Every best-of-the-day estimate up to the day of the review, oldest first. */
  readonly estimates: readonly Estimate[];
  /** Current estimate / body mass; null without a mass. */
  readonly perBodyMass: number | null;
}

export interface Review {
  readonly client: Client;
  readonly today: IsoDate;
  readonly sessions: readonly SessionComparison[];
  readonly weeks: readonly WeekComparison[];
  readonly adherence: number | null;
  readonly movements: readonly MovementReview[];
  readonly offers: readonly Offer[];
  readonly years: readonly YearOfTraining[];
  readonly between: readonly SpanBetween[];
}

/** A client's review on a day. What was logged or planned later is not looked at, except sessions ahead. */
export function reviewOf(
  plan: ClientPlan,
  world: World,
  today: IsoDate,
  criteria?: readonly SignOffCriteria[],
): Review {
  const history = historyOf(plan, world);
  const done = history.done.filter(({ date }) => date <= today);
  const { estimates } = history;
  const input = { plan, world, done, estimates, today, ...(criteria ? { criteria } : {}) };
  const sessions = compareSessions(plan, done, today);
  const mass = massOn(plan.client, today);
  return {
    client: plan.client,
    today,
    sessions,
    weeks: compareWeeks(plan, sessions),
    adherence: adherenceOf(sessions),
    movements: verdictsFor(input).map((verdict) => ({
      ...verdict,
      estimates: (estimates.get(verdict.movement.key) ?? []).filter(({ date }) => date <= today),
      perBodyMass: mass === null || mass <= 0 ? null : verdict.current.kg / mass,
    })),
    offers: offersFor(input),
    years: yearsOf(plan.client, sessions, estimates, world),
    between: betweenPrograms(plan, world),
  };
}
