/**
 * How small a week's text has to be set, so that it stays on one page, and where a fuller week goes on to the next one.
 * The heights are those of the PDF, worked out line by line.
 */

import { platesSize } from '../plots/plates.js';
import {
  BETWEEN,
  besideWords,
  type DaySheet,
  type EntrySheet,
  lastLines,
  type MovementSheet,
  underLines,
  type WorkSheet,
} from './document.js';
import { PAGE_POINTS, type PaperSize } from './paper/document.js';
import { LINE_SHARE, lineCount, textWidth } from './textWidth.js';

/** Sizes in points of a week's page. */
export interface PageSizes {
  readonly fontPt: number;
  readonly boxPt: number;
  /** Space above and below the text of a table row. */
  readonly padPt: number;
  readonly dayGapPt: number;
}

/** Text sizes that a week's page may have, from the most generous to the smallest. */
export const WEEK_FONTS_PT: readonly number[] = Array.from({ length: 13 }, (_, step) => 11 - step / 4);

/** Everything else shrinks with the text, boxes and gaps more than the text itself. */
export function pageSizes(fontPt: number): PageSizes {
  const room = (fontPt - 8) / 3;
  return { fontPt, boxPt: 17 + 9 * room, padPt: 1.9 + 3.1 * room, dayGapPt: 8 + 8 * room };
}

/** The page of a plan in points; the PDF is drawn with these. */
export const PAGE = { marginPt: 28, topPt: 34, bottomPt: 42 } as const;
/** Widths of the text in the columns of a day's table; the movement takes what is left. */
export const COLUMN = { dosePt: 92, loadPt: 92, lastPt: 72, boxesPt: 122 } as const;
/** Left and right of the text in a column. */
export const CELL = { firstLeftPt: 3, leftPt: 4, rightPt: 3 } as const;
export const BOX = { perLine: 6, gapPt: 3, mostPt: 42 } as const;
/** Sizes of the text as shares of the week's size. */
export const SHARE = { name: 1.1, small: 0.9, head: 0.85, day: 1.25, week: 0.95 } as const;
/** Between a load and the plates drawn beside it. */
export const BESIDE_PT = 4;
const INSIDE_PT = 8;
/** The heading of a week with its line. */
const WEEK_HEAD_PT = 15 * LINE_SHARE + 6.5;
const PROGRAM_PT = 9.5 * LINE_SHARE;
/** Lines between rows, and roundings. */
const RULE_PT = 0.5;
const SPARE_PT = 6;

interface Widths {
  readonly textPt: number;
  readonly movementPt: number;
}

function widthsOf(size: PaperSize): Widths {
  const textPt = PAGE_POINTS[size][0] - 2 * PAGE.marginPt;
  const padding = CELL.firstLeftPt + CELL.rightPt + 4 * (CELL.leftPt + CELL.rightPt);
  const others = COLUMN.dosePt + COLUMN.loadPt + COLUMN.lastPt + COLUMN.boxesPt;
  return { textPt, movementPt: textPt - padding - others };
}

/** Plates are drawn to one scale on a page; it shrinks with the text. */
export function platesScale(fontPt: number): number {
  return 0.5 + 0.5 * ((fontPt - 7) / 4);
}

/** Whether the plates stand beside the load, not under it. */
export function platesBeside({ load, side }: WorkSheet, fontPt: number): boolean {
  if (load === null || !side) return false;
  const { widthPt } = platesSize(side.eachSideKg, platesScale(fontPt));
  return textWidth(load, fontPt * SHARE.name, true) + BESIDE_PT + widthPt <= COLUMN.loadPt;
}

function sum(numbers: readonly number[]): number {
  return numbers.reduce((total, value) => total + value, 0);
}

/** Space between a row and what stands under it. */
export const closePad = ({ padPt }: PageSizes): number => padPt / 3;

/** Height of lines of a size. */
const high = (lines: number, fontPt: number): number => lines * fontPt * LINE_SHARE;

function loadHeight(work: WorkSheet, fontPt: number): number {
  const [large, small] = [fontPt * SHARE.name, fontPt * SHARE.small];
  const drawn = work.side ? platesSize(work.side.eachSideKg, platesScale(fontPt)).heightPt : 0;
  const load = high(lineCount(work.load, COLUMN.loadPt, large, true), large);
  const top = platesBeside(work, fontPt) ? Math.max(load, drawn) : load + drawn;
  const under = lineCount(work.plates, COLUMN.loadPt, small);
  return (work.chooseLoad ? fontPt * 1.5 + 3.75 : 0) + top + high(under, small);
}

function workHeight(work: WorkSheet, size: PageSizes): number {
  const [large, small] = [size.fontPt * SHARE.name, size.fontPt * SHARE.small];
  const dose =
    high(lineCount(work.dose, COLUMN.dosePt, large, true), large) +
    high(lineCount(work.effort, COLUMN.dosePt, small), small);
  const last = high(sum(lastLines(work).map((text) => lineCount(text, COLUMN.lastPt, small))), small);
  const boxes = Math.ceil(work.boxes / BOX.perLine) * (size.boxPt + BOX.gapPt);
  return Math.max(dose, loadHeight(work, size.fontPt), last, boxes) + 2 * size.padPt;
}

function movementHeight(movement: MovementSheet, size: PageSizes, widths: Widths): number {
  const [large, small] = [size.fontPt * SHARE.name, size.fontPt * SHARE.small];
  const inside = movement.inCircuit ? INSIDE_PT : 0;
  const room = widths.movementPt - inside;
  const left =
    high(lineCount(movement.name, room, large, true), large) +
    high(lineCount(besideWords(movement), room, small), small);
  const [first = 0, ...others] = movement.work.map((work) => workHeight(work, size));
  const lines = underLines(movement).map((line) =>
    lineCount(line.map(({ text }) => text).join(BETWEEN), widths.textPt - 6 - inside, small),
  );
  // The last row and what stands under it are drawn closer to each other.
  const under = lines.length === 0 ? 0 : high(sum(lines), small) + closePad(size);
  return Math.max(left + 2 * size.padPt, first) + sum(others) + under + RULE_PT;
}

function entryHeight(entry: EntrySheet, size: PageSizes, widths: Widths): number {
  if (entry.kind === 'movement') return movementHeight(entry.movement, size, widths);
  const text = entry.kind === 'text' ? entry.text : `${entry.heading}   ${entry.how}`;
  const bold = entry.kind === 'circuit';
  return high(lineCount(text, widths.textPt - 6, size.fontPt, bold), size.fontPt) + 2 * size.padPt + RULE_PT;
}

function dayHeight(day: DaySheet, size: PageSizes, widths: Widths): number {
  const { fontPt, padPt } = size;
  const title = lineCount(`${day.name}   ${day.when}`, widths.textPt - 6, fontPt * 1.15, true);
  const head = high(title, fontPt * SHARE.day) + high(1, fontPt * SHARE.head) + 4 * padPt + 2 * RULE_PT;
  const rows = sum(day.entries.map((entry) => entryHeight(entry, size, widths)));
  return size.dayGapPt * 0.7 + head + rows + linesHeight(size);
}

/** The lines to fill in after a session. */
export function linesHeight({ boxPt, fontPt }: PageSizes): number {
  return Math.max(boxPt * 0.8, fontPt * SHARE.small * LINE_SHARE) + 6;
}

export interface WeekLayout {
  readonly fontPt: number;
  /** Days that begin a page, by their place in the week; none where all fit one page. */
  readonly breaks: readonly number[];
}

/** What is spread over several pages has room: it is no larger than this. */
const LARGEST_ON_SEVERAL_PT = 10;
const ON_SEVERAL_PT = WEEK_FONTS_PT.filter((fontPt) => fontPt <= LARGEST_ON_SEVERAL_PT);
const LEAST_PT = WEEK_FONTS_PT[WEEK_FONTS_PT.length - 1] as number;

/**
 * The largest text with which the days fit one page; else with which whole days fit as few pages as they need. Text that
 * is smaller than 8 points is not read at a bar: such a week goes on two pages instead.
 */
export function weekLayout(
  days: readonly DaySheet[],
  above: readonly string[] = [],
  page: PaperSize = 'a4',
  named = false,
): WeekLayout {
  const room =
    PAGE_POINTS[page][1] - PAGE.topPt - PAGE.bottomPt - WEEK_HEAD_PT - (named ? PROGRAM_PT : 0) - SPARE_PT;
  const widths = widthsOf(page);
  const measure = (fontPt: number) => {
    const small = fontPt * SHARE.week;
    const texts = above.map((text) => high(lineCount(text, widths.textPt, small, true), small) + 3);
    // What stands above the days takes room from the first page only, but the pages are to be alike.
    return {
      fontPt,
      days: days.map((day) => dayHeight(day, pageSizes(fontPt), widths)),
      room: room - sum(texts),
    };
  };
  for (let pages = 1; pages <= days.length; pages += 1) {
    const fonts = pages === 1 ? WEEK_FONTS_PT : ON_SEVERAL_PT;
    const partsAt = (fontPt: number): readonly (readonly number[])[] | null => {
      const measured = measure(fontPt);
      const parts = evenParts(measured.days, pages);
      return parts.every((part) => sum(part) <= measured.room) ? parts : null;
    };
    const fontPt = largest(fonts, (each) => partsAt(each) !== null);
    const parts = fontPt === undefined ? null : partsAt(fontPt);
    if (fontPt !== undefined && parts) return { fontPt, breaks: breaksOf(parts) };
  }
  // A day that is longer than a page: its head comes again on the next one, and the other days go on from there.
  return { fontPt: LEAST_PT, breaks: [] };
}

/** The first of the sizes, which fall, that fits: what fits in one size fits in every smaller one. */
function largest(fonts: readonly number[], fits: (fontPt: number) => boolean): number | undefined {
  let low = 0;
  let high = fonts.length;
  while (low < high) {
    const middle = (low + high) >>> 1;
    if (fits(fonts[middle] as number)) high = middle;
    else low = middle + 1;
  }
  return fonts[low];
}

function breaksOf(parts: readonly (readonly number[])[]): readonly number[] {
  let before = 0;
  return parts.slice(0, -1).map((part) => {
    before += part.length;
    return before;
  });
}

/** The heights in their order in `count` parts, so that the highest part is as low as can be. Weeks have seven days. */
function evenParts(heights: readonly number[], count: number): readonly (readonly number[])[] {
  if (count <= 1) return [heights];
  let best: { readonly parts: readonly (readonly number[])[]; readonly most: number } | null = null;
  for (let first = 1; first <= heights.length - count + 1; first += 1) {
    const parts = [heights.slice(0, first), ...evenParts(heights.slice(first), count - 1)];
    const most = Math.max(...parts.map(sum));
    if (best === null || most < best.most) best = { parts, most };
  }
  return best?.parts ?? [heights];
}
