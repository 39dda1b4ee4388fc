/** Building HTML text in which everything that comes from outside is escaped. */

import { say } from '../../../../grammar/say.js';

/** Text that is HTML already. Only `html` and `raw` make it. */
export class Markup {
  constructor(readonly text: string) {}
}

type Part = string | number | null | Markup | readonly Part[];

const ENTITIES: Readonly<Record<string, string>> = {
  '&': '&amp;',
  '<': '&lt;',
  '>': '&gt;',
  '"': '&quot;',
  "'": '&#39;',
};

function escaped(text: string): string {
  // Characters that HTML cannot hold, and marks that turn the reading direction of what follows, are left out.
  const safe = text.replace(/[\p{Cc}\u202a-\u202e\u2066-\u2069]/gu, (character) =>
    /\s/.test(character) ? character : '',
  );
  return safe.replace(/[&<>"']/g, (character) => ENTITIES[character] as string);
}

function partText(part: Part): string {
  if (part === null) return '';
  if (part instanceof Markup) return part.text;
  if (typeof part === 'object') return part.map(partText).join('');
  return escaped(String(part));
}

/** A template whose parts are escaped, unless they are markup themselves; lists are joined. */
export function html(strings: TemplateStringsArray, ...parts: readonly Part[]): Markup {
  let text = strings[0] ?? '';
  parts.forEach((part, index) => {
    text += partText(part) + (strings[index + 1] ?? '');
  });
  return new Markup(text);
}

/** Text of our own that is markup already, such as a style sheet. */
export function raw(text: string): Markup {
  return new Markup(text);
}

/** A quoted string for a style sheet inside HTML: everything but plain letters and digits as a code point. */
export function cssString(text: string): string {
  const body = [...text].map((character) =>
    /[A-Za-z0-9 ]/.test(character) ? character : `\\${(character.codePointAt(0) as number).toString(16)} `,
  );
  return `"${body.join('')}"`;
}

/** CSS content that counts the pages: `"page " counter(page) " of " counter(pages)`. */
export function pageCounter(): string {
  const [before = '', between = '', after = ''] = say`page ${'\n'} of ${'\n'}`.split('\n');
  const end = after === '' ? '' : ` ${cssString(after)}`;
  return `${cssString(before)} counter(page) ${cssString(between)} counter(pages)${end}`;
}
