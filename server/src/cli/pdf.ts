/** Draws PDFs with the fonts that are shipped. Loaded only when a PDF is asked for: the writer is megabytes large. */

import fs from 'node:fs';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import type { TDocumentDefinitions } from 'pdfmake/interfaces';
import { textLanguage } from '../../../grammar/say.js';
import { FACE_FILES } from '../engine/print/faces.js';
import type { Paper } from '../engine/print/paper/document.js';
import { PdfWriter, type RenderedPdf } from '../pdf/draw.js';
import { fittedWith } from '../pdf/fitted.js';
import { type DrawTask, drawTask } from '../pdf/task.js';
import { type Spoken, take } from './language.js';

/** Beside the bundle; from the sources, in the package that the build makes them from. */
const FONT_FOLDERS = ['fonts', '../../../node_modules/dejavu-fonts-ttf/ttf'];

function fontFolder(): string {
  const here = path.dirname(fileURLToPath(import.meta.url));
  const folders = FONT_FOLDERS.map((folder) => path.resolve(here, folder));
  const found = folders.find((folder) => fs.existsSync(path.join(folder, FACE_FILES.normal)));
  if (found === undefined)
    throw new Error(`the fonts for the PDF are missing: looked in ${folders.join(' and ')}`);
  return found;
}

let shared: PdfWriter | null = null;

/** One writer for all documents: the fonts are read once. */
function writer(): PdfWriter {
  if (shared === null) {
    const folder = fontFolder();
    const read = (name: string) => fs.readFileSync(path.join(folder, name));
    shared = new PdfWriter({ normal: read(FACE_FILES.normal), bold: read(FACE_FILES.bold) });
  }
  return shared;
}

/** The PDF of a definition. No file but the fonts is read. The same definition gives the same bytes. */
export function drawPdf(definition: TDocumentDefinitions): Promise<RenderedPdf> {
  return writer().draw(definition);
}

/** The PDF of a document that is plain data; what the drawing itself says is in that language. */
export function drawHere(task: DrawTask, spoken: Spoken): Promise<RenderedPdf> {
  if (textLanguage() !== spoken.language) take(spoken);
  return drawTask(writer(), task);
}

/** The document with the largest text with which each section stays on its page, where the document asks for that. */
export function fitted(paper: Paper): Paper {
  return fittedWith(writer(), paper);
}
