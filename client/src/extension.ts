import * as vscode from 'vscode';
import { ClientChoice } from './clientChoice.js';
import { clientStatusItem } from './clientStatus.js';
import { Previews } from './preview.js';
import { select } from './select.js';
import { type MakeClient, Server } from './server.js';
import { registerTasks } from './tasks.js';
import { Tour } from './tour.js';
import { Whys } from './why.js';
import { writingCommands } from './writing.js';

/**
 * Called when a Stave file is opened, or a command of ours is run. The entry points say how a client for the server
 * is made on their machine.
 */
export async function start(
  context: vscode.ExtensionContext,
  makeClient: MakeClient,
  /** The coach's home folder, on a machine that has one. */
  home?: vscode.Uri,
): Promise<{ server: Server; previews: Previews; whys: Whys }> {
  const choice = new ClientChoice(context.workspaceState);
  const server = new Server(context, choice, makeClient);
  const status = clientStatusItem(server);
  const previews = new Previews(context.extensionUri, server, choice);
  const whys = new Whys(context.extensionUri, server, choice);
  const tour = new Tour(context, server, choice);
  // What only a command needs is loaded by it: an editor with many extensions starts all the sooner.
  const exports = async () => {
    const { Export } = await import('./export.js');
    return new Export(server, choice, context.workspaceState);
  };
  context.subscriptions.push(
    server,
    status,
    previews,
    whys,
    tour,
    registerTasks(server),
    vscode.commands.registerCommand('stave.getStarted', () => tour.getStarted()),
    vscode.commands.registerCommand('stave.newClient', async () => {
      const { NewClient } = await import('./newClient.js');
      return new NewClient(server, tour, home).run();
    }),
    vscode.commands.registerCommand('stave.starterProgram', async () => {
      const { starterProgram } = await import('./starterProgram.js');
      return starterProgram(server, tour);
    }),
    vscode.commands.registerCommand('stave.showLoads', () => tour.showLoads()),
    vscode.commands.registerCommand('stave.showWarning', () => tour.showWarning()),
    vscode.commands.registerCommand('stave.openPreview', async (file?: unknown) => {
      await showFile(file);
      await previews.open();
    }),
    vscode.commands.registerCommand('stave.explain', (uri?: unknown, position?: unknown) =>
      whys.open('why', uri, position),
    ),
    vscode.commands.registerCommand('stave.whatIf', () => whys.open('if')),
    vscode.commands.registerCommand('stave.openRoster', () => previews.open('roster')),
    vscode.commands.registerCommand('stave.export', async (wish?: unknown) => (await exports()).run(wish)),
    vscode.commands.registerCommand('stave.newExample', async () => {
      const { newExample } = await import('./newExample.js');
      return newExample(context.extensionUri);
    }),
    vscode.commands.registerCommand('stave.chooseClient', () => choice.ask(server)),
    vscode.commands.registerCommand('stave.printPlan', async (file?: unknown) => {
      const files = await (await exports()).plan(file instanceof vscode.Uri ? file : undefined);
      if (files.length > 0) await tour.printed();
      return files;
    }),
    vscode.commands.registerCommand('stave.showRule', async (code?: unknown) => {
      const { showRule } = await import('./rulePages.js');
      return showRule(context.extension, typeof code === 'string' ? code : undefined);
    }),
    vscode.commands.registerCommand('stave.select', select),
    writingCommands(server),
    vscode.commands.registerCommand('stave.restartServer', () => server.restart()),
    vscode.commands.registerCommand('stave.showLog', () => server.log.show(true)),
  );
  // What makes sense only with a server is offered once there is one.
  void vscode.commands.executeCommand('setContext', 'stave.active', true);
  await server.start();
  await tour.resume();
  return { server, previews, whys };
}

/** A file that was chosen in the list of files, or whose title was clicked, comes to the front. */
async function showFile(file: unknown): Promise<void> {
  if (!(file instanceof vscode.Uri)) return;
  if (vscode.window.activeTextEditor?.document.uri.toString() === file.toString()) return;
  await vscode.window.showTextDocument(file, { preview: false });
}
