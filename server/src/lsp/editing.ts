import type {
  CompletionItem,
  CompletionList,
  CompletionItemKind as Kind,
  Position,
  Range,
  TextEdit,
} from 'vscode-languageserver-types';
import { CompletionItemKind, InsertTextFormat } from 'vscode-languageserver-types';
import { say } from '../../../grammar/say.js';
import { completions } from '../engine/views/completion.js';
import type { CompletionKind } from '../engine/views/completionParts.js';
import { formatText } from '../engine/views/format.js';
import type { ClientAbilities } from './clientAbilities.js';
import { toRange, toSpan } from './convert.js';
import type { Located } from './located.js';
import { Refusal } from './refusal.js';

/** Lays out a file or some lines of it. Throws a `Refusal` when that could change what the file asks for. */
export function format({ document }: Located, range?: Range): TextEdit[] {
  const result = formatText(document.getText(), range ? { range: toSpan(document, range) } : {});
  if (result.refusedBecause !== null) throw new Refusal(result.refusedBecause);
  return result.edits.map(({ span, newText }) => ({ range: toRange(document, span), newText }));
}

const itemKinds: Record<CompletionKind, Kind> = {
  opener: CompletionItemKind.Keyword,
  label: CompletionItemKind.Property,
  keyword: CompletionItemKind.Keyword,
  item: CompletionItemKind.Value,
  movement: CompletionItemKind.Function,
  client: CompletionItemKind.Variable,
  kit: CompletionItemKind.Class,
  program: CompletionItemKind.Module,
  block: CompletionItemKind.Struct,
  day: CompletionItemKind.Struct,
  band: CompletionItemKind.EnumMember,
  machine: CompletionItemKind.EnumMember,
  bar: CompletionItemKind.EnumMember,
  rule: CompletionItemKind.Reference,
};

/** What can be written at a position, in the order of the engine. Each item says which text it replaces. */
export function completion(
  { scope, file, document }: Located,
  position: Position,
  { snippets, insertReplace }: Pick<ClientAbilities, 'snippets' | 'insertReplace'>,
  /** The client's command that shows what can be written now; undefined where it has none. */
  suggestCommand?: string,
): CompletionList {
  const items = completions(scope.session, file, document.offsetAt(position)).map(
    (found, index): CompletionItem => {
      const range = toRange(document, found.replace);
      const newText = found.snippet && !snippets ? withoutTabStops(found.insert) : found.insert;
      return {
        label: found.label,
        kind: itemKinds[found.kind],
        detail: found.detail,
        data: { uri: document.uri, kind: found.kind, example: found.example },
        sortText: String(index).padStart(5, '0'),
        filterText: found.label,
        insertTextFormat: found.snippet && snippets ? InsertTextFormat.Snippet : InsertTextFormat.PlainText,
        textEdit: insertReplace
          ? { newText, insert: { start: range.start, end: position }, replace: range }
          : { newText, range },
        ...(found.goesOn && suggestCommand !== undefined
          ? { command: { title: say('Show what comes next'), command: suggestCommand } }
          : {}),
      };
    },
  );
  return { isIncomplete: false, items };
}

/** A snippet as plain text: each place to fill in keeps its hint, or its first choice. */
function withoutTabStops(snippet: string): string {
  return snippet
    .replace(/\$\{\d+:([^}]*)\}/g, '$1')
    .replace(/\$\{\d+\|([^,|]*)[^}]*\}/g, '$1')
    .replace(/\$\d+/g, '');
}
