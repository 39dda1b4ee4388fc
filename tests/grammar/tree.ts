import type { FileTree, Span } from '../../grammar/index.js';

/** Calls `visit` with every node of a tree that has a span, and with its parent. */
export function visitSpans(node: unknown, visit: (node: Record<string, unknown>, span: Span) => void): void {
  if (typeof node !== 'object' || node === null) return;
  if (Array.isArray(node)) {
    for (const item of node) visitSpans(item, visit);
    return;
  }
  const record = node as Record<string, unknown>;
  const span = record.span as Span | undefined;
  if (span !== undefined) visit(record, span);
  for (const value of Object.values(record)) visitSpans(value, visit);
}

/** A value without its spans, as text. */
export function withoutSpans(value: unknown): string {
  return JSON.stringify(value, (key, inner) =>
    [
      'span',
      'headerSpan',
      'nameSpan',
      'damaged',
      'allows',
      'entries',
      'days',
      'blocks',
      'texts',
      'effort',
      'roundsByWeek',
    ].includes(key)
      ? undefined
      : inner,
  );
}

export interface LineMeaning {
  /** The openers that this line stands under, by the offset of each and by its name. */
  readonly path: readonly { readonly at: number; readonly name: string }[];
  readonly meaning: string;
  readonly opener: boolean;
  readonly allow: boolean;
}

/** What each line of the tree says and under which openers, by the offset at which the line's node begins. */
export function lineMeanings(tree: FileTree): Map<number, LineMeaning> {
  const lines = new Map<number, LineMeaning>();
  for (const section of tree.sections) walk(section, []);
  return lines;

  function leaf(node: { span: Span; kind: string }, path: LineMeaning['path'], opener: boolean): void {
    lines.set(node.span.start, { path, meaning: withoutSpans(node), opener, allow: node.kind === 'allow' });
  }

  function walk(node: unknown, path: LineMeaning['path']): void {
    const owner = node as { kind: string; span: Span; headerSpan?: Span; name?: { key: string } } & Record<
      string,
      unknown
    >;
    if (owner.headerSpan === undefined) {
      leaf(owner, path, false);
      for (const allow of (owner.allows as { kind: string; span: Span }[] | undefined) ?? [])
        leaf(allow, path, false);
      return;
    }
    const { lines: _lines, members: _members, follows: _follows, aim: _aim, ...header } = owner;
    lines.set(owner.headerSpan.start, { path, meaning: withoutSpans(header), opener: true, allow: false });
    const inner = [...path, { at: owner.headerSpan.start, name: owner.name?.key ?? owner.kind }];
    for (const key of ['lines', 'follows', 'allows', 'texts', 'blocks', 'days', 'entries']) {
      for (const child of (owner[key] as unknown[] | undefined) ?? []) walk(child, inner);
    }
    for (const key of ['effort', 'roundsByWeek']) {
      const child = owner[key] as { kind: string; span: Span } | null | undefined;
      if (child)
        lines.set(child.span.start, {
          path: inner,
          meaning: JSON.stringify(
            (child as unknown as { cells: { reserve?: number; value?: number }[] }).cells.map(
              (cell) => cell && (cell.reserve ?? cell.value),
            ),
          ),
          opener: false,
          allow: false,
        });
    }
  }
}
