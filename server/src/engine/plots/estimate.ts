/** The estimated max of one movement over time, with its band. */

import { scaleLinear } from 'd3-scale';
import { area, line as d3Line } from 'd3-shape';
import { say } from '../../../../grammar/say.js';
import { dayNumber, type IsoDate } from '../dates.js';
import { formatNumber } from '../numbers.js';
import { html } from '../print/markup.js';
import { dateWords } from '../print/words.js';
import { formatMass, fromKg, type MassUnit } from '../units.js';
import { label, line, MID_GREY, type Picture, picture } from './svg.js';

export interface EstimatePoint {
  readonly date: IsoDate;
  readonly kg: number;
  readonly lowKg: number;
  readonly highKg: number;
}

/** The points in order of date; at least one. The band is drawn as a grey area, a single point's as a bar. */
export function estimatePicture(
  movement: string,
  points: readonly EstimatePoint[],
  unit: MassUnit,
  widthPt = 250,
): Picture {
  const days = points.map(({ date }) => dayNumber(date));
  const first = Math.min(...days);
  const last = Math.max(...days);
  const spread = Math.max(1, last - first);
  const x = scaleLinear()
    .domain([first, first + spread])
    .range([40, widthPt - 40]);
  const values = points.flatMap(({ lowKg, highKg }) => [lowKg, highKg]);
  const y = scaleLinear()
    .domain([Math.min(...values), Math.max(...values) + 0.001])
    .range([66, 24]);
  const place = (point: EstimatePoint): number => (first === last ? widthPt / 2 : x(dayNumber(point.date)));
  const bandPath = area<EstimatePoint>()
    .x(place)
    .y0(({ lowKg }) => y(lowKg))
    .y1(({ highKg }) => y(highKg));
  const path = d3Line<EstimatePoint>()
    .x(place)
    .y(({ kg }) => y(kg));
  const ends =
    first === last
      ? [points[points.length - 1] as EstimatePoint]
      : [points[0] as EstimatePoint, points[points.length - 1] as EstimatePoint];
  const alt = say`Estimated best of ${movement}. ${points
    .map(
      ({ date, kg, lowKg, highKg }) =>
        say`${dateWords(date)}: ${formatMass(kg, unit)}, between ${formatMass(lowKg, unit)} and ${formatMass(highKg, unit)}`,
    )
    .join('; ')}.`;
  return picture(widthPt, 84, alt, [
    label(0, 9, say`${movement}: estimated best`, { bold: true, size: 8.5 }),
    html`<path d="${bandPath([...points]) ?? ''}" fill="${MID_GREY}" fill-opacity="0.4" stroke="none"/>`,
    html`<path d="${path([...points]) ?? ''}" fill="none" stroke="currentColor" stroke-width="1.4"/>`,
    ...points.flatMap((point) => [
      html`<circle cx="${formatNumber(place(point))}" cy="${formatNumber(y(point.kg))}" r="2.2"/>`,
      line(place(point), y(point.lowKg), place(point), y(point.highKg), 0.6),
    ]),
    ...ends.flatMap((point) => [
      label(place(point), y(point.highKg) - 4, `${formatNumber(fromKg(point.kg, unit), 1)} ${unit}`, {
        anchor: 'middle',
        bold: true,
      }),
      label(place(point), 78, dateWords(point.date), { anchor: 'middle', size: 7 }),
    ]),
  ]);
}
