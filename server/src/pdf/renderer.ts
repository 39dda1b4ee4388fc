/** Draws laid-out pages: a line as few strokes of text as it has styles, each word in its place, every part marked. */

import type { Structure } from '../engine/print/structure.js';
import { type Direction, placedPieces, turns } from './order.js';
import { Renderer } from './parts.js';
import { StructureWriter } from './structure.js';
import type { Inline, Line, Page, PdfDocument } from './types.js';

/** Slant in degrees: that of the slanted face of the same family. */
const SLANT = 11;

export class PageRenderer extends Renderer {
  readonly #structure: StructureWriter;

  constructor(document: PdfDocument) {
    super(document);
    this.#structure = new StructureWriter(document);
  }

  override renderPages(pages: readonly Page[]): void {
    for (const page of pages) {
      super.renderPages([page]);
      this.#structure.endPage();
    }
    this.#structure.end();
  }

  override renderLine(line: Line, x: number, y: number): void {
    const { inlines, _outline: outline } = line;
    if (outline !== undefined) this.pdfDocument.outline.addItem(outline.text);
    const baselinePt = line.getAscenderHeight();
    const direction = inlines[0]?.direction;
    if (direction !== undefined && inlines.some(({ text }) => turns(text))) {
      this.#turnedLine(inlines, direction, x, y + baselinePt);
      return;
    }
    for (let from = 0; from < inlines.length; ) {
      const first = inlines[from] as Inline;
      let { text } = first;
      let to = from + 1;
      for (; to < inlines.length && alike(first, inlines[to] as Inline); to += 1) text += inlines[to]?.text;
      if (text.trim() !== '') {
        this.#structure.goTo(partOf(first));
        this.#draw(first, text, x + first.x, y + baselinePt);
      }
      from = to;
    }
  }

  override renderVector(vector: object): void {
    this.#structure.goTo(structureOf(vector));
    super.renderVector(vector);
  }

  override renderSVG(svg: object): void {
    this.#structure.goTo(structureOf(svg));
    super.renderSVG(svg);
  }

  /** A line in which something is read from right to left. */
  #turnedLine(inlines: readonly Inline[], direction: Direction, x: number, baselinePt: number): void {
    let at = x + (inlines[0]?.x ?? 0);
    this.#structure.goTo(partOf(inlines[0]));
    for (const { piece, text } of placedPieces(inlines, direction)) {
      this.#draw(piece, text, at, baselinePt);
      at += piece.font.widthOfString(text, piece.fontSize);
    }
  }

  #draw(style: Inline, text: string, x: number, baselinePt: number): void {
    const document = this.pdfDocument;
    document.fillColor(style.color);
    document._font = style.font;
    document.fontSize(style.fontSize);
    const top = baselinePt - (style.font.ascender / 1000) * style.fontSize;
    document.text(text, x, top, {
      lineBreak: false,
      ...(style.oblique === true ? { oblique: SLANT } : {}),
    });
  }
}

function partOf(inline: Inline | undefined): Structure | null {
  return (inline?.structure as Structure | undefined) ?? null;
}

function structureOf(item: object): Structure | null {
  return 'structure' in item ? ((item.structure as Structure | undefined) ?? null) : null;
}

function alike(one: Inline, other: Inline): boolean {
  return (
    one.font === other.font &&
    one.fontSize === other.fontSize &&
    one.color === other.color &&
    one.oblique === other.oblique &&
    one.structure === other.structure
  );
}
