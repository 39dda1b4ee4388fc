/**
 * Day arithmetic against the Temporal polyfill. Tolerance: none.
 */

import fc from 'fast-check';
import { Temporal } from 'temporal-polyfill';
import { describe, expect, it } from 'vitest';
import {
  addDays,
  ageAt,
  dayNumber,
  daysBetween,
  daysInMonth,
  fromDayNumber,
  isValidIsoDate,
  partialToDate,
  WEEKDAYS,
  weekdayOf,
} from '../../server/src/engine/dates.js';

const epoch = Temporal.PlainDate.from('1970-01-01');
const day = fc.integer({ min: -25_567, max: 84_006 }).map((offset) => epoch.add({ days: offset }).toString());

describe('days against Temporal', () => {
  it('walks through every day from 1900 to 2100', () => {
    let expected = Temporal.PlainDate.from('1900-01-01');
    const start = dayNumber('1900-01-01');
    for (let offset = 0; expected.year <= 2100; offset += 1) {
      const text = expected.toString();
      const found = fromDayNumber(start + offset);
      if (found !== text || dayNumber(text) !== start + offset || !isValidIsoDate(text)) {
        expect.fail(`day ${offset} after 1900-01-01 is ${text}, found ${found}`);
      }
      expected = expected.add({ days: 1 });
    }
  });

  it('adds, counts and names days', () => {
    fc.assert(
      fc.property(day, fc.integer({ min: -40_000, max: 40_000 }), (date, days) => {
        const expected = Temporal.PlainDate.from(date).add({ days });
        expect(addDays(date, days)).toBe(expected.toString());
        expect(daysBetween(date, addDays(date, days))).toBe(days);
        expect(weekdayOf(date)).toBe(WEEKDAYS[Temporal.PlainDate.from(date).dayOfWeek - 1]);
      }),
    );
  });

  it('takes exactly the days that exist', () => {
    const part = (max: number) => fc.integer({ min: 0, max }).map((value) => String(value).padStart(2, '0'));
    fc.assert(
      fc.property(fc.integer({ min: 1900, max: 2199 }), part(14), part(33), (year, month, dayOfMonth) => {
        const text = `${year}-${month}-${dayOfMonth}`;
        let exists = true;
        try {
          Temporal.PlainDate.from(text);
        } catch {
          exists = false;
        }
        expect(isValidIsoDate(text)).toBe(exists);
        expect(partialToDate(text)).toBe(exists ? text : null);
      }),
      { numRuns: 1000 },
    );
  });

  it('counts months and ages', () => {
    fc.assert(
      fc.property(day, day, (one, other) => {
        const [born, on] = one <= other ? [one, other] : [other, one];
        const birth = Temporal.PlainDate.from(born);
        expect(daysInMonth(birth.year, birth.month)).toBe(birth.daysInMonth);
        expect(partialToDate(born.slice(0, 7), 'end')).toBe(
          birth.with({ day: birth.daysInMonth }).toString(),
        );
        const age = birth.until(Temporal.PlainDate.from(on), { largestUnit: 'years' }).years;
        const leapDayBirth = born.endsWith('02-29');
        // Temporal lets somebody born on 29 February turn a year older on the 28th; here it is 1 March.
        if (!leapDayBirth) expect(ageAt(born, on)).toBe(age);
      }),
    );
  });
});
