import * as vscode from 'vscode';
import type { Server } from './server.js';
import type { Status, StatusClient } from './status.js';

/** The item in the language status that says whose loads are shown, with the command to choose another. */
export function clientStatusItem(server: Server): vscode.Disposable {
  const item = vscode.languages.createLanguageStatusItem('stave.client', server.selector);
  item.name = vscode.l10n.t('Client');
  item.command = { command: 'stave.chooseClient', title: vscode.l10n.t('Choose') };
  let latest = 0;

  async function show(): Promise<void> {
    const document = vscode.window.activeTextEditor?.document;
    if (document?.languageId !== 'stave') return;
    latest += 1;
    const asked = latest;
    item.busy = true;
    const status = await server.status(document.uri).catch(() => undefined);
    if (asked !== latest) return;
    item.busy = false;
    const client = status?.clients.find(({ key }) => key === status.shown);
    if (client) {
      const elsewhere = followsElsewhere(status, client);
      item.text = client.name;
      item.detail = elsewhere
        ? vscode.l10n.t('does not follow this program: no loads here')
        : status?.chosen
          ? vscode.l10n.t('loads shown')
          : vscode.l10n.t('loads shown (nobody was chosen)');
      item.severity = elsewhere
        ? vscode.LanguageStatusSeverity.Warning
        : vscode.LanguageStatusSeverity.Information;
    } else {
      item.text = vscode.l10n.t('No client');
      item.detail = vscode.l10n.t('no loads to show');
      item.severity = vscode.LanguageStatusSeverity.Information;
    }
  }

  const update = () => void show();
  update();
  return vscode.Disposable.from(
    item,
    vscode.window.onDidChangeActiveTextEditor(update),
    server.onStatusChanged(update),
  );
}

/** Whether others follow what the file writes, and she does not: then its cells are bare, and that should be seen. */
function followsElsewhere(status: Status | undefined, client: StatusClient): boolean {
  return !client.inFile && (status?.clients.some(({ inFile }) => inFile) ?? false);
}
