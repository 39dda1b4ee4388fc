/** Workload of training sessions: session load, monotony and strain (Foster 1998), rolling and weighted ratios. */

/**
 * Load of a session in arbitrary units: session effort (0–10, asked about half an hour afterwards) × minutes.
 * Source: Foster et al. 1998/2001.
 */
export function sessionLoad(sessionRpe: number, minutes: number): number {
  return sessionRpe * minutes;
}

/** Mean and spread of a week of daily loads, and what Foster makes of them. */
export interface WeekLoad {
  /** Sum of the daily loads. */
  readonly load: number;
  /** Mean daily load ÷ SD of the daily loads; null when every day is the same, as nothing can be divided by 0. */
  readonly monotony: number | null;
  /** Weekly load × monotony. */
  readonly strain: number | null;
}

/**
 * Load, monotony and strain of a week, rest days counting as 0. The SD is that of a sample (n − 1): sources differ,
 * and this one gives the lower monotony. Foster 1998 speaks of individual thresholds only; the flags of 1.5 and 2.0
 * are a convention and contested.
 * Source: Foster C. Monitoring training in athletes. Med Sci Sports Exerc 1998;30(7):1164–1168.
 */
export function weekLoad(dailyLoads: readonly number[]): WeekLoad {
  const load = dailyLoads.reduce((sum, value) => sum + value, 0);
  const mean = load / dailyLoads.length;
  const squares = dailyLoads.reduce((sum, value) => sum + (value - mean) ** 2, 0);
  const deviation = Math.sqrt(squares / (dailyLoads.length - 1));
  if (!(deviation > 0)) return { load, monotony: null, strain: null };
  const monotony = mean / deviation;
  return { load, monotony, strain: load * monotony };
}

/** Days of the short and the long window of both workload ratios. */
const ACUTE_DAYS = 7;
const CHRONIC_DAYS = 28;

/**
 * Mean of the last 7 days ÷ mean of the last 28, which include them (`coupled`), or ÷ the 21 days before them. Null
 * before 28 days are known or when there was no load. Contested (Impellizzeri 2020, 2021): information, not a limit.
 */
export function rollingWorkloadRatio(dailyLoads: readonly number[], coupled = true): number | null {
  if (dailyLoads.length < CHRONIC_DAYS) return null;
  const acute = mean(dailyLoads.slice(-ACUTE_DAYS));
  const window = dailyLoads.slice(-CHRONIC_DAYS);
  const chronic = mean(coupled ? window : window.slice(0, CHRONIC_DAYS - ACUTE_DAYS));
  return chronic > 0 ? acute / chronic : null;
}

/**
 * Exponentially weighted ratio: today = λ × load + (1 − λ) × yesterday with λ = 2 / (N + 1), N of 7 and 28, seeded with
 * the first day. Null without load. Contested like the rolling ratio.
 * Source: Williams S et al. Br J Sports Med 2017;51(3):209–210 (λ from memory).
 */
export function weightedWorkloadRatio(dailyLoads: readonly number[]): number | null {
  const acute = weightedMean(dailyLoads, ACUTE_DAYS);
  const chronic = weightedMean(dailyLoads, CHRONIC_DAYS);
  return acute !== null && chronic !== null && chronic > 0 ? acute / chronic : null;
}

/** Exponentially weighted mean of daily loads, λ = 2 / (`days` + 1), seeded with the first day. Null without a day. */
export function weightedMean(dailyLoads: readonly number[], days: number): number | null {
  const lambda = 2 / (days + 1);
  return dailyLoads.reduce<number | null>(
    (before, load) => (before === null ? load : lambda * load + (1 - lambda) * before),
    null,
  );
}

function mean(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length;
}
