import type { BlockNode, ProgramNode, RowNode, Span, TextEdit } from '../../../../../grammar/index.js';
import { say } from '../../../../../grammar/say.js';
import type { EngineSession } from '../../session.js';
import { applyEdits } from '../format.js';
import { keepLayout } from '../onEnter.js';
import { rowsOf, writtenSpan } from '../rows.js';
import { lineSpanAt } from '../text.js';
import { smallest } from './fixedLoads.js';
import { mergedCell } from './mergeCells.js';
import { loggedIn } from './moveDay.js';
import { changeWords, type RefactorResult, refuse, tried } from './refactoring.js';
import { weekItem, weeksOfCells } from './rowText.js';
import { changesBetween, type WorkKey, withEdits, worksOf } from './trial.js';

export interface WeekChange {
  readonly session: EngineSession;
  readonly file: string;
  /** Anywhere in the block; in a row, its week is the one that is meant. */
  readonly offset: number;
  /** `insert` puts a week that repeats this one behind it; `remove` takes this one away. */
  readonly change: 'insert' | 'remove';
  /** Which week; without it the one at the offset, or the last. */
  readonly week?: number;
}

/**
 * Puts a week into a block or takes one out: the columns of all its days, its number of weeks, its deloads, `wk` jumps,
 * `effort:` and `rounds:`. What a week states and later weeks rest on is carried over. Refused, with the reason, where
 * another week would come to other work.
 */
export function changeWeeks(asked: WeekChange): RefactorResult {
  const { session, file, offset, change } = asked;
  const text = session.text(file) ?? '';
  const found = blockAt(session, file, offset);
  if (!found) return refuse(say('The cursor is in no block. Put it into a row, or on the line of a block.'));
  const { program, block } = found;
  const problem = notHere(session, program, block);
  if (problem !== null) return refuse(problem);
  const weeks = block.weeks?.value ?? 0;
  const week = asked.week ?? weekAt(text, block, offset) ?? weeks;
  if (week < 1 || week > weeks)
    return refuse(say`The block has ${weeks} weeks, so there is no week ${week}.`);
  if (change === 'remove' && weeks === 1)
    return refuse(say('The block has one week only. Remove the block instead.'));
  const from = change === 'insert' ? week + 1 : week;
  const logged = loggedIn(session, program.name.key, block.name.key, from);
  if (logged)
    return refuse(
      say`${logged} has trained week ${from} or a later one already. What was done stays where it is.`,
    );
  const edits = change === 'insert' ? insertWeek(text, block, week) : removeWeek(text, block, week);
  const after = laidOut(text, block, edits);
  const rewrite = { edits: [{ file, ...smallest(text, after) }], newFiles: [] };
  const renamed = (key: WorkKey): WorkKey | null => {
    if (key.program !== program.name.key || key.block !== block.name.key) return key;
    if (change === 'insert') return key.week > week ? { ...key, week: key.week + 1 } : key;
    if (key.week === week) return null;
    return key.week > week ? { ...key, week: key.week - 1 } : key;
  };
  const wrong = differently(asked, program, rewrite.edits[0] as TextEdit & { file: string }, renamed);
  if (wrong !== null) return refuse(wrong);
  // Dates move, and with them which max a later week rests on; only a heavier load stands in the way.
  return tried(session, rewrite, { renamed, intended: ({ raised, after: now }) => !raised && now !== null });
}

function blockAt(session: EngineSession, file: string, offset: number) {
  for (const program of session.tree(file)?.value.sections ?? []) {
    if (program.kind !== 'program') continue;
    const text = session.text(file) ?? '';
    const block = program.blocks.find(
      ({ span }) => lineSpanAt(text, span.start).start <= offset && offset <= lineSpanAt(text, span.end).end,
    );
    if (block) return { program, block };
  }
  return null;
}

/** Why weeks of this block cannot be moved; null where they can. */
function notHere(session: EngineSession, program: ProgramNode, block: BlockNode): string | null {
  if (block.like)
    return say`Block ${block.name.text} is like ${block.like.block.text}, whose rows it takes over. Change the weeks there, or write its rows out first.`;
  if (!block.weeks) return say`Block ${block.name.text} does not say how many weeks it has.`;
  const damaged = block.damaged.length > 0 || block.days.some((day) => day.damaged.length > 0);
  if (damaged || rowsIn(block).some(({ cells }) => cells.some(({ broken }) => broken)))
    return say('A mistake in this block has to be put right first.');
  for (const other of session.world().programs.values()) {
    const like = other.node.blocks.find(
      (each) =>
        each.like?.block.key === block.name.key && (each.like.program?.key ?? other.key) === program.name.key,
    );
    if (like)
      return say`Block ${like.name.text} of ${other.name} is like this one, and its own weeks would no longer fit. Write its rows out first.`;
  }
  return null;
}

function rowsIn(block: BlockNode): RowNode[] {
  return block.days.flatMap(({ entries }) =>
    entries.flatMap((entry) =>
      entry.kind === 'row'
        ? [entry]
        : entry.kind === 'circuit'
          ? entry.entries.flatMap((each) => (each.kind === 'row' ? [each] : []))
          : [],
    ),
  );
}

/** The week of the cell at an offset. */
function weekAt(text: string, block: BlockNode, offset: number): number | null {
  for (const row of rowsIn(block)) {
    const last = row.cells[row.cells.length - 1];
    if (!last || offset < row.span.start || offset > lineSpanAt(text, last.span.end).end) continue;
    if (offset <= row.nameSpan.end) return null;
    const index = row.cells.findLastIndex(({ span }) => span.start <= offset);
    return weeksOfCells(row)[Math.max(0, index)] ?? null;
  }
  return null;
}

// ---------------------------------------------------------------- edits

function at(offset: number, newText: string): TextEdit {
  return { span: { start: offset, end: offset }, newText };
}

/** The number of weeks and the deload weeks after every later week moved by one. */
function headerEdits(text: string, block: BlockNode, week: number, by: 1 | -1): TextEdit[] {
  const edits: TextEdit[] = [];
  if (block.weeks) edits.push({ span: block.weeks.span, newText: String(block.weeks.value + by) });
  const kept = block.deloadWeeks.filter(({ value }) => by === 1 || value !== week);
  const first = block.deloadWeeks[0];
  const last = block.deloadWeeks[block.deloadWeeks.length - 1];
  if (!first || !last) return edits;
  if (kept.length === 0) {
    const head = text.slice(0, first.span.start);
    const comma = head.lastIndexOf(',');
    return [...edits, { span: { start: comma, end: last.span.end }, newText: '' }];
  }
  const newText = kept.map(({ value }) => (value > week ? value + by : value)).join(' ');
  return [...edits, { span: { start: first.span.start, end: last.span.end }, newText }];
}

/** `effort:` and `rounds:` lines of the block, its days and its circuits. */
function weekLines(block: BlockNode): { readonly span: Span; readonly cells: readonly unknown[] }[] {
  const circuits = block.days.flatMap(({ entries }) =>
    entries.flatMap((entry) => (entry.kind === 'circuit' ? [entry] : [])),
  );
  return [
    block.effort,
    ...block.days.map(({ effort }) => effort),
    ...circuits.map((each) => each.roundsByWeek),
  ].filter((line) => line !== null);
}

function pipesIn(text: string, span: Span): number[] {
  const pipes: number[] = [];
  for (let place = span.start; place < lineSpanAt(text, span.start).end; place++)
    if (text[place] === '|') pipes.push(place);
  return pipes;
}

function insertWeek(text: string, block: BlockNode, week: number): TextEdit[] {
  const edits = headerEdits(text, block, week, 1);
  for (const row of rowsIn(block)) {
    const weeks = weeksOfCells(row);
    for (const cell of row.cells) {
      const jump = weekItem(cell);
      if (jump && jump.week > week) edits.push({ span: jump.span, newText: `wk${jump.week + 1}` });
    }
    const before = weeks.findLastIndex((each) => each <= week);
    const next = row.cells[before + 1];
    const cell = row.cells[before];
    if (cell && next && !weekItem(next)) edits.push(at(writtenSpan(text, cell).end, ' |'));
  }
  for (const line of weekLines(block)) {
    const pipe = pipesIn(text, line.span)[week - 1];
    if (pipe !== undefined && line.cells.length > week) edits.push(at(pipe, '| '));
  }
  return edits;
}

function removeWeek(text: string, block: BlockNode, week: number): TextEdit[] {
  const edits = headerEdits(text, block, week, -1);
  const deload = block.deloadWeeks.some(({ value }) => value === week);
  for (const row of rowsIn(block))
    edits.push(...removeFromRow(text, row, week, deload, block.weeks?.value ?? 0));
  for (const line of weekLines(block)) {
    const pipes = pipesIn(text, line.span);
    if (line.cells.length < week) continue;
    const colon = text.indexOf(':', line.span.start) + 1;
    const bounds = [colon - 1, ...pipes, lineEndWithoutNote(text, line.span)];
    const cellText = (index: number): string =>
      text.slice((bounds[index] ?? 0) + 1, bounds[index + 1] ?? 0).trim();
    const carried = deload || cellText(week) !== '' ? cellText(week) : cellText(week - 1);
    const last = line.cells.length === week;
    if (last && week > 1) {
      edits.push({ span: { start: bounds[week - 1] as number, end: bounds[week] as number }, newText: '' });
    } else if (!last) {
      const span = { start: (bounds[week - 1] as number) + 1, end: bounds[week + 1] as number };
      edits.push({ span, newText: ` ${carried} ` });
    }
  }
  return edits;
}

function lineEndWithoutNote(text: string, span: Span): number {
  return span.start + text.slice(span.start, span.end).trimEnd().length;
}

function removeFromRow(text: string, row: RowNode, week: number, deload: boolean, total: number): TextEdit[] {
  const edits: TextEdit[] = [];
  const weeks = weeksOfCells(row);
  const index = weeks.indexOf(week);
  const cell = row.cells[index];
  const next = row.cells[index + 1];
  const merges = cell !== undefined && next !== undefined && weeks[index + 1] === week + 1;
  for (const [other, each] of row.cells.entries()) {
    const jump = weekItem(each);
    if (jump && jump.week > week && !(merges && other === index + 1))
      edits.push({ span: jump.span, newText: `wk${jump.week - 1}` });
  }
  if (!cell) return edits;
  if (merges) {
    const content = mergedCell(text, deload ? null : cell, next, weekItem(cell)?.week ?? null);
    const start = writtenSpan(text, cell).start;
    const end = writtenSpan(text, next).end;
    const space = content === '' || /\s$/.test(text.slice(0, start)) ? '' : ' ';
    return [...edits, { span: { start, end }, newText: space + content }];
  }
  if (week === total && index > 0) {
    const before = row.cells[index - 1];
    if (before)
      edits.push({ span: { start: writtenSpan(text, before).end, end: cell.span.end }, newText: '' });
    return edits;
  }
  // Nothing is written for the week behind it, which so takes this cell over, less what was for one week only.
  if (week === 1) return edits;
  const content = mergedCell(text, deload ? null : cell, null, weekItem(cell)?.week ?? null);
  return [...edits, { span: writtenSpan(text, cell), newText: content }];
}

/** The text after the edits, with columns that were under each other still so. */
function laidOut(text: string, block: BlockNode, edits: readonly TextEdit[]): string {
  const after = applyEdits(text, edits);
  const range = { start: block.span.start, end: lineSpanAt(text, block.span.end).end };
  return keepLayout(text, range, after, { start: range.start, end: range.end + after.length - text.length });
}

// ---------------------------------------------------------------- the check

const TRIAL_FILE = 'stave-trial:somebody';
const SOMEBODY = 'somebody on trial';

/**
 * The work of the other weeks as it is for somebody who has a max of everything from long before, so that dates do not
 * matter: in words what would change, or null. The loads are those of a well-stocked kit; whose they are is no matter,
 * as they are only compared.
 */
function differently(
  { session, file }: WeekChange,
  program: ProgramNode,
  edit: TextEdit & { readonly file: string },
  renamed: (key: WorkKey) => WorkKey | null,
): string | null {
  const trial = session.fork();
  trial.setFile(TRIAL_FILE, somebody(session, file, program));
  const before = worksOf(trial, [SOMEBODY]);
  const after = worksOf(withEdits(trial, [edit]), [SOMEBODY]);
  const changes = changesBetween(before, after, renamed);
  const change = changes[0];
  if (!change) return null;
  const { week, row, day } = change.before.cell;
  const words = say`Nothing was changed: week ${week} of ${row.movementName.text} (day ${day.name}) rests on this week and would come to other work. Write out in week ${week} what it should be, then try again.`;
  return change.after ? words : changeWords(change);
}

function somebody(session: EngineSession, file: string, program: ProgramNode): string {
  const world = session.world();
  const tree = session.tree(file)?.value;
  const keys = new Set(
    (tree ? rowsOf(tree) : []).filter((each) => each.program === program).map(({ row }) => row.movement.key),
  );
  const bands = new Set<string>();
  const machines = new Set<string>();
  for (const { node } of world.kits.values())
    for (const line of node.lines) {
      if (line.kind === 'bands') for (const { text } of line.bands) bands.add(text);
      if (line.kind === 'machine') machines.add(line.name.text);
    }
  const days = program.blocks.reduce((most, block) => Math.max(most, block.days.length), 1);
  const weekdays = ['mon', 'tue', 'wed', 'thu', 'fri', 'sat', 'sun'].slice(0, days).join(' ');
  const maxes = [...keys].flatMap((key) => {
    const movement = world.movements.get(key);
    if (!movement) return [];
    const load = movement.implement.kind === 'bodyweight' ? 'bw' : '100kg';
    return [`  max: ${movement.name}, ${load} x8 r1, 1999-12-01`];
  });
  return [
    'kit somewhere on trial',
    '  bar: 15kg',
    '  plates: 0.25kg x2, 0.5kg x2, 1.25kg x2, 2.5kg x2, 5kg x2, 10kg x2, 20kg x10',
    '  dumbbells: 1kg to 150kg by 1kg',
    '  kettlebells: 1kg to 150kg by 1kg',
    '  pack: to 80kg by 1kg',
    ...(bands.size > 0 ? [`  bands: ${[...bands].join(', ')}`] : []),
    ...[...machines].map((name) => `  machine ${name}: 1kg to 200kg by 1kg`),
    '',
    `client ${SOMEBODY}`,
    '  mass: 70kg, 1999-01-01',
    '  ready: heavy all 1999-01-01',
    '  trains at: somewhere on trial',
    ...maxes,
    `  follows: ${program.name.text}, from 2000-01-03, on ${weekdays}`,
    '',
  ].join('\n');
}
