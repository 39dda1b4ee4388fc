/** The pictures that reviews and years share, from what was planned and done. */

import { later, say } from '../../../../grammar/say.js';
import { addDays, dayNumber, type IsoDate } from '../dates.js';
import type { WeekComparison } from '../history/compare.js';
import type { MovementReview, Review } from '../history/review.js';
import { formatNumber } from '../numbers.js';
import { type Amount, amountsPicture, type Span, strengthPicture } from '../plots/history.js';
import type { Picture } from '../plots/svg.js';
import { fromKg, type MassUnit } from '../units.js';
import { capitalised } from './words.js';

/** More bars than this cannot be told apart: months then, not weeks. */
const MOST_WEEKS = 110;

/** The legend of the pictures of strength. */
export const STRENGTH_LEGEND = later(
  'Estimated best for one repetition; the grey band holds about 95 of 100. Points: the best set of a day. Diamonds: max lines. A grey ground: away. A dark foot: a lighter week.',
);

/** Absences and lighter weeks of a client. */
export function shadesOf(review: Review): {
  readonly away: readonly Span[];
  readonly deload: readonly Span[];
} {
  return {
    away: review.client.aways.map(({ from, to }) => ({ from, to })),
    deload: review.weeks.filter(({ deload }) => deload).map(({ from }) => ({ from, to: addDays(from, 6) })),
  };
}

/** One picture of each movement with an estimate, those with the most first. */
export function strengthPictures(
  review: Review,
  dates: Span,
  widthPt: number,
  heightPt: number,
): readonly Picture[] {
  const shades = shadesOf(review);
  return mostTold(review)
    .map((each) => ({ each, points: each.estimates.filter(({ date }) => date >= dates.from) }))
    .filter(({ points }) => points.length > 0)
    .map(({ each: { movement }, points }) =>
      strengthPicture(
        capitalised(movement.name),
        points.map(({ date, kg, lowKg, highKg, set }) => ({ date, kg, lowKg, highKg, from: set.from })),
        shades,
        dates,
        review.client.units,
        widthPt,
        heightPt,
      ),
    );
}

/** Movements in order of how many days say something of them. */
export function mostTold({ movements }: Review): readonly MovementReview[] {
  return [...movements].sort(
    (a, b) => b.estimates.length - a.estimates.length || (a.movement.key < b.movement.key ? -1 : 1),
  );
}

/** Weeks whose first session has come. */
export function pastWeeks({ weeks, today }: Review): readonly WeekComparison[] {
  return weeks
    .filter(({ from, sessions }) => from <= today && sessions.some(({ state }) => state !== 'ahead'))
    .sort((a, b) => (a.from < b.from ? -1 : a.from > b.from ? 1 : 0));
}

interface Bucket extends Span {
  readonly weeks: readonly WeekComparison[];
}

/** Calendar weeks from the first on, or months where there would be too many. Weeks without a session are empty. */
function bucketsOf(weeks: readonly WeekComparison[]): {
  readonly by: 'week' | 'month';
  readonly all: readonly Bucket[];
} {
  const first = weeks[0];
  const last = weeks[weeks.length - 1];
  if (!first || !last) return { by: 'week', all: [] };
  const count = Math.floor((dayNumber(last.from) - dayNumber(first.from)) / 7) + 1;
  if (count <= MOST_WEEKS) {
    const groups = new Map<number, WeekComparison[]>();
    for (const week of weeks)
      push(groups, Math.floor((dayNumber(week.from) - dayNumber(first.from)) / 7), week);
    const all = Array.from({ length: count }, (_, index) => ({
      from: addDays(first.from, index * 7),
      to: addDays(first.from, index * 7 + 7),
      weeks: groups.get(index) ?? [],
    }));
    return { by: 'week', all };
  }
  const groups = new Map<string, WeekComparison[]>();
  for (const week of weeks) push(groups, week.from.slice(0, 7), week);
  const all: Bucket[] = [];
  for (let month = first.from.slice(0, 7); month <= last.from.slice(0, 7); month = nextMonth(month))
    all.push({ from: `${month}-01`, to: `${nextMonth(month)}-01`, weeks: groups.get(month) ?? [] });
  return { by: 'month', all };
}

function push<Key>(into: Map<Key, WeekComparison[]>, key: Key, week: WeekComparison): void {
  const known = into.get(key);
  if (known) known.push(week);
  else into.set(key, [week]);
}

function nextMonth(month: string): string {
  const [year, number] = month.split('-').map(Number) as [number, number];
  return number === 12 ? `${year + 1}-01` : `${year}-${String(number + 1).padStart(2, '0')}`;
}

const total = (weeks: readonly WeekComparison[], of: (week: WeekComparison) => number): number =>
  weeks.reduce((sum, week) => sum + of(week), 0);

/** Volume-load done, with what was planned as a line. */
export function volumePicture(weeks: readonly WeekComparison[], unit: MassUnit, widthPt: number): Picture {
  const { by, all } = bucketsOf(weeks);
  const amounts = all.map(
    ({ from, to, weeks: own }): Amount => ({
      from,
      to,
      value:
        own.length === 0
          ? null
          : fromKg(
              total(own, ({ done }) => done.volumeLoadKg),
              unit,
            ),
      against:
        own.length === 0
          ? null
          : fromKg(
              total(own, ({ planned }) => planned.volumeLoadKg),
              unit,
            ),
    }),
  );
  return amountsPicture(
    by === 'week' ? say`Volume-load by week, ${unit}` : say`Volume-load by month, ${unit}`,
    amounts,
    (amount) => formatNumber(amount, 0),
    { value: say('done'), against: say('planned') },
    null,
    widthPt,
  );
}

/** Share of the planned sets that was done. */
export function adherencePicture(weeks: readonly WeekComparison[], widthPt: number): Picture {
  const { by, all } = bucketsOf(weeks);
  const amounts = all.map(({ from, to, weeks: own }): Amount => {
    const told = own.filter(({ adherence }) => adherence !== null);
    const planned = total(told, (week) => week.planned.sets);
    return {
      from,
      to,
      value:
        planned === 0
          ? null
          : (100 * total(told, (week) => (week.adherence ?? 0) * week.planned.sets)) / planned,
      against: null,
    };
  });
  return amountsPicture(
    by === 'week'
      ? say('Adherence by week, % of the planned sets')
      : say('Adherence by month, % of the planned sets'),
    amounts,
    (share) => `${formatNumber(share, 0)}%`,
    { value: say('sets done of sets planned'), against: '' },
    100,
    widthPt,
  );
}

/** An estimate or a mean: no more digits than it is worth. */
export const massWords = (kg: number, unit: MassUnit): string =>
  `${formatNumber(fromKg(kg, unit), unit === 'kg' ? 1 : 0)} ${unit}`;

/** The earliest date of anything known. */
export function firstDate(review: Review): IsoDate {
  const dates = [
    ...review.movements.flatMap(({ estimates }) => estimates.slice(0, 1).map(({ date }) => date)),
    ...pastWeeks(review)
      .slice(0, 1)
      .map(({ from }) => from),
  ].sort();
  return dates[0] ?? review.today;
}
