/** Limits of what a max tells, as a coach has set them. Loads are worked out by them, and rules go by the same. */

export interface MaxLimits {
  /** A max is called old after this many days. */
  readonly staleDays: number;
  /** An absence of this many days makes every older max doubtful at once. */
  readonly awayDays: number;
  /** More repetitions to failure than this predict poorly. */
  readonly manyReps: number;
  /** Work of so few repetitions lies far from a max of many: its load is read off the lowest curve. */
  readonly fewReps: number;
}

/** The days and the few reps are common practice, no source; the many reps are Mayhew 2008 and Reynolds 2006: at most 10. */
export const DEFAULT_LIMITS: MaxLimits = { staleDays: 56, awayDays: 21, manyReps: 10, fewReps: 6 };

type Options = Readonly<Record<string, Readonly<Record<string, number>>>>;

/** The limits under the numbers that are set for the rules `max-stale` and `max-imprecise`. */
export function maxLimitsUnder(options: Options | undefined): MaxLimits {
  const stale = options?.['max-stale'];
  const imprecise = options?.['max-imprecise'];
  if (!stale && !imprecise) return DEFAULT_LIMITS;
  const { maxWeeks, awayDays = DEFAULT_LIMITS.awayDays } = stale ?? {};
  const { manyReps = DEFAULT_LIMITS.manyReps, fewReps = DEFAULT_LIMITS.fewReps } = imprecise ?? {};
  const staleDays = maxWeeks === undefined ? DEFAULT_LIMITS.staleDays : maxWeeks * 7;
  return { staleDays, awayDays, manyReps, fewReps };
}
