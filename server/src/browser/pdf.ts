/** Draws PDFs in a web worker, with the fonts that the extension hands over. Evaluated when the first plan is printed. */
import { FACE_FILES } from '../engine/print/faces.js';
import type { Paper } from '../engine/print/paper/document.js';
import { PdfWriter } from '../pdf/draw.js';
import { fittedWith } from '../pdf/fitted.js';

type Shipped = (path: string) => Promise<Uint8Array | undefined>;

let writer: Promise<PdfWriter> | undefined;

/** The writer for all documents. Throws when a font cannot be read. */
export function pdfWriter(shipped: Shipped): Promise<PdfWriter> {
  if (writer === undefined) {
    writer = load(shipped);
    writer.catch(() => {
      // The next plan tries again.
      writer = undefined;
    });
  }
  return writer;
}

/** The document with the largest text with which each section stays on its page, where the document asks for that. */
export async function fitPaper(paper: Paper, shipped: Shipped): Promise<Paper> {
  return paper.onePage ? fittedWith(await pdfWriter(shipped), paper) : paper;
}

async function load(shipped: Shipped): Promise<PdfWriter> {
  const read = async (name: string): Promise<Uint8Array> => {
    const bytes = await shipped(`dist/fonts/${name}`);
    if (bytes === undefined) throw new Error(`the font for the PDF is missing: ${name}`);
    return bytes;
  };
  return new PdfWriter({ normal: await read(FACE_FILES.normal), bold: await read(FACE_FILES.bold) });
}
