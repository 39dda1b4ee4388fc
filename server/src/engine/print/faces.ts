/** The four faces of the font that plans are printed in, and a document that they can draw. */
import type { TDocumentDefinitions } from 'pdfmake/interfaces';
import { drawable, type Faces } from './drawable.js';
import { coverageOf } from './glyphs.js';

/** The name of the font in document definitions. */
export const FONT = 'Plan';

/** The files of the faces. Bold and slanted together is drawn bold: a fourth file would be a tenth of the package. */
export const FACE_FILES = {
  normal: 'DejaVuSansCondensed.ttf',
  bold: 'DejaVuSansCondensed-Bold.ttf',
  italics: 'DejaVuSansCondensed-Oblique.ttf',
  bolditalics: 'DejaVuSansCondensed-Bold.ttf',
} as const;

/** What the faces can draw, from the bytes of each font file. */
export function facesOf(read: (file: string) => Uint8Array): Faces {
  const face = (style: keyof typeof FACE_FILES) => coverageOf(read(FACE_FILES[style]));
  return {
    normal: face('normal'),
    bold: face('bold'),
    italics: face('italics'),
    bolditalics: face('bolditalics'),
  };
}

export interface DrawableDocument {
  readonly definition: TDocumentDefinitions;
  /** Characters that the fonts lack; a stand-in is printed for each. Complete when the document is drawn. */
  readonly missing: ReadonlySet<string>;
  /** How many pages there are, once the document is drawn. */
  readonly pages: () => number;
}

/** The same document without characters that the faces lack. */
export function drawableDocument(definition: TDocumentDefinitions, faces: Faces): DrawableDocument {
  const missing = new Set<string>();
  const { footer } = definition;
  let pages = 0;
  const whole = {
    ...drawable(definition, faces, missing),
    footer: ((page, count, size) => {
      pages = count;
      const content = typeof footer === 'function' ? footer(page, count, size) : footer;
      return drawable(content, faces, missing);
    }) satisfies TDocumentDefinitions['footer'],
  };
  return { definition: whole as TDocumentDefinitions, missing, pages: () => pages };
}
