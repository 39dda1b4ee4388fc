/** Draws a pdfmake document definition. Loaded only when a PDF is asked for: the writer is megabytes large. */

import fs from 'node:fs';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import pdfmake from 'pdfmake';
import type { TDocumentDefinitions } from 'pdfmake/interfaces';

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

/** The bytes of the PDF. Nothing is fetched and no file but the fonts is read. The same definition gives the same bytes. */
export async function renderPdf(definition: TDocumentDefinitions): Promise<Buffer> {
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
  return pdfmake.createPdf(definition).getBuffer();
}
