import type { CellNode } from '../../../../grammar/index.js';
import { plural, say } from '../../../../grammar/say.js';
import type { ResolvedCell } from '../model.js';
import type { EngineSession } from '../session.js';
import type { Hover } from './hover.js';
import { itemHelp } from './hoverWord.js';
import { byClientName, isOwnBlock, type PlacedRow, writtenSpan } from './rows.js';
import { escapeMarkdown, touches } from './text.js';
import { doseText, issueText, loadText, platesText, reserveText, shareText } from './words.js';

/** So many clients have their reasons spelled out; more would not fit a hover. */
const MOST_REASONS = 4;
/** So many lines a table may have. */
const MOST_LINES = 24;
/** So many notes may stand under it. */
const MOST_NOTES = 12;

/** A cell: the loads of every client who follows the program, why they are so, and what is written. */
export function cellHover(
  session: EngineSession,
  text: string,
  placed: PlacedRow,
  node: CellNode,
  resolved: readonly ResolvedCell[],
  offset: number,
): Hover | null {
  const written = writtenSpan(text, node);
  const item = node.groups.flatMap((group) => group.items).find(({ span }) => touches(span, offset));
  const help = item ? itemHelp(item) : null;
  // The last cell of a short row holds for the weeks after it too.
  const isLast = placed.row.cells[placed.row.cells.length - 1] === node;
  const cells = resolved
    .filter((cell) => cell.cellIndex === node.index || (isLast && cell.cellIndex === null))
    .sort(ownFirst);
  const parts: string[] = [];
  if (node.broken) {
    parts.push(say('There is a mistake in this cell, so nothing is worked out from it.'));
  } else if (cells.length > 0) {
    parts.push(
      title(placed, cells[0] as ResolvedCell),
      table(cells),
      ...notes(cells),
      ...reasonsOf(session, cells),
    );
  } else if (resolved.length === 0) {
    parts.push(say`Nobody follows ${strong(placed.program.name.text)} yet, so there is no load to work out.`);
  }
  if (help !== null && item) parts.push(`\`${code(text.slice(item.span.start, item.span.end))}\`: ${help}`);
  if (parts.length === 0) return null;
  return { span: written, markdown: parts.join('\n\n'), explains: !node.broken && cells.length > 0 };
}

/** All weeks of a row, by client. */
export function rowHover(resolved: readonly ResolvedCell[]): string {
  const own = [...resolved].sort(ownFirst);
  return own.length === 0 ? '' : table(own);
}

function ownFirst(a: ResolvedCell, b: ResolvedCell): number {
  const owned = Number(isOwnBlock(b)) - Number(isOwnBlock(a));
  return owned !== 0 ? owned : byClientName(a, b);
}

function title(placed: PlacedRow, cell: ResolvedCell): string {
  const label = placed.row.label === null ? '' : ` (${placed.row.label.text})`;
  const deload = cell.deload ? say(', deload') : '';
  return say`${strong(placed.row.movement.text + label)}, ${escapeMarkdown(placed.block.name.text)}, week ${cell.week}${deload}`;
}

function table(cells: readonly ResolvedCell[]): string {
  const severalBlocks = new Set(cells.map((cell) => cell.block.key)).size > 1;
  const lines = cells.flatMap((cell) =>
    cell.groups.map((group) => {
      const { units } = cell.client;
      const load = loadText(group, units);
      const shown =
        load === '' && group.issue !== null
          ? say('no load')
          : `${group.provisional && load !== '' ? '~ ' : ''}${load}`;
      const week = severalBlocks ? `${cell.block.name}, ${cell.week}` : `${cell.week}`;
      return [
        cell.client.name,
        `${week}${cell.deload ? say(' (deload)') : ''}`,
        cell.date,
        doseText(group) + (cell.perSide ? say(' each side') : ''),
        shown,
        platesText(group, units) + (group.bar === null ? '' : say` (${group.bar} bar)`),
        reserveText(group),
        shareText(group),
      ].map(cellOf);
    }),
  );
  const head = [
    say('Client'),
    say('Week'),
    say('Date'),
    say('Sets'),
    say('Load'),
    say('Each side'),
    say('In reserve'),
    say('Of the max'),
  ];
  const rows = [head, head.map(() => '---'), ...lines.slice(0, MOST_LINES)].map(
    (row) => `| ${row.join(' | ')} |`,
  );
  const left = lines.length - MOST_LINES;
  return rows.join('\n') + (left > 0 ? say`\n\n… and ${left} more lines in the plan.` : '');
}

/** What a coach has to know beside the numbers, each thing once. */
function notes(cells: readonly ResolvedCell[]): string[] {
  const told = new Set<string>();
  for (const cell of cells) {
    const name = cell.client.name;
    if (cell.swap !== null)
      told.add(say`${name} does ${cell.movement?.name ?? cell.swap.toName.text} instead.`);
    if (cell.kit === null) told.add(say`${name} has no kit on this day.`);
    if (cell.backShare < 1)
      told.add(say`${name} is just back: ${Math.round(cell.backShare * 100)} % of the target.`);
    if (cell.test !== null) told.add(say`${name} works up to the heaviest ${cell.test.reps} that leave one.`);
    for (const group of cell.groups) {
      if (group.issue !== null) told.add(`${name}: ${issueText(group.issue)}.`);
      if (group.provisional && group.provisionalReason !== null) {
        told.add(say`${name}: the load is provisional (${group.provisionalReason}).`);
      }
    }
  }
  return told.size === 0
    ? []
    : [
        [...told]
          .slice(0, MOST_NOTES)
          .map((line) => `- ${escapeMarkdown(line)}`)
          .join('\n'),
      ];
}

function reasonsOf(session: EngineSession, cells: readonly ResolvedCell[]): string[] {
  const firstOfClient = cells.filter(
    (cell, index) => cells.findIndex((other) => other.client.key === cell.client.key) === index,
  );
  const parts = firstOfClient.slice(0, MOST_REASONS).flatMap((cell) =>
    cell.groups.flatMap((_, index) => {
      const steps = session.reasons(cell, index);
      if (steps.length === 0) return [];
      const group = cell.groups.length > 1 ? say`, group ${index + 1}` : '';
      const list = steps.map((step, at) => `${at + 1}. ${escapeMarkdown(step.text)}`).join('\n');
      return [say`Why, for ${strong(cell.client.name)}${group}, ${cell.date}:\n\n${list}`];
    }),
  );
  const left = firstOfClient.length - MOST_REASONS;
  if (left > 0)
    parts.push(
      plural(
        left,
        say`The reasons of ${left} more client are not listed here.`,
        say`The reasons of ${left} more clients are not listed here.`,
      ),
    );
  return parts;
}

function strong(text: string): string {
  return `**${escapeMarkdown(text)}**`;
}

function cellOf(text: string): string {
  return escapeMarkdown(text.replace(/\s+/g, ' ').trim());
}

/** Written text inside a code mark; a backtick would end it. */
function code(text: string): string {
  return text.replace(/`/g, "'").replace(/[\r\n]+/g, ' ');
}
