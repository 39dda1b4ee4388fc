import type { FileTree, Outcome } from '../../../../grammar/index.js';

/** A name in a tree, told by where it stands. */
export interface Renamed {
  readonly start: number;
  readonly text: string;
}

/**
 * What a file asks for, as text that can be compared: its tree without places. Names are compared with single
 * spaces; those that begin at a place in `renamed` count as if they were written in the new way.
 */
export function meaningOf(tree: FileTree, renamed: readonly Renamed[] = []): string {
  const newText = new Map(renamed.map((entry) => [entry.start, entry.text]));
  return JSON.stringify(tree.sections, (key, entry: unknown) => {
    if (key === 'span' || key === 'headerSpan' || key === 'nameSpan') return undefined;
    if (typeof entry !== 'object' || entry === null || !('key' in entry) || !('text' in entry)) return entry;
    const { span } = entry as { span?: { start: number } };
    const text = newText.get(span?.start ?? -1) ?? String(entry.text);
    return { name: singleSpaced(text) };
  });
}

export function singleSpaced(text: string): string {
  return text.trim().replace(/\s+/g, ' ');
}

/** The codes of what is wrong in a file, in a fixed order. */
export function problemCodes(outcome: Outcome<FileTree>): string {
  return outcome.problems
    .map((problem) => problem.code)
    .sort()
    .join(' ');
}
