/** The sessions of a plan as entries of a calendar; what writes them as a file lies at the edge. */

import { later, said, say } from '../../../../grammar/say.js';
import type { IsoDate } from '../dates.js';
import { plannedWork } from '../history/compare.js';
import { historyOf } from '../history/history.js';
import type { ClientPlan, Session, World } from '../model.js';
import { daySheet } from '../print/build.js';
import { sessionIds, sessionsBetween } from './identity.js';
import { sessionLines } from './sessionText.js';

export interface CalendarEvent {
  /** Stays the same when the session moves or changes. */
  readonly uid: string;
  readonly date: IsoDate;
  /** Minutes after midnight and length; null: all day. */
  readonly time: { readonly startMinute: number; readonly minutes: number } | null;
  /** `Lower · Heron · Keel, week 1 of 5`. */
  readonly summary: string;
  readonly description: string;
  readonly location: string | null;
}

export interface CalendarDocument {
  readonly name: string;
  readonly events: readonly CalendarEvent[];
}

const REMINDER = later(
  'Stop at once and get help with pain or pressure in the chest, dizziness or faintness. A qualified professional who knows you decides.',
);

/** Length of a session of which nothing is known, and the steps in which lengths are told. Common practice, no source. */
const USUAL_MINUTES = 60;
const STEP_MINUTES = 5;

/**
 * How long a session will take: as long as the newest logged one of the same day, else what its sets, repetitions and
 * rests add up to, else an hour. Up to whole five minutes.
 */
export function sessionMinutes(session: Session, plan: ClientPlan, world: World | null): number {
  const done = world === null ? [] : historyOf(plan, world).done;
  const logged = done.findLast(
    (each) => each.minutes !== null && each.session?.day.key === session.day.key && each.date <= session.date,
  );
  const minutes = logged?.minutes ?? plannedWork(session.cells).minutes ?? USUAL_MINUTES;
  return Math.max(STEP_MINUTES, Math.ceil(minutes / STEP_MINUTES) * STEP_MINUTES);
}

/** An event for each session from `from` until `until` (both included, null is open), all-day where no time is written. */
export function planCalendar(
  plan: ClientPlan,
  from: IsoDate | null,
  until: IsoDate | null,
  world: World | null = null,
): CalendarDocument {
  const ids = sessionIds(plan);
  return {
    name: say`Training of ${plan.client.name}`,
    events: sessionsBetween(plan, from, until).map((session) => {
      const sheet = daySheet(session);
      const week = say`${session.block.name}, week ${session.week} of ${session.block.weeks}`;
      const notes = [
        ...(session.deload ? [say('Lighter week: do not add to it.')] : []),
        ...(session.supervised ? [say('With your coach.')] : []),
        ...session.client.care,
      ];
      return {
        uid: `${ids.get(session)}@stave`,
        date: session.date,
        time:
          session.startMinute === null
            ? null
            : { startMinute: session.startMinute, minutes: sessionMinutes(session, plan, world) },
        summary: `${sheet.name} · ${session.client.name} · ${week}${session.deload ? say(' (lighter)') : ''}`,
        description: [...notes, ...sessionLines(sheet), '', said(REMINDER)].join('\n'),
        location: session.kit?.name ?? null,
      };
    }),
  };
}
