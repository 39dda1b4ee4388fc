/** The two faces that all documents share: read once, and words that were laid out are kept for the next document. */

import { PDFDocument } from './parts.js';
import type { FontFile, PdfFont } from './types.js';

/** Bytes of the font files. Slanted text is drawn with the upright outlines, slanted by the writer. */
export interface FontFiles {
  readonly normal: Uint8Array;
  readonly bold: Uint8Array;
}

/** More words than a practice has; then what was laid out is forgotten. */
const MOST_WORDS = 20_000;

/** What documents of the same font files share. */
export class SharedFonts {
  readonly #known = new Map<keyof FontFiles, PdfFont>();
  /** Width of a text in thousandths of its size. */
  readonly #widths = { normal: new Map<string, number>(), bold: new Map<string, number>() };

  constructor(readonly files: FontFiles) {}

  /** The face for one document. */
  faceFor(document: PdfKitDocument, face: keyof FontFiles): PdfFont {
    const known = this.#known.get(face);
    if (known === undefined) {
      document.font(this.files[face]);
      const first = document._font as PdfFont;
      keepCodePoints(first.font);
      this.#known.set(face, first);
      document._fontFamilies[nameOf(face)] = first;
      this.#rememberWidths(first, face);
      return first;
    }
    document._fontCount += 1;
    const Font = known.constructor as new (of: object, font: FontFile, id: string) => PdfFont;
    const font = new Font(document, known.font, `F${document._fontCount}`);
    if (this.#widths[face].size > MOST_WORDS) {
      this.#widths[face].clear();
      known.layoutCache = Object.create(null);
    }
    font.layoutCache = known.layoutCache;
    document._fontFamilies[nameOf(face)] = font;
    this.#rememberWidths(font, face);
    return font;
  }

  #rememberWidths(font: PdfFont, face: keyof FontFiles): void {
    const widths = this.#widths[face];
    const measure = font.widthOfString.bind(font);
    font.widthOfString = (text, size) => {
      let width = widths.get(text);
      if (width === undefined) {
        width = measure(text, 1000);
        widths.set(text, width);
      }
      return (width * size) / 1000;
    };
  }
}

/** The name under which a document finds the face. */
const nameOf = (face: keyof FontFiles): string => `shared ${face}`;

/**
 * A font that is read once keeps for each glyph the characters that it first stood for, and other documents would copy
 * those. Here each use keeps its own, so that a document is the same whatever was drawn before it.
 */
function keepCodePoints(font: FontFile): void {
  const first = font.getGlyph.bind(font);
  font.getGlyph = (id, codePoints) => {
    const glyph = first(id, codePoints);
    if (codePoints === undefined || same(glyph.codePoints, codePoints)) return glyph;
    return Object.create(glyph, { codePoints: { value: codePoints } });
  };
}

function same(one: readonly number[], other: readonly number[]): boolean {
  return one.length === other.length && one.every((codePoint, index) => codePoint === other[index]);
}

/** A document that takes its two faces from what all share. */
export class PdfKitDocument extends PDFDocument {
  readonly #shared: SharedFonts;
  readonly #faces = new Map<keyof FontFiles, PdfFont>();

  constructor(shared: SharedFonts, options: object) {
    super({}, {}, {}, {}, options);
    this.#shared = shared;
  }

  override provideFont(_family: string, bold: boolean): PdfFont {
    const face = bold ? 'bold' : 'normal';
    let font = this.#faces.get(face);
    if (font === undefined) {
      font = this.#shared.faceFor(this, face);
      this.#faces.set(face, font);
    }
    return font;
  }

  /** Drawings ask by name. */
  override getFontFile(family: string, bold: boolean): string {
    this.provideFont(family, bold);
    return nameOf(bold ? 'bold' : 'normal');
  }
}
