/**
 * How small a week's text has to be set, so that it stays on one page, and where a fuller week goes on to the next one.
 * An estimate by lines.
 */

import { plateSize } from '../plots/plates.js';
import { type DaySheet, type EntrySheet, type MovementSheet, restWords } from './document.js';

/** Sizes in points of a week's page. */
export interface PageSizes {
  readonly fontPt: number;
  readonly boxPt: number;
  /** Space above and below the text of a table row. */
  readonly padPt: number;
  readonly dayGapPt: number;
}

/** Text sizes that a week's page may have, from the most generous to the smallest. */
export const WEEK_FONTS_PT: readonly number[] = [11, 10.5, 10, 9.5, 9, 8.5, 8, 7.5, 7];

/** Everything else shrinks with the text, boxes and gaps more than the text itself. */
export function pageSizes(fontPt: number): PageSizes {
  const room = (fontPt - 7) / 3;
  return { fontPt, boxPt: 13 + 13 * room, padPt: 1.2 + 3.8 * room, dayGapPt: 6 + 10 * room };
}

/** Margins of a page, the week's heading and the lines for notes. */
const AROUND_PT = 76 + 56;
const A4_PT = 842;
/** Height of a line as a share of the text's size, in the PDF's face. */
const LINE = 1.257;
/** Widths of the table's columns in points, as in the PDF: movement, dose, load. */
const MOVEMENT_PT = 156;
const DOSE_PT = 83;
const LOAD_PT = 87;
const LAST_PT = 59;
/** Mean width of a character of the condensed face, as a share of its size. */
const CHARACTER = 0.56;

function lines(text: string | null, widthPt: number, fontPt: number): number {
  if (text === null || text === '') return 0;
  const perLine = Math.max(4, Math.floor(widthPt / (fontPt * CHARACTER)));
  return Math.ceil(text.length / perLine);
}

/** Plates are drawn to one scale on a page; it shrinks with the text. */
export function platesScale(fontPt: number): number {
  return 0.5 + 0.5 * ((fontPt - 7) / 4);
}

function platesHeightPt(eachSideKg: readonly number[]): number {
  return Math.max(10, ...eachSideKg.map((kg) => plateSize(kg).heightPt)) + 1.2;
}

function sum(numbers: readonly number[]): number {
  return numbers.reduce((total, value) => total + value, 0);
}

function movementHeight(movement: MovementSheet, size: PageSizes): number {
  const small = size.fontPt * 0.88;
  const under = [
    ...movement.details,
    movement.cue,
    movement.easier ?? null,
    movement.warmUp,
    ...movement.texts,
    ...movement.steps,
  ];
  const large = size.fontPt * 1.1;
  const nameLines = lines(movement.name, MOVEMENT_PT, large * 1.08);
  const underLines = sum(under.map((text) => lines(text, MOVEMENT_PT, small)));
  const left = (nameLines * large + underLines * small) * LINE;
  const rows = movement.work.map((work, index) => {
    const dose =
      lines(work.dose, DOSE_PT, large * 1.08) * large +
      (lines(work.effort, DOSE_PT, small) + lines(restWords(movement, index), DOSE_PT, small)) * small;
    const last = sum((work.last ?? []).map((text) => lines(text, LAST_PT, small))) * small;
    const under = lines(work.plates, LOAD_PT, small) + lines(work.note, LOAD_PT, small);
    const load =
      (lines(work.load, LOAD_PT, large * 1.08) + (work.chooseLoad ? 1.4 : 0)) * large + under * small;
    const drawn = work.side ? platesHeightPt(work.side.eachSideKg) * platesScale(size.fontPt) + 2 : 0;
    const boxes = Math.ceil(work.boxes / 6) * (size.boxPt + 3);
    return Math.max(dose * LINE, load * LINE + drawn, last * LINE, boxes) + 2 * size.padPt;
  });
  return Math.max(left + 2 * size.padPt, rows[0] ?? 0) + sum(rows.slice(1));
}

function entryHeight(entry: EntrySheet, size: PageSizes): number {
  if (entry.kind === 'movement') return movementHeight(entry.movement, size);
  const text = entry.kind === 'text' ? entry.text : `${entry.heading} ${entry.how}`;
  return lines(text, 500, size.fontPt) * size.fontPt * LINE + 2 * size.padPt;
}

/** Estimated height in points of a week's days with text of `fontPt`. */
export function weekHeight(days: readonly DaySheet[], extraLines: number, fontPt: number): number {
  const size = pageSizes(fontPt);
  const heights = days.map((day) => {
    const head = (1.25 + 0.85) * fontPt * LINE + 4 * size.padPt;
    const foot = size.boxPt + 8;
    return head + foot + size.dayGapPt * 0.7 + sum(day.entries.map((entry) => entryHeight(entry, size)));
  });
  return sum(heights) + extraLines * (fontPt * LINE + 3);
}

export interface WeekLayout {
  readonly fontPt: number;
  /** Days that begin a page, by their place in the week; none where all fit one page. */
  readonly breaks: readonly number[];
}

/** Smaller text than this is not read at a bar: such a week goes on two pages instead. */
const LEAST_ON_ONE_PAGE_PT = 7;
/** The estimate is a little high: up to this share above the page, a week in the smallest text has always fitted. */
const ESTIMATE_OVER = 1.05;
/** What is spread over several pages has room: it is no larger than this, and no smaller. */
const LARGEST_ON_SEVERAL_PT = 10;
const LEAST_ON_SEVERAL_PT = 8;

/** The largest text with which the days fit one page; else with which whole days fit as few pages as they need. */
export function weekLayout(days: readonly DaySheet[], extraLines: number, pageHeightPt = A4_PT): WeekLayout {
  const room = pageHeightPt - AROUND_PT;
  const fits = (part: readonly DaySheet[], fontPt: number) => weekHeight(part, extraLines, fontPt) <= room;
  const onOne =
    WEEK_FONTS_PT.find((fontPt) => fits(days, fontPt)) ??
    (weekHeight(days, extraLines, LEAST_ON_ONE_PAGE_PT) <= room * ESTIMATE_OVER
      ? LEAST_ON_ONE_PAGE_PT
      : undefined);
  if (onOne !== undefined) return { fontPt: onOne, breaks: [] };
  const fonts = WEEK_FONTS_PT.filter(
    (fontPt) => fontPt <= LARGEST_ON_SEVERAL_PT && fontPt >= LEAST_ON_SEVERAL_PT,
  );
  for (let pages = 2; pages <= days.length; pages += 1) {
    for (const fontPt of fonts) {
      const parts = evenParts(days, pages, (part) => weekHeight(part, 0, fontPt));
      if (parts.every((part) => fits(part, fontPt))) return { fontPt, breaks: breaksOf(parts) };
    }
  }
  // A day that is longer than a page: each begins one, and its head comes again.
  const each = days.map((day) => [day]);
  return { fontPt: LEAST_ON_SEVERAL_PT, breaks: breaksOf(each) };
}

function breaksOf(parts: readonly (readonly DaySheet[])[]): readonly number[] {
  let before = 0;
  return parts.slice(0, -1).map((part) => {
    before += part.length;
    return before;
  });
}

/** The days in their order in `count` parts, so that the highest part is as low as can be. Weeks have seven days. */
function evenParts(
  days: readonly DaySheet[],
  count: number,
  height: (part: readonly DaySheet[]) => number,
): readonly (readonly DaySheet[])[] {
  if (count <= 1) return [days];
  let best: { readonly parts: readonly (readonly DaySheet[])[]; readonly most: number } | null = null;
  for (let first = 1; first <= days.length - count + 1; first += 1) {
    const parts = [days.slice(0, first), ...evenParts(days.slice(first), count - 1, height)];
    const most = Math.max(...parts.map(height));
    if (best === null || most < best.most) best = { parts, most };
  }
  return best?.parts ?? [days];
}

/** The text size of a week alone. */
export function weekFont(days: readonly DaySheet[], extraLines: number, pageHeightPt = A4_PT): number {
  return weekLayout(days, extraLines, pageHeightPt).fontPt;
}
