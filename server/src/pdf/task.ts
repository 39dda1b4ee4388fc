/** A document to draw as plain data, so that another thread can draw it. */

import type { PlanDocument } from '../engine/print/document.js';
import { largePlan } from '../engine/print/largePlan.js';
import type { Paper, PaperSize } from '../engine/print/paper/document.js';
import { paperToPdfDefinition } from '../engine/print/paper/pdf.js';
import { planToPdfDefinition } from '../engine/print/pdfDefinition.js';
import type { PdfWriter, RenderedPdf } from './draw.js';

export type DrawTask =
  | {
      readonly kind: 'plan';
      readonly document: PlanDocument;
      readonly size: PaperSize;
      readonly large: boolean;
      readonly madeAtMs: number;
    }
  /** As it is: whoever asks has fitted it to its pages. */
  | { readonly kind: 'paper'; readonly paper: Paper; readonly madeAtMs: number };

/** Draws a task. The same task gives the same bytes, whoever draws it. */
export function drawTask(writer: PdfWriter, task: DrawTask): Promise<RenderedPdf> {
  const madeAt = new Date(task.madeAtMs);
  if (task.kind === 'paper') return writer.draw(paperToPdfDefinition(task.paper, madeAt));
  const { document, size, large } = task;
  return writer.draw(
    large
      ? paperToPdfDefinition(largePlan(document, size), madeAt)
      : planToPdfDefinition(document, madeAt, size),
  );
}
