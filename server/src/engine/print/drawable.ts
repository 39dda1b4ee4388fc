/** Makes a PDF definition that the fonts can draw: never an empty box where a letter should be. */
import type { Coverage } from './glyphs.js';

/** Coverage of the two faces. */
export interface Faces {
  readonly normal: Coverage;
  readonly bold: Coverage;
}

/** Stands for a character that the fonts lack. */
export const STAND_IN = '\ufffd';

/** Marks that have no shape of their own: joiners, variation selectors, marks of direction. */
const SHAPELESS = /^(?:\p{Cf}|\p{Cc}|\p{Variation_Selector})$/u;

/** Every face has these. */
const PLAIN = /^[\x20-\x7e\n]*$/;

/**
 * The same definition with characters that no face has replaced by a stand-in, and bold text set plain where only the
 * plain face has its letters. What was replaced is added to `missing`.
 */
export function drawable<Value>(value: Value, faces: Faces, missing: Set<string>): Value {
  return walk(value, false, faces, missing) as Value;
}

function lacks(text: string, face: Coverage): boolean {
  if (PLAIN.test(text)) return false;
  return [...text].some(
    (character) => !SHAPELESS.test(character) && !face(character.codePointAt(0) as number),
  );
}

function cleaned(text: string, face: Coverage, missing: Set<string>): string {
  if (PLAIN.test(text)) return text;
  let plain = '';
  for (const character of text) {
    if (face(character.codePointAt(0) as number) || character === '\n') plain += character;
    else if (!SHAPELESS.test(character)) {
      missing.add(character);
      plain += STAND_IN;
    }
  }
  return plain;
}

function walk(value: unknown, bold: boolean, faces: Faces, missing: Set<string>): unknown {
  if (typeof value === 'string') return cleaned(value, bold ? faces.bold : faces.normal, missing);
  if (Array.isArray(value)) return value.map((part) => walk(part, bold, faces, missing));
  if (value === null || typeof value !== 'object') return value;
  // A date of making is no part of what is drawn.
  if (Object.getPrototypeOf(value) !== Object.prototype) return value;
  const node = value as Readonly<Record<string, unknown>>;
  if ('svg' in node) return { ...node, svg: cleaned(String(node.svg), faces.bold, missing) };
  const asked = typeof node.bold === 'boolean' ? node.bold : bold;
  const own = asked && !(typeof node.text === 'string' && lacks(node.text, faces.bold));
  const changed: Record<string, unknown> = { ...node };
  if (own !== asked) changed.bold = own;
  for (const key of [
    'text',
    'outlineText',
    'stack',
    'columns',
    'content',
    'body',
    'table',
    'info',
    'title',
  ]) {
    if (key in node) changed[key] = walk(node[key], own, faces, missing);
  }
  return changed;
}
