import type { FileTree, Span } from '../../../../grammar/index.js';
import { lineSpanAt } from './text.js';

/**
 * Growing selections around an offset, smallest first: item, set group, cell, row, day, block, program; each
 * holds the one before it.
 */
export function selectionRange(text: string, tree: FileTree, offset: number): Span[] {
  const spans: Span[] = [lineSpanAt(text, offset), { start: 0, end: text.length }];
  const visit = (value: unknown): void => {
    if (Array.isArray(value)) {
      for (const entry of value) visit(entry);
      return;
    }
    if (typeof value !== 'object' || value === null) return;
    const { span } = value as { span?: Span };
    if (span) {
      if (offset < span.start || offset > span.end) return;
      spans.push(span);
    }
    for (const entry of Object.values(value)) if (typeof entry === 'object') visit(entry);
  };
  visit(tree.sections);
  spans.sort((a, b) => a.end - a.start - (b.end - b.start));
  const chain: Span[] = [];
  for (const span of spans) {
    const inner = chain[chain.length - 1];
    const grows =
      !inner ||
      (span.start <= inner.start && span.end >= inner.end && span.end - span.start > inner.end - inner.start);
    if (grows) chain.push({ start: span.start, end: span.end });
  }
  return chain;
}
