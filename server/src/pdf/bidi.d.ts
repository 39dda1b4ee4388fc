declare module 'bidi-js' {
  interface Levels {
    /** One for each UTF-16 unit; odd ones are read from right to left. */
    readonly levels: Uint8Array;
    readonly paragraphs: readonly { readonly start: number; readonly end: number; readonly level: number }[];
  }
  const factory: () => {
    getEmbeddingLevels(text: string, base?: 'ltr' | 'rtl' | 'auto'): Levels;
    getMirroredCharactersMap(text: string, levels: Uint8Array): ReadonlyMap<number, string>;
  };
  export default factory;
}
