/** Papers that ask to stay on one page. */

import type { Paper } from '../engine/print/paper/document.js';
import { paperToPdfDefinition } from '../engine/print/paper/pdf.js';
import type { PdfWriter } from './draw.js';

/** The document with the largest text with which each section stays on its page, where the document asks for that. */
export function fittedWith(writer: PdfWriter, paper: Paper): Paper {
  if (!paper.onePage) return paper;
  for (let fontPt = paper.fontPt; fontPt > paper.leastFontPt; fontPt -= 0.5) {
    const tried = { ...paper, fontPt };
    if (writer.pages(paperToPdfDefinition(tried, new Date(0))) <= paper.sections.length) return tried;
  }
  return { ...paper, fontPt: paper.leastFontPt };
}
