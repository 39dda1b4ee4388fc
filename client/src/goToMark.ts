import * as vscode from 'vscode';
import { readMark } from './previewMessages.js';

/**
 * Shows the text that an element of a panel comes from, with the cursor before its first character: nothing is
 * selected by accident. `sources` are the addresses behind the numbers in the mark; `column` is that of the panel.
 */
export async function goToMark(
  at: string,
  sources: readonly string[],
  column: vscode.ViewColumn | undefined,
): Promise<void> {
  const mark = readMark(at);
  const uri = mark && sources[mark.source];
  if (!mark || uri === undefined) return;
  const document = await vscode.workspace.openTextDocument(vscode.Uri.parse(uri));
  const place = document.validatePosition(new vscode.Position(mark.line, mark.character));
  const end = document.validatePosition(new vscode.Position(mark.endLine, mark.endCharacter));
  const editor = await vscode.window.showTextDocument(document, {
    viewColumn: besideColumn(document.uri, column),
    preview: false,
    selection: new vscode.Range(place, place),
  });
  editor.revealRange(new vscode.Range(place, end), vscode.TextEditorRevealType.InCenterIfOutsideViewport);
}

/** The column in which a text is shown already, else one that the panel does not fill. */
function besideColumn(uri: vscode.Uri, panel: vscode.ViewColumn | undefined): vscode.ViewColumn {
  const shown = vscode.window.visibleTextEditors.find(
    ({ document, viewColumn }) => viewColumn !== undefined && document.uri.toString() === uri.toString(),
  );
  const open = shown?.viewColumn;
  if (open !== undefined) return open;
  const other = vscode.window.tabGroups.all.find(({ viewColumn }) => viewColumn !== panel);
  return other?.viewColumn ?? vscode.ViewColumn.Beside;
}
