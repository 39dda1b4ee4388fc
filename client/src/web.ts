import * as vscode from 'vscode';
import { LanguageClient, State } from 'vscode-languageclient/browser';
import { start } from './extension.js';

/** What a browser calls its workers; the editor's types do not know them. */
declare const Worker: new (
  address: string,
) => ConstructorParameters<typeof LanguageClient>[3] & {
  terminate(): void;
};

/** The extension in a browser: the server runs in a web worker. */
export function activate(context: vscode.ExtensionContext): ReturnType<typeof start> {
  return start(context, async (_, options) => {
    const server = vscode.Uri.joinPath(context.extensionUri, 'dist', 'web', 'server.js');
    const worker = new Worker(server.toString(true));
    const client = new LanguageClient('stave', 'Stave', options, worker);
    client.onDidChangeState(({ newState }) => {
      if (newState === State.Stopped) worker.terminate();
    });
    return client;
  });
}

/** The server ends with the extension: it is disposed of with the subscriptions. */
export function deactivate(): void {}
