/** A calendar as a file of RFC 5545. */
import ical, { ICalEventTransparency } from 'ical-generator';
import type { CalendarDocument } from '../engine/export/calendar.js';

/** The text of the file. `madeAt` is its time of making: the same input gives the same bytes. */
export function calendarText(document: CalendarDocument, madeAt: Date): string {
  const calendar = ical({
    name: document.name,
    prodId: { company: 'Stave', product: 'Stave', language: 'EN' },
  });
  for (const event of document.events) {
    calendar.createEvent({
      id: event.uid,
      // Midnight of the date in UTC: an all-day event has no zone, and its date is read from here.
      start: new Date(`${event.date}T00:00:00Z`),
      allDay: true,
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
