/** A lifter whose true strength is known: what Stave reads from her logs can be held against it. */
import { curve } from '../src/engine/curves.js';
import { addDays, type IsoDate } from '../src/engine/dates.js';
import { CURVE_ERROR_SHARE, currentEstimate } from '../src/engine/history/estimates.js';
import { clientOffers, historyOf } from '../src/engine/history/history.js';
import type { ClientPlan, World } from '../src/engine/model.js';
import { createSession } from '../src/engine/session.js';

export const SEEDS = 100;
export const WEEKS = 40;
/** Weeks after which she is asked about. */
export const ASKED_WEEKS: readonly number[] = [12, 20, 30, 39];
/** The load that follows from a true strength is right within these shares: a plan's step, and the careful side. */
export const LOAD_MOST_SHARE = 1.1;
export const LOAD_LEAST_SHARE = 0.85;

const START = '2026-01-05';

/** A generator of numbers from 0 to 1 that gives the same row for the same seed (mulberry32, public domain). */
function numbers(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = state;
    t = Math.imul(t ^ (t >>> 15), t | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
}

/** Normally distributed with mean 0 and deviation 1 (Box and Muller 1958). */
function normal(next: () => number): number {
  return Math.sqrt(-2 * Math.log(1 - next())) * Math.cos(2 * Math.PI * next());
}

/** True strength in kilograms after so many weeks: from 60 kg towards 90 kg, quickly first and slowly then. */
export function trueKg(week: number): number {
  return 90 - 30 * Math.exp(-week / 20);
}

/**
 * A lifter who logs two sets a week. Of her own: how her repetitions at a load differ from the curve (Kemmler 2006:
 * variation of 3.3 %) and how many repetitions she guesses too few (Halperin 2022: 0.95, and 0.4 between people,
 * from the confidence interval of 0.17 to 1.73). Each day her strength differs by 2 % and her guess by half a
 * repetition (both assumed). Reserves are told in whole repetitions.
 */
export function simulatedLifter(seed: number): { readonly plan: ClientPlan; readonly world: World } {
  const next = numbers(seed);
  const brzycki = curve('brzycki');
  const curveError = normal(next) * CURVE_ERROR_SHARE;
  const guessesTooFew = 0.95 + 0.4 * normal(next);
  const logs: string[] = [];
  let reference = 60;
  for (let week = 0; week < WEEKS; week += 1) {
    for (const offset of [0, 3]) {
      const today = trueKg(week + offset / 7) * (1 + 0.02 * normal(next));
      const loadKg = Math.floor((reference * brzycki.share(8)) / 2.5) * 2.5;
      // Repetitions to failure that are really there today.
      const there = brzycki.reps(loadKg / (today * (1 + curveError))) ?? 0;
      const really = Math.floor(Math.min(there, 20));
      const left = Math.max(0, Math.round(really - 5 - guessesTooFew + 0.5 * normal(next)));
      const reps = Math.min(5, Math.max(1, really));
      logs.push(
        `log Heron, ${addDays(START, week * 7 + offset)}\n  lift: ${loadKg}kg ${reps} r${reps < 5 ? 0 : left}`,
      );
      // The coach follows with the loads as a plan would.
      reference += 0.3 * (loadKg / brzycki.share(Math.min(15, reps + left)) - reference);
    }
  }
  const session = createSession({ today: null });
  session.setFile(
    'lifter.stave',
    `movement lift\n  pattern: squat\n  with: barbell\n\nclient Heron\n  max: lift, 60kg x1, 2026-01-01\n\n${logs.join('\n')}\n`,
  );
  const problem = session.tree('lifter.stave')?.problems[0];
  const plan = session.plan('heron');
  if (problem || !plan) throw new Error(problem?.message ?? 'There is no plan.');
  return { plan, world: session.world() };
}

export interface AskedAfter {
  readonly week: number;
  /** Whether the true strength lies in the band. */
  readonly inside: boolean;
  /** (Estimate − truth) / truth. */
  readonly errorShare: number;
  /** Half the width of the band / the estimate. */
  readonly bandShare: number;
}

export interface LifterResult {
  readonly asked: readonly AskedAfter[];
  /** Load that the max line on offer at the end leads to / the right one; null where none is on offer. */
  readonly offeredShare: number | null;
}

/** What is read from the logs of one lifter, against the truth. */
export function lifterResult(seed: number): LifterResult {
  const { plan, world } = simulatedLifter(seed);
  const all = historyOf(plan, world).estimates.get('lift') ?? [];
  const estimates = all.filter(({ set }) => set.from === 'log');
  const asked = ASKED_WEEKS.map((week): AskedAfter => {
    const current = currentEstimate(estimates, addDays(START, week * 7 + 4));
    if (!current) throw new Error('There is no estimate.');
    const truth = trueKg(week);
    return {
      week,
      inside: current.lowKg <= truth && truth <= current.highKg,
      errorShare: (current.kg - truth) / truth,
      bandShare: (current.highKg - current.lowKg) / 2 / current.kg,
    };
  });
  return { asked, offeredShare: offeredShare(plan, world, addDays(START, WEEKS * 7 - 1)) };
}

/** At equal reps and reserve the load is a fixed share of the maximum, so that the shares of both are the same. */
function offeredShare(plan: ClientPlan, world: World, on: IsoDate): number | null {
  const offer = clientOffers(plan, world, on).find(({ kind }) => kind === 'max');
  const set = /, ([\d.]+)kg x(\d+) r([\d.]+), /.exec(offer?.line ?? '');
  if (!set) return null;
  return Number(set[1]) / curve('brzycki').share(Number(set[2]) + Number(set[3])) / trueKg(WEEKS);
}
