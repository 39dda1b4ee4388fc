import { type ChildProcess, fork } from 'node:child_process';
import { homedir } from 'node:os';
import * as vscode from 'vscode';
import { start } from './extension.js';
import type { MakeClient } from './server.js';

/**
 * The extension beside a file system, on this machine or a remote one. The server is a process of its own; the
 * library that speaks with it is loaded while that process starts, so that nothing waits for it.
 */
export function activate(context: vscode.ExtensionContext): ReturnType<typeof start> {
  const server = vscode.Uri.joinPath(context.extensionUri, 'dist', 'server.cjs').fsPath;
  const home = homedir() ? vscode.Uri.file(homedir()) : undefined;
  const makeClient: MakeClient = async (_, options) => {
    let started: ChildProcess | undefined = launch(server);
    const { LanguageClient } = await import('./languageClient.js');
    const launched = async (): Promise<ChildProcess> => {
      const child = started ?? launch(server);
      // Asked again after a crash: the next one is new.
      started = undefined;
      return child;
    };
    return new LanguageClient('stave', 'Stave', launched, options);
  };
  return start(context, makeClient, home);
}

/** The editor's own Node runs the server; none needs to be installed. */
function launch(server: string): ChildProcess {
  const child = fork(server, ['--stdio'], { silent: true, execArgv: [] });
  // Without a listener the failure to start would end the extension host; the client reports it.
  child.on('error', () => {});
  return child;
}

/** The server ends with the extension: it is disposed of with the subscriptions. */
export function deactivate(): void {}
