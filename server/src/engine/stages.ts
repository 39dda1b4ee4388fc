/** Competence stages: which kind of work a written dose is, and how stages compare. */

import { STAGE_NAMES, type StageName } from '../../../grammar/ast.js';

/** From least to most demanding. A stage is opened by the coach's sign-off, never by the calendar. */
export type Stage = StageName;

export const STAGES: readonly Stage[] = STAGE_NAMES;

/** n at or below which work is heavy: six with two in reserve, about 80 % and more. Common practice, no source. */
export const HEAVY_MAX_REPS_POSSIBLE = 8;
/** n at or above which work can be learning work. Common practice, no source. */
export const LEARN_MIN_REPS_POSSIBLE = 12;
/** Reserve that learning work keeps at least. Common practice, no source. */
export const LEARN_MIN_RESERVE = 4;

/** Curves leave noise in the last digits; a reserve of 1.9999999999 is two. */
const NOISE = 1e-9;

/** What is known of a set for telling its stage. */
export interface StageInput {
  /** Repetitions of the set; null for time, distance and intervals. */
  reps: number | null;
  /** Repetitions in reserve as written; null when the cell states none. */
  writtenReserve: number | null;
  /** Reserve that the curve predicts for the load on the bar (may be Infinity or negative); null when unknown. */
  predictedReserve: number | null;
  /** Bodyweight without added load, a light pack or a band: learning work whatever the reps. */
  light?: boolean;
  /** Least stage of the movement (jumps and sprints marked `heavy`); the result is never below it. */
  leastStage?: Stage | null;
}

/** Negative when `a` asks less than `b`, 0 when the same, positive when more. */
export function compareStages(a: Stage, b: Stage): number {
  return STAGES.indexOf(a) - STAGES.indexOf(b);
}

/** The more demanding of two stages. */
export function higherStage(a: Stage, b: Stage): Stage {
  return compareStages(a, b) >= 0 ? a : b;
}

/** Whether a sign-off for `ready` covers work of stage `needed`. */
export function stageAllows(ready: Stage, needed: Stage): boolean {
  return compareStages(needed, ready) <= 0;
}

/** The reserve that counts for a stage: the smaller of written and predicted; 0 when neither is known. */
export function countedReserve(writtenReserve: number | null, predictedReserve: number | null): number {
  if (writtenReserve === null && predictedReserve === null) return 0;
  return Math.min(writtenReserve ?? Infinity, predictedReserve ?? Infinity);
}

/**
 * Stage of a set. With n = reps + the smaller of written and predicted reserve (how often the load could be lifted):
 * `heavy` for n of 8 or fewer, `learn` for n of 12 or more with at least four in reserve, otherwise `load`.
 * Unknown reserve counts as none, so that a doubtful set asks for the higher stage. Work without repetitions
 * (time, distance) is `load` unless it is light.
 */
export function stageOfWork(work: StageInput): Stage {
  const stage = work.light ? 'learn' : stageOfReps(work);
  return work.leastStage ? higherStage(stage, work.leastStage) : stage;
}

function stageOfReps({ reps, writtenReserve, predictedReserve }: StageInput): Stage {
  if (reps === null) return 'load';
  const reserve = countedReserve(writtenReserve, predictedReserve);
  const repsPossible = reps + reserve;
  if (repsPossible <= HEAVY_MAX_REPS_POSSIBLE + NOISE) return 'heavy';
  const learns = repsPossible >= LEARN_MIN_REPS_POSSIBLE - NOISE && reserve >= LEARN_MIN_RESERVE - NOISE;
  return learns ? 'learn' : 'load';
}
