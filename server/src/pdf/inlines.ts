/** What a word inherits, asked once for each text instead of once for each word. */

import { directionOf, turns } from './order.js';
import { TextInlines } from './parts.js';
import type { Inline, Styles } from './types.js';

/** The styles around a text. Its words have no named styles, so what they inherit does not depend on the word. */
class RememberedStyles implements Styles {
  readonly #of: Styles;
  readonly #known = new Map<string, unknown>();

  constructor(of: Styles) {
    this.#of = of;
  }

  auto(_item: object, callback: () => void): void {
    callback();
  }

  getProperty(property: string): unknown {
    if (this.#known.has(property)) return this.#known.get(property);
    const value = this.#of.getProperty(property);
    this.#known.set(property, value);
    return value;
  }
}

/** No column without a width of its own gets wider than it should for the sake of one word. */
const MOST_OF_A_WORD_PT = 120;

let done = false;

/** Gives words their slant, their direction and what they belong to, and makes them cheap. Once for the program. */
export function rememberStyles(): void {
  if (done) return;
  done = true;
  const { prototype } = TextInlines;
  const build = prototype.buildInlines;
  prototype.buildInlines = function (text, styles) {
    const remembered = new RememberedStyles(styles);
    const built = build.call(this, text, remembered);
    // A word that is wider than its place is broken; else the place would grow beyond the page.
    built.minWidth = Math.min(built.minWidth, MOST_OF_A_WORD_PT);
    const italics = remembered.getProperty('italics') === true;
    const inherited = remembered.getProperty('structure');
    const structure = inherited === undefined ? { role: 'P' } : inherited === false ? undefined : inherited;
    const whole = built.items.map((item) => item.text).join('');
    const direction = turns(whole) ? directionOf(whole) : undefined;
    for (const inline of built.items as (Inline & { italics?: boolean })[]) {
      inline.oblique = inline.italics ?? italics;
      inline.structure ??= structure;
      inline.direction = direction;
    }
    return built;
  };
}
