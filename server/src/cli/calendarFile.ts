/** A calendar as a file of RFC 5545. */
import ical, { ICalEventTransparency } from 'ical-generator';
import type { CalendarDocument } from '../engine/export/calendar.js';

/**
 * Times float (RFC 5545, 3.3.5, form 1): no zone is written, so 18:00 is six in the evening on whatever clock hangs in
 * the room. The text knows no zone, and one guessed from this machine would move sessions for everybody elsewhere. The
 * writer reads the parts of a date in UTC.
 */
function timesOf({ date, time }: CalendarDocument['events'][number]) {
  const midnight = Date.parse(`${date}T00:00:00Z`);
  if (time === null) return { start: new Date(midnight), allDay: true };
  const start = midnight + time.startMinute * 60_000;
  return { start: new Date(start), end: new Date(start + time.minutes * 60_000), floating: true };
}

/** The text of the file. `madeAt` is its time of making: the same input gives the same bytes. */
export function calendarText(document: CalendarDocument, madeAt: Date): string {
  const calendar = ical({
    name: document.name,
    prodId: { company: 'Stave', product: 'Stave', language: 'EN' },
  });
  for (const event of document.events) {
    calendar.createEvent({
      id: event.uid,
      ...timesOf(event),
      stamp: madeAt,
      summary: event.summary,
      description: event.description,
      location: event.location,
      transparency: ICalEventTransparency.TRANSPARENT,
    });
  }
  const text = calendar.toString();
  return text.endsWith('\r\n') ? text : `${text}\r\n`;
}
