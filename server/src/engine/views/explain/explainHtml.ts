import { say } from '../../../../../grammar/say.js';
import { html, type Markup } from '../../print/markup.js';
import { sourceData } from '../../print/source.js';
import { capitalised, fullDayWords } from '../../print/words.js';
import type { ExplainedGroup, ExplainedStep, Explanation } from './explain.js';
import type { SourceLine } from './sourceLine.js';

/** The name of a file as people know it. */
export type FileName = (file: string) => string;

/** The reasons as the body of a page: a heading for each set group, and its steps in order. Nothing in it is styled. */
export function explainHtml(explanation: Explanation, fileName: FileName): string {
  const { movement, client, program, block, day, week, deload, date, row, groups } = explanation;
  const where = [
    program,
    block,
    deload ? say`week ${week} (deload)` : say`week ${week}`,
    day,
    fullDayWords(date),
  ];
  return html`<h1>${say`${capitalised(movement)} for ${client.name}`}</h1>
<p class="where">${where.join(' · ')}</p>
${lineHtml(row, fileName)}
${groups.map((group) => groupHtml(group, fileName))}`.text;
}

function groupHtml({ heading, facts, steps }: ExplainedGroup, fileName: FileName): Markup {
  const empty = html`<p>${say('Nothing is known that a load could rest on.')}</p>`;
  return html`<section>
<h2>${heading}</h2>
<p class="facts">${facts.join(' · ')}</p>
${steps.length === 0 ? empty : html`<ol class="steps">${steps.map((step) => stepHtml(step, fileName))}</ol>`}
</section>
`;
}

function stepHtml({ kind, heading, text, value, lines, source }: ExplainedStep, fileName: FileName): Markup {
  return html`<li class="step step-${kind}">
<h3>${heading}${value === null ? null : html` <strong class="value">${value}</strong>`}</h3>
${text === '' ? null : html`<p>${text}</p>`}
${lines.map((line) => lineHtml(line, fileName))}
${source === null ? null : html`<p class="source">${say`Source: ${source}`}</p>`}
</li>
`;
}

/** A line of a file, with a button that leads there. */
export function lineHtml(line: SourceLine, fileName: FileName): Markup {
  const name = fileName(line.place.file);
  return html`<p class="line"><button type="button"${sourceData(line.place)}>${say`${name}, line ${line.line}`}</button>${line.text === '' ? null : html` <code>${line.text}</code>`}</p>`;
}

/** In place of a page: what is missing, and what to do. */
export function emptyHtml(heading: string, text: string): string {
  return html`<h1>${heading}</h1><p>${text}</p>`.text;
}
