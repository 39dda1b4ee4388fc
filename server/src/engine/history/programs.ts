/** How a client's programs follow one another: gaps between them, and programs that are cut short by the next. */
import { addDays, daysBetween } from '../dates.js';
import type { ClientPlan, Follows, IsoDate, World } from '../model.js';
import { calendarOf, untilOf } from '../resolve/calendar.js';

export interface ProgramSpan {
  readonly follows: Follows;
  readonly from: IsoDate;
  /** Day of the last session that is trained. */
  readonly until: IsoDate;
}

export interface SpanBetween {
  /** `overlap`: the program before would have gone on; its sessions from the next one's first day on are not trained. */
  readonly kind: 'gap' | 'overlap';
  readonly before: ProgramSpan;
  readonly after: ProgramSpan;
  /** Gap: days without a program. Overlap: days from the next one's start to the last session that is lost. */
  readonly days: number;
  /** Overlap: sessions of the program before that are not trained. 0 for a gap. */
  readonly lostSessions: number;
}

/** A gap of more than this many days between two programs is told. Common practice, no source. */
export const GAP_DAYS = 14;

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

/**
 * Gaps between programs, and programs that the next one cuts short. Programs `alongside` others are neither; an absence
 * explains a gap. `since`: only what begins on that day or later.
 */
export function betweenPrograms(
  plan: ClientPlan,
  world: Pick<World, 'programs'>,
  { gapDays = GAP_DAYS, since = '' }: { readonly gapDays?: number; readonly since?: IsoDate } = {},
): readonly SpanBetween[] {
  const spans = programSpans(plan).filter(({ follows }) => !follows.alongside);
  const found: SpanBetween[] = [];
  for (let index = 1; index < spans.length; index += 1) {
    const before = spans[index - 1] as ProgramSpan;
    const after = spans[index] as ProgramSpan;
    if (after.from < since) continue;
    const days = daysBetween(before.until, after.from) - 1;
    const away = plan.client.aways.some(
      (each) => each.from <= addDays(before.until, gapDays) && each.to >= addDays(after.from, -gapDays),
    );
    if (days > gapDays && !away) found.push({ kind: 'gap', before, after, days, lostSessions: 0 });
    const lost = lostDates(plan, before.follows, world);
    const last = lost[lost.length - 1];
    if (last !== undefined) {
      const over = daysBetween(after.follows.from, last) + 1;
      found.push({ kind: 'overlap', before, after, days: over, lostSessions: lost.length });
    }
  }
  return found;
}

/** Dates of a program's sessions from the day on which the next one takes over. */
function lostDates(
  { client }: ClientPlan,
  follows: Follows,
  world: Pick<World, 'programs'>,
): readonly IsoDate[] {
  const until = untilOf(client.follows, client.follows.indexOf(follows));
  const program = world.programs.get(follows.program);
  if (until === null || !program) return [];
  return calendarOf(program, follows, client.aways, null)
    .slots.map(({ date }) => date)
    .filter((date) => date >= until)
    .sort();
}
