/** Workload of what was logged: session loads by day, weeks and ratios. Monotony, strain and ratios are contested. */
import { later } from '../../../../grammar/say.js';
import { addDays, dayNumber, daysBetween, fromDayNumber } from '../dates.js';
import type { IsoDate, LogEntry, Place } from '../model.js';
import {
  rollingWorkloadRatio,
  sessionLoad,
  type WeekLoad,
  weekLoad,
  weightedWorkloadRatio,
} from '../science/workload.js';

/** Load of one logged session: effort × minutes. */
export interface LoggedLoad {
  readonly entry: LogEntry;
  readonly date: IsoDate;
  /** Null where the effort or the minutes were not written. */
  readonly load: number | null;
  readonly minutes: number | null;
  /** The `session:` line, else the log's header. */
  readonly place: Place;
}

const WEEK_DAYS = 7;
const MONTH_DAYS = 28;
const kept = new WeakMap<readonly LogEntry[], readonly LoggedLoad[]>();

/** The load of each log of one client, in order of date. Nothing that was done is no load, whatever was written. */
export function loggedLoads(entries: readonly LogEntry[]): readonly LoggedLoad[] {
  let found = kept.get(entries);
  if (!found) {
    found = entries.map(loadOf);
    kept.set(entries, found);
  }
  return found;
}

function loadOf(entry: LogEntry): LoggedLoad {
  const { lines } = entry.node;
  const told = lines.find((line) => line.kind === 'session');
  const rpe = told?.kind === 'session' ? (told.rpe?.value ?? null) : null;
  const minutes = told?.kind === 'session' ? (told.minutes?.value ?? null) : null;
  const done = lines.filter((line) => line.kind === 'done');
  const skipped =
    done.length > 0 &&
    done.every((line) => line.kind === 'done' && line.skipped) &&
    !lines.some((line) => line.kind === 'as-planned');
  return {
    entry,
    date: entry.date,
    load: rpe !== null && minutes !== null ? sessionLoad(rpe, minutes) : skipped ? 0 : null,
    minutes,
    place: { file: entry.place.file, span: told?.span ?? entry.node.headerSpan },
  };
}

/**
 * Load of each day from one date to another, rest days 0; null where a log of these days has no effort or minutes, so
 * that nothing is worked out from half a record. Days that nobody logged count as rest.
 */
export function dailyLoads(logged: readonly LoggedLoad[], from: IsoDate, to: IsoDate): number[] | null {
  const days = Array<number>(Math.max(0, daysBetween(from, to) + 1)).fill(0);
  for (const { date, load } of logged) {
    if (date < from || date > to) continue;
    if (load === null) return null;
    const at = daysBetween(from, date);
    days[at] = (days[at] ?? 0) + load;
  }
  return days;
}

/** The Monday of the week of a date. */
export function mondayOf(date: IsoDate): IsoDate {
  // 2024-01-01 was a Monday.
  const past = (((dayNumber(date) - dayNumber('2024-01-01')) % WEEK_DAYS) + WEEK_DAYS) % WEEK_DAYS;
  return fromDayNumber(dayNumber(date) - past);
}

/** One week from Monday to Sunday with its loads. */
export interface LoggedWeek extends WeekLoad {
  readonly monday: IsoDate;
  readonly sessions: number;
  /** The last session of the week. */
  readonly last: LoggedLoad;
}

/** The weeks in which something was logged and every log has its effort and minutes, in order. */
export function loggedWeeks(logged: readonly LoggedLoad[]): readonly LoggedWeek[] {
  const byMonday = new Map<IsoDate, LoggedLoad[]>();
  for (const each of logged) {
    const monday = mondayOf(each.date);
    const own = byMonday.get(monday);
    if (own) own.push(each);
    else byMonday.set(monday, [each]);
  }
  return [...byMonday].flatMap(([monday, own]) => {
    const days = dailyLoads(own, monday, addDays(monday, WEEK_DAYS - 1));
    const last = own.at(-1);
    return days === null || !last ? [] : [{ ...weekLoad(days), monday, sessions: own.length, last }];
  });
}

/** Both workload ratios at the end of a day. */
export interface WorkloadRatios {
  readonly rolling: number;
  readonly weighted: number;
}

/** Longer than this nothing of the seed is left in the weighted ratio. */
const MEMORY_DAYS = 180;

/**
 * The ratios of 7 to 28 days at the end of a date; null before 28 days of logs, and where a log of the 28 days has no
 * effort or minutes. The weighted one starts with the first log, or after the last one whose load is not known.
 */
export function ratiosOn(logged: readonly LoggedLoad[], date: IsoDate): WorkloadRatios | null {
  const earliest = addDays(date, 1 - MONTH_DAYS);
  let from = addDays(date, 1 - MEMORY_DAYS);
  const first = logged[0];
  if (!first || first.date > earliest) return null;
  if (first.date > from) from = first.date;
  for (const each of logged)
    if (each.load === null && each.date < earliest && each.date >= from) from = addDays(each.date, 1);
  const days = dailyLoads(logged, from, date);
  if (days === null) return null;
  const rolling = rollingWorkloadRatio(days);
  const weighted = weightedWorkloadRatio(days);
  return rolling === null || weighted === null ? null : { rolling, weighted };
}

/** What is said wherever monotony or strain are shown. */
export const CONTESTED_WEEK = later(
  'Contested: Foster 1998 speaks of thresholds of each person alone; the limits that are quoted are a convention.',
);
/** What is said wherever a ratio is shown. */
export const CONTESTED_RATIO = later(
  'Contested: Impellizzeri 2020 and 2021 find no basis in such ratios for setting load, and the data are of elite team sport.',
);
