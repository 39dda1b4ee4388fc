import * as vscode from 'vscode';
import { clientFirst } from './clientFirst.js';
import { currentFile } from './currentFile.js';
import { writeStarterFiles } from './newClient.js';
import type { Server } from './server.js';
import { readFollow, readPrograms } from './starterMessages.js';
import { askAll, askMany, askOne, type Frame } from './steps.js';
import type { Tour } from './tour.js';

const WEEKDAYS = ['mon', 'tue', 'wed', 'thu', 'fri', 'sat', 'sun'];

/** The command `stave.starterProgram`: gives a client a program to start from, and opens it. */
export async function starterProgram(server: Server, tour: Tour): Promise<void> {
  const uri = await currentFile();
  const offers = uri && readPrograms(await ask(server, 'stave/starter/programs', { uri: uri.toString() }));
  if (!uri || !offers || offers.clients.length === 0) {
    await clientFirst();
    return;
  }
  // Those who follow nothing yet come first.
  const clients = [...offers.clients].sort((a, b) => a.follows.length - b.follows.length);
  let client = clients.length === 1 ? clients[0] : undefined;
  let program = '';
  let on: readonly string[] = ['mon', 'thu'];
  const frame = (step: number, back: boolean, title: string): Frame => ({
    ...{ title, step: clients.length > 1 ? step : step - 1, back },
    totalSteps: clients.length > 1 ? 3 : 2,
  });
  const answered = await askAll([
    async ({ back }) => {
      if (clients.length === 1) return 'skip';
      const items = clients.map((each) => ({
        label: each.name,
        description: each.follows.join(', '),
        value: each,
      }));
      const answer = await askOne(
        frame(1, back, vscode.l10n.t('Starter program: for whom?')),
        '',
        items,
        client,
      );
      if (typeof answer === 'object') client = answer.value;
      return answer;
    },
    async ({ back }) => {
      const items = offers.programs.map(({ id, title, about }) => ({
        label: title,
        detail: about,
        value: id,
      }));
      const title = vscode.l10n.t('{0}: which program to start from?', client?.name ?? '');
      const placeholder = vscode.l10n.t('Screening by a qualified professional comes first.');
      const answer = await askOne(frame(2, back, title), placeholder, items, program);
      if (typeof answer === 'object') program = answer.value;
      return answer;
    },
    async ({ back }) => {
      const items = dayNames().map((label, index) => ({ label, value: WEEKDAYS[index] ?? '' }));
      const title = vscode.l10n.t('{0}: on which days?', client?.name ?? '');
      const placeholder = vscode.l10n.t('She begins next week. Tick her days, then OK.');
      const needed = vscode.l10n.t('Tick at least one day, with the mouse or the space bar.');
      const answer = await askMany(frame(3, back, title), placeholder, items, on, needed);
      if (typeof answer === 'object') on = answer.value;
      return answer;
    },
  ]);
  if (!answered || !client) return;
  try {
    const request = { uri: uri.toString(), client: client.key, program, on };
    const made = readFollow(await server.request('stave/starter/follow', request));
    if (!made) throw new Error(vscode.l10n.t('The server gave no answer; its log may say why.'));
    const [file] = await writeStarterFiles(vscode.Uri.parse(made.folder), made.files);
    await follow(made.edit);
    await tour.hasProgram(file ?? vscode.Uri.parse(made.edit.uri), made.folder, client.key);
  } catch (error) {
    const reason = error instanceof Error ? error.message : String(error);
    void vscode.window.showErrorMessage(vscode.l10n.t('Nothing was written. {0}', reason));
  }
}

/** Adds the line to the client's file and saves it. */
async function follow({
  uri,
  position,
  newText,
}: {
  uri: string;
  position: { line: number; character: number };
  newText: string;
}): Promise<void> {
  const target = vscode.Uri.parse(uri);
  const edit = new vscode.WorkspaceEdit();
  edit.insert(target, new vscode.Position(position.line, position.character), newText);
  await vscode.workspace.applyEdit(edit);
  await (await vscode.workspace.openTextDocument(target)).save();
}

async function ask(server: Server, method: `stave/${string}`, params: unknown): Promise<unknown> {
  return server.running ? server.request(method, params) : null;
}

function dayNames(): readonly string[] {
  return [
    ...[
      vscode.l10n.t('Monday'),
      vscode.l10n.t('Tuesday'),
      vscode.l10n.t('Wednesday'),
      vscode.l10n.t('Thursday'),
    ],
    ...[vscode.l10n.t('Friday'), vscode.l10n.t('Saturday'), vscode.l10n.t('Sunday')],
  ];
}
