import type { FileTree, SectionKind } from '../../../../grammar/index.js';
import { commentStart } from '../../../../grammar/lines.js';
import { lineSpanAt } from './text.js';

/** Where a line stands, by the openers above it; works in a file that is only half written. */
export interface LineContext {
  /** The innermost section that the line belongs to, the line itself not counted; null at the top of a file. */
  readonly section: SectionKind | null;
  /** The words after each opener that is still open, by kind, up to the first comma. */
  readonly names: Readonly<Partial<Record<SectionKind, string>>>;
  /** The line of the innermost opener as written, without its note. */
  readonly opener: string;
}

/** What an opener closes: itself and everything that lies deeper. */
const RANK: Readonly<Record<string, number>> = { block: 1, day: 2, circuit: 3 };
const OPENERS = /^(kit|movement|client|group|program|block|day|circuit|log)(?=\s|$)/i;

export function contextAt(text: string, tree: FileTree, offset: number): LineContext {
  const start = lineSpanAt(text, offset).start;
  let open: { kind: SectionKind; rank: number; name: string; line: string }[] = [];
  for (const line of tree.lines) {
    if (line.span.start >= start) break;
    if (
      line.kind === 'blank' ||
      line.kind === 'comment' ||
      line.kind === 'row' ||
      line.kind === 'continuation'
    )
      continue;
    const written = withoutNote(text.slice(line.span.start, line.span.end)).trim();
    if (/^end$/i.test(written)) {
      open = open.filter((entry) => entry.rank < 3);
      continue;
    }
    const found = OPENERS.exec(written);
    if (!found || written.includes(':')) continue;
    const kind = (found[1] as string).toLowerCase() as SectionKind;
    const rank = RANK[kind] ?? 0;
    const name = written.slice(kind.length).split(',')[0]?.trim() ?? '';
    open = [...open.filter((entry) => entry.rank < rank), { kind, rank, name, line: written }];
  }
  const names: Partial<Record<SectionKind, string>> = {};
  for (const entry of open) names[entry.kind] = entry.name;
  const inner = open[open.length - 1];
  return { section: inner?.kind ?? null, names, opener: inner?.line ?? '' };
}

export function withoutNote(line: string): string {
  const at = commentStart(line);
  return at < 0 ? line : line.slice(0, at);
}

/** Whether the characters before a column of a line lead into a note or quoted text. */
export function isSilent(line: string, column: number): boolean {
  const note = commentStart(line);
  if (note >= 0 && column > note) return true;
  const quotes = line.slice(0, column).split('"').length - 1;
  return quotes % 2 === 1;
}
