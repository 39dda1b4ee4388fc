/** The printed plan as Markdown, for wherever a page of text is read. */

import { say } from '../../../../grammar/say.js';
import {
  type DaySheet,
  type EntrySheet,
  type MovementSheet,
  type PlanDocument,
  restWords,
  type WeekSheet,
  type WorkSheet,
} from '../print/document.js';

/** Text that stays text: nothing in it makes a heading, a link, a tag or a new cell. */
export function escapeMarkdown(text: string): string {
  return text
    .replace(/[\p{Cc}\u202a-\u202e\u2066-\u2069]+/gu, ' ')
    .replace(/[\\`*_{}[\]<>|~#&!]/g, (character) => `\\${character}`)
    .replace(
      /^(\s*)([-+]|\d+[.)])(?=\s)/,
      (_all, space: string, mark: string) => `${space}${mark.slice(0, -1)}\\${mark.slice(-1)}`,
    )
    .replace(/(https?):\/\//gi, '$1:\\/\\/')
    .replace(/\bwww\./gi, (found) => `${found.slice(0, -1)}\\.`);
}

/** The whole plan with the words of the HTML and PDF. */
export function planMarkdown(plan: PlanDocument): string {
  const parts = [
    `# ${escapeMarkdown(plan.title)}`,
    escapeMarkdown(plan.programs),
    ...plan.notices.map((text) => `**${escapeMarkdown(text)}**`),
    plan.facts
      .map(({ label, value }) => `- ${escapeMarkdown(label)}: **${escapeMarkdown(value)}**`)
      .join('\n'),
    ...(plan.care.length === 0
      ? []
      : [say('## For you'), plan.care.map((text) => `- ${escapeMarkdown(text)}`).join('\n')]),
    say('## Take care'),
    plan.cautions
      .map(({ heading, text }) => `- **${escapeMarkdown(heading)}:** ${escapeMarkdown(text)}`)
      .join('\n'),
    say('## How to read this plan'),
    plan.howToRead
      .map(({ term, meaning }) => `- **${escapeMarkdown(term)}**: ${escapeMarkdown(meaning)}`)
      .join('\n'),
    ...plan.weeks.flatMap(weekParts),
    `*${escapeMarkdown(plan.footer)}*`,
  ];
  return `${parts.filter((part) => part !== '').join('\n\n')}\n`;
}

function weekParts(week: WeekSheet): string[] {
  return [
    `## ${escapeMarkdown(week.heading)}`,
    escapeMarkdown([week.dates, ...(week.program === null ? [] : [week.program])].join(' · ')),
    ...week.notes.map((text) => `**${escapeMarkdown(text)}**`),
    ...week.texts.map((text) => `*${escapeMarkdown(text)}*`),
    ...week.days.flatMap(dayParts),
  ];
}

function dayParts(day: DaySheet): string[] {
  const head = [
    say('| Movement | Sets × reps | Load | Last time | What you did |'),
    '| --- | --- | --- | --- | --- |',
  ];
  return [
    `### ${escapeMarkdown(day.name)}`,
    escapeMarkdown(day.when),
    [...head, ...day.entries.flatMap(entryRows)].join('\n'),
  ];
}

const cells = (...texts: string[]): string => `| ${texts.join(' | ')} |`;

function lines(texts: readonly (string | null)[]): string {
  return texts
    .filter((text) => text !== null && text !== '')
    .map((text) => escapeMarkdown(text as string))
    .join('<br>');
}

function entryRows(entry: EntrySheet): string[] {
  if (entry.kind === 'movement') return movementRows(entry.movement);
  if (entry.kind === 'text') return [cells(`*${escapeMarkdown(entry.text)}*`, '', '', '', '')];
  return [cells(`**${escapeMarkdown(entry.heading)}** ${escapeMarkdown(entry.how)}`, '', '', '', '')];
}

function movementRows(movement: MovementSheet): string[] {
  const under = lines([
    ...movement.details,
    ...movement.texts,
    movement.warmUp,
    ...movement.steps,
    movement.cue,
    movement.easier ?? null,
  ]);
  const name = `**${escapeMarkdown(movement.name)}**${under === '' ? '' : `<br>${under}`}`;
  return movement.work.map((work: WorkSheet, index) =>
    cells(
      index === 0 ? name : say('then'),
      lines([work.dose, work.effort, restWords(movement, index)]),
      lines([work.load ?? (work.chooseLoad ? say('(choose on the day)') : null), work.plates, work.note]),
      lines(work.last ?? []),
      Array.from({ length: work.boxes }, () => '☐').join(' '),
    ),
  );
}
