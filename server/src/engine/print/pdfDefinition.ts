/** The plan as a pdfmake document definition: plain data, drawn by the caller. */

import type { Column, Content, TableCell, TDocumentDefinitions } from 'pdfmake/interfaces';
import { say, textLanguage } from '../../../../grammar/say.js';
import { platesPicture } from '../plots/plates.js';
import {
  BESIDE_PT,
  BOX,
  CELL,
  COLUMN,
  closePad,
  PAGE,
  type PageSizes,
  pageSizes,
  platesBeside,
  platesScale,
  SHARE,
} from './density.js';
import {
  BETWEEN,
  besideWords,
  columns,
  type DaySheet,
  type EntrySheet,
  lastLines,
  type MovementSheet,
  type PlanDocument,
  sessionLines,
  type UnderPiece,
  underLines,
  type WeekSheet,
  type WorkSheet,
} from './document.js';
import { PAGE_POINTS, type PaperSize } from './paper/document.js';
import { pictureContent } from './paper/pdf.js';
import { captionOf, FOR_THE_EYE, headingOf, headOf, rowOf, type Structure } from './structure.js';

const MARGIN_PT = PAGE.marginPt;
/** Greys that stay apart on a black-and-white printer. */
const FILL = '#ececec';
const GREY = '#444444';
const LINE = '#777777';

/** Between a name and what is said of it. The mark keeps the numbers after a name that is read from the right in order. */
const APART = '  \u200e ';

const eyeOnly: object = { structure: FOR_THE_EYE };

/** The definition of a plan's PDF. `createdAt` is written into the file; the same input gives the same bytes. */
export function planToPdfDefinition(
  plan: PlanDocument,
  createdAt: Date,
  size: PaperSize = 'a4',
): TDocumentDefinitions {
  const [width, height] = PAGE_POINTS[size];
  const textWidth = width - 2 * MARGIN_PT;
  return {
    pageSize: { width, height },
    pageMargins: [MARGIN_PT, PAGE.topPt, MARGIN_PT, PAGE.bottomPt],
    version: '1.7',
    language: textLanguage(),
    displayTitle: true,
    info: {
      title: `${plan.title}: ${plan.programs}`,
      creator: 'Stave',
      producer: 'Stave',
      creationDate: createdAt,
    },
    defaultStyle: { font: 'Plan', fontSize: 9.5, lineHeight: 1.08 },
    footer: (page: number, pages: number): Content => ({
      margin: [MARGIN_PT, 12, MARGIN_PT, 0],
      ...eyeOnly,
      columns: [
        { text: plan.footer, fontSize: 7.5, color: GREY, width: '*' },
        { text: say`page ${page} of ${pages}`, fontSize: 7.5, color: GREY, alignment: 'right', width: 90 },
      ],
    }),
    content: [...cover(plan, textWidth), ...plan.weeks.map((week) => weekContent(week, textWidth))],
  };
}

function cover(plan: PlanDocument, textWidth: number): Content[] {
  const rule: Content = {
    canvas: [{ type: 'line', x1: 0, y1: 0, x2: textWidth, y2: 0, lineWidth: 2 }],
    margin: [0, 4, 0, 12],
  };
  return [
    {
      text: plan.title,
      fontSize: 26,
      bold: true,
      outline: true,
      outlineText: plan.title,
      ...headingOf(1),
    } as Content,
    { text: plan.programs, fontSize: 13, color: GREY },
    rule,
    ...plan.notices.map((text): Content => box([{ text, bold: true }], 1.5)),
    {
      margin: [0, 0, 0, 14],
      layout: 'noBorders',
      table: {
        widths: [110, '*'],
        body: pairs(
          plan.facts.map(({ label, value }) => [
            { text: label, color: GREY },
            { text: value, bold: true },
          ]),
        ),
      },
    },
    ...(plan.care.length === 0
      ? []
      : [
          heading(say('For you')),
          box(
            plan.care.map((text): Content => ({ text, bold: true, fontSize: 10.5, margin: [0, 1, 0, 2] })),
            1.5,
          ),
        ]),
    heading(say('Take care')),
    box(
      plan.cautions.map(
        ({ heading: words, text }): Content => ({
          text: [{ text: `${words}: `, bold: true }, text],
          margin: [0, 1, 0, 4],
        }),
      ),
      0.75,
    ),
    heading(say('How to read this plan')),
    {
      layout: 'noBorders',
      table: {
        widths: [110, '*'],
        body: pairs(
          plan.howToRead.map(({ term, meaning }) => [{ text: term, bold: true }, { text: meaning }]),
        ),
      },
    },
  ];
}

function heading(text: string): Content {
  return { text, fontSize: 12.5, bold: true, margin: [0, 6, 0, 4], ...headingOf(2) } as Content;
}

/** Rows of two: the first names the second. */
function pairs(rows: readonly (readonly [object, object])[]): TableCell[][] {
  const table: Structure = { role: 'Table' };
  return rows.map((row) => {
    const structure = rowOf(table, true);
    return row.map((cell, column) => ({ ...cell, ...structure(column) }) as unknown as TableCell);
  });
}

/** Content in a frame that stays together. */
function box(content: Content[], lineWidth: number): Content {
  return {
    margin: [0, 0, 0, 12],
    unbreakable: true,
    table: { widths: ['*'], body: [[{ stack: content, margin: [4, 3, 4, 2] }]] },
    layout: {
      hLineWidth: () => lineWidth,
      vLineWidth: () => lineWidth,
      hLineColor: () => '#000000',
      vLineColor: () => '#000000',
    },
  };
}

function weekContent(week: WeekSheet, textWidth: number): Content {
  const size = pageSizes(week.fontPt);
  const small = size.fontPt * SHARE.week;
  return {
    pageBreak: 'before',
    stack: [
      {
        columns: [
          {
            text: week.heading,
            fontSize: 15,
            bold: true,
            width: '*',
            outline: true,
            outlineText: week.heading,
            ...headingOf(2),
          } as Content,
          { text: week.dates, fontSize: 10, alignment: 'right', width: 'auto', margin: [0, 4.5, 0, 0] },
        ],
        columnGap: 8,
      },
      ...(week.program === null ? [] : [{ text: week.program, fontSize: 9.5, color: GREY }]),
      {
        canvas: [{ type: 'line', x1: 0, y1: 0, x2: textWidth, y2: 0, lineWidth: 1.5 }],
        margin: [0, 2, 0, 3],
      } as Content,
      ...week.notes.map((text): Content => ({ text, bold: true, fontSize: small, margin: [0, 2, 0, 1] })),
      ...week.texts.map((text): Content => ({ text, italics: true, fontSize: small, margin: [0, 2, 0, 1] })),
      ...week.days.map((day) => dayContent(day, size)),
    ],
  };
}

function dayContent(day: DaySheet, size: PageSizes): Content {
  const table: Structure = { role: 'Table' };
  const headCell = headOf(table);
  const head = columns().map(
    (text) => ({ text, bold: true, fontSize: size.fontPt * SHARE.head, ...headCell() }) as TableCell,
  );
  const title: TableCell[] = [
    {
      colSpan: columns().length,
      text: [
        { text: day.name, bold: true, fontSize: size.fontPt * SHARE.day },
        { text: `${APART}${day.when}`, fontSize: size.fontPt, color: GREY },
      ],
      ...captionOf(table),
    } as TableCell,
    ...blanks(columns().length - 1),
  ];
  const entries = day.entries.flatMap((entry) => entryRows(entry, size, table));
  const marks: RowMark[] = ['title', 'head', ...entries.map(({ mark }) => mark)];
  return {
    margin: [0, size.dayGapPt * 0.7, 0, 0],
    ...(day.continued === undefined ? {} : { pageBreak: 'before' as const }),
    stack: [
      ...(day.continued === undefined
        ? []
        : [
            { text: day.continued, bold: true, fontSize: size.fontPt * 1.1, margin: [0, 0, 0, 4] } as Content,
          ]),
      {
        table: {
          headerRows: 2,
          keepWithHeaderRows: 1,
          dontBreakRows: true,
          widths: ['*', COLUMN.dosePt, COLUMN.loadPt, COLUMN.lastPt, COLUMN.boxesPt],
          body: [title, head, ...entries.map(({ cells }) => cells)],
        },
        layout: {
          hLineWidth: (line: number) => lineWidthAbove(marks, line),
          vLineWidth: () => 0,
          hLineColor: () => LINE,
          paddingLeft: (column: number) => (column === 0 ? CELL.firstLeftPt : CELL.leftPt),
          paddingRight: () => CELL.rightPt,
          // What stands under a row belongs to it.
          paddingTop: (row: number) => (marks[row] === 'under' ? 0 : size.padPt),
          paddingBottom: (row: number) => (marks[row + 1] === 'under' ? closePad(size) : size.padPt),
          fillColor: (row: number) => (marks[row] === 'head' || marks[row] === 'circuit' ? FILL : null),
        },
      },
      linesToFillIn(size),
    ],
  };
}

/** What stands in a row of the table, for the lines between the rows. */
type RowMark = 'title' | 'head' | 'movement' | 'more' | 'under' | 'text' | 'circuit';

function lineWidthAbove(marks: readonly RowMark[], line: number): number {
  const mark = marks[line];
  if (mark === 'title') return 0;
  if (mark === undefined) return 0.75;
  return mark === 'more' || mark === 'under' ? 0 : 0.5;
}

function blanks(count: number): TableCell[] {
  return Array.from({ length: count }, () => '');
}

function entryRows(
  entry: EntrySheet,
  size: PageSizes,
  table: Structure,
): { mark: RowMark; cells: TableCell[] }[] {
  if (entry.kind === 'movement') return movementRows(entry.movement, size, table);
  const text =
    entry.kind === 'text'
      ? { text: entry.text, italics: true }
      : { text: [{ text: entry.heading, bold: true }, `${APART}${entry.how}`] };
  const structure = rowOf(table, entry.kind === 'circuit')(0);
  const cell = { ...text, colSpan: columns().length, fontSize: size.fontPt, ...structure } as TableCell;
  return [{ mark: entry.kind, cells: [cell, ...blanks(columns().length - 1)] }];
}

function movementRows(
  movement: MovementSheet,
  size: PageSizes,
  table: Structure,
): { mark: RowMark; cells: TableCell[] }[] {
  const indent = movement.inCircuit ? 8 : 0;
  const rows = movement.work.map((work, index): { mark: RowMark; cells: TableCell[] } => {
    const structure = rowOf(table, index === 0);
    const cells = [
      index === 0
        ? { stack: movementWords(movement, size), margin: [indent, 0, 0, 0] }
        : { text: say('then'), alignment: 'right', fontSize: size.fontPt, color: GREY },
      {
        stack: present([big(work.dose, size), small(work.effort, size)]),
      },
      { stack: loadContent(work, size, structure(2).structure) },
      { stack: present(lastLines(work).map((text) => small(text, size))) },
      boxesContent(work.boxes, size),
    ];
    return {
      mark: index === 0 ? 'movement' : 'more',
      cells: cells.map(
        (cell, column) => ({ ...(cell as object), ...structure(column) }) as unknown as TableCell,
      ),
    };
  });
  const lines = underLines(movement);
  if (lines.length === 0) return rows;
  const structure = rowOf(table, false)(0);
  const under = {
    colSpan: columns().length,
    margin: [indent, 0, 0, 0],
    stack: lines.map((line) => underContent(line, size)),
    ...structure,
  } as unknown as TableCell;
  return [...rows, { mark: 'under', cells: [under, ...blanks(columns().length - 1)] }];
}

function underContent(line: readonly UnderPiece[], size: PageSizes): Content {
  const text = line.flatMap(({ kind, text: words }, index): Content[] => [
    ...(index === 0 ? [] : [BETWEEN]),
    kind === 'plain'
      ? words
      : kind === 'cue'
        ? { text: words, italics: true, color: GREY }
        : { text: words, bold: true, italics: true },
  ]);
  return { text, fontSize: size.fontPt * SHARE.small };
}

function movementWords(movement: MovementSheet, size: PageSizes): Content[] {
  return present([
    { text: movement.name, bold: true, fontSize: size.fontPt * SHARE.name },
    small(besideWords(movement), size),
  ]);
}

function loadContent(work: WorkSheet, size: PageSizes, cell: Structure): Content[] {
  const line: Content = {
    canvas: [
      {
        type: 'line',
        x1: 0,
        y1: size.fontPt * 1.5,
        x2: COLUMN.loadPt - 5,
        y2: size.fontPt * 1.5,
        lineWidth: 0.75,
      },
    ],
    margin: [0, 0, 0, 3],
  };
  const load = work.load === null ? null : big(work.load, size);
  const drawn = work.side && {
    ...pictureContent(platesPicture(work.side.eachSideKg, work.side.unit, platesScale(size.fontPt)), cell),
    margin: [0, 0, 0, 0],
  };
  const beside: Content | null =
    load && drawn && platesBeside(work, size.fontPt)
      ? ({
          columns: [
            { ...(load as object), width: 'auto' },
            { ...drawn, width: 'auto' },
          ],
          columnGap: BESIDE_PT,
        } as Content)
      : null;
  return present([
    work.chooseLoad ? line : null,
    beside ?? load,
    beside ? null : ((drawn ?? null) as Content | null),
    small(work.plates, size),
  ]);
}

function big(text: string, size: PageSizes): Content {
  return { text, bold: true, fontSize: size.fontPt * SHARE.name };
}

function small(text: string | null, size: PageSizes): Content | null {
  return text === null || text === '' ? null : { text, fontSize: size.fontPt * SHARE.small };
}

function present(content: readonly (Content | null)[]): Content[] {
  const kept = content.filter((part): part is Content => part !== null);
  return kept.length > 0 ? kept : [{ text: '' }];
}

/** Empty boxes, at most six in a line, as wide as they can be up to a good width. */
function boxesContent(count: number, size: PageSizes): TableCell {
  const perLine = Math.min(count, BOX.perLine);
  const width = Math.min(BOX.mostPt, (COLUMN.boxesPt - BOX.gapPt * (perLine - 1)) / perLine);
  const canvas = Array.from({ length: count }, (_, index) => ({
    type: 'rect' as const,
    x: (index % BOX.perLine) * (width + BOX.gapPt),
    y: Math.floor(index / BOX.perLine) * (size.boxPt + BOX.gapPt),
    w: width,
    h: size.boxPt,
    r: 1.5,
    lineWidth: 0.75,
    lineColor: '#000000',
  }));
  return { canvas, margin: [0, 1, 0, 1] };
}

/** Lines to fill in after the session. */
function linesToFillIn(size: PageSizes): Content {
  const line = (width: number): Column => ({
    width,
    canvas: [
      { type: 'line', x1: 0, y1: size.boxPt * 0.8, x2: width - 10, y2: size.boxPt * 0.8, lineWidth: 0.5 },
    ],
  });
  const label = (text: string): Column => ({
    text,
    width: 'auto',
    fontSize: size.fontPt * SHARE.small,
    margin: [0, size.boxPt * 0.8 - size.fontPt * SHARE.small, 0, 0],
  });
  const [effort, minutes, pain] = sessionLines();
  return {
    unbreakable: true,
    columnGap: 5,
    margin: [3, 0, 0, 4],
    columns: [label(effort), line(60), label(minutes), line(60), label(pain), line(150)],
  };
}
