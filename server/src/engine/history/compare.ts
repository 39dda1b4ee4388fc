/** Plan against done: for each session and each week, what was planned, what was done, and the difference. */
import type { Block, ClientPlan, IsoDate, Movement, Program, ResolvedCell, Session } from '../model.js';
import { planWeeks } from '../rules/shared/cells.js';
import { sessionTime } from '../science/duration.js';
import { totalReps, volumeLoadKg } from '../science/volume.js';
import { type MovementDone, repsOf, type SessionDone } from './done.js';

/** Amounts of work. Minutes are null where nobody wrote or can tell them. */
export interface Work {
  readonly sets: number;
  readonly reps: number;
  /** Sets × reps × load in kilograms, each implement as written, a pair of dumbbells twice. */
  readonly volumeLoadKg: number;
  readonly minutes: number | null;
}

const NONE: Work = { sets: 0, reps: 0, volumeLoadKg: 0, minutes: null };

export interface MovementComparison {
  readonly done: MovementDone;
  readonly planned: Work;
  readonly doneWork: Work;
}

/**
 * `done`: every planned set and more; `partly`: fewer; `skipped`: a log that says so of everything;
 * `not-logged`: the day has gone by without a log; `ahead`: still to come; `extra`: a log without a planned session.
 */
export type SessionState = 'done' | 'partly' | 'skipped' | 'not-logged' | 'ahead' | 'extra';

export interface SessionComparison {
  readonly date: IsoDate;
  readonly session: Session | null;
  readonly log: SessionDone | null;
  readonly state: SessionState;
  readonly planned: Work;
  readonly done: Work;
  readonly movements: readonly MovementComparison[];
}

export interface WeekComparison {
  readonly program: Program;
  readonly block: Block;
  /** Inside the block, from 1. */
  readonly week: number;
  readonly deload: boolean;
  readonly from: IsoDate;
  readonly sessions: readonly SessionComparison[];
  readonly planned: Work;
  readonly done: Work;
  /** Sets done of sets planned, in sessions whose day has come; 0 to 1. Null while there are none. */
  readonly adherence: number | null;
}

/** Work that a cell asks for. A circuit's rounds count as its sets. */
export function plannedWork(cells: readonly ResolvedCell[]): Work {
  let sets = 0;
  let reps = 0;
  let kg = 0;
  for (const cell of cells) {
    for (const group of cell.groups) {
      sets += group.sets ?? 0;
      reps += totalReps(cell, group) ?? 0;
      kg += volumeLoadKg(cell, group) ?? 0;
    }
  }
  const { seconds, complete } = sessionTime(cells);
  return { sets, reps, volumeLoadKg: kg, minutes: complete && seconds > 0 ? seconds / 60 : null };
}

/** Work that was done of one movement. */
export function doneWork({
  groups,
  cell,
  movement,
  insteadOf,
}: Pick<MovementDone, 'groups' | 'cell' | 'movement' | 'insteadOf'>): Work {
  let sets = 0;
  let reps = 0;
  let kg = 0;
  for (const group of groups) {
    // Of another movement than the planned one both sides are written, or there are none.
    const perSide = (cell?.perSide ?? false) && (insteadOf === null || group.asPlanned);
    for (const set of group.sets) {
      const own = repsOf(set, perSide);
      if (own === 0 && set.seconds === null && set.metres === null && set.reps !== null) continue;
      sets += 1;
      reps += own;
      kg += own * Math.max(0, group.loadKg ?? 0) * piecesOf(movement);
    }
  }
  return { sets, reps, volumeLoadKg: kg, minutes: null };
}

function piecesOf(movement: Movement | null): number {
  return movement?.implement.kind === 'dumbbells' ? 2 : 1;
}

function sum(works: readonly Work[]): Work {
  return works.reduce(
    (total, work) => ({
      sets: total.sets + work.sets,
      reps: total.reps + work.reps,
      volumeLoadKg: total.volumeLoadKg + work.volumeLoadKg,
      minutes: work.minutes === null ? total.minutes : (total.minutes ?? 0) + work.minutes,
    }),
    NONE,
  );
}

/** Every session of a client, planned or only logged, in order of date. Sessions after `today` are `ahead`. */
export function compareSessions(
  plan: ClientPlan,
  done: readonly SessionDone[],
  today: IsoDate | null,
): readonly SessionComparison[] {
  const logs = new Map<Session, SessionDone>();
  for (const log of done) if (log.session) logs.set(log.session, log);
  const all = plan.sessions.map((session) => compareOne(session, logs.get(session) ?? null, today));
  for (const log of done) if (!log.session) all.push(compareOne(null, log, today));
  return all.sort((a, b) => (a.date < b.date ? -1 : a.date > b.date ? 1 : 0));
}

/** One log against the session that it answers. */
export function compareOne(
  session: Session | null,
  log: SessionDone | null,
  today: IsoDate | null,
): SessionComparison {
  const planned = session ? plannedWork(session.cells) : NONE;
  const movements = (log?.movements ?? []).map((each) => ({
    done: each,
    planned: each.cell ? plannedWork([each.cell]) : NONE,
    doneWork: doneWork(each),
  }));
  const work = { ...sum(movements.map((each) => each.doneWork)), minutes: log?.minutes ?? null };
  const date = session?.date ?? log?.date ?? '';
  return {
    date,
    session,
    log,
    state: stateOf(session, log, planned, movements, today),
    planned,
    done: work,
    movements,
  };
}

function stateOf(
  session: Session | null,
  log: SessionDone | null,
  planned: Work,
  movements: readonly MovementComparison[],
  today: IsoDate | null,
): SessionState {
  if (!session) return 'extra';
  if (!log) return today !== null && session.date < today ? 'not-logged' : 'ahead';
  const work = sum(movements.map((each) => each.doneWork));
  if (movements.length > 0 && movements.every(({ done }) => done.status === 'skipped')) return 'skipped';
  return work.sets >= planned.sets && !movements.some(({ done }) => done.status === 'skipped')
    ? 'done'
    : 'partly';
}

/** The weeks of a plan with their sessions. Logs without a planned session are in none of them. */
export function compareWeeks(
  plan: ClientPlan,
  sessions: readonly SessionComparison[],
): readonly WeekComparison[] {
  const bySession = new Map(
    sessions.flatMap((each) => (each.session ? [[each.session, each] as const] : [])),
  );
  return planWeeks(plan).map(({ program, block, week, deload, sessions: planned }) => {
    const own = planned.flatMap((session) => bySession.get(session) ?? []);
    const come = own.filter(({ state }) => state !== 'ahead');
    return {
      program,
      block,
      week,
      deload,
      from: planned[0]?.date ?? '',
      sessions: own,
      planned: sum(own.map((each) => each.planned)),
      done: sum(own.map((each) => each.done)),
      adherence: adherenceOf(come),
    };
  });
}

/** Sets done of sets planned; more than planned in one session does not make up for another. Null without any. */
export function adherenceOf(sessions: readonly SessionComparison[]): number | null {
  let planned = 0;
  let done = 0;
  for (const each of sessions) {
    if (each.state === 'ahead' || each.state === 'extra') continue;
    planned += each.planned.sets;
    done += Math.min(each.done.sets, each.planned.sets);
  }
  return planned === 0 ? null : done / planned;
}
