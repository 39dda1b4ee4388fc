import { type CellItem, type FileTree, type SectionKind, VOCABULARY } from '../../../../grammar/index.js';
import { say } from '../../../../grammar/say.js';
import { formatNumber } from '../numbers.js';
import { formatMass } from '../units.js';
import { countOf } from '../words.js';
import { contextAt } from './context.js';
import type { Hover } from './hover.js';
import { escapeMarkdown, lineSpanAt } from './text.js';

/** What an item of a cell says, in a sentence; Markdown. */
export function itemHelp(item: CellItem): string | null {
  switch (item.kind) {
    case 'dose':
      return doseHelp(item);
    case 'off':
      return say`${formatNumber(item.seconds)} seconds of recovery between intervals.`;
    case 'reserve':
      return say`${formatNumber(item.reserve, 1)} repetitions in reserve after the last set${item.writtenAs === 'rpe' ? say(' (10 less the effort)') : ''}.`;
    case 'percent':
      return say`${formatNumber(item.percent, 2)} % of the estimated one-repetition maximum.`;
    case 'load':
      return say`This load, ${escapeMarkdown(formatMass(item.mass.value, item.mass.unit))}; for a pair of dumbbells, each one.`;
    case 'bodyweight':
      return bodyweightHelp(item);
    case 'pack':
      return say`A backpack loaded with ${formatMass(item.mass.value, item.mass.unit)}.`;
    case 'band':
      return say`The band “${escapeMarkdown(item.band.text)}” of the kit.`;
    case 'change-percent':
      return say`The target of the week before, ${signed(item.percent)} %. Small steps add up before the load is rounded.`;
    case 'change-mass':
      return say`${signed(item.mass.value)} ${item.mass.unit} against the load of the last working week.`;
    case 'step':
      return item.direction === 'up'
        ? say('The next load up that the kit can make.')
        : say('The next load down that the kit can make.');
    case 'weekly':
      return say('This change again every week to the end of the block; deload weeks do not count.');
    case 'side':
      return say('Each side. Holds until `no side`.');
    case 'rest':
      return say`${formatNumber(item.seconds)} seconds of rest between sets. Holds until \`no rest\`.`;
    case 'tempo':
      return say`${item.tempo[0]} seconds down, ${item.tempo[1]} seconds pause, ${item.tempo[2]} seconds up. Holds until \`no tempo\`.`;
    case 'height':
      return say`Seat, step or hands at ${formatNumber(item.cm, 1)} cm. Holds until \`no height\`.`;
    case 'warm':
      return say('A warm-up ramp is printed before it. Holds until `no warm`.');
    case 'no':
      return item.what === 'deload'
        ? say('This row trains on in a deload week.')
        : say`\`${item.what}\` ends here.`;
    case 'test':
      return say`This week only: work up to the heaviest ${item.reps} that leave one.`;
    case 'week':
      return say`This cell is week ${item.week}; the weeks between repeat the one before.`;
    case 'left-out':
      return say('Left out this week. An empty cell after it takes the work up again.');
    case 'stop':
      return say('Left out from here on.');
    case 'text':
      return say('Printed with the movement.');
  }
}

function signed(value: number): string {
  return `${value < 0 ? '−' : '+'}${formatNumber(Math.abs(value), 2)}`;
}

function doseHelp(item: Extract<CellItem, { kind: 'dose' }>): string {
  const { sets, amount } = item;
  const setsPart = sets === null ? '' : countOf(sets, 'set');
  if (amount === null) return say`${setsPart}; the repetitions stay as they were.`;
  const each = amountHelp(amount);
  return sets === null ? say`${each}; the sets stay as they were.` : say`${setsPart} of ${each}.`;
}

function amountHelp(amount: NonNullable<Extract<CellItem, { kind: 'dose' }>['amount']>): string {
  if (amount.kind === 'seconds') return say`${formatNumber(amount.seconds)} seconds`;
  if (amount.kind === 'metres') return say`${formatNumber(amount.metres)} metres`;
  const { reps } = amount;
  if (reps.kind === 'open') return say('as many repetitions as leave the reserve');
  if (reps.lower !== reps.upper) {
    return say`${reps.lower} to ${reps.upper} repetitions: the load is for ${reps.lower}; when all sets reach ${reps.upper}, the next load is due`;
  }
  return countOf(reps.lower, 'repetition');
}

function bodyweightHelp(item: Extract<CellItem, { kind: 'bodyweight' }>): string {
  if (item.added === null) return say('Bodyweight.');
  const mass = formatMass(Math.abs(item.added.value), item.added.unit);
  return item.added.value < 0 ? say`Bodyweight, with ${mass} of help.` : say`Bodyweight and ${mass} more.`;
}

/** The opener or label at an offset: what it means, with an example. */
export function wordHover(text: string, tree: FileTree, offset: number): Hover | null {
  const line = lineSpanAt(text, offset);
  const written = text.slice(line.start, line.end);
  const first = /^\s*([^\s:][^:"|,]*?)\s*(?:[:"|,]|$)/.exec(written);
  if (!first) return null;
  const labelStart = line.start + written.indexOf(first[1] as string);
  const colon = written.indexOf(':');
  const label = (first[1] as string).toLowerCase().replace(/\s+/g, ' ');
  const context = contextAt(text, tree, offset);
  if (colon >= 0) {
    const end = labelStart + (first[1] as string).length;
    if (offset > end) return null;
    const statements = VOCABULARY.statements[context.section ?? 'program'] ?? [];
    const entry = statements.find(({ word }) => word === label || label.startsWith(`${word} `));
    return entry ? { span: { start: labelStart, end }, markdown: entryMarkdown(entry) } : null;
  }
  const word = label.split(' ')[0] as string;
  if (!Object.hasOwn(VOCABULARY.openers, word) || offset > labelStart + word.length) return null;
  const entry = VOCABULARY.openers[word as SectionKind];
  return { span: { start: labelStart, end: labelStart + word.length }, markdown: entryMarkdown(entry) };
}

function entryMarkdown(entry: { word: string; help: string; example: string }): string {
  return `**${escapeMarkdown(entry.word)}**: ${entry.help}\n\n\`\`\`stave\n${entry.example}\n\`\`\``;
}
