/** What the writer of PDF hands over, as far as it is used here. pdfmake, pdfkit and fontkit have no types for it. */

/** A font in one document, as pdfkit has it. */
export interface PdfFont {
  readonly font: FontFile;
  /** What was laid out already, by text. */
  layoutCache: object;
  /** In thousandths of the text's size. */
  readonly ascender: number;
  widthOfString(text: string, size: number): number;
}

/** A font file that was read, as fontkit has it. */
export interface FontFile {
  getGlyph(glyph: number, codePoints?: readonly number[]): Glyph;
}

export interface Glyph {
  readonly codePoints: readonly number[];
}

/** An element of the structure that screen readers follow. */
export interface StructureElement {
  add(child: StructureElement | StructureContent): this;
  end(): void;
}

/** A marked part of a page. */
export interface StructureContent {
  readonly refs: readonly unknown[];
}

export interface PdfDocument {
  _font: PdfFont | null;
  _fontCount: number;
  readonly _fontFamilies: Record<string, PdfFont>;
  font(bytes: Uint8Array): this;
  fontSize(size: number): this;
  fillColor(color: string): this;
  text(text: string, x: number, y: number, options: object): this;
  struct(role: string, options?: object): StructureElement;
  addStructure(element: StructureElement): this;
  markContent(role: string, options?: object): this;
  markStructureContent(role: string): StructureContent;
  endMarkedContent(): this;
  readonly outline: { addItem(title: string): unknown };
  on(event: 'data', listener: (chunk: Uint8Array) => void): this;
  on(event: 'end', listener: () => void): this;
  on(event: 'error', listener: (error: Error) => void): this;
  end(): void;
}

/** A piece of text that is never broken, as a rule a word with the space behind it. */
export interface Inline {
  readonly text: string;
  /** From the beginning of the line, in points. */
  readonly x: number;
  readonly width: number;
  readonly font: PdfFont;
  readonly fontSize: number;
  readonly color: string;
  /** Whether it is drawn slanted. */
  oblique?: boolean;
  /** What it belongs to, for screen readers. */
  structure?: unknown;
  /** That of its paragraph, where something in it is read from right to left. */
  direction?: 'ltr' | 'rtl' | undefined;
}

export interface Line {
  readonly inlines: readonly Inline[];
  readonly _outline?: { readonly text: string };
  getHeight(): number;
  getAscenderHeight(): number;
}

export interface Page {
  readonly items: readonly PageItem[];
  readonly pageSize: { readonly width: number; readonly height: number };
}

export type PageItem =
  | { readonly type: 'line'; readonly item: Line & { readonly x: number; readonly y: number } }
  | { readonly type: 'vector' | 'svg' | 'beginClip' | 'endClip'; readonly item: object };

/** The styles that a text inherits. */
export interface Styles {
  auto(item: object, callback: () => void): void;
  getProperty(property: string): unknown;
}
