/** The plan as one HTML file that needs nothing else: no script, no font, no picture from outside. */

import { say, textLanguage } from '../../../../grammar/say.js';
import { platesPicture } from '../plots/plates.js';
import { countOf } from '../words.js';
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
import { cssString, html, type Markup, pageCounter, raw } from './markup.js';
import type { PaperSize } from './paper/document.js';
import { type HtmlParts, type HtmlPartsOptions, noSource, type SourceMark, sourceData } from './source.js';
import { PLAN_STYLES, sizeClass } from './styles.js';

/** The HTML file of a plan. */
export function planToHtml(plan: PlanDocument, size: PaperSize = 'a4'): string {
  const { title, css, body } = planParts(plan, size);
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

/** Style sheet and body of a plan, for a file or a panel. */
export function planParts(
  plan: PlanDocument,
  size: PaperSize = 'a4',
  { sources = false }: HtmlPartsOptions = {},
): HtmlParts {
  const pageFooter = `@page { ${size === 'letter' ? 'size: letter; ' : ''}@bottom-left { content: ${cssString(plan.footer)} } @bottom-right { content: ${pageCounter()} } }`;
  const mark = sources ? sourceData : noSource;
  const body = html`<main>
${cover(plan)}
${plan.weeks.map((week) => weekSection(week, mark))}
</main>
<footer class="running" dir="auto">${plan.footer}</footer>`;
  return { title: `${plan.title}: ${plan.programs}`, css: `${PLAN_STYLES}\n${pageFooter}`, body: body.text };
}

function cover(plan: PlanDocument): Markup {
  return html`<header class="cover">
<h1 dir="auto">${plan.title}</h1>
<p class="program" dir="auto">${plan.programs}</p>
${plan.notices.map((text) => html`<p class="notice">${text}</p>\n`)}<dl class="facts">
${plan.facts.map(({ label, value }) => html`<div><dt>${label}</dt><dd dir="auto">${value}</dd></div>\n`)}</dl>
${
  plan.care.length === 0
    ? null
    : html`<section class="care">
<h2>${say('For you')}</h2>
<ul>
${plan.care.map((text) => html`<li dir="auto">${text}</li>\n`)}</ul>
</section>`
}
<section class="cautions">
<h2>${say('Take care')}</h2>
<div class="frame">
${plan.cautions.map(({ heading, text }) => html`<p><strong>${heading}:</strong> ${text}</p>\n`)}</div>
</section>
<section class="reading">
<h2>${say('How to read this plan')}</h2>
<dl>
${plan.howToRead.map(({ term, meaning }) => html`<div><dt>${term}</dt><dd>${meaning}</dd></div>\n`)}</dl>
</section>
</header>`;
}

function weekSection(week: WeekSheet, mark: SourceMark): Markup {
  return html`<section class="week ${sizeClass(week.fontPt)}">
<div class="week-head"><h2 dir="auto"${mark(week.source)}>${week.heading}</h2><p>${week.dates}</p></div>
${week.program === null ? null : html`<p class="program" dir="auto">${week.program}</p>\n`}${week.notes.map(
  (text) => html`<p class="week-note">${text}</p>\n`,
)}${week.texts.map((text) => html`<p class="coach" dir="auto">${text}</p>\n`)}${week.days.map((day) => daySection(day, mark))}</section>
`;
}

function daySection(day: DaySheet, mark: SourceMark): Markup {
  return html`${
    day.continued === undefined ? null : html`<p class="continued" dir="auto">${day.continued}</p>\n`
  }<table>
<caption${mark(day.source)}><span class="day" dir="auto">${day.name}</span> <span class="when" dir="auto">${day.when}</span></caption>
<thead><tr>${columns().map((title) => html`<th scope="col">${title}</th>`)}</tr></thead>
<tbody>
${day.entries.map((entry) => entryRows(entry, mark))}</tbody>
</table>
<div class="session-lines">${sessionLines().map((label) => html`<p><span>${label}</span> <i class="line"></i></p>`)}</div>
`;
}

function entryRows(entry: EntrySheet, mark: SourceMark): Markup {
  switch (entry.kind) {
    case 'movement':
      return movementRows(entry.movement, mark);
    case 'text':
      return html`<tr class="coach"><td colspan="${columns().length}" dir="auto">${entry.text}</td></tr>\n`;
    case 'circuit':
      return html`<tr class="circuit"><th scope="rowgroup" colspan="${columns().length}" dir="auto">${entry.heading} <span>${entry.how}</span></th></tr>\n`;
  }
}

function movementRows(movement: MovementSheet, mark: SourceMark): Markup {
  const under = underLines(movement);
  return html`${movement.work.map(
    (work, index) =>
      html`<tr class="${rowClass(movement, index)}"${mark(movement.source)}>${
        index === 0 ? movementCell(movement) : html`<td class="then">${say('then')}</td>`
      }<td><b class="big">${work.dose}</b>${small(work.effort)}</td><td>${loadCell(work)}</td><td class="last">${lastLines(work).map(small)}</td><td class="boxes">${boxes(work.boxes)}</td></tr>\n`,
  )}${
    under.length === 0
      ? null
      : html`<tr class="${movement.inCircuit ? 'inside under' : 'under'}"${mark(movement.source)}><td colspan="${columns().length}" dir="auto">${under.map(
          (line) =>
            html`<span class="small">${line.map(({ kind, text }, index) => html`${index === 0 ? '' : BETWEEN}${underPiece(kind, text)}`)}</span>`,
        )}</td></tr>\n`
  }`;
}

function underPiece(kind: UnderPiece['kind'], text: string): Markup {
  if (kind === 'plain') return html`<span>${text}</span>`;
  return kind === 'cue' ? html`<span class="cue">${text}</span>` : html`<b class="coach">${text}</b>`;
}

function rowClass(movement: MovementSheet, index: number): string {
  return [movement.inCircuit ? 'inside' : '', index > 0 ? 'more' : ''].join(' ').trim();
}

function movementCell(movement: MovementSheet): Markup {
  return html`<th scope="row" dir="auto"><b class="big">${movement.name}</b>${small(besideWords(movement))}</th>`;
}

function loadCell(work: WorkSheet): Markup {
  const drawn = work.side
    ? html`<span class="plates">${raw(platesPicture(work.side.eachSideKg, work.side.unit).svg)}</span>`
    : null;
  return html`${work.chooseLoad ? html`<i class="line" aria-hidden="true"></i>` : null}${
    work.load === null ? null : html`<span class="load"><b class="big">${work.load}</b>${drawn}</span>`
  }${small(work.plates)}`;
}

function small(text: string | null): Markup | null {
  return text === null || text === '' ? null : html`<span class="small">${text}</span>`;
}

function boxes(count: number): Markup {
  return html`<span class="box-row" role="img" aria-label="${countOf(count, 'empty box', 'empty boxes')}">${Array.from(
    { length: count },
    () => html`<i class="box"></i>`,
  )}</span>`;
}
