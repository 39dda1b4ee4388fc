/** A client's whole history year by year: best sets, volume, adherence, body mass, stages. */
import type { PatternName, StageName } from '../../../../grammar/index.js';
import type { Client, IsoDate, Place, World } from '../model.js';
import { massOn } from '../resolve/strength.js';
import { adherenceOf, type SessionComparison } from './compare.js';
import type { EstimatesByMovement } from './estimates.js';

export interface BestSet {
  readonly movement: string;
  readonly name: string;
  readonly date: IsoDate;
  readonly loadKg: number;
  readonly reps: number;
  readonly reserve: number;
  readonly estimatedOneRepMaxKg: number;
  /** Estimated maximum / body mass of that day; null without a mass. */
  readonly perBodyMass: number | null;
  readonly place: Place;
}

export interface YearOfTraining {
  readonly year: number;
  readonly sessionsLogged: number;
  readonly volumeLoadKg: number;
  readonly adherence: number | null;
  readonly best: readonly BestSet[];
  /** Mean of the body masses written in this year; null without one. */
  readonly massKg: number | null;
  readonly stages: readonly {
    readonly date: IsoDate;
    readonly stage: StageName;
    readonly pattern: PatternName | 'all';
  }[];
}

/** The years from the first to the last thing known of a client, oldest first. */
export function yearsOf(
  client: Client,
  sessions: readonly SessionComparison[],
  estimates: EstimatesByMovement,
  world: Pick<World, 'movements'>,
): readonly YearOfTraining[] {
  const byYear = new Map<number, SessionComparison[]>();
  for (const session of sessions) {
    if (session.state === 'ahead') continue;
    const year = yearOf(session.date);
    const own = byYear.get(year);
    if (own) own.push(session);
    else byYear.set(year, [session]);
  }
  for (const own of estimates.values())
    for (const { date } of own) if (!byYear.has(yearOf(date))) byYear.set(yearOf(date), []);
  return [...byYear.keys()]
    .sort((a, b) => a - b)
    .map((year) => {
      const own = byYear.get(year) ?? [];
      const masses = client.masses
        .filter(({ date }) => date !== null && yearOf(date) === year)
        .map(({ kg }) => kg);
      return {
        year,
        sessionsLogged: own.filter(({ log }) => log !== null).length,
        volumeLoadKg: own.reduce((sum, { done }) => sum + done.volumeLoadKg, 0),
        adherence: adherenceOf(own),
        best: bestSets(client, estimates, world, year),
        massKg: masses.length === 0 ? null : masses.reduce((sum, kg) => sum + kg, 0) / masses.length,
        stages: client.signOffs
          .filter(({ date }) => yearOf(date) === year)
          .map(({ date, stage, pattern }) => ({ date, stage, pattern })),
      };
    });
}

function yearOf(date: IsoDate): number {
  return Number(date.slice(0, 4));
}

function bestSets(
  client: Client,
  estimates: EstimatesByMovement,
  world: Pick<World, 'movements'>,
  year: number,
): readonly BestSet[] {
  const found: BestSet[] = [];
  for (const [movement, own] of [...estimates].sort(([a], [b]) => (a < b ? -1 : 1))) {
    let best: (typeof own)[number] | null = null;
    for (const each of own) if (yearOf(each.date) === year && (!best || each.kg > best.kg)) best = each;
    if (!best) continue;
    const mass = massOn(client, best.date);
    found.push({
      movement,
      name: world.movements.get(movement)?.name ?? movement,
      date: best.date,
      loadKg: best.set.loadKg,
      reps: best.set.reps,
      reserve: best.set.reserve,
      estimatedOneRepMaxKg: best.kg,
      perBodyMass: mass === null || mass <= 0 ? null : best.kg / mass,
      place: best.set.place,
    });
  }
  return found;
}
