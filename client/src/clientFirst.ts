import * as vscode from 'vscode';

/** Said by everything that needs a client where there is none yet, with the way to one. */
export async function clientFirst(): Promise<void> {
  const add = vscode.l10n.t('New client…');
  const picked = await vscode.window.showInformationMessage(
    vscode.l10n.t('There is no client here yet. Add one first, or open the folder that holds her file.'),
    add,
  );
  if (picked === add) await vscode.commands.executeCommand('stave.newClient');
}
