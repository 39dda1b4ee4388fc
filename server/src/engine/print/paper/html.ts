/** A document as one HTML file that needs nothing else: no script, no font, no picture from outside. */

import type { Picture } from '../../plots/svg.js';
import { cssString, html, type Markup, raw } from '../markup.js';
import {
  type Block,
  PAGE_POINTS,
  type Paper,
  type PaperSection,
  type Part,
  type Row,
  type Table,
} from './document.js';
import { PAPER_STYLES } from './styles.js';

/** The HTML file. */
export function paperToHtml(paper: Paper): string {
  const [width, height] = PAGE_POINTS[paper.page];
  const size = paper.landscape ? `${height}pt ${width}pt` : `${width}pt ${height}pt`;
  const page = `@page { size: ${size}; margin: 24pt 24pt 34pt; @bottom-left { content: ${cssString(paper.footer)} } }
:root { --font: ${paper.fontPt}pt; --page: ${paper.landscape ? height : width}pt }`;
  return `<!doctype html>\n${
    html`<html lang="en">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline'">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta name="color-scheme" content="light dark">
<title>${paper.title}</title>
<style>
${raw(PAPER_STYLES)}
${raw(page)}
</style>
</head>
<body>
<main>
${paper.sections.map((section, index) => sectionMarkup(section, index))}</main>
<footer class="running" dir="auto">${paper.footer}</footer>
</body>
</html>
`.text
  }`;
}

function sectionMarkup(section: PaperSection, index: number): Markup {
  const title = html`${section.heading}`;
  return html`<section>
<div class="head">${index === 0 ? html`<h1 dir="auto">${title}</h1>` : html`<h2 class="first" dir="auto">${title}</h2>`}${
    section.aside === null ? null : html`<p dir="auto">${section.aside}</p>`
  }</div>
${section.notes.map((text) => html`<p class="note" dir="auto">${text}</p>\n`)}${section.texts.map(
  (text) => html`<p class="words" dir="auto">${text}</p>\n`,
)}${section.blocks.map((block) => blockMarkup(block, index === 0 ? 2 : 3))}${section.closing.map(
  (text) => html`<p class="closing" dir="auto">${text}</p>\n`,
)}</section>
`;
}

function blockMarkup(block: Block, level: 2 | 3): Markup {
  switch (block.kind) {
    case 'heading': {
      const inner = html`${block.text}${block.aside === null ? null : html` <span class="aside">${block.aside}</span>`}`;
      return level === 2 ? html`<h2 dir="auto">${inner}</h2>\n` : html`<h3 dir="auto">${inner}</h3>\n`;
    }
    case 'text':
      return html`<p dir="auto">${block.text}</p>\n`;
    case 'table':
      return tableMarkup(block.table);
    case 'pictures':
      return html`<div class="pictures">${block.pictures.map(pictureMarkup)}</div>\n`;
    case 'lines':
      return html`<div class="fill-in">${block.labels.map((label) => html`<p><span>${label}</span> <i class="line"></i></p>`)}</div>\n`;
  }
}

function tableMarkup(table: Table): Markup {
  const { caption } = table;
  const aside = caption?.aside ? html` <span class="aside">${caption.aside}</span>` : null;
  return html`<table aria-label="${table.name}">
${caption ? html`<caption dir="auto"><b>${caption.text}</b>${aside}</caption>\n` : null}<colgroup>${table.columns.map(({ share }) => html`<col style="width: ${(share * 100).toFixed(1)}%">`)}</colgroup>
<thead><tr>${table.columns.map(({ title }) => html`<th scope="col">${title}</th>`)}</tr></thead>
<tbody>
${table.rows.map((row) =>
  rowMarkup(
    row,
    table.columns.map(({ title }) => title),
  ),
)}</tbody>
</table>
`;
}

function rowMarkup(row: Row, titles: readonly string[]): Markup {
  if (row.kind === 'band' || row.kind === 'words') {
    const aside = row.aside === null ? null : html` <span class="aside">${row.aside}</span>`;
    return row.kind === 'band'
      ? html`<tr class="band"><th scope="rowgroup" colspan="${titles.length}" dir="auto">${row.text}${aside}</th></tr>\n`
      : html`<tr class="words"><td colspan="${titles.length}" dir="auto">${row.text}${aside}</td></tr>\n`;
  }
  return html`<tr class="${row.kind}">${row.cells.map((parts, column) =>
    column === 0 && row.kind === 'row'
      ? html`<th scope="row" dir="auto">${parts.map(partMarkup)}</th>`
      : html`<td dir="auto">${parts.map(partMarkup)}</td>`,
  )}</tr>\n`;
}

function partMarkup(part: Part): Markup {
  switch (part.kind) {
    case 'big':
    case 'plain':
    case 'small':
    case 'cue':
      return html`<span class="${part.kind}">${part.text}</span>`;
    case 'line':
      return html`<i class="line" aria-hidden="true"></i>`;
    case 'picture':
      return pictureMarkup(part.picture);
    case 'boxes':
      return html`<span class="boxes" role="img" aria-label="${part.count} empty ${part.count === 1 ? 'box' : 'boxes'}">${Array.from(
        { length: part.count },
        () => html`<i class="box"></i>`,
      )}</span>`;
  }
}

function pictureMarkup(picture: Picture): Markup {
  return html`<span class="picture">${raw(picture.svg)}</span>`;
}
