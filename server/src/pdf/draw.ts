/** Draws a document definition with the parts of pdfmake. Nothing is fetched and no file is read. */

import type { TDocumentDefinitions } from 'pdfmake/interfaces';
import PageSize from 'pdfmake/js/PageSize.js';
import tableLayouts from 'pdfmake/js/tableLayouts.js';
import { drawableDocument, type Faces, facesOf } from '../engine/print/faces.js';
import { type FontFiles, PdfKitDocument, SharedFonts } from './fonts.js';
import { rememberStyles } from './inlines.js';
import { LayoutBuilder, SVGMeasure } from './parts.js';
import { PageRenderer } from './renderer.js';
import type { Page } from './types.js';

export interface RenderedPdf {
  readonly bytes: Uint8Array;
  readonly pages: number;
  /** Characters that the fonts lack, in order; a stand-in is printed for each. */
  readonly missing: readonly string[];
}

/** Draws any number of documents with the same fonts. The same definition gives the same bytes, whatever came before. */
export class PdfWriter {
  readonly #fonts: SharedFonts;
  readonly #faces: Faces;

  constructor(files: FontFiles) {
    rememberStyles();
    this.#fonts = new SharedFonts(files);
    this.#faces = facesOf(files);
  }

  /** How many pages the definition makes, without drawing them. */
  pages(definition: TDocumentDefinitions): number {
    return this.#laidOut(definition).pages.length;
  }

  async draw(definition: TDocumentDefinitions): Promise<RenderedPdf> {
    const { document, pages, missing } = this.#laidOut(definition);
    new PageRenderer(document).renderPages(pages);
    const chunks: Uint8Array[] = [];
    await new Promise<void>((resolve, reject) => {
      document.on('data', (chunk) => chunks.push(chunk));
      document.on('end', resolve);
      document.on('error', reject);
      document.end();
    });
    return { bytes: joined(chunks), pages: pages.length, missing: [...missing].sort() };
  }

  #laidOut(definition: TDocumentDefinitions): {
    readonly document: PdfKitDocument;
    readonly pages: readonly Page[];
    readonly missing: ReadonlySet<string>;
  } {
    const drawn = drawableDocument(definition, this.#faces);
    const { pageSize, pageMargins, content, defaultStyle, footer, info, language, version } =
      drawn.definition;
    const size = pageSize as { width: number; height: number };
    const document = new PdfKitDocument(this.#fonts, {
      size: [size.width, size.height],
      pdfVersion: version,
      tagged: true,
      displayTitle: true,
      lang: language,
      autoFirstPage: false,
      font: null,
      info: infoOf(info),
    });
    const builder = new LayoutBuilder(
      { ...size, orientation: size.width > size.height ? 'landscape' : 'portrait' },
      PageSize.normalizePageMargin(pageMargins),
      new SVGMeasure(),
    );
    builder.registerTableLayouts(tableLayouts.tableLayouts);
    const pages = builder.layoutDocument(content, document, {}, defaultStyle, undefined, undefined, footer);
    return { document, pages, missing: drawn.missing };
  }
}

/** The keys of a PDF's information begin with a capital letter. */
function infoOf(info: TDocumentDefinitions['info']): Readonly<Record<string, unknown>> {
  return Object.fromEntries(
    Object.entries(info ?? {}).map(([key, value]) => [
      `${key.charAt(0).toUpperCase()}${key.slice(1)}`,
      value,
    ]),
  );
}

function joined(chunks: readonly Uint8Array[]): Uint8Array {
  const bytes = new Uint8Array(chunks.reduce((sum, { length }) => sum + length, 0));
  let at = 0;
  for (const chunk of chunks) {
    bytes.set(chunk, at);
    at += chunk.length;
  }
  return bytes;
}
