// biome-ignore-all lint/suspicious/noTemplateCurlyInString: these are tab stops of snippets.
import type { Span, StatementEntry } from '../../../../grammar/index.js';
import type { EngineSession } from '../session.js';
import type { LineContext } from './context.js';

export type CompletionKind =
  | 'opener'
  | 'label'
  | 'keyword'
  | 'item'
  | 'movement'
  | 'client'
  | 'kit'
  | 'program'
  | 'block'
  | 'day'
  | 'band'
  | 'machine'
  | 'bar'
  | 'rule';

export interface CompletionItem {
  readonly label: string;
  readonly kind: CompletionKind;
  /** Short, beside the label. */
  readonly detail: string;
  /** A line of the notation that shows it; empty when the label says enough. */
  readonly example: string;
  /** What is taken out before `insert` is put in. Holds the offset that was asked for. */
  readonly replace: Span;
  readonly insert: string;
  /** `insert` has tab stops in the form that editors share: `${1:name}`, `$0`. */
  readonly snippet: boolean;
  /** What comes next is offered too: an editor may show it at once. */
  readonly goesOn?: boolean;
}

export interface Cursor {
  readonly session: EngineSession;
  readonly file: string;
  readonly text: string;
  readonly offset: number;
  readonly line: Span;
  /** The line up to the cursor. */
  readonly before: string;
  readonly context: LineContext;
}

/** The characters right after the cursor that belong to the word it stands in. */
export function restOfWord(after: string): string {
  return /^[^\s:|,;"]*/.exec(after)?.[0] ?? '';
}

/** The characters right after the cursor that belong to the name it stands in: up to a mark or a note. */
export function restOfName(after: string): string {
  return (/^[^:|,;"]*/.exec(after)?.[0] ?? '').split(/(?:^|\s)--(?:\s|$)/)[0]?.trimEnd() ?? '';
}

export function item(
  label: string,
  kind: CompletionKind,
  detail: string,
  replace: Span,
  insert: string,
  snippet = false,
): CompletionItem {
  return { label, kind, detail, example: '', replace, insert, snippet };
}

export function nameItems(
  names: readonly string[],
  kind: CompletionKind,
  replace: Span,
  detail = '',
): CompletionItem[] {
  return [...new Set(names)].map((name) => item(name, kind, detail, replace, name));
}

/** Statements of a section as labels; the colon is left out where one is written already. */
export function statementItems(
  statements: readonly StatementEntry[],
  replace: Span,
  hasColon: boolean,
  own: (word: string) => string | null = () => null,
): CompletionItem[] {
  return statements.map((entry) => {
    const snippet = own(entry.word) ?? SNIPPETS[entry.word] ?? `${entry.word}: $0`;
    const insert = hasColon ? entry.word : snippet;
    return { ...item(entry.word, 'label', entry.help, replace, insert, !hasColon), example: entry.example };
  });
}

const SNIPPETS: Readonly<Record<string, string>> = {
  machine: 'machine ${1:name}: $0',
  cue: 'cue: "$1"',
  care: 'care: "$1"',
  note: 'note: "$1"',
  allow: 'allow: ${1:code} "${2:why}"',
  estimate: 'estimate: ${1:percent}% of $0',
  lifts: 'lifts: ${1:percent}% of mass',
  max: 'max: ${1:movement}, ${2:load}kg x${3:reps} r${4:reserve}, ${5:date}',
  mass: 'mass: ${1:mass}kg, ${2:date}',
  follows: 'follows: ${1:program}, from ${2:date}, on $0',
  away: 'away: ${1:date} to ${2:date}$0',
  avoid: 'avoid: ${1:movement or pattern}, from ${2:date}, "${3:why}"',
  swap: 'swap: ${1:movement}, to ${2:movement}, from ${3:date}, "${4:why}"',
};
