import { dayNumber, daysBetween, fromDayNumber, WEEKDAYS, weekdayOf } from '../dates.js';
import type { Away, Block, ClientPlan, Day, Follows, IsoDate, Program } from '../model.js';

/** One session on the calendar, before anything of it is resolved. */
export interface Slot {
  readonly block: Block;
  readonly day: Day;
  /** Inside the block, from 1. */
  readonly week: number;
  readonly date: IsoDate;
  /** The absence that this session follows, and the share of the target it asks for; null when none applies. */
  readonly back: { readonly away: Away; readonly share: number } | null;
}

export interface Calendar {
  readonly slots: readonly Slot[];
  readonly missed: ClientPlan['missed'];
  readonly unreachedDays: ClientPlan['unreachedDays'];
}

/** Sessions are dated up to here; a program that runs on further is cut, as no such date can be written. */
const LAST_DAY = dayNumber('2199-12-31');

/** Longest wait for a client who is away: a longer absence ends the program instead of looping on. */
const MOST_WAITING_WEEKS = 520;

/**
 * Dates of a program for one client. A week is seven days from `from`; its training days are the weekdays after `on`,
 * in calendar order from `from`. Days rotate over the weekdays, starting afresh at each block. A week (or round of
 * `every N days`) that an absence covers whole waits, unless `keep dates`; single sessions lost are missed. `until`
 * (exclusive) is where a later `follows` takes over.
 */
export function calendarOf(
  program: Program,
  follows: Follows,
  aways: readonly Away[],
  until: IsoDate | null,
): Calendar {
  const slots: Slot[] = [];
  const missed: ClientPlan['missed'][number][] = [];
  const unreachedDays: ClientPlan['unreachedDays'][number][] = [];
  let start = dayNumber(follows.from);
  let waited = 0;
  for (const block of program.blocks) {
    if (block.days.length === 0) continue;
    const offsets = offsetsOf(follows, block.days.length);
    const length = follows.everyDays === null ? 7 : wholeDays(follows.everyDays) * block.days.length;
    const reached = new Set<Day>();
    let turn = 0;
    for (let week = 1; week <= block.weeks; ) {
      if (start + length > LAST_DAY) return { slots, missed, unreachedDays };
      const dates = offsets.map((offset) => fromDayNumber(start + offset));
      start += length;
      const absent = dates.map((date) => awayOn(aways, date));
      const waits = absent.length > 0 && absent.every((away) => away !== null && !away.keepDates);
      if (waits && waited < MOST_WAITING_WEEKS) {
        waited += 1;
        continue;
      }
      dates.forEach((date, index) => {
        const day = block.days[turn % block.days.length] as Day;
        turn += 1;
        reached.add(day);
        if (until !== null && date >= until) return;
        if (absent[index]) missed.push({ date, day, block, program, week });
        else slots.push({ block, day, week, date, back: backFrom(aways, date) });
      });
      week += 1;
    }
    for (const day of block.days) if (!reached.has(day)) unreachedDays.push({ follows, block, day });
  }
  return { slots, missed, unreachedDays };
}

/** Days from the start of a week (or round) to each session in it, ascending. */
function offsetsOf(follows: Follows, dayCount: number): number[] {
  if (follows.everyDays !== null) {
    const every = wholeDays(follows.everyDays);
    return Array.from({ length: dayCount }, (_, index) => index * every);
  }
  if (follows.on.length === 0) {
    // No weekdays were written: the days are spread over the week, the first on the first date.
    const spread = Math.min(dayCount, 7);
    return Array.from({ length: spread }, (_, index) => Math.floor((index * 7) / spread));
  }
  const first = WEEKDAYS.indexOf(weekdayOf(follows.from));
  const offsets = follows.on.map((day) => (WEEKDAYS.indexOf(day) - first + 7) % 7);
  return [...new Set(offsets)].sort((a, b) => a - b);
}

function wholeDays(days: number): number {
  return Math.max(1, Math.floor(days));
}

function awayOn(aways: readonly Away[], date: IsoDate): Away | null {
  return aways.find((away) => away.from <= date && date <= away.to) ?? null;
}

/** First week back uses the first share after `back at`, the second the second, and so on. */
function backFrom(aways: readonly Away[], date: IsoDate): Slot['back'] {
  const away = aways.findLast((candidate) => candidate.to < date);
  if (!away) return null;
  const share = away.backShares[Math.floor((daysBetween(away.to, date) - 1) / 7)];
  return share === undefined ? null : { away, share };
}

/** Date on which each `follows` ends: where the next one starts that does not say `alongside`. */
export function untilOf(follows: readonly Follows[], index: number): IsoDate | null {
  const own = follows[index] as Follows;
  const next = follows.find((other, at) => at > index && !other.alongside && other !== own);
  return next?.from ?? null;
}

/** Whole days that an absence took. */
export function daysAway(away: Away): number {
  return daysBetween(away.from, away.to) + 1;
}
