import * as vscode from 'vscode';

/** The Stave file being edited, else the only folder, else the folder that the coach picks. */
export async function currentFile(): Promise<vscode.Uri | undefined> {
  const active = vscode.window.activeTextEditor?.document;
  if (active?.languageId === 'stave') return active.uri;
  const folders = vscode.workspace.workspaceFolders ?? [];
  if (folders.length <= 1) return folders[0]?.uri;
  return (await vscode.window.showWorkspaceFolderPick())?.uri;
}
