import * as vscode from 'vscode';
import { ClientChoice } from './clientChoice.js';
import { clientStatusItem } from './clientStatus.js';
import { Export } from './export.js';
import { newExample } from './newExample.js';
import { Previews } from './preview.js';
import { showRule } from './rulePages.js';
import { select } from './select.js';
import { type MakeClient, Server } from './server.js';
import { registerTasks } from './tasks.js';
import { Whys } from './why.js';
import { writingCommands } from './writing.js';

/**
 * Called when a Stave file is opened, or a command of ours is run. The entry points say how a client for the server
 * is made on their machine.
 */
export async function start(
  context: vscode.ExtensionContext,
  makeClient: MakeClient,
): Promise<{ server: Server; previews: Previews; whys: Whys }> {
  const choice = new ClientChoice(context.workspaceState);
  const server = new Server(context, choice, makeClient);
  const status = clientStatusItem(server);
  const previews = new Previews(context.extensionUri, server, choice);
  const whys = new Whys(context.extensionUri, server, choice);
  const exports = new Export(server, choice, context.workspaceState);
  context.subscriptions.push(
    server,
    status,
    previews,
    whys,
    registerTasks(server),
    vscode.commands.registerCommand('stave.openPreview', () => previews.open()),
    vscode.commands.registerCommand('stave.explain', (uri?: unknown, position?: unknown) =>
      whys.open('why', uri, position),
    ),
    vscode.commands.registerCommand('stave.whatIf', () => whys.open('if')),
    vscode.commands.registerCommand('stave.openRoster', () => previews.open('roster')),
    vscode.commands.registerCommand('stave.export', (wish?: unknown) => exports.run(wish)),
    vscode.commands.registerCommand('stave.newExample', () => newExample(context.extensionUri)),
    vscode.commands.registerCommand('stave.chooseClient', () => choice.ask(server)),
    vscode.commands.registerCommand('stave.printPlan', () => exports.plan()),
    vscode.commands.registerCommand('stave.showRule', (code?: unknown) =>
      showRule(context.extension, typeof code === 'string' ? code : undefined),
    ),
    vscode.commands.registerCommand('stave.select', select),
    writingCommands(server),
    vscode.commands.registerCommand('stave.restartServer', () => server.restart()),
    vscode.commands.registerCommand('stave.showLog', () => server.log.show(true)),
  );
  await server.start();
  return { server, previews, whys };
}
