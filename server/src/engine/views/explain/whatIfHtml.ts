import { plural, say } from '../../../../../grammar/say.js';
import { html, type Markup } from '../../print/markup.js';
import { capitalised, dateRangeWords, listWords, shortDate } from '../../print/words.js';
import { type FileName, lineHtml } from './explainHtml.js';
import type { ChangedFinding, ComparedBlock, ComparedCell, ComparedFinding, WhatIf } from './whatIf.js';

/** What moves, in one sentence: `2 of 10 cells move: 2 heavier. 1 finding goes.` */
export function whatIfSummary({ changed, counts, cells, come, go, change, problems }: WhatIf): string {
  if (!changed)
    return problems.size > 0
      ? say('What is written below cannot be read yet, so there is nothing to compare.')
      : say('Nothing is written differently yet.');
  const moved = counts.up + counts.down + counts.other + counts.new + counts.gone;
  const parts = [
    [counts.up, say`${counts.up} heavier`],
    [counts.down, say`${counts.down} lighter`],
    [counts.other, say`${counts.other} with other work`],
    [counts.new, say`${counts.new} new`],
    [counts.gone, say`${counts.gone} gone`],
  ] as const;
  const which = parts.flatMap(([count, words]) => (count > 0 ? [words] : []));
  const found = [
    ...(come.length > 0 ? [say`${come.length} more`] : []),
    ...(go.length > 0 ? [say`${go.length} gone`] : []),
    ...(change.length > 0 ? [say`${change.length} with other words`] : []),
  ];
  return [
    moved === 0
      ? say('No cell comes to other work.')
      : plural(
          moved,
          say`${moved} of ${cells} cells moves: ${which.join(', ')}.`,
          say`${moved} of ${cells} cells move: ${which.join(', ')}.`,
        ),
    counts.effort === 0
      ? ''
      : plural(
          counts.effort,
          say`${counts.effort} keeps its load and leaves another reserve.`,
          say`${counts.effort} keep their load and leave another reserve.`,
        ),
    found.length === 0 ? say('The findings stay the same.') : say`Findings: ${found.join(', ')}.`,
    problems.size === 0 ? '' : say('What cannot be read is left out.'),
  ]
    .filter((part) => part !== '')
    .join(' ');
}

/** What would be beside what is, as the body of a page: findings that come and go, then every block in which a cell moves. */
export function whatIfHtml(compared: WhatIf, fileName: FileName): string {
  const { client, changed, blocks, come, go, change } = compared;
  return html`<h1>${say`What if, for ${client.name}`}</h1>
<p class="source">${comparedText(compared, fileName)}</p>
${findingsHtml(say('Findings that come'), come, fileName)}
${findingsHtml(say('Findings that go'), go, fileName)}
${changesHtml(change, fileName)}
${blocks.map((block, index) => blockHtml(block, index, fileName))}
${changed && blocks.length > 0 ? html`<p class="source">${say('Rows and blocks in which nothing moves are not listed. A reserve is that of the first sets of the cell.')}</p>` : null}`
    .text;
}

/** What was compared with what, and what was not. */
function comparedText(compared: WhatIf, fileName: FileName): string {
  const { client, changed, sessions, cells, from, until, files, others, othersLeft } = compared;
  const all =
    from === null || until === null
      ? say`${client.name} has no sessions to compare.`
      : say`Compared: all ${sessions} sessions of ${client.name}, ${dateRangeWords(from, until)}, ${cells} cells; and the findings in ${listWords(files.map(fileName))}.`;
  const moved = others.map(({ name, moved: count }) =>
    plural(count, say`${name}: ${count} cell moves.`, say`${name}: ${count} cells move.`),
  );
  return [
    all,
    moved.length === 0 ? '' : say`Others with the changed kit: ${moved.join(' ')}`,
    othersLeft === 0
      ? ''
      : say`${othersLeft} further others train with the changed kit; their plans were not compared.`,
    changed ? say('No file was changed.') : '',
  ]
    .filter((part) => part !== '')
    .join(' ');
}

function findingsHtml(
  heading: string,
  findings: readonly ComparedFinding[],
  fileName: FileName,
): Markup | null {
  if (findings.length === 0) return null;
  return html`<section><h2>${heading} (${findings.length})</h2>
<ul class="findings">${findings.map(
    ({ severity, code, message, line }) =>
      html`<li><p><strong>${severityWords(severity)}</strong> ${message} <code>${code}</code></p>${lineHtml(line, fileName)}</li>`,
  )}</ul></section>
`;
}

function severityWords(severity: ComparedFinding['severity']): string {
  const words: Record<ComparedFinding['severity'], string> = {
    error: say('Error.'),
    warning: say('Warning.'),
    info: say('Information.'),
    hint: say('Hint.'),
  };
  return words[severity];
}

function changesHtml(changes: readonly ChangedFinding[], fileName: FileName): Markup | null {
  if (changes.length === 0) return null;
  return html`<section><h2>${say('Findings that say something else')} (${changes.length})</h2>
<ul class="findings">${changes.map(
    ({ before, after }) =>
      html`<li><p><strong>${severityWords(after.severity)}</strong> ${say`Now: ${before.message}`}</p><p>${say`Then: ${after.message}`} <code>${after.code}</code></p>${lineHtml(before.line, fileName)}</li>`,
  )}</ul></section>
`;
}

function blockHtml(
  { program, block, deloadWeeks, rows }: ComparedBlock,
  index: number,
  fileName: FileName,
): Markup {
  const weeks = Math.max(...rows.map((row) => row.weeks.length));
  const numbers = Array.from({ length: weeks }, (_, at) => at + 1);
  const id = `moves-${index}`;
  const head = numbers.map((week) => {
    const first = rows.flatMap((row) => row.weeks[week - 1]?.[0] ?? [])[0];
    const date = first === undefined ? null : html`<br><small>${shortDate(first.date)}</small>`;
    const words = deloadWeeks.has(week) ? say`Week ${week} (deload)` : say`Week ${week}`;
    return html`<th scope="col">${words}${date}</th>`;
  });
  return html`<section><h2 id="${id}">${block} <small>${program}</small></h2>
<div class="wide" role="region" aria-labelledby="${id}" tabindex="0"><table class="moves" aria-labelledby="${id}">
<thead><tr><th scope="col">${say('Movement')}</th>${head}</tr></thead>
<tbody>${rows.map(
    ({
      day,
      name,
      line,
      weeks: cells,
    }) => html`<tr><th scope="row">${capitalised(name)}<br><small>${day}</small>
${lineHtml({ ...line, text: '' }, fileName)}</th>${numbers.map((week) => weekHtml(cells[week - 1] ?? []))}</tr>
`,
  )}</tbody></table></div></section>
`;
}

function weekHtml(cells: readonly ComparedCell[]): Markup {
  const moved = cells.some(({ move }) => move !== null);
  return html`<td${moved ? html` class="moved"` : null}>${cells.map(cellHtml)}</td>`;
}

function cellHtml({ before, after, leftBefore, leftAfter, move }: ComparedCell): Markup {
  const left = leftBefore === leftAfter ? leftBefore : `${leftBefore || '–'} → ${leftAfter || '–'}`;
  const reserve = left === '' ? null : html`<br><small>${say`${left} left`}</small>`;
  return html`<div class="cell move-${move ?? 'none'}">${loadWords(before, after)}${reserve}</div>`;
}

function loadWords(before: string | null, after: string | null): string {
  if (before === null) return say`new: ${after ?? ''}`;
  if (after === null) return say`${before} → left out`;
  return before === after ? before : `${before} → ${after}`;
}
