/** A document as a pdfmake definition: plain data, drawn by the caller. */

import type { CanvasElement, Column, Content, TableCell, TDocumentDefinitions } from 'pdfmake/interfaces';
import { say, textLanguage } from '../../../../../grammar/say.js';
import type { Picture, Shape } from '../../plots/svg.js';
import { BETWEEN } from '../document.js';
import { captionOf, FOR_THE_EYE, headingOf, headOf, rowOf, type Structure } from '../structure.js';
import { textWidth } from '../textWidth.js';
import {
  type Block,
  PAGE_POINTS,
  type Paper,
  type PaperSection,
  type Part,
  type Row,
  type Table,
  type WordPart,
} from './document.js';

const MARGIN_PT = 26;
/** Greys that stay apart on a black-and-white printer. */
const FILL = '#ececec';
const GREY = '#444444';
const LINE = '#777777';
const PAD_PT = 4;
/** Between big words and the picture beside them. */
const BESIDE_PT = 4;

/** Between a name and what is said of it. The mark keeps the numbers after a name that is read from the right in order. */
const APART = '  \u200e ';

const eyeOnly: object = { structure: FOR_THE_EYE };

interface Setting {
  readonly fontPt: number;
  readonly widthPt: number;
}

/** The definition of a document's PDF. `createdAt` is written into the file; the same input gives the same bytes. */
export function paperToPdfDefinition(paper: Paper, createdAt: Date): TDocumentDefinitions {
  const [short, long] = PAGE_POINTS[paper.page];
  const [width, height] = paper.landscape ? [long, short] : [short, long];
  const setting = { fontPt: paper.fontPt, widthPt: width - 2 * MARGIN_PT };
  return {
    pageSize: { width, height },
    pageMargins: [MARGIN_PT, 24, MARGIN_PT, 34],
    version: '1.7',
    language: textLanguage(),
    displayTitle: true,
    info: { title: paper.title, creator: 'Stave', producer: 'Stave', creationDate: createdAt },
    defaultStyle: { font: 'Plan', fontSize: paper.fontPt, lineHeight: 1.08 },
    footer: (page: number, pages: number): Content => ({
      margin: [MARGIN_PT, 8, MARGIN_PT, 0],
      ...eyeOnly,
      columns: [
        { text: paper.footer, fontSize: 7.5, color: GREY, width: '*' },
        { text: say`page ${page} of ${pages}`, fontSize: 7.5, color: GREY, alignment: 'right', width: 70 },
      ],
    }),
    content: paper.sections.map((section, index) => sectionContent(section, index, setting)),
  };
}

function sectionContent(section: PaperSection, index: number, setting: Setting): Content {
  const { fontPt, widthPt } = setting;
  const aside: Column[] =
    section.aside === null
      ? []
      : [{ text: section.aside, alignment: 'right', width: '50%', margin: [0, fontPt * 0.4, 0, 0] }];
  return {
    ...(index === 0 || section.flows ? {} : { pageBreak: 'before' as const }),
    ...(section.flows ? { margin: [0, fontPt * 2, 0, 0] } : {}),
    stack: [
      {
        columns: [
          {
            text: section.heading,
            bold: true,
            fontSize: fontPt * 1.45,
            width: '*',
            outline: true,
            outlineText: section.heading,
            ...headingOf(index === 0 ? 1 : 2),
          } as Content,
          ...aside,
        ],
        columnGap: 8,
      },
      { canvas: [{ type: 'line', x1: 0, y1: 0, x2: widthPt, y2: 0, lineWidth: 1.5 }], margin: [0, 2, 0, 3] },
      ...section.notes.map((text): Content => ({ text, bold: true, margin: [0, 2, 0, 1] })),
      ...section.texts.map((text): Content => ({ text, italics: true, margin: [0, 2, 0, 1] })),
      ...section.blocks.flatMap((block, at) => {
        const before = section.blocks[at - 1];
        const heading = before?.kind === 'heading' ? before : null;
        // A heading is drawn with what it heads, so that it never stands alone at the foot of a page.
        if (block.kind === 'heading' && section.blocks[at + 1] !== undefined) return [];
        return [blockContent(block, heading, setting, index === 0 ? 2 : 3)];
      }),
      ...section.closing.map(
        (text): Content => ({ text, color: GREY, fontSize: fontPt * 0.85, margin: [0, 4, 0, 0] }),
      ),
    ],
  };
}

type Heading = Extract<Block, { readonly kind: 'heading' }>;

function headingContent({ text, aside }: Heading, { fontPt }: Setting, level: 2 | 3): Content {
  return {
    text: [
      { text, bold: true, fontSize: fontPt * 1.15 },
      { text: aside === null ? '' : `${APART}${aside}`, color: GREY },
    ],
    margin: [0, fontPt * 0.8, 0, 1],
    ...headingOf(level),
  } as Content;
}

/** A block with the heading before it. */
function blockContent(block: Block, heading: Heading | null, setting: Setting, level: 2 | 3): Content {
  const above = heading === null ? [] : [headingContent(heading, setting, level)];
  const together = (content: Content): Content =>
    above.length === 0 ? content : { stack: [...above, content], unbreakable: true };
  switch (block.kind) {
    case 'heading':
      return { stack: [...above, headingContent(block, setting, level)] };
    case 'text':
      return together({ text: block.text, margin: [0, 2, 0, 1] });
    case 'table':
      return tableContent(block.table, setting, above[0]);
    case 'pictures': {
      const [first, ...others] = pictureRows(block.pictures, setting);
      return { stack: [...(first ? [together(first)] : above), ...others], margin: [0, 6, 0, 0] };
    }
    case 'lines':
      return together(linesContent(block.labels, setting));
  }
}

/** Pictures side by side, as many as fit a line. */
function pictureRows(pictures: readonly Picture[], { widthPt }: Setting): readonly Content[] {
  const rows: Picture[][] = [];
  let used = Number.POSITIVE_INFINITY;
  for (const picture of pictures) {
    // Widths that were made to fill the line must not fail by a rounding.
    if (used + picture.widthPt > widthPt + 0.01) {
      rows.push([]);
      used = 0;
    }
    rows[rows.length - 1]?.push(picture);
    used += picture.widthPt + 14;
  }
  return rows.map(
    (row): Content => ({
      columns: row.map((picture) => pictureContent(picture)),
      columnGap: 14,
      unbreakable: true,
    }),
  );
}

/** A drawing for the PDF, where the colour of the text is black. */
export function pictureContent(picture: Picture, parent?: Structure): PictureContent {
  const structure: Structure = { role: 'Figure', alt: picture.alt, ...(parent ? { parent } : {}) };
  if (picture.shapes) return { canvas: picture.shapes.map((shape) => canvasShape(shape, structure)) };
  const svg = picture.svg
    .replaceAll('currentColor', '#000000')
    .replace(' color="inherit"', '')
    .replace(/(width|height)="([\d.]+)pt"/g, '$1="$2"');
  return { svg, width: picture.widthPt, height: picture.heightPt, font: 'Plan', structure };
}

type PictureContent =
  | { canvas: CanvasElement[] }
  | { svg: string; width: number; height: number; font: string; structure: Structure };

const inBlack = (colour: string): string => (colour === 'currentColor' ? '#000000' : colour);

/** Lines and boxes are drawn straight away: reading them as SVG took a quarter of the time of a plan. */
function canvasShape(shape: Shape, structure: Structure): CanvasElement & { structure: Structure } {
  const { widthPt } = shape;
  if (shape.kind === 'line') {
    const { x1, y1, x2, y2 } = shape;
    return { type: 'line', x1, y1, x2, y2, lineWidth: widthPt, lineColor: '#000000', structure };
  }
  const { x, y, w, h, fill } = shape;
  const rect = { type: 'rect', x, y, w, h, lineWidth: widthPt, lineColor: '#000000', structure } as const;
  return fill === 'none' ? rect : { ...rect, color: inBlack(fill) };
}

/** `heading`: what stands above the table as a row of its own, which stays with it. */
function tableContent(table: Table, setting: Setting, heading?: Content): Content {
  const { fontPt, widthPt } = setting;
  const columns = table.columns.length;
  const padding = columns * 2 * PAD_PT;
  const widths = table.columns.map(({ share }) => share * (widthPt - padding));
  const whole: Structure = { role: 'Table' };
  const headCell = headOf(whole);
  const head = table.columns.map(
    ({ title }) => ({ text: title, bold: true, fontSize: fontPt * 0.85, ...headCell() }) as TableCell,
  );
  const { caption } = table;
  const over: TableCell[][] =
    heading === undefined
      ? []
      : [[{ colSpan: columns, stack: [heading] } as TableCell, ...table.columns.slice(1).map(() => '')]];
  const title: TableCell[][] = caption
    ? [
        [
          {
            colSpan: columns,
            text: [
              { text: caption.text, bold: true, fontSize: fontPt * 1.15 },
              { text: caption.aside === null ? '' : `${APART}${caption.aside}`, color: GREY },
            ],
            ...captionOf(whole),
          } as TableCell,
          ...table.columns.slice(1).map(() => ''),
        ],
      ]
    : [];
  const kinds = [
    ...over.map(() => 'title'),
    ...title.map(() => 'title'),
    'head',
    ...table.rows.map(({ kind }) => kind),
  ];
  return {
    margin: [0, 4, 0, 0],
    table: {
      headerRows: 1 + over.length + title.length,
      keepWithHeaderRows: 1,
      dontBreakRows: true,
      widths,
      body: [...over, ...title, head, ...table.rows.map((row) => rowCells(row, widths, fontPt, whole))],
    },
    layout: {
      hLineWidth: (line: number) =>
        kinds[line] === 'more' || kinds[line] === 'under' || kinds[line] === 'title'
          ? 0
          : line === kinds.length
            ? 0.75
            : 0.5,
      vLineWidth: () => 0,
      hLineColor: () => LINE,
      paddingLeft: () => PAD_PT,
      paddingRight: () => PAD_PT,
      paddingTop: (row: number) => (kinds[row] === 'under' ? 0 : fontPt * 0.28),
      paddingBottom: (row: number) => fontPt * (kinds[row + 1] === 'under' ? 0.1 : 0.28),
      fillColor: (row: number) => (kinds[row] === 'head' || kinds[row] === 'band' ? FILL : null),
    },
  };
}

function rowCells(row: Row, widths: readonly number[], fontPt: number, table: Structure): TableCell[] {
  const structure = rowOf(table, row.kind === 'row' || row.kind === 'band');
  if (row.kind === 'band' || row.kind === 'words') {
    const style = row.kind === 'band' ? { bold: true } : { italics: true };
    const aside = row.aside === null ? [] : [{ text: `${APART}${row.aside}`, bold: false }];
    return [
      {
        text: [{ text: row.text, ...style }, ...aside],
        colSpan: widths.length,
        ...structure(0),
      } as TableCell,
      ...widths.slice(1).map(() => ''),
    ];
  }
  if (row.kind === 'under') {
    const lines = row.lines.map((line) => runContent(line, fontPt));
    return [
      {
        stack: lines,
        colSpan: widths.length,
        ...structure(0),
      } as TableCell,
      ...widths.slice(1).map(() => ''),
    ];
  }
  return row.cells.map((parts, column) => {
    const cell = structure(column);
    const content = partsContent(parts, widths[column] ?? 0, fontPt, cell.structure);
    return { stack: content.length === 0 ? [{ text: '' }] : content, ...cell } as TableCell;
  });
}

/** A picture stands beside the big words before it where there is room. */
function partsContent(parts: readonly Part[], widthPt: number, fontPt: number, cell: Structure): Content[] {
  const content: Content[] = [];
  for (let index = 0; index < parts.length; index += 1) {
    const part = parts[index] as Part;
    const after = parts[index + 1];
    const own = partContent(part, widthPt, fontPt, cell);
    const beside =
      part.kind === 'big' &&
      after?.kind === 'picture' &&
      textWidth(part.text, fontPt * 1.1, true) + BESIDE_PT + after.picture.widthPt <= widthPt;
    if (!beside) {
      content.push(own);
      continue;
    }
    const drawn = { ...pictureContent(after.picture, cell), width: 'auto' };
    content.push({
      columns: [{ ...(own as object), width: 'auto' }, drawn],
      columnGap: BESIDE_PT,
    } as Content);
    index += 1;
  }
  return content;
}

/** Small words one after the other. */
function runContent(parts: readonly WordPart[], fontPt: number): Content {
  const text = parts.flatMap((part, index): Content[] => [
    ...(index === 0 ? [] : [BETWEEN]),
    part.kind === 'big'
      ? { text: part.text, bold: true }
      : part.kind === 'cue'
        ? { text: part.text, italics: true, color: GREY }
        : part.text,
  ]);
  return { text, fontSize: fontPt * 0.88 };
}

function partContent(part: Part, widthPt: number, fontPt: number, cell: Structure): Content {
  switch (part.kind) {
    case 'big':
      return { text: part.text, bold: true, fontSize: fontPt * 1.1 };
    case 'plain':
      return { text: part.text };
    case 'small':
      return { text: part.text, fontSize: fontPt * 0.88 };
    case 'cue':
      return { text: part.text, fontSize: fontPt * 0.88, italics: true, color: GREY };
    case 'run':
      return runContent(part.parts, fontPt);
    case 'line':
      return {
        canvas: [
          { type: 'line', x1: 0, y1: fontPt * 1.5, x2: widthPt - 8, y2: fontPt * 1.5, lineWidth: 0.75 },
        ],
        margin: [0, 0, 0, 3],
      };
    case 'picture':
      return { ...pictureContent(part.picture, cell), margin: [0, 2, 0, 1] };
    case 'boxes':
      return boxesContent(part.count, widthPt, fontPt);
  }
}

function boxesContent(count: number, widthPt: number, fontPt: number): Content {
  const perLine = Math.max(1, Math.floor((widthPt + 3) / (fontPt * 2.1 + 3)));
  const across = Math.min(perLine, count);
  // As wide as there is room for: a number is written in each.
  const box = { w: Math.min(fontPt * 4, (widthPt - 3 * (across - 1)) / across), h: fontPt * 1.9 };
  return {
    margin: [0, 1, 0, 1],
    canvas: Array.from({ length: count }, (_, index) => ({
      type: 'rect' as const,
      x: (index % perLine) * (box.w + 3),
      y: Math.floor(index / perLine) * (box.h + 3),
      ...box,
      r: 1.5,
      lineWidth: 0.75,
      lineColor: '#000000',
    })),
  };
}

/** Lines to fill in, side by side. */
function linesContent(labels: readonly string[], { fontPt, widthPt }: Setting): Content {
  const height = fontPt * 2;
  const each = widthPt / Math.max(1, labels.length) - fontPt * 5.4;
  return {
    unbreakable: true,
    columnGap: 4,
    margin: [0, 2, 0, 2],
    columns: labels.flatMap((text): Column[] => [
      { text, width: 'auto', fontSize: fontPt * 0.88, margin: [0, height - fontPt * 0.95, 0, 0] },
      {
        width: '*',
        canvas: [{ type: 'line', x1: 0, y1: height, x2: Math.max(20, each), y2: height, lineWidth: 0.5 }],
      },
    ]),
  };
}
