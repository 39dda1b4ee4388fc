/** Pictures of what happened over time: strength with its band, amounts by week, and values of the same kind together. */

import { scaleLinear } from 'd3-scale';
import { area, line as d3Line } from 'd3-shape';
import { say } from '../../../../grammar/say.js';
import { dayNumber, type IsoDate } from '../dates.js';
import { formatNumber } from '../numbers.js';
import { html, type Markup } from '../print/markup.js';
import { dateWords } from '../print/words.js';
import { formatMass, fromKg, type MassUnit } from '../units.js';
import type { EstimatePoint } from './estimate.js';
import { at, label, line, MID_GREY, type Picture, picture, rect } from './svg.js';

const LEFT = 34;
const RIGHT = 8;
const TOP = 16;

/** Days from a first to a last one, both included. */
export interface Span {
  readonly from: IsoDate;
  readonly to: IsoDate;
}

type Scale = (value: number) => number;

interface Frame {
  readonly x: (date: IsoDate) => number;
  readonly y: Scale;
  readonly parts: readonly Markup[];
  readonly bottom: number;
}

/** Axes with labels: a few values at the left, dates below. Years where there are several. */
function frame(
  title: string,
  dates: Span,
  low: number,
  high: number,
  format: (value: number) => string,
  widthPt: number,
  heightPt: number,
): Frame {
  const bottom = heightPt - 13;
  const first = dayNumber(dates.from);
  const last = Math.max(first + 1, dayNumber(dates.to));
  const across = scaleLinear()
    .domain([first, last])
    .range([LEFT, widthPt - RIGHT]);
  const y = scaleLinear()
    .domain([low, high <= low ? low + 1 : high])
    .range([bottom, TOP]);
  const x = (date: IsoDate): number => across(Math.min(last, Math.max(first, dayNumber(date))));
  return {
    x,
    y,
    bottom,
    parts: [
      label(0, 9, title, { bold: true, size: 8.5 }),
      ...y
        .ticks(3)
        .flatMap((tick) => [
          html`<line x1="${LEFT}" y1="${at(y(tick))}" x2="${at(widthPt - RIGHT)}" y2="${at(y(tick))}" stroke="${MID_GREY}" stroke-width="0.3"/>`,
          label(LEFT - 3, y(tick) + 2.5, format(tick), { anchor: 'end', size: 7 }),
        ]),
      line(LEFT, bottom, widthPt - RIGHT, bottom),
      ...dateMarks(dates, x, bottom, widthPt),
    ],
  };
}

function dateMarks(
  { from, to }: Span,
  x: (date: IsoDate) => number,
  bottom: number,
  widthPt: number,
): Markup[] {
  const years: string[] = [];
  for (let year = Number(from.slice(0, 4)) + 1; year <= Number(to.slice(0, 4)); year += 1)
    years.push(String(year));
  const place = bottom + 9;
  if (years.length < 2) {
    return [
      label(LEFT, place, dateWords(from), { size: 7 }),
      label(widthPt - RIGHT, place, dateWords(to), { anchor: 'end', size: 7 }),
    ];
  }
  const every = Math.ceil(years.length / Math.max(1, Math.floor((widthPt - LEFT) / 30)));
  return years.flatMap((year, index) => {
    const left = x(`${year}-01-01`);
    return [
      line(left, bottom, left, bottom + 3),
      ...(index % every === 0 && left < widthPt - 20 ? [label(left + 1, place, year, { size: 7 })] : []),
    ];
  });
}

/** A point of an estimate; `max` where a max line says it. */
export interface StrengthPoint extends EstimatePoint {
  readonly from: 'log' | 'max';
}

/**
 * Estimated max over time with its band. Points are the best set of a day, diamonds are max lines; a grey ground is an
 * absence, a dark foot a lighter week. At least one point, in order of date.
 */
export function strengthPicture(
  movement: string,
  points: readonly StrengthPoint[],
  shades: { readonly away: readonly Span[]; readonly deload: readonly Span[] },
  dates: Span,
  unit: MassUnit,
  widthPt = 250,
  heightPt = 110,
): Picture {
  const shown = (kg: number): number => fromKg(kg, unit);
  const axes = frame(
    `${movement}, ${unit}`,
    dates,
    shown(Math.min(...points.map(({ lowKg }) => lowKg))),
    shown(Math.max(...points.map(({ highKg }) => highKg))),
    (value) => formatNumber(value, 1),
    widthPt,
    heightPt,
  );
  const { x, parts, bottom } = axes;
  const y = (kg: number): number => axes.y(shown(kg));
  const inside = ({ from, to }: Span): boolean => to >= dates.from && from <= dates.to;
  const place = ({ date }: EstimatePoint): number => x(date);
  const band = area<StrengthPoint>()
    .x(place)
    .y0((point) => y(point.lowKg))
    .y1((point) => y(point.highKg));
  const path = d3Line<StrengthPoint>()
    .x(place)
    .y((point) => y(point.kg));
  const told = summaryOf(
    points.map(({ date, kg }) => ({ date, value: kg })),
    (kg) => formatMass(kg, unit),
  );
  return picture(widthPt, heightPt, say`Estimated best of ${movement}: ${told}`, [
    ...shades.away
      .filter(inside)
      .map(
        ({ from, to }) =>
          html`<rect x="${at(x(from))}" y="${TOP}" width="${at(Math.max(1, x(to) - x(from)))}" height="${at(bottom - TOP)}" fill="${MID_GREY}" fill-opacity="0.35"/>`,
      ),
    ...parts,
    html`<path d="${band([...points]) ?? ''}" fill="${MID_GREY}" fill-opacity="0.4" stroke="none"/>`,
    html`<path d="${path([...points]) ?? ''}" fill="none" stroke="currentColor" stroke-width="1.1"/>`,
    ...shades.deload
      .filter(inside)
      .map(
        ({ from, to }) =>
          html`<rect x="${at(x(from))}" y="${at(bottom - 4)}" width="${at(Math.max(1.2, x(to) - x(from)))}" height="4"/>`,
      ),
    ...(points.length > 1
      ? []
      : points.map(({ date, lowKg, highKg }) => line(x(date), y(lowKg), x(date), y(highKg), 0.8))),
    ...points.map((point) =>
      point.from === 'max'
        ? html`<path d="M${at(x(point.date))} ${at(y(point.kg) - 3.4)}l3.4 3.4l-3.4 3.4l-3.4 -3.4z" fill="#ffffff" stroke="#000000" stroke-width="0.9"/>`
        : html`<circle cx="${at(x(point.date))}" cy="${at(y(point.kg))}" r="1.3"/>`,
    ),
  ]);
}

/** An amount of a span of time; null where none is known. */
export interface Amount extends Span {
  readonly value: number | null;
  /** What it is measured against, drawn as a line above the bar; null for none. */
  readonly against: number | null;
}

/** Amounts as bars, in order of date. */
export function amountsPicture(
  title: string,
  amounts: readonly Amount[],
  format: (value: number) => string,
  words: { readonly value: string; readonly against: string },
  /** The end of the scale; null: the most of the amounts. */
  scaleTo: number | null = null,
  widthPt = 520,
  heightPt = 96,
): Picture {
  const from = amounts[0]?.from ?? '2000-01-01';
  const to = amounts[amounts.length - 1]?.to ?? from;
  const most = Math.max(scaleTo ?? 0, ...amounts.flatMap(({ value, against }) => [value ?? 0, against ?? 0]));
  const { x, y, parts, bottom } = frame(title, { from, to }, 0, most, format, widthPt, heightPt);
  const known = amounts.flatMap((each) =>
    each.value === null ? [] : [{ date: each.from, value: each.value }],
  );
  const sum = known.length === 0 ? say('nothing known.') : summaryOf(known, format);
  return picture(widthPt, heightPt, `${title}, ${words.value}: ${sum}`, [
    ...parts,
    ...amounts.flatMap((each) => {
      const left = x(each.from) + 0.4;
      const width = Math.max(0.8, x(each.to) - x(each.from) - 0.4);
      return [
        ...(each.value === null || each.value === 0
          ? []
          : [rect(left, y(each.value), width, bottom - y(each.value), MID_GREY, width < 4 ? 0 : 0.4)]),
        ...(each.against === null ? [] : [line(left, y(each.against), left + width, y(each.against), 1.2)]),
      ];
    }),
    label(
      widthPt - RIGHT,
      9,
      words.against === '' ? words.value : say`bars: ${words.value}; lines: ${words.against}`,
      {
        anchor: 'end',
        size: 7,
      },
    ),
  ]);
}

export interface Series {
  readonly name: string;
  readonly points: readonly { readonly date: IsoDate; readonly value: number }[];
}

const DASHES = [null, '5 2', '2 2', '7 2 2 2', '1 3'];

/** Values of one kind over time, each line labelled at its end; lines differ by their dashes, not by colour. */
export function linesPicture(
  title: string,
  series: readonly Series[],
  dates: Span,
  format: (value: number) => string,
  widthPt = 250,
  heightPt = 110,
): Picture {
  const values = series.flatMap(({ points }) => points.map(({ value }) => value));
  const low = Math.min(...values);
  const high = Math.max(...values);
  const room = high - low < 1e-9 ? Math.max(1e-3, Math.abs(high) * 0.05) : (high - low) * 0.08;
  const { x, y, parts } = frame(title, dates, low - room, high + room, format, widthPt, heightPt);
  const path = d3Line<Series['points'][number]>()
    .x(({ date }) => x(date))
    .y(({ value }) => y(value));
  const told = series.map(({ name, points }) => `${name}: ${summaryOf(points, format)}`).join(' ');
  const heights = apart(series.map(({ points }) => y(points[points.length - 1]?.value ?? 0)));
  return picture(widthPt, heightPt, `${title}. ${told}`, [
    ...parts,
    ...series.flatMap(({ name, points }, index) => {
      const dash = DASHES[index % DASHES.length] ?? null;
      const last = points[points.length - 1];
      return [
        html`<path d="${path([...points]) ?? ''}" fill="none" stroke="currentColor" stroke-width="1.1"${dash === null ? null : html` stroke-dasharray="${dash}"`}/>`,
        ...(points.length > 40
          ? []
          : points.map(
              ({ date, value }) => html`<circle cx="${at(x(date))}" cy="${at(y(value))}" r="1.3"/>`,
            )),
        ...(last && series.length > 1
          ? [
              label(widthPt - RIGHT - 2, heights[index] ?? 0, `${name} ${format(last.value)}`, {
                anchor: 'end',
                size: 7,
                bold: true,
              }),
            ]
          : []),
      ];
    }),
  ]);
}

/** Heights of labels, moved so that none lies on another. */
function apart(heights: readonly number[]): readonly number[] {
  const order = heights
    .map((height, index) => ({ height: height - 3, index }))
    .sort((a, b) => a.height - b.height);
  let before = Number.NEGATIVE_INFINITY;
  const moved: number[] = [];
  for (const { height, index } of order) {
    before = Math.max(height, before + 8, TOP + 4);
    moved[index] = before;
  }
  return moved;
}

/** First, last, least and most, in words. */
function summaryOf(points: Series['points'], format: (value: number) => string): string {
  const first = points[0];
  const last = points[points.length - 1];
  if (!first || !last) return say('nothing known.');
  if (points.length === 1) return say`${format(first.value)} on ${dateWords(first.date)}.`;
  const least = points.reduce((best, each) => (each.value < best.value ? each : best));
  const most = points.reduce((best, each) => (each.value > best.value ? each : best));
  return (
    say`${format(first.value)} on ${dateWords(first.date)}, ${format(last.value)} on ${dateWords(last.date)}; ` +
    say`least ${format(least.value)} on ${dateWords(least.date)}, most ${format(most.value)} on ${dateWords(most.date)}.`
  );
}
