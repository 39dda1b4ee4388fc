/**
 * The texts that people read. They are written in English where they are used, and that English is the key under
 * which another language has them. Nothing here asks which language that is: an entry point hands the texts in.
 */

/** Translations by key. A key is the English text, with `{0}`, `{1}` … where values go. */
export type Catalogue = Readonly<Record<string, string>>;

/** A value that stands in a text; nothing stands for what is missing. */
type Value = string | number | null | undefined;

/** A text and the numbers of the values between its pieces, so that it is taken apart once. */
type Pieces = readonly (string | number)[];

let catalogue: ReadonlyMap<string, Pieces> | null = null;
let language = 'en';
let keys = new WeakMap<readonly string[], string>();

/**
 * The language of all texts from here on; without a catalogue they are English. Called once, by an entry point,
 * before anything is read. `tag` is the language's tag of BCP 47, such as `de`.
 */
export function useCatalogue(texts: Catalogue | null, tag = 'en'): void {
  keys = new WeakMap();
  language = texts === null ? 'en' : tag;
  catalogue =
    texts === null ? null : new Map(Object.entries(texts).map(([key, text]) => [key, piecesOf(text)]));
}

/** Tag of the language that texts are in, for documents that say so. */
export function textLanguage(): string {
  return language;
}

/**
 * A text for people, in their language: `` say`${name} has no sessions.` `` or `say('Leave it out')`. Must not run while
 * a module is loaded, before the catalogue is there; such texts are marked with `later`.
 */
export function say(text: string): string;
export function say(parts: TemplateStringsArray, ...values: readonly Value[]): string;
export function say(text: string | TemplateStringsArray, ...values: readonly Value[]): string {
  if (typeof text === 'string') return catalogue === null ? text : whole(text, values);
  if (catalogue !== null) return whole(keyOf(text), values);
  let said = text[0] ?? '';
  for (let at = 0; at < values.length; at += 1) said += `${values[at] ?? ''}${text[at + 1]}`;
  return said;
}

/** Marks a text of a table that is made while a module is loaded; `said` looks it up where it is used. */
export function later(text: string): string {
  return text;
}

/** The text that `later` has marked, in the language of the people. */
export function said(marked: string): string {
  return say(marked);
}

/** One of two whole phrases: the first for exactly one, the second for any other number. */
export function plural(count: number, one: string, other: string): string {
  return count === 1 ? one : other;
}

/** The text of a key with its values, for helpers that make keys of words that a caller names, such as `{0} weeks`. */
export function filled(key: string, ...values: readonly Value[]): string {
  return whole(key, values);
}

/** The key of a template: its text with `{0}`, `{1}` … where values stand. */
function keyOf(parts: readonly string[]): string {
  let key = keys.get(parts);
  if (key === undefined) {
    key = parts.reduce((before, part, at) => `${before}{${at - 1}}${part}`);
    keys.set(parts, key);
  }
  return key;
}

function whole(key: string, values: readonly Value[]): string {
  const pieces = catalogue?.get(key) ?? piecesOf(key);
  return pieces.map((piece) => (typeof piece === 'string' ? piece : (values[piece] ?? ''))).join('');
}

/** `{0} of {1}` as 0, ' of ', 1. */
function piecesOf(text: string): Pieces {
  return text.split(/(\{\d+\})/).map((piece) => {
    const number = /^\{(\d+)\}$/.exec(piece)?.[1];
    return number === undefined ? piece : Number(number);
  });
}
