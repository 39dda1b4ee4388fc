import * as vscode from 'vscode';
import { LanguageClient, TransportKind } from 'vscode-languageclient/node';
import { start } from './extension.js';
import type { Server } from './server.js';

/** The extension beside a file system, on this machine or a remote one: the server is a process of its own. */
export function activate(context: vscode.ExtensionContext): Promise<{ server: Server }> {
  return start(context, (_, options) => {
    const module = vscode.Uri.joinPath(context.extensionUri, 'dist', 'server.cjs').fsPath;
    return new LanguageClient('stave', 'Stave', { module, transport: TransportKind.ipc }, options);
  });
}

/** The server ends with the extension: it is disposed of with the subscriptions. */
export function deactivate(): void {}
