import * as vscode from 'vscode';

/** Opens the page of a rule. Without a code: the rule under the cursor, or the one that the coach picks. */
export async function showRule(extension: vscode.Uri, code: string | undefined): Promise<void> {
  const folder = vscode.Uri.joinPath(extension, 'server', 'rules');
  const pages = (await vscode.workspace.fs.readDirectory(folder))
    .map(([name]) => name)
    .filter((name) => name.endsWith('.md'))
    .map((name) => name.slice(0, -'.md'.length))
    .sort();
  const wanted =
    code ??
    codeAtCursor(pages) ??
    (await vscode.window.showQuickPick(pages, { title: vscode.l10n.t('Which rule') }));
  if (wanted === undefined) return;
  if (!pages.includes(wanted)) {
    void vscode.window.showInformationMessage(vscode.l10n.t('There is no page for "{0}".', wanted));
    return;
  }
  const page = vscode.Uri.joinPath(folder, `${wanted}.md`);
  try {
    await vscode.commands.executeCommand('markdown.showPreview', page);
  } catch {
    // The built-in preview can be switched off; the page reads well as text too.
    await vscode.commands.executeCommand('vscode.open', page);
  }
}

function codeAtCursor(pages: readonly string[]): string | undefined {
  const editor = vscode.window.activeTextEditor;
  if (editor?.document.languageId !== 'stave') return undefined;
  const here = vscode.languages
    .getDiagnostics(editor.document.uri)
    .filter(({ range }) => range.intersection(editor.selection) !== undefined)
    .map(({ code }) => (typeof code === 'object' ? String(code.value) : String(code)));
  return here.find((code) => pages.includes(code));
}
