import * as vscode from 'vscode';

interface PlainRange {
  readonly start: { readonly line: number; readonly character: number };
  readonly end: { readonly line: number; readonly character: number };
}

/** Selects a piece of a document: after a repair, the words that the coach should write herself. */
export async function select(uri: unknown, range: unknown): Promise<void> {
  if (typeof uri !== 'string' || !isRange(range)) return;
  const document = await vscode.workspace.openTextDocument(vscode.Uri.parse(uri));
  const { start, end } = range;
  const selection = new vscode.Range(start.line, start.character, end.line, end.character);
  await vscode.window.showTextDocument(document, { selection });
}

function isRange(value: unknown): value is PlainRange {
  const isPosition = (position: unknown): boolean =>
    typeof position === 'object' && position !== null && 'line' in position && 'character' in position;
  if (typeof value !== 'object' || value === null) return false;
  return 'start' in value && 'end' in value && isPosition(value.start) && isPosition(value.end);
}
