/** Lines and columns of offsets in one text, counted from 1. Columns count UTF-16 units, as editors do. */
export class Positions {
  readonly #starts: number[] = [0];

  constructor(readonly text: string) {
    for (const match of text.matchAll(/\r\n|\r|\n/g)) this.#starts.push(match.index + match[0].length);
  }

  at(offset: number): { readonly line: number; readonly column: number } {
    let low = 0;
    let high = this.#starts.length;
    while (high - low > 1) {
      const middle = (low + high) >>> 1;
      if ((this.#starts[middle] as number) <= offset) low = middle;
      else high = middle;
    }
    return { line: low + 1, column: offset - (this.#starts[low] as number) + 1 };
  }

  /** Offset of the first character of a line; null where there is no such line. */
  startOf(line: number): number | null {
    return this.#starts[line - 1] ?? null;
  }

  /** The text of a line, without its break. */
  line(line: number): string {
    const from = this.#starts[line - 1] ?? this.text.length;
    return this.text.slice(from, this.#starts[line] ?? this.text.length).replace(/[\r\n]+$/, '');
  }
}
