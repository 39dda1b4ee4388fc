import { type CellItem, parse, VOCABULARY, type VocabularyEntry } from '../../../../grammar/index.js';
import { say } from '../../../../grammar/say.js';
import { partAt, statementParts } from '../../../../grammar/statementParts.js';
import type { EngineSession } from '../session.js';
import { contextAt, isSilent, withoutNote } from './context.js';
import { lineSpanAt } from './text.js';

/** One kind of thing that may stand at the cursor. `label` is a piece of the whole label. */
export interface SignatureParameter {
  readonly label: readonly [number, number];
  /** Markdown. */
  readonly help: string;
}

/** What may stand in a cell or in a line, in one line, and which of it the cursor is at. */
export interface Signature {
  readonly label: string;
  /** Markdown. */
  readonly help: string;
  readonly parameters: readonly SignatureParameter[];
  /** Index of the parameter at the cursor; null where everything has been said. */
  readonly active: number | null;
}

type Kind = CellItem['kind'] | 'next-group';

/** Kinds that stand in for one another, in the order in which a coach writes them. */
const SLOTS: readonly (readonly Kind[])[] = [
  ['week'],
  ['dose', 'off'],
  ['reserve'],
  ['percent', 'load', 'bodyweight', 'pack', 'band'],
  ['change-percent', 'change-mass', 'step', 'weekly'],
  ['side'],
  ['rest'],
  ['tempo'],
  ['height'],
  ['warm'],
  ['no'],
  ['test'],
  ['left-out', 'stop'],
  ['next-group'],
];

/** What only a later week can say: there is something before it that could change. */
const LATER: ReadonlySet<Kind> = new Set(['week', 'change-percent', 'no', 'left-out']);
/** Never what comes next of itself, but may be written. */
const ASIDE: ReadonlySet<Kind> = new Set(['week', 'no', 'test', 'left-out', 'off', 'next-group']);

/**
 * What may come next at an offset, for the cells of a row and for the lines of a client or log that have several pieces. Null
 * in notes and quoted text, and where there is nothing to choose.
 */
export function signatureAt(session: EngineSession, file: string, offset: number): Signature | null {
  const tree = session.tree(file)?.value;
  const text = session.text(file);
  if (!tree || text === undefined || offset < 0 || offset > text.length) return null;
  const line = lineSpanAt(text, offset);
  const written = text.slice(line.start, line.end);
  const column = offset - line.start;
  if (isSilent(written, column)) return null;
  const { section } = contextAt(text, tree, offset);
  const continued = /^\s*\|/.test(written);
  const colon = continued ? written.indexOf('|') : written.indexOf(':');
  if (colon < 0 || column <= colon) return null;
  const label = written.slice(0, colon).trim().toLowerCase();
  const value = withoutNote(written);
  if (section === 'client' || section === 'group' || section === 'log')
    return lineSignature(
      label,
      section === 'log' ? 'log' : 'client',
      value.slice(colon + 1),
      column - colon - 1,
    );
  if (section !== 'day' && section !== 'circuit') return null;
  if (['effort', 'rounds', 'allow'].includes(label)) return null;
  return cellSignature(value, colon, column, continued);
}

// ---------------------------------------------------------------- cells

function cellSignature(line: string, colon: number, column: number, continued: boolean): Signature {
  const start = Math.max(line.lastIndexOf('|', column - 1), colon) + 1;
  const nextMark = line.indexOf('|', column);
  const end = nextMark < 0 ? line.length : nextMark;
  const cell = line.slice(start, end);
  const at = column - start;
  const first = !continued && !line.slice(colon, column).includes('|');
  const groupStart = cell.lastIndexOf(';', at - 1) + 1;
  const nextGroup = cell.indexOf(';', at);
  const group = cell.slice(groupStart, nextGroup < 0 ? cell.length : nextGroup);
  const said = itemsOf(group);
  const cursor = at - groupStart;
  const slots = SLOTS.filter(([kind]) => !(first && groupStart === 0 && LATER.has(kind as Kind)));
  const under = said.find(({ start: from, end: to }) => from <= cursor && cursor <= to)?.kind;
  const word = wordKind(group, cursor);
  const active = activeSlot(
    slots,
    under ?? word,
    said.map(({ kind }) => kind),
  );
  const where = first
    ? say('First week: sets and reps, then how hard.')
    : say('Only what changes from the week before; an empty cell repeats it.');
  return build(
    slots.map((kinds) => {
      const entries = VOCABULARY.cell.filter((entry) => kinds.includes(kindOf(entry)));
      return {
        label: entries[0] ? formOf(entries[0]) : '',
        help: entries.map((entry) => `\`${formOf(entry)}\`: ${entry.help}`).join('  \n'),
      };
    }),
    where,
    active,
    ' · ',
  );
}

function activeSlot(
  slots: readonly (readonly Kind[])[],
  under: Kind | undefined,
  said: readonly Kind[],
): number | null {
  if (under) return slots.findIndex((kinds) => kinds.includes(under));
  // How hard the work is has been said by an effort, a load or a change.
  const hard: readonly Kind[] = (SLOTS[2] ?? []).concat(SLOTS[3] ?? [], SLOTS[4] ?? []);
  const isHard = said.some((kind) => hard.includes(kind));
  const next = slots.findIndex((kinds) => {
    const [kind] = kinds;
    if (!kind || ASIDE.has(kind) || kinds.some((each) => said.includes(each))) return false;
    return !(isHard && hard.includes(kind));
  });
  return next < 0 ? null : next;
}

/** The words of the notation as they would be written: the example where it begins with the word. */
function formOf({ word, example }: VocabularyEntry): string {
  return example.startsWith(word) ? example : word;
}

/** The items of a piece of a cell as the notation reads them, with their columns in it. */
function itemsOf(group: string): { readonly kind: Kind; readonly start: number; readonly end: number }[] {
  const head = 'program a\nblock b, 99 weeks\nday c\nd: 3x6 | ';
  const { value } = parse(head + group.replace(/[\r\n|;]/g, ' '));
  const program = value.sections[0];
  const row = program?.kind === 'program' ? program.blocks[0]?.days[0]?.entries[0] : undefined;
  if (row?.kind !== 'row') return [];
  const items = row.cells[1]?.groups.flatMap((each) => each.items) ?? [];
  return items.map(({ kind, span }) => ({
    kind,
    start: span.start - head.length,
    end: span.end - head.length,
  }));
}

/** The kind of a word that is not finished: `rest` without its time. */
function wordKind(group: string, cursor: number): Kind | undefined {
  const words = /(\S+)(\s+\S*)?$/.exec(group.slice(0, cursor).toLowerCase());
  for (const word of [words?.[1], words?.[2]?.trim()]) {
    const entry = VOCABULARY.cell.find((each) => each.word === word && /^[a-z]{3,}$/.test(each.word));
    if (entry) return kindOf(entry);
  }
  return undefined;
}

const kinds = new Map<string, Kind>();

/** What kind of item a word of the vocabulary is: the notation itself is asked. */
function kindOf(entry: VocabularyEntry): Kind {
  let kind = kinds.get(entry.word);
  if (!kind) {
    const at = Math.max(0, entry.example.indexOf(entry.word));
    const read = itemsOf(entry.example);
    kind = entry.word === ';' ? 'next-group' : (read.find(({ start }) => start >= at)?.kind ?? 'text');
    kinds.set(entry.word, kind);
  }
  return kind;
}

// ---------------------------------------------------------------- lines of a client

function lineSignature(
  label: string,
  section: 'client' | 'log',
  value: string,
  column: number,
): Signature | null {
  const found = statementParts(label, section);
  if (!found) return null;
  const before = value.slice(0, column).split(',');
  const place = before.length - 1;
  const whole = (value.split(',')[place] ?? '').trim();
  const active = partAt(label, section, whole, place);
  return build(
    found.parts.map(({ text, help, optional }) => ({
      label: text,
      help: optional ? say`${help} May be left out.` : help,
    })),
    found.entry.help,
    active,
    ', ',
    `${label}: `,
  );
}

function build(
  parts: readonly { readonly label: string; readonly help: string }[],
  help: string,
  active: number | null,
  between: string,
  head = '',
): Signature {
  let label = head;
  const parameters = parts.map((part, index): SignatureParameter => {
    if (index > 0) label += between;
    const start = label.length;
    label += part.label;
    return { label: [start, label.length], help: part.help };
  });
  return { label, help, parameters, active };
}
