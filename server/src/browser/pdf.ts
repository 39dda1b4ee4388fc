/** Draws a PDF in a web worker, with the fonts that the extension hands over. Evaluated when the first plan is printed. */
import pdfmake from 'pdfmake/build/pdfmake.js';
import type { TDocumentDefinitions } from 'pdfmake/interfaces';
import type { Faces } from '../engine/print/drawable.js';
import { drawableDocument, FACE_FILES, FONT, facesOf } from '../engine/print/faces.js';

let faces: Promise<Faces> | undefined;

/** The bytes of the PDF. Throws when a font cannot be read. */
export async function renderPdf(
  definition: TDocumentDefinitions,
  shipped: (path: string) => Promise<Uint8Array | undefined>,
): Promise<Uint8Array> {
  faces ??= load(shipped);
  faces.catch(() => {
    // The next plan tries again.
    faces = undefined;
  });
  const drawn = drawableDocument(definition, await faces);
  return pdfmake.createPdf(drawn.definition).getBuffer();
}

/** Gives the fonts to the writer. */
async function load(shipped: (path: string) => Promise<Uint8Array | undefined>): Promise<Faces> {
  const files = new Map<string, Uint8Array>();
  for (const name of new Set(Object.values(FACE_FILES))) {
    const bytes = await shipped(`dist/fonts/${name}`);
    if (bytes === undefined) throw new Error(`the font for the PDF is missing: ${name}`);
    files.set(name, bytes);
    pdfmake.virtualfs.writeFileSync(name, bytes);
  }
  pdfmake.setUrlAccessPolicy(() => false);
  pdfmake.setFonts({ [FONT]: { ...FACE_FILES } });
  return facesOf((name) => files.get(name) ?? new Uint8Array());
}
