import type { FileTree, LineCache, LogHead, Outcome } from '../../../grammar/index.js';

/** A file of the session. One with nothing but logs is read when somebody asks for what stands in it. */
export class SourceFile {
  #outcome: Outcome<FileTree> | null = null;

  constructor(
    readonly text: string,
    private readonly read: (text: string) => Outcome<FileTree>,
    /** Of a file with nothing but logs, where they can be told without reading it. */
    readonly headings: readonly LogHead[] | null,
    /**
     * What the lines meant when they were last read, so that after a keystroke one line is read again. Null until a
     * file changes: most never do.
     */
    readonly lines: LineCache | null,
  ) {
    if (headings === null) this.#outcome = read(text);
  }

  get outcome(): Outcome<FileTree> {
    this.#outcome ??= this.read(this.text);
    return this.#outcome;
  }

  get tree(): FileTree {
    return this.outcome.value;
  }

  /** The same, with lines that are remembered apart. */
  fork(): SourceFile {
    if (!this.lines) return this;
    const { outcome } = this;
    return new SourceFile(this.text, () => outcome, this.headings, this.lines.fork());
  }
}

/** All files in order of name, so that "the first one counts" does not depend on the order of reading. */
export interface SortedFiles {
  readonly edited: readonly string[];
  /** Those of nothing but logs, which stay the same for long: none of them has to be looked at after a keystroke. */
  readonly logs: ReadonlyMap<string, SourceFile>;
}

export function sortedFiles(files: ReadonlyMap<string, SourceFile>): SortedFiles {
  const all = [...files].sort(([a], [b]) => (a < b ? -1 : 1));
  return {
    edited: all.filter(([, { headings }]) => headings === null).map(([file]) => file),
    logs: new Map(all.filter(([, { headings }]) => headings !== null)),
  };
}

/** Whether a name can stand in a text: each of its words does, in any case and with any spaces between. */
export function mayStandIn(key: string): (text: string) => boolean {
  const words = (key.split(' / ').at(-1) ?? key).split(' ');
  return (text) => {
    const lower = text.toLowerCase();
    return words.every((word) => lower.includes(word));
  };
}
