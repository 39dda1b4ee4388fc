/** How small a week's text has to be set, so that it stays on one page. An estimate by lines; a fuller week runs over. */

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

/** The largest text with which the days fit a page; the smallest where none does, and the week runs over. */
export function weekFont(days: readonly DaySheet[], extraLines: number, pageHeightPt = A4_PT): number {
  return (
    WEEK_FONTS_PT.find((fontPt) => weekHeight(days, extraLines, fontPt) <= pageHeightPt - AROUND_PT) ?? 7
  );
}
