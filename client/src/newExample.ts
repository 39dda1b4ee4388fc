import * as vscode from 'vscode';

/** Opens a draft with a small example in it, to try things on. Nothing is written to the disk. */
export async function newExample(extension: vscode.Uri): Promise<void> {
  const file = vscode.Uri.joinPath(extension, 'client', 'media', 'example.stave');
  const content = new TextDecoder().decode(await vscode.workspace.fs.readFile(file));
  const document = await vscode.workspace.openTextDocument({ language: 'stave', content });
  await vscode.window.showTextDocument(document);
}
