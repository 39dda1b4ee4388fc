/** The sessions of a plan as entries of a calendar; what writes them as a file lies at the edge. */

import type { IsoDate } from '../dates.js';
import type { ClientPlan } from '../model.js';
import { daySheet } from '../print/build.js';
import { sessionIds, sessionsBetween } from './identity.js';
import { sessionLines } from './sessionText.js';

export interface CalendarEvent {
  /** Stays the same when the session moves or changes. */
  readonly uid: string;
  readonly date: IsoDate;
  /** `Lower · Heron · Keel, week 1 of 5`. */
  readonly summary: string;
  readonly description: string;
  readonly location: string | null;
}

export interface CalendarDocument {
  readonly name: string;
  readonly events: readonly CalendarEvent[];
}

const REMINDER =
  'Stop at once and get help with pain or pressure in the chest, dizziness or faintness. A qualified professional who knows you decides.';

/** One all-day event for each session from `from` until `until` (both included, null is open). */
export function planCalendar(
  plan: ClientPlan,
  from: IsoDate | null,
  until: IsoDate | null,
): CalendarDocument {
  const ids = sessionIds(plan);
  return {
    name: `Training of ${plan.client.name}`,
    events: sessionsBetween(plan, from, until).map((session) => {
      const sheet = daySheet(session);
      const week = `${session.block.name}, week ${session.week} of ${session.block.weeks}`;
      const notes = [
        ...(session.deload ? ['Lighter week: do not add to it.'] : []),
        ...(session.supervised ? ['With your coach.'] : []),
        ...session.client.care,
      ];
      return {
        uid: `${ids.get(session)}@stave`,
        date: session.date,
        summary: `${sheet.name} · ${session.client.name} · ${week}${session.deload ? ' (lighter)' : ''}`,
        description: [...notes, ...sessionLines(sheet), '', REMINDER].join('\n'),
        location: session.kit?.name ?? null,
      };
    }),
  };
}
