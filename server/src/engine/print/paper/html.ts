/** A document as one HTML file that needs nothing else: no script, no font, no picture from outside. */

import { textLanguage } from '../../../../../grammar/say.js';
import type { Picture } from '../../plots/svg.js';
import { countOf } from '../../words.js';
import { BETWEEN } from '../document.js';
import { cssString, html, type Markup, pageCounter, raw } from '../markup.js';
import { type HtmlParts, type HtmlPartsOptions, noSource, type SourceMark, sourceData } from '../source.js';
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
import { PAPER_STYLES, PHONE_STYLES, WIDE_PHONE_STYLES } from './styles.js';

/** The HTML file. */
export function paperToHtml(paper: Paper): string {
  const { title, css, body } = paperParts(paper);
  return `<!doctype html>\n${
    html`<html lang="${textLanguage()}">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline'">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta name="color-scheme" content="light dark">
<title>${title}</title>
<style>
${raw(css)}
</style>
</head>
<body>
${raw(body)}
</body>
</html>
`.text
  }`;
}

/** Style sheet and body of the document, for a file or a panel. */
export function paperParts(paper: Paper, { sources = false }: HtmlPartsOptions = {}): HtmlParts {
  const [width, height] = PAGE_POINTS[paper.page];
  const size = paper.landscape ? `${height}pt ${width}pt` : `${width}pt ${height}pt`;
  const page = `@page { size: ${size}; margin: 24pt 24pt 34pt; @bottom-left { content: ${cssString(paper.footer)} } @bottom-right { content: ${pageCounter()} } }
:root { --font: ${paper.fontPt}pt; --page: ${paper.landscape ? height : width}pt }`;
  const mark = sources ? sourceData : noSource;
  const body = html`<main>
${paper.sections.map((section, index) => sectionMarkup(section, index, mark, !paper.landscape))}</main>
<footer class="running" dir="auto">${paper.footer}</footer>`;
  return {
    title: paper.title,
    css: [PAPER_STYLES, paper.landscape ? WIDE_PHONE_STYLES : PHONE_STYLES, page, ...columnRules(paper)].join(
      '\n',
    ),
    body: body.text,
  };
}

/** Widths as classes: an attribute `style` would be forbidden where nothing inline is allowed. */
function columnRules(paper: Paper): readonly string[] {
  const shares = paper.sections.flatMap(({ blocks }) =>
    blocks.flatMap((block) =>
      block.kind === 'table' ? block.table.columns.map(({ share }) => tenths(share)) : [],
    ),
  );
  return [...new Set(shares)]
    .sort((a, b) => a - b)
    .map((share) => `.share-${share} { width: ${share / 10}% }`);
}

const tenths = (share: number): number => Math.round(share * 1000);

/** `stacks`: on a telephone the cells of a row stand under each other. */
function sectionMarkup(section: PaperSection, index: number, mark: SourceMark, stacks: boolean): Markup {
  const title = html`${section.heading}`;
  return html`<section${section.flows ? raw(' class="flows"') : ''}>
<div class="head">${index === 0 ? html`<h1 dir="auto">${title}</h1>` : html`<h2 class="first" dir="auto">${title}</h2>`}${
    section.aside === null ? null : html`<p dir="auto">${section.aside}</p>`
  }</div>
${section.notes.map((text) => html`<p class="note" dir="auto">${text}</p>\n`)}${section.texts.map(
  (text) => html`<p class="words" dir="auto">${text}</p>\n`,
)}${section.blocks.map((block) => blockMarkup(block, index === 0 ? 2 : 3, mark, stacks))}${section.closing.map(
  (text) => html`<p class="closing" dir="auto">${text}</p>\n`,
)}</section>
`;
}

function blockMarkup(block: Block, level: 2 | 3, mark: SourceMark, stacks: boolean): Markup {
  switch (block.kind) {
    case 'heading': {
      const inner = html`${block.text}${block.aside === null ? null : html` <span class="aside">${block.aside}</span>`}`;
      const at = mark(block.source);
      return level === 2
        ? html`<h2 dir="auto"${at}>${inner}</h2>\n`
        : html`<h3 dir="auto"${at}>${inner}</h3>\n`;
    }
    case 'text':
      return html`<p dir="auto"${mark(block.source)}>${block.text}</p>\n`;
    case 'table':
      return tableMarkup(block.table, mark, stacks);
    case 'pictures':
      return html`<div class="pictures">${block.pictures.map(pictureMarkup)}</div>\n`;
    case 'lines':
      return html`<div class="fill-in">${block.labels.map((label) => html`<p><span>${label}</span> <i class="line"></i></p>`)}</div>\n`;
  }
}

function tableMarkup(table: Table, mark: SourceMark, stacks: boolean): Markup {
  const { caption } = table;
  const aside = caption?.aside ? html` <span class="aside">${caption.aside}</span>` : null;
  return html`<table aria-label="${table.name}">
${caption ? html`<caption dir="auto"${mark(caption.source)}><b>${caption.text}</b>${aside}</caption>\n` : null}<colgroup>${table.columns.map(({ share }) => html`<col class="share-${tenths(share)}">`)}</colgroup>
<thead><tr>${table.columns.map(({ title }) => html`<th scope="col">${title}</th>`)}</tr></thead>
<tbody>
${table.rows.map((row) =>
  rowMarkup(
    row,
    table.columns.map(({ title }) => title),
    mark,
    stacks && table.columns.length > MOST_PLAIN_COLUMNS,
  ),
)}</tbody>
</table>
`;
}

function rowMarkup(row: Row, titles: readonly string[], mark: SourceMark, named: boolean): Markup {
  const at = mark(row.source);
  if (row.kind === 'band' || row.kind === 'words') {
    const aside = row.aside === null ? null : html` <span class="aside">${row.aside}</span>`;
    return row.kind === 'band'
      ? html`<tr class="band"${at}><th scope="rowgroup" colspan="${titles.length}" dir="auto">${row.text}${aside}</th></tr>\n`
      : html`<tr class="words"${at}><td colspan="${titles.length}" dir="auto">${row.text}${aside}</td></tr>\n`;
  }
  if (row.kind === 'under') {
    const lines = row.lines.map((line) => runMarkup(line, mark));
    return html`<tr class="under"${at}><td colspan="${titles.length}" dir="auto">${lines}</td></tr>\n`;
  }
  return html`<tr class="${row.kind}"${at}>${row.cells.map((parts, column) =>
    column === 0 && row.kind === 'row'
      ? html`<th scope="row" dir="auto">${partsMarkup(parts, mark)}</th>`
      : html`<td dir="auto"${named ? titleOf(titles, column) : null}>${partsMarkup(parts, mark)}</td>`,
  )}</tr>\n`;
}

/** Under each other on a telephone, cells of a table with many columns have to say which is which. */
const MOST_PLAIN_COLUMNS = 4;

function titleOf(titles: readonly string[], column: number): Markup | null {
  return column > 0 ? html` data-title="${titles[column] ?? ''}"` : null;
}

/** A picture stands beside the big words before it where there is room. */
function partsMarkup(parts: readonly Part[], mark: SourceMark): readonly Markup[] {
  return parts.map((part, index) => {
    const after = parts[index + 1];
    if (part.kind === 'picture' && parts[index - 1]?.kind === 'big') return html``;
    if (part.kind !== 'big' || after?.kind !== 'picture') return partMarkup(part, mark);
    return html`<span class="beside">${partMarkup(part, mark)}${partMarkup(after, mark)}</span>`;
  });
}

/** Small words one after the other. */
function runMarkup(parts: readonly WordPart[], mark: SourceMark): Markup {
  return html`<span class="small">${parts.map(({ kind, text, source }, index) => {
    const at = mark(source);
    const words =
      kind === 'big'
        ? html`<b${at}>${text}</b>`
        : kind === 'cue'
          ? html`<i${at}>${text}</i>`
          : html`<span${at}>${text}</span>`;
    return html`${index === 0 ? '' : BETWEEN}${words}`;
  })}</span>`;
}

function partMarkup(part: Part, mark: SourceMark): Markup {
  switch (part.kind) {
    case 'big':
    case 'plain':
    case 'small':
    case 'cue':
      return html`<span class="${part.kind}"${mark(part.source)}>${part.text}</span>`;
    case 'run':
      return runMarkup(part.parts, mark);
    case 'line':
      return html`<i class="line" aria-hidden="true"></i>`;
    case 'picture':
      return pictureMarkup(part.picture);
    case 'boxes':
      return html`<span class="boxes" role="img" aria-label="${countOf(part.count, 'empty box', 'empty boxes')}">${Array.from(
        { length: part.count },
        () => html`<i class="box"></i>`,
      )}</span>`;
  }
}

function pictureMarkup(picture: Picture): Markup {
  return html`<span class="picture">${raw(picture.svg)}</span>`;
}
