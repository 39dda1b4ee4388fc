import type { TextEdit, WorkspaceEdit } from 'vscode-languageserver-types';
import type { Span } from '../../../grammar/index.js';
import { toRange } from './convert.js';
import type { Scope, Workspace } from './workspace.js';

interface FileEdit {
  readonly file: string;
  readonly span: Span;
  readonly newText: string;
}

/**
 * Edits of several files as the protocol's one edit. Where the client can check versions, it refuses edits of a
 * text that has changed meanwhile.
 */
export function workspaceEdit(
  workspace: Workspace,
  scope: Scope,
  edits: readonly FileEdit[],
  versioned: boolean,
): WorkspaceEdit {
  const documents = new Map<string, { version: number | null; edits: TextEdit[] }>();
  for (const { file, span, newText } of edits) {
    const document = workspace.document(scope, file);
    if (!document) continue;
    const entry = documents.get(document.uri) ?? {
      version: workspace.isOpen(document.uri) ? document.version : null,
      edits: [],
    };
    entry.edits.push({ range: toRange(document, span), newText });
    documents.set(document.uri, entry);
  }
  if (!versioned)
    return { changes: Object.fromEntries([...documents].map(([uri, entry]) => [uri, entry.edits])) };
  return {
    documentChanges: [...documents].map(([uri, entry]) => ({
      textDocument: { uri, version: entry.version },
      edits: entry.edits,
    })),
  };
}
