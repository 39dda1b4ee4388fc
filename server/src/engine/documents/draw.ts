/** From a document to what is shown or written: one drawing for the panel and for the file. */

import type { TDocumentDefinitions } from 'pdfmake/interfaces';
import { type CalendarDocument, planCalendar } from '../export/calendar.js';
import { planCsv } from '../export/csv.js';
import { planJson } from '../export/json.js';
import { planMarkdown } from '../export/markdown.js';
import { planParts, planToHtml } from '../print/html.js';
import { largePlan } from '../print/largePlan.js';
import type { Paper } from '../print/paper/document.js';
import { paperParts, paperToHtml } from '../print/paper/html.js';
import { paperToPdfDefinition } from '../print/paper/pdf.js';
import { planToPdfDefinition } from '../print/pdfDefinition.js';
import type { HtmlParts } from '../print/source.js';
import type { Drawing } from './kind.js';

/** Style sheet and body for a panel, with the places in the text from which each part comes. */
export function panelParts(drawing: Drawing): HtmlParts {
  const options = { sources: true };
  if (drawing.form === 'page') return drawing.parts(options);
  if (drawing.form === 'paper') return paperParts(drawing.paper, options);
  const { document, size, large } = drawing;
  return large ? paperParts(largePlan(document, size), options) : planParts(document, size, options);
}

/**
 * The style sheet of a document for a sheet that lies in another page: its root is the sheet (`:host`), and paper
 * stays white where the screen around it is dark.
 */
export function sheetStyles(css: string): string {
  return css
    .replace(/:root\b/g, ':host')
    .replace(/(^|[}\s])body(?=\s*\{)/g, '$1.sheet')
    .replace(/@media[^{]*prefers-color-scheme:\s*dark[^{]*\{/g, '@media not all {')
    .replace(/color-scheme: light dark/g, 'color-scheme: light');
}

/** The papers that may have to be set smaller to stay on their page. */
export function paperOf(drawing: Drawing): Paper | null {
  if (drawing.form === 'paper') return drawing.paper;
  return drawing.form === 'plan' && drawing.large ? largePlan(drawing.document, drawing.size) : null;
}

/** The HTML file. `fitted` takes the place of a paper that was set smaller. */
export function htmlFile(drawing: Drawing, fitted: Paper | null): string {
  if (drawing.form === 'page') return drawing.file();
  if (fitted) return paperToHtml(fitted);
  return drawing.form === 'paper' ? paperToHtml(drawing.paper) : planToHtml(drawing.document, drawing.size);
}

/** The definition of the PDF; null where there is none. */
export function pdfDefinition(
  drawing: Drawing,
  fitted: Paper | null,
  madeAt: Date,
): TDocumentDefinitions | null {
  if (drawing.form === 'page') return null;
  if (fitted) return paperToPdfDefinition(fitted, madeAt);
  return drawing.form === 'paper'
    ? paperToPdfDefinition(drawing.paper, madeAt)
    : planToPdfDefinition(drawing.document, madeAt, drawing.size);
}

/** A plan for other programs; null for what is not a plan. */
export function dataFile(drawing: Drawing, format: 'csv' | 'json' | 'md'): string | null {
  if (drawing.form !== 'plan') return null;
  if (format === 'md') return planMarkdown(drawing.document);
  const data = planJson(drawing.plan, { from: null, until: null, printedOn: drawing.printedOn });
  return format === 'csv' ? planCsv(data) : `${JSON.stringify(data, null, 2)}\n`;
}

/** The sessions of a plan as a calendar; null for what is not a plan. */
export function calendarOf(drawing: Drawing): CalendarDocument | null {
  return drawing.form === 'plan' ? planCalendar(drawing.plan, null, null, drawing.world) : null;
}
