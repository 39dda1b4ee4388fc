import * as vscode from 'vscode';

/** What the keys of a table depend on; read with every move of the cursor, so only lines near it are looked at. */
export interface TableKeys {
  /** Tab goes to the next column. */
  readonly inTableRow: boolean;
  /** Enter begins a new row with as many columns. */
  readonly atRowEnd: boolean;
  /** Enter takes the marks of a new row away that is still empty. */
  readonly atEmptyRow: boolean;
}

const NOWHERE: TableKeys = { inTableRow: false, atRowEnd: false, atEmptyRow: false };
const OPENER = /^\s*(kit|movement|client|group|program|block|day|circuit|log)\s+[^:|]*$/i;
/** A day is longer than this only by mistake. */
const MOST_LINES = 300;

/** Where a cursor stands. Not a reading of the notation: the server knows better, and is asked when a key is pressed. */
export function tableKeys(document: vscode.TextDocument, selections: readonly vscode.Selection[]): TableKeys {
  const selection = selections[0];
  if (document.languageId !== 'stave' || !selection?.isSingleLine || selections.length !== 1) return NOWHERE;
  const { text, firstNonWhitespaceCharacterIndex: indent } = document.lineAt(selection.active.line);
  const { character } = selection.active;
  if (/^\s*:[\s|]*$/.test(text)) return { inTableRow: true, atRowEnd: false, atEmptyRow: true };
  const before = text.slice(0, character);
  const silent = /(^|\s)--(\s|$)/.test(before) || (before.split('"').length - 1) % 2 === 1;
  if (character <= indent || silent) return NOWHERE;
  const continued = /^\s*\|/.test(text);
  const label = /^\s*([^:|,;"]+):/.exec(text)?.[1]?.trim().toLowerCase();
  if (!continued && (label === undefined || ['effort', 'rounds', 'allow'].includes(label))) return NOWHERE;
  if (!inDay(document, selection.active.line)) return NOWHERE;
  const atEnd = text.slice(character).trim() === '' && text.includes('|') && selection.isEmpty;
  return { inTableRow: true, atRowEnd: atEnd, atEmptyRow: false };
}

function inDay(document: vscode.TextDocument, line: number): boolean {
  for (let at = line - 1; at >= Math.max(0, line - MOST_LINES); at--) {
    const opener = OPENER.exec(document.lineAt(at).text.split(/\s--(?:\s|$)/)[0] ?? '');
    if (opener) return /^(day|circuit)$/i.test(opener[1] ?? '');
  }
  return false;
}

/** Keeps the context keys of the editor in step with the cursor. */
export function followCursor(): vscode.Disposable {
  let shown: TableKeys | undefined;
  const update = (editor: vscode.TextEditor | undefined): void => {
    const keys = editor ? tableKeys(editor.document, editor.selections) : NOWHERE;
    for (const name of ['inTableRow', 'atRowEnd', 'atEmptyRow'] as const) {
      if (shown?.[name] !== keys[name])
        void vscode.commands.executeCommand('setContext', `stave.${name}`, keys[name]);
    }
    shown = keys;
  };
  update(vscode.window.activeTextEditor);
  return vscode.Disposable.from(
    vscode.window.onDidChangeActiveTextEditor(update),
    vscode.window.onDidChangeTextEditorSelection(({ textEditor }) => {
      if (textEditor === vscode.window.activeTextEditor) update(textEditor);
    }),
    // A line may change under a cursor that stays where it is.
    vscode.workspace.onDidChangeTextDocument(({ document }) => {
      const editor = vscode.window.activeTextEditor;
      if (editor?.document === document) update(editor);
    }),
  );
}
