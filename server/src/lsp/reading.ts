import type {
  DocumentSymbol,
  FoldingRange,
  Hover,
  InlayHint,
  SymbolKind as Kind,
  Position,
  Range,
  SelectionRange,
  SymbolInformation,
} from 'vscode-languageserver-types';
import { FoldingRangeKind, SymbolKind } from 'vscode-languageserver-types';
import type { Span } from '../../../grammar/index.js';
import { say } from '../../../grammar/say.js';
import { foldingRanges } from '../engine/views/folding.js';
import { hover as hoverAt } from '../engine/views/hover.js';
import { type Hint, inlayHints } from '../engine/views/inlayHints.js';
import { selectionRange } from '../engine/views/selectionRanges.js';
import { semanticTokens } from '../engine/views/semanticTokens.js';
import {
  documentSymbols,
  type DocumentSymbol as Outline,
  type SymbolKind as OutlineKind,
} from '../engine/views/symbols.js';
import { toRange, toSpan } from './convert.js';
import { semanticTokenTypes } from './legend.js';
import type { Located } from './located.js';
import { withoutMarkup } from './markup.js';
import { shownClient } from './status.js';

/** What is shown beside the cells of a part of a file. */
export function hintsIn(located: Located, span: Span): Hint[] {
  const { scope, file } = located;
  return inlayHints(scope.session, file, span, { clientKey: shownClient(located), ...scope.settings.hints });
}

/** The loads beside the cells, for the client whose loads this file shows. */
export function hints(located: Located, range: Range, withTooltips: boolean): InlayHint[] {
  const { document } = located;
  const { uri } = document;
  const found = hintsIn(located, toSpan(document, range));
  return found.map(({ offset, label, tooltip, kind }) => ({
    position: document.positionAt(offset),
    label,
    ...(withTooltips && tooltip && { tooltip: tooltip() }),
    paddingLeft: true,
    paddingRight: true,
    ...(tooltip && (kind === 'load' || !withTooltips) && { data: { uri, isLoad: kind === 'load' } }),
  }));
}

/** What stands at a position: a cell with everybody's load and the reasons, a name, a rule, a word. */
export function hover(
  { scope, file, document }: Located,
  position: Position,
  markdown: boolean,
  explainCommand: string | undefined,
): Hover | null {
  const found = hoverAt(scope.session, file, document.offsetAt(position));
  if (!found) return null;
  const range = toRange(document, found.span);
  if (!markdown) return { contents: { kind: 'plaintext', value: withoutMarkup(found.markdown) }, range };
  const link =
    found.explains && explainCommand !== undefined
      ? `${commandLink(say('Explain this load'), explainCommand, [document.uri, position])}\n\n`
      : '';
  return { contents: { kind: 'markdown', value: link + found.markdown }, range };
}

/** A link that runs a command of the client. Of the parentheses only those that are encoded may stand in it. */
function commandLink(title: string, command: string, given: readonly unknown[]): string {
  const argument = encodeURIComponent(JSON.stringify(given)).replace(/[()]/g, (each) =>
    each === '(' ? '%28' : '%29',
  );
  return `[${title}](command:${command}?${argument})`;
}

export const symbolKinds: Record<OutlineKind, Kind> = {
  kit: SymbolKind.Package,
  movement: SymbolKind.Function,
  client: SymbolKind.Object,
  group: SymbolKind.Array,
  program: SymbolKind.Module,
  block: SymbolKind.Namespace,
  day: SymbolKind.Class,
  circuit: SymbolKind.Struct,
  row: SymbolKind.Field,
  log: SymbolKind.Event,
};

/** The outline of a file. */
export function outline({ scope, file, document }: Located): DocumentSymbol[] {
  const tree = scope.session.tree(file);
  const convert = (symbol: Outline): DocumentSymbol => ({
    name: symbol.name,
    detail: symbol.detail,
    kind: symbolKinds[symbol.kind],
    range: toRange(document, symbol.span),
    selectionRange: toRange(document, symbol.selectionSpan),
    children: symbol.children.map(convert),
  });
  return tree ? documentSymbols(tree.value).map(convert) : [];
}

/** The same names in one list, for clients that cannot show a tree. */
export function flatOutline(located: Located): SymbolInformation[] {
  const flat = (symbol: DocumentSymbol, containerName?: string): SymbolInformation[] => [
    {
      name: symbol.name,
      kind: symbol.kind,
      location: { uri: located.document.uri, range: symbol.range },
      ...(containerName !== undefined && { containerName }),
    },
    ...(symbol.children ?? []).flatMap((child) => flat(child, symbol.name)),
  ];
  return outline(located).flatMap((symbol) => flat(symbol));
}

export function folds({ scope, file, document }: Located): FoldingRange[] {
  const tree = scope.session.tree(file);
  if (!tree) return [];
  return foldingRanges(document.getText(), tree.value).map(({ startLine, endLine, kind }) => ({
    startLine,
    endLine,
    kind: kind === 'comment' ? FoldingRangeKind.Comment : FoldingRangeKind.Region,
  }));
}

/** Colours by meaning, in the protocol's form: five numbers each, places relative to the one before. */
export function colours({ scope, file, document }: Located): number[] {
  const tree = scope.session.tree(file);
  if (!tree) return [];
  const data: number[] = [];
  let line = 0;
  let character = 0;
  for (const { span, type, definition } of semanticTokens(document.getText(), tree.value)) {
    const start = document.positionAt(span.start);
    const sameLine = start.line === line;
    data.push(
      start.line - line,
      sameLine ? start.character - character : start.character,
      span.end - span.start,
      semanticTokenTypes.indexOf(type),
      definition ? 1 : 0,
    );
    ({ line, character } = start);
  }
  return data;
}

/** Growing selections around each position: the innermost, with the one around it as its parent. */
export function selections(
  { scope, file, document }: Located,
  positions: readonly Position[],
): SelectionRange[] {
  const tree = scope.session.tree(file);
  return positions.map((position) => {
    const spans = tree ? selectionRange(document.getText(), tree.value, document.offsetAt(position)) : [];
    const outermostFirst = [...spans].reverse();
    let range: SelectionRange | undefined;
    for (const span of outermostFirst)
      range = { range: toRange(document, span), ...(range && { parent: range }) };
    return range ?? { range: { start: position, end: position } };
  });
}
