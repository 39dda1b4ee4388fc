/** A client's whole history year by year: best sets, volume, adherence, body mass, stages, and her programs in a row. */
import type { PatternName, StageName } from '../../../../grammar/index.js';
import { addDays, daysBetween } from '../dates.js';
import type { Client, ClientPlan, Follows, IsoDate, Place, World } from '../model.js';
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

export interface ProgramSpan {
  readonly follows: Follows;
  readonly from: IsoDate;
  /** Day of the last session. */
  readonly until: IsoDate;
}

export interface SpanBetween {
  readonly kind: 'gap' | 'overlap';
  readonly before: ProgramSpan;
  readonly after: ProgramSpan;
  /** Days without a program, or with two that do not stand alongside each other. */
  readonly days: number;
}

/** A gap of more than this many days between two programs is told; a week or two between them is nothing. */
const GAP_DAYS = 14;

/** First and last session of each `follows` line, by date. Lines without a session are left out. */
export function programSpans(plan: ClientPlan): readonly ProgramSpan[] {
  const dates = new Map<Follows, { from: IsoDate; until: IsoDate }>();
  for (const { program, date } of plan.sessions) {
    const follows = plan.client.follows.findLast((line) => line.program === program.key && line.from <= date);
    if (!follows) continue;
    const span = dates.get(follows);
    if (!span) dates.set(follows, { from: date, until: date });
    else span.until = date;
  }
  return [...dates].map(([follows, span]) => ({ follows, ...span }));
}

/** Gaps between programs, and programs cut short by the next one or running beside it without `alongside`. */
export function betweenPrograms(plan: ClientPlan): readonly SpanBetween[] {
  const spans = programSpans(plan).filter(({ follows }) => !follows.alongside);
  const found: SpanBetween[] = [];
  for (let index = 1; index < spans.length; index += 1) {
    const before = spans[index - 1] as ProgramSpan;
    const after = spans[index] as ProgramSpan;
    const days = daysBetween(before.until, after.from) - 1;
    const away = plan.client.aways.some(
      (each) => each.from <= addDays(before.until, GAP_DAYS) && each.to >= addDays(after.from, -GAP_DAYS),
    );
    if (days > GAP_DAYS && !away) found.push({ kind: 'gap', before, after, days });
    if (days < 0) found.push({ kind: 'overlap', before, after, days: -days });
  }
  return found;
}
