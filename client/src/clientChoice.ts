import * as vscode from 'vscode';
import { clientFirst } from './clientFirst.js';
import { currentFile } from './currentFile.js';
import type { Server } from './server.js';
import type { StatusClient } from './status.js';

interface ClientItem extends vscode.QuickPickItem {
  readonly client?: StatusClient;
}

/** Whose loads are shown: one client for each folder, remembered with the workspace. */
export class ClientChoice {
  private readonly changed = new vscode.EventEmitter<void>();
  readonly onChanged = this.changed.event;

  constructor(private readonly memory: vscode.Memento) {}

  /** The chosen client's key for a folder or file address; null when nobody was chosen. */
  of(uri: string | undefined): string | null {
    if (uri === undefined) return null;
    return this.memory.get<string>(keyOf(vscode.Uri.parse(uri))) ?? null;
  }

  async set(uri: vscode.Uri, client: string): Promise<void> {
    await this.memory.update(keyOf(uri), client);
    this.changed.fire();
  }

  /** Asks the coach and remembers the answer. Returns the client, or undefined when she gave none. */
  async ask(server: Server, file?: vscode.Uri): Promise<StatusClient | undefined> {
    const uri = file ?? (await currentFile());
    if (!uri) return undefined;
    const status = await server.status(uri);
    if (!status || status.clients.length === 0) {
      // Not waited for: whoever asked goes on without a client.
      void clientFirst();
      return undefined;
    }
    const items = [
      ...group(
        vscode.l10n.t('follow this program'),
        status.clients.filter((client) => client.inFile),
        status.shown,
      ),
      ...group(
        vscode.l10n.t('others'),
        status.clients.filter((client) => !client.inFile),
        status.shown,
      ),
    ];
    const picked = await vscode.window.showQuickPick(items, {
      title: vscode.l10n.t('Whose loads to show'),
      placeHolder: vscode.l10n.t('Choose a client'),
      matchOnDescription: true,
    });
    if (!picked?.client) return undefined;
    await this.set(uri, picked.client.key);
    return picked.client;
  }
}

/** One line for each client, under a heading. */
function group(heading: string, clients: readonly StatusClient[], shown: string | null): ClientItem[] {
  if (clients.length === 0) return [];
  return [
    { label: heading, kind: vscode.QuickPickItemKind.Separator },
    ...clients.map((client) => ({
      label: client.key === shown ? `$(check) ${client.name}` : client.name,
      description: client.follows.join(', '),
      client,
    })),
  ];
}

/** A file in a folder shares the folder's choice; any other file has its own. */
function keyOf(uri: vscode.Uri): string {
  const folder = vscode.workspace.getWorkspaceFolder(uri);
  return `client:${(folder?.uri ?? uri).toString()}`;
}
