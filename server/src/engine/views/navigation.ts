import { parse, type Span } from '../../../../grammar/index.js';
import { say } from '../../../../grammar/say.js';
import type { Occurrence, Place } from '../model.js';
import type { EngineSession } from '../session.js';
import { applyEdits } from './format.js';
import { meaningOf, problemCodes, singleSpaced } from './meaning.js';

export interface FileEdit {
  readonly file: string;
  readonly span: Span;
  readonly newText: string;
}

export type RenameResult =
  | { readonly ok: true; readonly edits: readonly FileEdit[] }
  /** In plain words, why the new name cannot be taken. */
  | { readonly ok: false; readonly because: string };

export interface Highlight {
  readonly span: Span;
  readonly role: 'definition' | 'use';
}

/** Where the name at an offset is defined: several places for a client with several sections, none when built in. */
export function definition(session: EngineSession, file: string, offset: number): Place[] {
  return allOf(session, session.nameAt(file, offset))
    .filter((occurrence) => occurrence.role === 'definition')
    .map((occurrence) => occurrence.place);
}

/** Every place of the name at an offset, in all files. */
export function references(
  session: EngineSession,
  file: string,
  offset: number,
  includeDefinition: boolean,
): Place[] {
  return allOf(session, session.nameAt(file, offset))
    .filter((occurrence) => includeDefinition || occurrence.role === 'use')
    .map((occurrence) => occurrence.place);
}

/** Every place of the name at an offset in its own file. */
export function highlights(session: EngineSession, file: string, offset: number): Highlight[] {
  return allOf(session, session.nameAt(file, offset))
    .filter((occurrence) => occurrence.place.file === file)
    .map((occurrence) => ({ span: occurrence.place.span, role: occurrence.role }));
}

function allOf(session: EngineSession, at: Occurrence | undefined): readonly Occurrence[] {
  if (!at) return [];
  return distinctPlaces(session.occurrences(at.kind, at.key));
}

function distinctPlaces(occurrences: readonly Occurrence[]): Occurrence[] {
  const seen = new Set<string>();
  return occurrences.filter(({ place }) => {
    const key = `${place.span.start} ${place.span.end} ${place.file}`;
    if (seen.has(key)) return false;
    seen.add(key);
    return true;
  });
}

/** The name that would be renamed at an offset, or null where there is none that this workspace defines. */
export function prepareRename(
  session: EngineSession,
  file: string,
  offset: number,
): { readonly span: Span; readonly name: string } | null {
  const at = session.nameAt(file, offset);
  const text = session.text(file);
  if (!at || text === undefined || !isDefinedHere(session, at)) return null;
  return { span: at.place.span, name: text.slice(at.place.span.start, at.place.span.end) };
}

function isDefinedHere(session: EngineSession, at: Occurrence): boolean {
  return session.occurrences(at.kind, at.key).some((occurrence) => occurrence.role === 'definition');
}

/**
 * Renames what the name at an offset stands for, in every file. Refused when the new name holds a character that
 * parts things, is taken already, or would be read as something else in any of its places.
 */
export function rename(session: EngineSession, file: string, offset: number, newName: string): RenameResult {
  const at = session.nameAt(file, offset);
  if (!at) return refuse(say('There is no name here that can be changed.'));
  if (!isDefinedHere(session, at)) {
    return refuse(
      say('This name is built in or defined nowhere in the open folders, so it cannot be changed here.'),
    );
  }
  const name = singleSpaced(newName);
  const forbidden = forbiddenIn(name, at.kind);
  if (forbidden !== null) return refuse(forbidden);
  const taken = takenBy(session, at, name);
  if (taken !== null) return refuse(taken);
  const edits = allOf(session, at).map((occurrence) => ({
    file: occurrence.place.file,
    span: occurrence.place.span,
    newText: name,
  }));
  const misread = editedFiles(edits).find((edited) => !readsTheSame(session, edited, edits));
  if (misread !== undefined) {
    return refuse(say`“${name}” cannot be a name here: some line with it would be read as something else.`);
  }
  return { ok: true, edits };
}

function refuse(because: string): RenameResult {
  return { ok: false, because };
}

function forbiddenIn(name: string, kind: Occurrence['kind']): string | null {
  if (name === '') return say('A name needs at least one character.');
  const char = /[:,|;"\r\n]/.exec(name)?.[0];
  if (char !== undefined)
    return say`A name cannot hold ${char}, which parts things in a line. Try it without.`;
  if (/(^|\s)--(\s|$)/.test(name))
    return say('A name cannot hold -- between spaces, which begins a note. Try a single dash.');
  if (kind === 'movement' && /[()]/.test(name)) {
    return say('A movement’s name cannot hold brackets, which mark the label of a row. Try it without.');
  }
  if ((kind === 'program' || kind === 'block') && name.includes('/')) {
    return say(
      'The name of a program or block cannot hold /, which stands between the two after “like”. Try it without.',
    );
  }
  if (kind === 'band' && name.includes(' '))
    return say('The name of a band is one word. Try a dash in place of the space.');
  return null;
}

function takenBy(session: EngineSession, at: Occurrence, name: string): string | null {
  const own = at.key.split(' / ');
  own[own.length - 1] = name.toLowerCase();
  const key = at.kind === 'block' || at.kind === 'day' ? own.join(' / ') : name.toLowerCase();
  if (key === at.key) return null;
  const { kits, movements, clients, groups, programs } = session.world();
  const tables: Partial<Record<Occurrence['kind'], ReadonlyMap<string, unknown>>> = {
    kit: kits,
    movement: movements,
    client: clients,
    group: groups,
    program: programs,
  };
  const taken =
    tables[at.kind]?.has(key) ||
    session.occurrences(at.kind, key).some((entry) => entry.role === 'definition');
  return taken ? say`There is a ${at.kind} called “${name}” already. Try another name.` : null;
}

function editedFiles(edits: readonly FileEdit[]): string[] {
  return [...new Set(edits.map((edit) => edit.file))];
}

function readsTheSame(session: EngineSession, file: string, edits: readonly FileEdit[]): boolean {
  const text = session.text(file);
  const before = session.tree(file);
  if (text === undefined || before === undefined) return false;
  const own = edits.filter((edit) => edit.file === file);
  const after = parse(applyEdits(text, own));
  const renamed = own.map((edit) => ({ start: edit.span.start, text: edit.newText }));
  return (
    meaningOf(before.value, renamed) === meaningOf(after.value) &&
    problemCodes(before) === problemCodes(after)
  );
}
