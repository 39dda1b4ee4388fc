/** Intensity and volume of each week, with the stage, lighter weeks and tests. */

import { scaleBand, scaleLinear } from 'd3-scale';
import { line as d3Line } from 'd3-shape';
import { say } from '../../../../grammar/say.js';
import { formatNumber } from '../numbers.js';
import { html } from '../print/markup.js';
import { label, line, MID_GREY, type Picture, picture, rect } from './svg.js';

export interface WeekPoint {
  /** Week inside its block, from 1. */
  readonly week: number;
  readonly block: string;
  readonly stage: string;
  readonly deload: boolean;
  readonly test: boolean;
  /** Mean share of the estimated max, 0 to 1; null where no load is known. */
  readonly intensity: number | null;
  /** Working sets. */
  readonly sets: number;
}

const LEFT = 74;
const RIGHT = 8;

function altOf(weeks: readonly WeekPoint[]): string {
  const told = weeks.map(({ block, week, intensity, sets, deload, test, stage }) => {
    const share = intensity === null ? say('no intensity known') : `${formatNumber(intensity * 100, 0)}%`;
    return say`${block} week ${week}: ${share}, ${sets} sets, ${stage}${deload ? say(', lighter') : ''}${test ? say(', test') : ''}`;
  });
  return say`Intensity and volume by week. ${told.join('; ')}.`;
}

/** Two panels over one row of weeks: intensity as a line, working sets as bars; below, what kind of week it is. */
export function weeksPicture(weeks: readonly WeekPoint[], widthPt = 520): Picture {
  const x = scaleBand<number>()
    .domain(weeks.map((_, index) => index))
    .range([LEFT, widthPt - RIGHT])
    .padding(0.25);
  const band = x.bandwidth();
  const middle = (index: number): number => (x(index) ?? 0) + band / 2;
  const known = weeks.flatMap(({ intensity }) => (intensity === null ? [] : [intensity]));
  const low = Math.min(0.5, Math.floor(Math.min(1, ...known) * 10) / 10);
  const y = scaleLinear()
    .domain([low, Math.max(1, ...known)])
    .range([66, 12]);
  const barY = scaleLinear()
    .domain([0, Math.max(1, ...weeks.map(({ sets }) => sets))])
    .range([136, 88]);
  const path = d3Line<WeekPoint>()
    .defined(({ intensity }) => intensity !== null)
    .x((_, index) => middle(index))
    .y(({ intensity }) => y(intensity ?? 0));
  // Labels of narrow columns would run into each other: every second or third week is labelled then.
  const every = Math.max(1, Math.ceil(20 / x.step()));
  const shown = (index: number): boolean => index % every === 0;
  const parts = [
    label(0, 20, say('Intensity'), { bold: true, size: 8 }),
    label(0, 30, say('% of best')),
    label(0, 100, say('Volume'), { bold: true, size: 8 }),
    label(0, 110, say('working sets')),
    label(0, 147, say('Week'), { bold: true, size: 8 }),
    label(0, 162, say('Stage'), { bold: true, size: 8 }),
    line(LEFT, 66, widthPt - RIGHT, 66),
    line(LEFT, 136, widthPt - RIGHT, 136),
    html`<path d="${path([...weeks]) ?? ''}" fill="none" stroke="currentColor" stroke-width="1.4"/>`,
    ...weeks.flatMap((point, index) => [
      ...(point.intensity === null
        ? []
        : [
            html`<circle cx="${formatNumber(middle(index))}" cy="${formatNumber(y(point.intensity))}" r="2.2"/>`,
            ...(shown(index)
              ? [
                  label(middle(index), y(point.intensity) - 4.5, formatNumber(point.intensity * 100, 0), {
                    anchor: 'middle',
                  }),
                ]
              : []),
          ]),
      rect(x(index) ?? 0, barY(point.sets), band, 136 - barY(point.sets), point.deload ? 'none' : MID_GREY),
      ...(shown(index)
        ? [label(middle(index), barY(point.sets) - 2.5, String(point.sets), { anchor: 'middle' })]
        : []),
      ...(shown(index) ? [label(middle(index), 147, String(point.week), { anchor: 'middle' })] : []),
      ...(point.test ? [label(middle(index), 80, say('test'), { anchor: 'middle', bold: true })] : []),
    ]),
    ...runs(weeks, ({ block }) => block).flatMap(({ from, value }, index) => [
      ...(index === 0
        ? []
        : [
            line(
              (x(from) ?? 0) - (x.step() - band) / 2,
              8,
              (x(from) ?? 0) - (x.step() - band) / 2,
              166,
              0.5,
              '2 2',
            ),
          ]),
      label(x(from) ?? 0, 6.5, value, { bold: true }),
    ]),
    ...runs(weeks, ({ stage }) => stage).flatMap(({ from, to, value }) => [
      rect(x(from) ?? 0, 153, (x(to) ?? 0) + band - (x(from) ?? 0), 12, 'none'),
      label((x(from) ?? 0) + 3, 162, value),
    ]),
    label(LEFT, 177, say('An empty bar is a lighter week (deload).'), { size: 7 }),
  ];
  return picture(widthPt, 181, altOf(weeks), parts);
}

/** Neighbours with the same value, as runs from one index to another. */
function runs(
  weeks: readonly WeekPoint[],
  runValue: (week: WeekPoint) => string,
): { from: number; to: number; value: string }[] {
  const found: { from: number; to: number; value: string }[] = [];
  weeks.forEach((week, index) => {
    const value = runValue(week);
    const last = found[found.length - 1];
    if (last && last.value === value) last.to = index;
    else found.push({ from: index, to: index, value });
  });
  return found;
}
