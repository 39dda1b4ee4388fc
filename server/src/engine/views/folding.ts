import type { FileTree, LineNode } from '../../../../grammar/index.js';

export interface Fold {
  /** Lines, from 0; both belong to the fold. */
  readonly startLine: number;
  readonly endLine: number;
  readonly kind: 'region' | 'comment';
}

/** What an opener closes when it comes: itself and everything that lies deeper. */
const RANK: Readonly<Record<string, number>> = { block: 1, day: 2, circuit: 3 };

interface Open {
  readonly line: number;
  readonly rank: number;
}

/** Sections, blocks, days, circuits and runs of comment lines, each from its first to its last written line. */
export function foldingRanges(text: string, tree: FileTree): Fold[] {
  const { lines } = tree;
  const folds: Fold[] = [];
  let open: Open[] = [];
  const close = (rank: number, last: number): void => {
    for (const entry of open) {
      if (entry.rank < rank) continue;
      const endLine = lastWritten(lines, entry.line, last);
      if (endLine > entry.line) folds.push({ startLine: entry.line, endLine, kind: 'region' });
    }
    open = open.filter((entry) => entry.rank < rank);
  };
  lines.forEach((line, index) => {
    if (line.kind === 'opener') {
      const word = /^\s*(\S+)/.exec(text.slice(line.span.start, line.span.end))?.[1]?.toLowerCase() ?? '';
      const rank = RANK[word] ?? 0;
      close(rank, beforeComments(lines, index));
      open.push({ line: index, rank });
    } else if (line.kind === 'end') {
      close(3, index);
    }
  });
  close(0, lines.length - 1);
  return [...folds, ...commentRuns(lines)].sort((a, b) => a.startLine - b.startLine || b.endLine - a.endLine);
}

/** Comments right above an opener speak of what it opens. */
function beforeComments(lines: readonly LineNode[], opener: number): number {
  let last = opener - 1;
  while (last >= 0 && lines[last]?.kind === 'comment') last--;
  return last;
}

function lastWritten(lines: readonly LineNode[], first: number, last: number): number {
  let at = last;
  while (at > first && lines[at]?.kind === 'blank') at--;
  return at;
}

function commentRuns(lines: readonly LineNode[]): Fold[] {
  const folds: Fold[] = [];
  for (let at = 0; at < lines.length; at++) {
    if (lines[at]?.kind !== 'comment') continue;
    const startLine = at;
    while (lines[at + 1]?.kind === 'comment') at++;
    if (at > startLine) folds.push({ startLine, endLine: at, kind: 'comment' });
  }
  return folds;
}
