/** The order in which the pieces of a line stand on paper, where some of them are read from right to left. */

import bidiFactory from 'bidi-js';

const bidi = bidiFactory();

/** Letters and marks that are read from right to left, and signs that turn the direction. */
const RIGHT_TO_LEFT =
  /[\u0590-\u08ff\u200f\u202b\u202e\u2067\ufb1d-\ufdff\ufe70-\ufefc\u{10800}-\u{10fff}\u{1e800}-\u{1efff}]/u;

/** Whether the order of what is written may differ from the order on paper. */
export function turns(text: string): boolean {
  return RIGHT_TO_LEFT.test(text);
}

export type Direction = 'ltr' | 'rtl';

/** The direction of a paragraph: that of its first letter that has one. */
export function directionOf(text: string): Direction {
  return (bidi.getEmbeddingLevels(text).paragraphs[0]?.level ?? 0) % 2 === 1 ? 'rtl' : 'ltr';
}

/** A part of one piece of a line, in its place on paper. */
export interface Placed<Piece> {
  readonly piece: Piece;
  readonly text: string;
}

/**
 * The pieces of a line from left to right, cut where the direction changes, after the Unicode Bidirectional Algorithm
 * (UAX #9). Letters of a script that is read from the right stay in the order in which they are written, as the font's
 * own rules for joining turn them around.
 */
export function placedPieces<Piece extends { readonly text: string }>(
  pieces: readonly Piece[],
  direction: Direction,
): readonly Placed<Piece>[] {
  const whole = pieces.map(({ text }) => text).join('');
  const { levels } = bidi.getEmbeddingLevels(whole, direction);
  const mirrored = bidi.getMirroredCharactersMap(whole, levels);
  const parts: { piece: Piece; text: string; level: number }[] = [];
  let offset = 0;
  for (const piece of pieces) {
    for (let from = 0; from < piece.text.length; ) {
      const level = levels[offset + from] ?? 0;
      let to = from + 1;
      // Inside a part that is read from the right, each word and each gap is a part of its own.
      const gap = isGap(piece.text[from]);
      while (to < piece.text.length && (levels[offset + to] ?? 0) === level) {
        if (level % 2 === 1 && isGap(piece.text[to]) !== gap) break;
        to += 1;
      }
      let text = '';
      for (let at = from; at < to; at += 1) text += mirrored.get(offset + at) ?? piece.text[at];
      // Signs alone have no script by which they would be turned around.
      if (level % 2 === 1 && !turns(text)) text = [...text].reverse().join('');
      parts.push({ piece, text, level });
      from = to;
    }
    offset += piece.text.length;
  }
  return turned(parts);
}

function isGap(character: string | undefined): boolean {
  return character !== undefined && /\s/.test(character);
}

/** Rule L2: from the highest level to the lowest odd one, turn around what lies on that level or above. */
function turned<Part extends { readonly level: number }>(parts: readonly Part[]): readonly Part[] {
  const order = [...parts];
  const highest = Math.max(0, ...parts.map(({ level }) => level));
  for (let level = highest; level >= 1; level -= 1) {
    for (let from = 0; from < order.length; from += 1) {
      let to = from;
      while (to < order.length && (order[to]?.level ?? 0) >= level) to += 1;
      if (to > from) order.splice(from, to - from, ...order.slice(from, to).reverse());
      from = to;
    }
  }
  return order;
}
