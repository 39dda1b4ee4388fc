/** The reserve that the loads leave, against the reserve that the plan asks for. */

import { scaleLinear } from 'd3-scale';
import { say } from '../../../../grammar/say.js';
import { formatNumber } from '../numbers.js';
import { html } from '../print/markup.js';
import { label, line, MID_GREY, type Picture, picture } from './svg.js';

export interface ReservePoint {
  /** Repetitions in reserve that are asked for. */
  readonly asked: number;
  /** Predicted reserve of the load that the kit makes. */
  readonly predicted: number;
  /** How many set groups lie here. */
  readonly count: number;
}

/** Points on the dashed line leave exactly what is asked; above it they leave more. The larger, the more set groups. */
export function reservePicture(points: readonly ReservePoint[], widthPt = 250): Picture {
  const most = Math.max(
    4,
    ...points.flatMap(({ asked, predicted }) => [Math.ceil(asked), Math.ceil(predicted)]),
  );
  const x = scaleLinear()
    .domain([0, most])
    .range([30, widthPt - 12]);
  const y = scaleLinear().domain([0, most]).range([118, 20]);
  const largest = Math.max(1, ...points.map(({ count }) => count));
  const ticks = Array.from({ length: Math.floor(most / 2) + 1 }, (_, index) => index * 2);
  const told = points.map(
    ({ asked, predicted, count }) =>
      say`asked ${formatNumber(asked, 1)}, predicted ${formatNumber(predicted, 1)} (${count})`,
  );
  return picture(widthPt, 142, say`Reserve against plan, in set groups. ${told.join('; ')}.`, [
    label(0, 9, say('Reserve that the loads leave'), { bold: true, size: 8.5 }),
    line(30, 118, widthPt - 12, 118),
    line(30, 20, 30, 118),
    line(x(0), y(0), x(most), y(most), 0.6, '3 2'),
    ...ticks.flatMap((tick) => [
      label(x(tick), 127, String(tick), { anchor: 'middle', size: 7 }),
      label(26, y(tick) + 2.5, String(tick), { anchor: 'end', size: 7 }),
    ]),
    label(widthPt - 12, 138, say('reserve asked for'), { anchor: 'end', size: 7 }),
    ...points.map(
      ({ asked, predicted, count }) =>
        html`<circle cx="${formatNumber(x(asked))}" cy="${formatNumber(y(predicted))}" r="${formatNumber(1.6 + 3 * Math.sqrt(count / largest))}" fill="${MID_GREY}" fill-opacity="0.6" stroke="currentColor" stroke-width="0.6"/>`,
    ),
  ]);
}
