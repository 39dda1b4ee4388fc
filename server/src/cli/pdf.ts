/** Draws a pdfmake document definition. Loaded only when a PDF is asked for: the writer is megabytes large. */

import fs from 'node:fs';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import pdfmake from 'pdfmake';
import type { TDocumentDefinitions } from 'pdfmake/interfaces';
import type { Faces } from '../engine/print/drawable.js';
import { drawableDocument, FACE_FILES, FONT, facesOf } from '../engine/print/faces.js';
import type { Paper } from '../engine/print/paper/document.js';
import { paperToPdfDefinition } from '../engine/print/paper/pdf.js';

/** Beside the bundle; from the sources, in the package that the bundle copies them from. */
const FONT_FOLDERS = ['fonts', '../../../node_modules/dejavu-fonts-ttf/ttf'];

function fontFolder(): string {
  const here = path.dirname(fileURLToPath(import.meta.url));
  const folders = FONT_FOLDERS.map((folder) => path.resolve(here, folder));
  const found = folders.find((folder) => fs.existsSync(path.join(folder, FACE_FILES.normal)));
  if (found === undefined)
    throw new Error(`the fonts for the PDF are missing: looked in ${folders.join(' and ')}`);
  return found;
}

let faces: Faces | null = null;

export interface RenderedPdf {
  readonly bytes: Buffer;
  readonly pages: number;
  /** Characters that the fonts lack, in order; a stand-in is printed for each. */
  readonly missing: readonly string[];
}

/** The PDF of a definition. Nothing is fetched and no file but the fonts is read. The same definition gives the same bytes. */
export async function drawPdf(definition: TDocumentDefinitions): Promise<RenderedPdf> {
  const folder = fontFolder();
  const file = (name: string) => path.join(folder, name);
  faces ??= facesOf((name) => fs.readFileSync(file(name)));
  pdfmake.setUrlAccessPolicy(() => false);
  pdfmake.setLocalAccessPolicy((name) => path.dirname(path.resolve(name)) === folder);
  pdfmake.setFonts({
    [FONT]: {
      normal: file(FACE_FILES.normal),
      bold: file(FACE_FILES.bold),
      italics: file(FACE_FILES.italics),
      bolditalics: file(FACE_FILES.bolditalics),
    },
  });
  const drawn = drawableDocument(definition, faces);
  const bytes = await pdfmake.createPdf(drawn.definition).getBuffer();
  return { bytes, pages: drawn.pages(), missing: [...drawn.missing].sort() };
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
