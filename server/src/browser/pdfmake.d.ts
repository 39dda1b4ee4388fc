/** The writer of PDF as it is built for browsers: as far as it is used here. */
declare module 'pdfmake/build/pdfmake.js' {
  import type { TDocumentDefinitions } from 'pdfmake/interfaces';

  const pdfmake: {
    readonly virtualfs: { writeFileSync(name: string, content: Uint8Array): void };
    setUrlAccessPolicy(allows: (url: string) => boolean): void;
    setFonts(fonts: Readonly<Record<string, Readonly<Record<string, string>>>>): void;
    createPdf(definition: TDocumentDefinitions): { getBuffer(): Promise<Uint8Array> };
  };
  export default pdfmake;
}
