/** Papers that ask to stay on one page. */

import type { Paper } from '../engine/print/paper/document.js';
import { paperToPdfDefinition } from '../engine/print/paper/pdf.js';
import type { PdfWriter } from './draw.js';

const STEP_PT = 0.5;

/**
 * The document with the largest text with which each section stays on its page, where the document asks for that; where
 * no text is small enough, the shorter document if there is one.
 */
export function fittedWith(writer: PdfWriter, paper: Paper): Paper {
  const { shorter, ...whole } = paper;
  if (!paper.onePage) return whole;
  const at = (step: number): Paper => ({
    ...whole,
    fontPt: Math.max(paper.leastFontPt, paper.fontPt - step * STEP_PT),
  });
  const fits = (step: number): boolean =>
    writer.pages(paperToPdfDefinition(at(step), new Date(0))) <= paper.sections.length;
  // What fits in one size fits in every smaller one.
  let low = 0;
  let high = Math.ceil((paper.fontPt - paper.leastFontPt) / STEP_PT);
  const least = high;
  while (low < high) {
    const middle = (low + high) >>> 1;
    if (fits(middle)) high = middle;
    else low = middle + 1;
  }
  return low === least && shorter && !fits(least) ? fittedWith(writer, shorter) : at(low);
}
