import * as vscode from 'vscode';

/** Opens the page of a rule. Without a code: the rule under the cursor, or the one that the coach picks. */
export async function showRule(
  extension: vscode.Extension<unknown>,
  code: string | undefined,
): Promise<void> {
  const folder = vscode.Uri.joinPath(extension.extensionUri, 'server', 'rules');
  const pages = rules(extension.packageJSON);
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
    await vscode.window.showTextDocument(page);
  }
}

/** The rules that the manifest has a setting for: all of them. An extension in a browser cannot list its own files. */
function rules(manifest: {
  contributes: { configuration: { properties: Record<string, { properties?: object }> }[] };
}): string[] {
  const settings = manifest.contributes.configuration.flatMap(({ properties }) => Object.entries(properties));
  return Object.keys(settings.find(([name]) => name === 'stave.rules')?.[1].properties ?? {}).sort();
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
