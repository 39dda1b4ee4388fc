import * as vscode from 'vscode';
import type { ClientChoice } from './clientChoice.js';
import { currentFile } from './currentFile.js';
import type { Server } from './server.js';

/** Writes the printed plan of one client and offers to open it. Asks who and where only when that is not known. */
export async function printPlan(server: Server, choice: ClientChoice): Promise<vscode.Uri[]> {
  const uri = await currentFile();
  if (!uri) {
    void vscode.window.showInformationMessage(
      vscode.l10n.t('Open a Stave file or a folder with some first.'),
    );
    return [];
  }
  const client = await whose(server, choice, uri);
  if (client === undefined) return [];
  const folder = await where(uri);
  if (folder === undefined) return [];
  const files = await vscode.window.withProgress(
    { location: vscode.ProgressLocation.Window, title: vscode.l10n.t('Writing the plan') },
    () => write(server, { uri: uri.toString(), client, folder: folder?.toString() ?? null }),
  );
  if (files.length > 0) void offer(files);
  return files;
}

/** The client whose plan it is: the one chosen, or the only one; else the coach is asked. */
async function whose(server: Server, choice: ClientChoice, uri: vscode.Uri): Promise<string | undefined> {
  const status = await server.status(uri);
  const only = status?.clients.length === 1;
  if (status?.shown && (status.chosen || only)) return status.shown;
  return (await choice.ask(server))?.key;
}

/** Null: the server knows the folder from the settings. A file in no folder has no such place: the coach is asked. */
async function where(uri: vscode.Uri): Promise<vscode.Uri | null | undefined> {
  if (vscode.workspace.getWorkspaceFolder(uri)) return null;
  const picked = await vscode.window.showOpenDialog({
    canSelectFiles: false,
    canSelectFolders: true,
    title: vscode.l10n.t('Folder for the printed plan'),
    openLabel: vscode.l10n.t('Write here'),
  });
  return picked?.[0];
}

async function write(
  server: Server,
  request: { uri: string; client: string; folder: string | null },
): Promise<vscode.Uri[]> {
  try {
    const answer = await server.execute('stave.server.writePlan', request);
    const files = (answer as { files?: unknown } | null)?.files;
    if (!Array.isArray(files))
      throw new Error(vscode.l10n.t('The server gave no answer; its log may say why.'));
    return files.filter((file) => typeof file === 'string').map((file) => vscode.Uri.parse(file));
  } catch (error) {
    const reason = error instanceof Error ? error.message : String(error);
    const log = vscode.l10n.t('Show log');
    const picked = await vscode.window.showErrorMessage(
      vscode.l10n.t('No plan was written. {0}', reason),
      log,
    );
    if (picked === log) server.log.show(true);
    return [];
  }
}

async function offer(files: readonly vscode.Uri[]): Promise<void> {
  const names = files.map((file) => vscode.workspace.asRelativePath(file));
  const titles = files.map((file) =>
    vscode.l10n.t('Open {0}', file.path.slice(file.path.lastIndexOf('.') + 1).toUpperCase()),
  );
  const picked = await vscode.window.showInformationMessage(
    vscode.l10n.t('Plan written: {0}', names.join(', ')),
    ...titles,
  );
  const file = picked === undefined ? undefined : files[titles.indexOf(picked)];
  if (!file) return;
  // On another machine the browser cannot reach the file; the editor can.
  if (vscode.env.remoteName === undefined && vscode.env.uiKind === vscode.UIKind.Desktop)
    await vscode.env.openExternal(file);
  else await vscode.commands.executeCommand('vscode.open', file);
}
