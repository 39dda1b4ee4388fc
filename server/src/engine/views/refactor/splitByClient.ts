import type { SectionNode, Span } from '../../../../../grammar/index.js';
import { say } from '../../../../../grammar/say.js';
import { documentFileStem } from '../../print/fileName.js';
import type { FileEdit } from '../navigation.js';
import { lineBreakOf, touches } from '../text.js';
import { startWithNotes } from './notesAbove.js';
import { type RefactorContext, type Refactoring, type RefactorResult, refuse, tried } from './refactoring.js';
import type { NewFile } from './trial.js';

/** Gives every client of a file a file of her own beside it, with the logs that are hers alone. */
export function splitByClient(context: RefactorContext): Refactoring[] {
  const { session, file, offset } = context;
  const sections = session.tree(file)?.value.sections ?? [];
  const clients = new Set(sections.flatMap((each) => (each.kind === 'client' ? [each.name.key] : [])));
  const at = sections.find(
    (each) => (each.kind === 'client' || each.kind === 'log') && touches(each.headerSpan, offset),
  );
  if (!at || clients.size < 2 || !file.includes('/')) return [];
  return [
    {
      title: say('Split this file: a file for each client'),
      kind: 'refactor.move',
      build: () => split(context, sections),
    },
  ];
}

/** The one client whose section it is; null for what is shared. */
function ownerOf(section: SectionNode): { readonly key: string; readonly text: string } | null {
  if (section.kind === 'client') return section.name;
  if (section.kind === 'log' && section.clients.length === 1) return section.clients[0] ?? null;
  return null;
}

function split({ session, file }: RefactorContext, sections: readonly SectionNode[]): RefactorResult {
  const text = session.text(file) ?? '';
  const br = lineBreakOf(text);
  const names = new Map<string, string>();
  for (const section of sections)
    if (section.kind === 'client' && !names.has(section.name.key))
      names.set(section.name.key, section.name.text);
  const shared = sections.some((section) => !names.has(ownerOf(section)?.key ?? ''));
  // A file is never left empty: where nothing is shared, the first client stays.
  const staying = shared ? undefined : names.keys().next().value;
  const parts = new Map<string, string[]>();
  const edits: FileEdit[] = [];
  sections.forEach((section, index) => {
    const owner = ownerOf(section)?.key;
    if (owner === undefined || owner === staying || !names.has(owner)) return;
    const next = sections[index + 1];
    const span: Span = {
      start: startWithNotes(text, section.headerSpan.start),
      end: next ? startWithNotes(text, next.headerSpan.start) : text.length,
    };
    const piece = text.slice(span.start, span.end).trimEnd();
    parts.set(owner, [...(parts.get(owner) ?? []), piece]);
    edits.push({ file, span, newText: '' });
  });
  const folder = file.slice(0, file.lastIndexOf('/') + 1);
  const newFiles: NewFile[] = [];
  for (const [key, pieces] of parts) {
    const stem = fileStem(names.get(key) ?? key);
    const path = `${folder}${file.includes(':') ? encodeURIComponent(stem) : stem}.stave`;
    if (session.text(path) !== undefined || newFiles.some((each) => each.file === path))
      return refuse(say`There is a file ${stem}.stave already. Move ${names.get(key) ?? key} by hand.`);
    newFiles.push({ file: path, text: `${pieces.join(br + br)}${br}` });
  }
  if (newFiles.length === 0) return refuse(say('Every client has a file of her own already.'));
  return tried(session, { edits, newFiles });
}

/** A file name that every system takes: `Heron`; `con` and its like, which Windows keeps for itself, get a word more. */
function fileStem(name: string): string {
  const safe = documentFileStem(name, 'client');
  const short = safe.replace(/-client$/, '');
  return /^(?:con|prn|aux|nul|com\d|lpt\d)?$/i.test(short) ? safe : short;
}
