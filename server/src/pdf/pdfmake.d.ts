/** The parts of pdfmake that are used one by one, as far as they are used here. Each module is CommonJS. */

declare module 'pdfmake/js/PDFDocument.js' {
  const module: {
    readonly default: {
      new (
        fonts: object,
        images: object,
        patterns: object,
        attachments: object,
        options: object,
      ): import('./types.js').PdfDocument & {
        provideFont(family: string, bold: boolean, italics: boolean): import('./types.js').PdfFont;
        getFontFile(family: string, bold: boolean, italics: boolean): string;
      };
    };
  };
  export default module;
}

declare module 'pdfmake/js/LayoutBuilder.js' {
  const module: {
    readonly default: {
      new (
        size: object,
        margins: object,
        svgMeasure: object,
      ): {
        registerTableLayouts(layouts: object): void;
        layoutDocument(
          content: unknown,
          document: import('./types.js').PdfDocument,
          styles: object,
          defaultStyle: object | undefined,
          background: unknown,
          header: unknown,
          footer: unknown,
        ): import('./types.js').Page[];
      };
    };
  };
  export default module;
}

declare module 'pdfmake/js/Renderer.js' {
  const module: {
    readonly default: {
      new (
        document: import('./types.js').PdfDocument,
      ): {
        readonly pdfDocument: import('./types.js').PdfDocument;
        renderPages(pages: readonly import('./types.js').Page[]): void;
        renderLine(line: import('./types.js').Line, x: number, y: number): void;
        renderVector(vector: object): void;
        renderSVG(svg: object): void;
      };
    };
  };
  export default module;
}

declare module 'pdfmake/js/TextInlines.js' {
  const module: {
    readonly default: {
      readonly prototype: {
        buildInlines(
          text: unknown,
          styles: import('./types.js').Styles,
        ): { readonly items: import('./types.js').Inline[]; minWidth: number };
      };
    };
  };
  export default module;
}

declare module 'pdfmake/js/SVGMeasure.js' {
  const module: { readonly default: new () => object };
  export default module;
}

declare module 'pdfmake/js/tableLayouts.js' {
  const module: { readonly tableLayouts: object };
  export default module;
}

declare module 'pdfmake/js/PageSize.js' {
  const module: { normalizePageMargin(margins: unknown): object };
  export default module;
}
