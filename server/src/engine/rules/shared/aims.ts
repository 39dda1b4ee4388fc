import type { AimName, PatternName } from '../../../../../grammar/index.js';
import { later } from '../../../../../grammar/say.js';
import { ageAt, daysBetween, partialToDate } from '../../dates.js';
import type { ResolvedCell, ResolvedGroup } from '../../model.js';

/**
 * What serves an aim, from published tables, each widened a little so that only what is far off is told:
 * - NSCA, Haff & Triplett, Essentials, 4th ed., 2016, table of program design (its number from memory): strength 85 % and
 *   more, 6 reps or fewer, 2 to 6 sets, 2 to 5 min; power 75 to 90 %, 1 to 5 reps, 3 to 5 sets, 2 to 5 min; hypertrophy
 *   67 to 85 %, 6 to 12 reps, 3 to 6 sets, 30 s to 1.5 min; endurance 67 % and less, 12 reps and more, 2 to 3 sets, 30 s
 *   and less.
 * - ACSM 2009, Ratamess et al., Med Sci Sports Exerc 41(3):687-708: strength from 60 to 70 % and 8 to 12 reps for novices,
 *   1 to 3 sets for them, rests of 2 to 3 min, 1 to 2 min for assistance; from memory: size with 1 to 3 min of rest, power
 *   with 3 to 6 reps at 0 to 60 %, older adults with 6 to 10; endurance with rests of up to 2 min.
 * - ACSM 2026, overview of reviews (seen in reports of it): strength 80 % and more, 2 to 3 sets; about 10 sets a week and
 *   muscle group for size, for which load matters less; power at 30 to 70 %.
 * For power the tables together leave no share of the max out, and for size load is not judged.
 */
export interface Service {
  /** What the sets do that serve: `have 12 or more reps`. Marked for `said`. */
  readonly words: string;
  /** Whether a set serves; null where that cannot be told. */
  readonly serves: (group: ResolvedGroup, cell: ResolvedCell) => boolean | null;
  /**
   * Where more serves and weighs nothing: reps that a set has at least (with the same reserve that is a lighter load), or
   * seconds of rest.
   */
  readonly least?: { readonly reps: number } | { readonly restSeconds: number };
  /** Sets that a movement has at most. */
  readonly mostSets?: number;
}

/** Patterns whose sets are counted: the lifts that an aim is about. */
const LIFTS: ReadonlySet<PatternName> = new Set(['squat', 'hinge', 'lunge', 'push', 'press', 'pull', 'row']);

/** Whether the sets of a cell are counted for the aim of its program. */
export function isLift({ movement, test, backShare }: ResolvedCell): boolean {
  return test === null && backShare === 1 && movement !== null && LIFTS.has(movement.pattern);
}

/** Until then a client counts as a novice; where half a year lies is common practice, no source. */
const NOVICE_DAYS = 182;
/** ACSM 2009 gives older adults more reps for power; 65 years are its usual bound (from memory). */
const OLDER_AGE = 65;

/** Whether somebody is a novice, or may be one as nothing is known of her. */
export function mayBeNovice({ client, date }: ResolvedCell): boolean {
  const since = client.liftingSince === null ? null : partialToDate(client.liftingSince);
  return since === null || daysBetween(since, date) < NOVICE_DAYS;
}

function isOlder({ client, date }: ResolvedCell): boolean {
  return client.born !== null && (ageAt(client.born, date) ?? 0) >= OLDER_AGE;
}

function reps(from: number, to: number, words: string): Service {
  return {
    words,
    least: { reps: from },
    serves: (group) =>
      group.reps === null ? null : group.reps <= to && (group.repsUpper ?? group.reps) >= from,
  };
}

/** Sets of one movement in a session, all its groups together; rounds where it stands in a circuit. */
export function setsOf({ groups, row, week }: ResolvedCell): number | null {
  const rounds = row.circuit?.roundsByWeek[week - 1] ?? null;
  return groups.reduce<number | null>((sum, { sets }) => {
    const own = sets ?? rounds;
    return sum === null || own === null ? null : sum + own;
  }, 0);
}

function sets(from: number, to: number, words: string): Service {
  return {
    words,
    mostSets: to,
    serves: (group, cell) => {
      const all = group.reps === null ? null : setsOf(cell);
      return all === null ? null : all <= to && (all >= from || mayBeNovice(cell));
    },
  };
}

function rest(from: number, to: number, words: string): Service {
  return {
    words,
    least: { restSeconds: from },
    serves: ({ reps: done }, { restSeconds, row }) =>
      done === null || restSeconds === null || row.circuit !== null
        ? null
        : restSeconds >= from && restSeconds <= to,
  };
}

function share(from: number, to: number, words: string): Service {
  return {
    words,
    serves: ({ share: of, reps: done }) => (of === null || done === null ? null : of >= from && of <= to),
  };
}

const POWER_REPS: Service = {
  words: later('have 1 to 6 reps (up to 10 from 65 years on)'),
  serves: (group, cell) =>
    group.reps === null
      ? null
      : group.reps <= (isOlder(cell) ? 10 : 6) && (group.repsUpper ?? group.reps) >= 1,
};

export const SERVICES: Readonly<Partial<Record<AimName, readonly Service[]>>> = {
  strength: [
    share(0.6, 2, later('have 60 % of the max or more')),
    reps(1, 12, later('have 12 reps or fewer')),
    sets(2, 6, later('come in 2 to 6 sets of a movement')),
    rest(60, 3600, later('have a minute of rest or more')),
  ],
  power: [
    POWER_REPS,
    sets(2, 6, later('come in 2 to 6 sets of a movement')),
    rest(90, 3600, later('have a minute and a half of rest or more')),
  ],
  size: [
    reps(5, 15, later('have 5 to 15 reps')),
    sets(2, 6, later('come in 2 to 6 sets of a movement')),
    rest(30, 180, later('have half a minute to three minutes of rest')),
  ],
  endurance: [
    reps(12, 100, later('have 12 or more reps')),
    share(0, 0.7, later('have 70 % of the max or less')),
    sets(1, 4, later('come in 1 to 4 sets of a movement')),
    rest(0, 120, later('have two minutes of rest or less')),
  ],
};
