/** How long planned work takes: sets × (work + rest), without warm-up, changing of plates and talk. */
import type { Circuit, ResolvedCell, ResolvedGroup } from '../model.js';

/** Seconds that one repetition takes without a tempo. Common practice, no source. */
const SECONDS_PER_REP = 4;
/** Metres of a carry or walk in a second. Common practice, no source. */
const METRES_PER_SECOND = 1;
/** Rest between sets where none is written. Common practice, no source. */
const USUAL_REST_SECONDS = 90;

/** Seconds of a cell: sets × (work + rest), both sides one after the other. Null when there are no sets to count. */
export function cellSeconds(cell: ResolvedCell): number | null {
  return secondsOf(cell, cell.restSeconds ?? USUAL_REST_SECONDS);
}

function secondsOf(cell: ResolvedCell, restSeconds: number): number | null {
  let total = 0;
  for (const group of cell.groups) {
    const sets = group.sets;
    const work = workSeconds(cell, group);
    if (sets === null || work === null) return null;
    total += sets * (work * (cell.perSide ? 2 : 1) + (group.offSeconds ?? restSeconds));
  }
  return total;
}

function workSeconds(cell: ResolvedCell, group: ResolvedGroup): number | null {
  if (group.seconds !== null) return group.seconds;
  if (group.metres !== null) return group.metres / METRES_PER_SECOND;
  if (group.reps === null) return null;
  const perRep = cell.tempo ? cell.tempo.reduce((sum, part) => sum + part, 0) : SECONDS_PER_REP;
  return group.reps * perRep;
}

/** How long the cells of a session take together. */
export interface SessionTime {
  readonly seconds: number;
  /** False where some work has no known length (open repetitions): it takes longer than `seconds`. */
  readonly complete: boolean;
}

/**
 * Time of a session: that of its rows one after the other. In a circuit there is no rest between rows but the one that
 * is written; its own rest comes after each round, and a circuit with a time takes that time.
 */
export function sessionTime(cells: readonly ResolvedCell[]): SessionTime {
  let seconds = 0;
  let complete = true;
  const circuits = new Map<Circuit, ResolvedCell[]>();
  for (const cell of cells) {
    const { circuit } = cell.row;
    if (circuit) {
      circuits.set(circuit, [...(circuits.get(circuit) ?? []), cell]);
      continue;
    }
    const own = cellSeconds(cell);
    if (own === null) complete = false;
    else seconds += own;
  }
  for (const [circuit, rows] of circuits) {
    const own = circuitSeconds(circuit, rows);
    if (own === null) complete = false;
    else seconds += own;
  }
  return { seconds, complete };
}

function circuitSeconds(circuit: Circuit, rows: readonly ResolvedCell[]): number | null {
  if (circuit.seconds !== null) return circuit.seconds;
  const rounds = circuit.roundsByWeek[(rows[0]?.week ?? 1) - 1] ?? null;
  if (rounds === null) return null;
  if (circuit.everySeconds !== null) return rounds * circuit.everySeconds;
  const work = rows.map((cell) => secondsOf(cell, cell.restSeconds ?? 0));
  const known = work.filter((each) => each !== null);
  if (known.length < work.length) return null;
  return known.reduce((sum, each) => sum + each, 0) + rounds * (circuit.restSeconds ?? 0);
}
