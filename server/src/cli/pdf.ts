/** Draws a pdfmake document definition. Loaded only when a PDF is asked for: the writer is megabytes large. */

import fs from 'node:fs';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import pdfmake from 'pdfmake';
import type { TDocumentDefinitions } from 'pdfmake/interfaces';
import type { Paper } from '../engine/print/paper/document.js';
import { paperToPdfDefinition } from '../engine/print/paper/pdf.js';
import { drawable, type Faces } from './drawable.js';
import { coverageOf } from './glyphs.js';

/** Beside the bundle; from the sources, in the package that the bundle copies them from. */
const FONT_FOLDERS = ['fonts', '../../../node_modules/dejavu-fonts-ttf/ttf'];

function fontFolder(): string {
  const here = path.dirname(fileURLToPath(import.meta.url));
  const folders = FONT_FOLDERS.map((folder) => path.resolve(here, folder));
  const found = folders.find((folder) => fs.existsSync(path.join(folder, 'DejaVuSansCondensed.ttf')));
  if (found === undefined)
    throw new Error(`the fonts for the PDF are missing: looked in ${folders.join(' and ')}`);
  return found;
}

let faces: Faces | null = null;

/** What the four faces of the bundled fonts can draw. */
function bundledFaces(): Faces {
  const file = (style: string) => path.join(fontFolder(), `DejaVuSansCondensed${style}.ttf`);
  faces ??= {
    normal: coverageOf(file('')),
    bold: coverageOf(file('-Bold')),
    italics: coverageOf(file('-Oblique')),
    bolditalics: coverageOf(file('-BoldOblique')),
  };
  return faces;
}

export interface RenderedPdf {
  readonly bytes: Buffer;
  readonly pages: number;
  /** Characters that the fonts lack, in order; a stand-in is printed for each. */
  readonly missing: readonly string[];
}

/** The PDF of a definition. Nothing is fetched and no file but the fonts is read. The same definition gives the same bytes. */
export async function drawPdf(definition: TDocumentDefinitions): Promise<RenderedPdf> {
  const folder = fontFolder();
  const face = (style: string) => path.join(folder, `DejaVuSansCondensed${style}.ttf`);
  pdfmake.setUrlAccessPolicy(() => false);
  pdfmake.setLocalAccessPolicy((file) => path.dirname(path.resolve(file)) === folder);
  pdfmake.setFonts({
    Plan: {
      normal: face(''),
      bold: face('-Bold'),
      italics: face('-Oblique'),
      bolditalics: face('-BoldOblique'),
    },
  });
  const missing = new Set<string>();
  const { footer } = definition;
  let pages = 0;
  const whole = {
    ...drawable(definition, bundledFaces(), missing),
    footer: ((page, count, size) => {
      pages = count;
      const content = typeof footer === 'function' ? footer(page, count, size) : footer;
      return drawable(content, bundledFaces(), missing);
    }) satisfies TDocumentDefinitions['footer'],
  };
  const bytes = await pdfmake.createPdf(whole as TDocumentDefinitions).getBuffer();
  return { bytes, pages, missing: [...missing].sort() };
}

/** The bytes of the PDF alone. */
export async function renderPdf(definition: TDocumentDefinitions): Promise<Buffer> {
  return (await drawPdf(definition)).bytes;
}

/** The document with the largest text with which each section stays on its page, where the document asks for that. */
export async function fitted(paper: Paper): Promise<Paper> {
  if (!paper.onePage) return paper;
  for (let fontPt = paper.fontPt; fontPt > paper.leastFontPt; fontPt -= 0.5) {
    const tried = { ...paper, fontPt };
    const { pages } = await drawPdf(paperToPdfDefinition(tried, new Date(0)));
    if (pages <= paper.sections.length) return tried;
  }
  return { ...paper, fontPt: paper.leastFontPt };
}
