/** The two faces of the font that plans are printed in, and a document that they can draw. */
import type { TDocumentDefinitions } from 'pdfmake/interfaces';
import { drawable, type Faces } from './drawable.js';
import { coverageOf } from './glyphs.js';

export type { Faces } from './drawable.js';

/** The name of the font in document definitions. */
export const FONT = 'Plan';

/** The files of the faces. Slanted text is the same outlines, slanted while they are drawn. */
export const FACE_FILES = {
  normal: 'DejaVuSansCondensed.ttf',
  bold: 'DejaVuSansCondensed-Bold.ttf',
} as const;

/** What the faces can draw, from the bytes of each font file. */
export function facesOf(files: Readonly<Record<keyof typeof FACE_FILES, Uint8Array>>): Faces {
  return { normal: coverageOf(files.normal), bold: coverageOf(files.bold) };
}

export interface DrawableDocument {
  readonly definition: TDocumentDefinitions;
  /** Characters that the fonts lack; a stand-in is printed for each. Complete when the document is laid out. */
  readonly missing: ReadonlySet<string>;
}

/** The same document without characters that the faces lack. */
export function drawableDocument(definition: TDocumentDefinitions, faces: Faces): DrawableDocument {
  const missing = new Set<string>();
  const { footer } = definition;
  const whole = {
    ...drawable(definition, faces, missing),
    footer: ((page, count, size) => {
      const content = typeof footer === 'function' ? footer(page, count, size) : footer;
      return drawable(content, faces, missing);
    }) satisfies TDocumentDefinitions['footer'],
  };
  return { definition: whole as TDocumentDefinitions, missing };
}
