/** Makes a PDF definition that the fonts can draw: never an empty box where a letter should be. */
import type { Coverage } from './glyphs.js';

/** Coverage of the four faces. */
export interface Faces {
  readonly normal: Coverage;
  readonly bold: Coverage;
  readonly italics: Coverage;
  readonly bolditalics: Coverage;
}

/** Stands for a character that the fonts lack. */
export const STAND_IN = '\ufffd';

/** Marks that have no shape of their own: joiners, variation selectors, marks of direction. */
const SHAPELESS = /^(?:\p{Cf}|\p{Cc}|\p{Variation_Selector})$/u;

type Style = { readonly bold: boolean; readonly italics: boolean };

/**
 * The same definition with characters that no face has replaced by a stand-in, and slanted or bold text set plain
 * where only the plain face has its letters. What was replaced is added to `missing`.
 */
export function drawable<Value>(value: Value, faces: Faces, missing: Set<string>): Value {
  return walk(value, { bold: false, italics: false }, faces, missing) as Value;
}

function faceOf({ bold, italics }: Style, faces: Faces): Coverage {
  if (bold && italics) return faces.bolditalics;
  if (bold) return faces.bold;
  return italics ? faces.italics : faces.normal;
}

function lacks(text: string, face: Coverage): boolean {
  return [...text].some(
    (character) => !SHAPELESS.test(character) && !face(character.codePointAt(0) as number),
  );
}

function cleaned(text: string, face: Coverage, missing: Set<string>): string {
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

function walk(value: unknown, style: Style, faces: Faces, missing: Set<string>): unknown {
  if (typeof value === 'string') return cleaned(value, faceOf(style, faces), missing);
  if (Array.isArray(value)) return value.map((part) => walk(part, style, faces, missing));
  if (value === null || typeof value !== 'object') return value;
  // A date of making is no part of what is drawn.
  if (Object.getPrototypeOf(value) !== Object.prototype) return value;
  const node = value as Readonly<Record<string, unknown>>;
  if ('svg' in node) return { ...node, svg: cleaned(String(node.svg), faces.bold, missing) };
  const asked = { bold: flag(node.bold, style.bold), italics: flag(node.italics, style.italics) };
  const own = typeof node.text === 'string' ? plainEnough(node.text, asked, faces) : asked;
  const changed: Record<string, unknown> = { ...node };
  if (own !== asked) Object.assign(changed, own);
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

function flag(value: unknown, inherited: boolean): boolean {
  return typeof value === 'boolean' ? value : inherited;
}

/** The style nearest to the one asked for whose face has all letters; the one asked for where none has. */
function plainEnough(text: string, asked: Style, faces: Faces): Style {
  if (!lacks(text, faceOf(asked, faces))) return asked;
  const others = [
    { bold: asked.bold, italics: false },
    { bold: false, italics: false },
  ];
  const better = others.find((style) => !lacks(text, faceOf(style, faces)));
  return better ?? { bold: false, italics: false };
}
