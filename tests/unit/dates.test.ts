import { describe, expect, it } from 'vitest';
import {
  addDays,
  ageAt,
  compareDates,
  dayNumber,
  fromDayNumber,
  isAfter,
  isBefore,
  isValidIsoDate,
  isWithin,
  partialToDate,
  weekdayOf,
} from '../../server/src/engine/dates.js';

describe('days', () => {
  it('takes only days that exist, written in full', () => {
    for (const text of ['2026-11-23', '2024-02-29', '2000-02-29', '1900-01-01', '2199-12-31']) {
      expect(isValidIsoDate(text)).toBe(true);
    }
    for (const text of [
      '2026-02-29',
      '1900-02-29',
      '2026-13-01',
      '2026-00-10',
      '2026-1-5',
      '2026-11',
      '',
      '23.11.2026',
    ]) {
      expect(isValidIsoDate(text)).toBe(false);
    }
    // A slip in the year is no date of a program.
    expect(isValidIsoDate('0226-11-23')).toBe(false);
    expect(isValidIsoDate('2206-11-23')).toBe(false);
  });

  it('adds over the ends of months and years', () => {
    expect(addDays('2026-12-07', 35)).toBe('2027-01-11');
    expect(addDays('2024-02-28', 1)).toBe('2024-02-29');
    expect(addDays('2026-03-01', -1)).toBe('2026-02-28');
    expect(dayNumber('1970-01-01')).toBe(0);
    expect(weekdayOf('2026-12-07')).toBe('mon');
  });

  it('refuses to compute with what is no day', () => {
    expect(() => addDays('2026-02-30', 1)).toThrow(RangeError);
    expect(() => weekdayOf('monday')).toThrow(RangeError);
    expect(() => fromDayNumber(Number.NaN)).toThrow(RangeError);
    expect(() => addDays('2026-12-07', 3.5)).toThrow(RangeError);
    expect(() => fromDayNumber(1e9)).toThrow(RangeError);
  });

  it('compares', () => {
    expect(['2026-11-23', '2025-12-31', '2026-02-01'].sort(compareDates)).toEqual([
      '2025-12-31',
      '2026-02-01',
      '2026-11-23',
    ]);
    expect(compareDates('2026-01-01', '2026-01-01')).toBe(0);
    expect(isBefore('2025-12-31', '2026-01-01')).toBe(true);
    expect(isAfter('2025-12-31', '2026-01-01')).toBe(false);
    expect(isWithin('2026-01-01', '2026-01-01', '2026-01-01')).toBe(true);
    expect(isWithin('2026-01-02', '2026-01-01', '2026-01-01')).toBe(false);
    expect(isWithin('2026-01-02', null, null)).toBe(true);
    expect(isWithin('2026-01-02', '2026-01-03', null)).toBe(false);
  });
});

describe('years and months', () => {
  it('stand for their first or last day', () => {
    expect(partialToDate('1979')).toBe('1979-01-01');
    expect(partialToDate('1979', 'end')).toBe('1979-12-31');
    expect(partialToDate('1979-03')).toBe('1979-03-01');
    expect(partialToDate('2024-02', 'end')).toBe('2024-02-29');
    expect(partialToDate('1979-03-14', 'end')).toBe('1979-03-14');
    for (const text of ['79', '1979-13', '1979-3', '1979-02-30', 'March 1979'])
      expect(partialToDate(text)).toBeNull();
    expect(partialToDate('1979-13', 'end')).toBeNull();
  });

  it('give the greatest age they allow', () => {
    expect(ageAt('1979-03', '2026-02-28')).toBe(46);
    expect(ageAt('1979-03', '2026-03-01')).toBe(47);
    expect(ageAt('1979', '2026-01-01')).toBe(47);
    expect(ageAt('1976-02-29', '2026-02-28')).toBe(49);
    expect(ageAt('1976-02-29', '2026-03-01')).toBe(50);
    expect(ageAt('2030', '2026-03-01')).toBeNull();
    expect(ageAt('March', '2026-03-01')).toBeNull();
    expect(ageAt('1979', 'today')).toBeNull();
  });
});
