import type { Span } from '../../../../../grammar/index.js';
import { say } from '../../../../../grammar/say.js';
import type { Client, Kit, MaxEntry } from '../../model.js';
import type { EngineSession } from '../../session.js';
import { applyEdits } from '../format.js';
import type { FileEdit } from '../navigation.js';
import { spotBehind } from '../refactor/clientSpot.js';
import { indentAt, lineBreakOf, lineSpanAt, meets } from '../text.js';

/** Something that can be written differently to see what would come of it. */
export interface WhatIfField {
  readonly id: string;
  readonly group: 'max' | 'kit' | 'more';
  /** Of which movement, of which kit. */
  readonly label: string;
  /** As it stands in the file: what follows the name in a `max` line, the lines of a kit, or nothing yet. */
  readonly written: string;
}

/** What was written differently, by the field's id. */
export type Changes = Readonly<Record<string, string>>;

/** A field with the way into its file. */
interface Slot extends WhatIfField {
  readonly edit: (value: string) => FileEdit;
}

/** A copy of the workspace in which the changes are made. */
export interface Overlay {
  readonly session: EngineSession;
  readonly edits: readonly FileEdit[];
  /** Changes that could not be read, in plain words, by the field's id. They are left out. */
  readonly problems: ReadonlyMap<string, string>;
}

/** The newest max of each movement, the kits where she trains, and further lines of hers. */
export function whatIfFields(session: EngineSession, client: Client): WhatIfField[] {
  return slotsOf(session, client).map(({ edit: _, ...field }) => field);
}

function slotsOf(session: EngineSession, client: Client): Slot[] {
  const { kits } = session.world();
  const trainsAt = [...new Set(client.trainsAt.map(({ kit }) => kit))];
  return [
    ...newestMaxes(session, client).map((entry) => maxSlot(session, entry)),
    ...trainsAt.flatMap((key) => kits.get(key) ?? []).map((kit) => kitSlot(session, kit)),
    ...moreSlot(session, client),
  ];
}

/** Those that her plan rests on first. */
function newestMaxes(session: EngineSession, client: Client): MaxEntry[] {
  const newest = new Map<string, MaxEntry>();
  for (const entry of client.maxes) {
    const key = `${entry.movement} ${entry.kit ?? ''}`;
    if ((newest.get(key)?.date ?? '') <= entry.date) newest.set(key, entry);
  }
  const used = new Set(
    (session.plan(client.key)?.sessions ?? []).flatMap(({ cells }) =>
      cells.flatMap(({ groups }) => groups.flatMap(({ max }) => max?.entry.movement ?? [])),
    ),
  );
  return [...newest.values()].sort((a, b) => Number(used.has(b.movement)) - Number(used.has(a.movement)));
}

/** What follows the name; emptied, the whole line goes. */
function maxSlot(session: EngineSession, { movement, movementName, kit, place }: MaxEntry): Slot {
  const { file, span } = place;
  const text = session.text(file) ?? '';
  const from = movementName.span.end;
  const written = text
    .slice(from, span.end)
    .replace(/^\s*,\s*/, '')
    .trimEnd();
  return {
    id: kit === null ? `max ${movement}` : `max ${movement} at ${kit}`,
    group: 'max',
    label: kit === null ? movementName.text : say`${movementName.text} at ${kit}`,
    written,
    edit: (value) =>
      value.trim() === ''
        ? { file, span: wholeLine(text, span.start), newText: '' }
        : { file, span: { start: from, end: span.end }, newText: `, ${oneLine(value)}` },
  };
}

/** A line with the break before it. */
function wholeLine(text: string, offset: number): Span {
  const { start, end } = lineSpanAt(text, offset);
  const before = /(?:\r\n|\r|\n)$/.exec(text.slice(0, start))?.[0].length ?? 0;
  return { start: start - before, end };
}

function kitSlot(session: EngineSession, { key, name, node, place }: Kit): Slot {
  const { file } = place;
  const text = session.text(file) ?? '';
  const br = lineBreakOf(text);
  const first = node.lines[0]?.span;
  const last = node.lines[node.lines.length - 1]?.span;
  const behind = lineSpanAt(text, node.headerSpan.end).end;
  const span = first && last ? { start: first.start, end: last.end } : { start: behind, end: behind };
  const indent = first ? indentAt(text, first.start) : '  ';
  return {
    id: `kit ${key}`,
    group: 'kit',
    label: name,
    written: linesOf(text.slice(span.start, span.end)).join('\n'),
    edit: (value) => {
      const newText = linesOf(value).join(br + indent);
      return { file, span, newText: first || newText === '' ? newText : br + indent + newText };
    },
  };
}

function moreSlot(session: EngineSession, client: Client): Slot[] {
  const spot = spotBehind(session, client);
  if (!spot) return [];
  const { file, offset, head } = spot;
  return [
    {
      id: 'more',
      group: 'more',
      label: say`Under client ${client.name}`,
      written: '',
      edit: (value) => ({
        file,
        span: { start: offset, end: offset },
        newText: linesOf(value)
          .map((line) => head + line)
          .join(''),
      }),
    },
  ];
}

function linesOf(text: string): string[] {
  return text
    .split(/\r\n|\r|\n/)
    .map((line) => line.trim())
    .filter((line) => line !== '');
}

/** A `max` line stays one line, whatever was pasted. */
function oneLine(value: string): string {
  return linesOf(value).join(' ');
}

/** Makes the changes on a copy. One that cannot be read is left out, and told of. */
export function overlayOf(session: EngineSession, client: Client, changes: Changes): Overlay {
  const slots = slotsOf(session, client).filter(
    ({ id, written }) => changes[id] !== undefined && changes[id] !== written,
  );
  const problems = new Map<string, string>();
  for (const slot of slots) {
    const problem = problemIn(session, slot.edit(changes[slot.id] ?? ''));
    if (problem !== null) problems.set(slot.id, problem);
  }
  const edits = slots.filter(({ id }) => !problems.has(id)).map(({ id, edit }) => edit(changes[id] ?? ''));
  const copy = session.fork();
  for (const file of new Set(edits.map((edit) => edit.file))) {
    const own = edits.filter((edit) => edit.file === file);
    copy.setFile(file, applyEdits(session.text(file) ?? '', own));
  }
  return { session: copy, edits, problems };
}

/** What is wrong in the lines that an edit writes; null where they can be read. */
function problemIn(session: EngineSession, edit: FileEdit): string | null {
  const { file, span, newText } = edit;
  const copy = session.fork();
  copy.setFile(file, applyEdits(session.text(file) ?? '', [edit]));
  const written = { start: span.start, end: span.start + newText.length };
  const found = copy
    .tree(file)
    ?.problems.find((problem) => problem.severity === 'error' && meets(problem.span, written));
  return found?.message ?? null;
}
