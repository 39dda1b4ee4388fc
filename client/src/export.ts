import * as vscode from 'vscode';
import type { ClientChoice } from './clientChoice.js';
import { clientFirst } from './clientFirst.js';
import { currentFile } from './currentFile.js';
import {
  type ExportAnswers,
  type ExportWish,
  readExportAnswer,
  readExportAnswers,
  readExportWish,
} from './exportAnswers.js';
import { type Preview, type PreviewKind, readPreview } from './previewMessages.js';
import type { Server } from './server.js';

const FORMATS = (): Readonly<Record<string, string>> => ({
  html: vscode.l10n.t('a page for the browser'),
  pdf: vscode.l10n.t('a file for the printer'),
  ics: vscode.l10n.t('a calendar'),
  csv: vscode.l10n.t('a table for a spreadsheet'),
  json: vscode.l10n.t('for other programs'),
  md: vscode.l10n.t('text with headings and tables'),
});

interface Item<Value> extends vscode.QuickPickItem {
  readonly value: Value;
}

/**
 * Writes a document: asks which, for whom, as what and where, and offers the answers of last time first. What is
 * known already, from the panel, is not asked again.
 */
export class Export {
  constructor(
    private readonly server: Server,
    private readonly choice: ClientChoice,
    private readonly memory: vscode.Memento,
  ) {}

  /** The command `stave.export`. Returns the files that were written. */
  async run(given: unknown): Promise<vscode.Uri[]> {
    // A menu names the file that it was opened on.
    const wish = readExportWish(given instanceof vscode.Uri ? { uri: given.toString() } : given);
    const uri = wish.uri === undefined ? await currentFile() : vscode.Uri.parse(wish.uri);
    const offers = uri && (await this.offers(uri, wish.kind ?? null));
    if (!uri || !offers) {
      say(vscode.l10n.t('Open a Stave file or a folder with some first.'));
      return [];
    }
    if (offers.clients.length === 0) {
      void clientFirst();
      return [];
    }
    const answers = await this.ask(uri, offers, wish);
    if (!answers) return [];
    await this.memory.update(keyOf(uri), answers);
    return this.write(uri, offers, answers);
  }

  /** The command `stave.printPlan`: the plan of the shown client in the formats and the folder of the settings. */
  async plan(file?: vscode.Uri): Promise<vscode.Uri[]> {
    const uri = file ?? (await currentFile());
    if (!uri) {
      say(vscode.l10n.t('Open a Stave file or a folder with some first.'));
      return [];
    }
    const status = await this.server.status(uri);
    const sure = status?.shown && (status.chosen || status.clients.length === 1);
    const client = sure ? status.shown : (await this.choice.ask(this.server, uri))?.key;
    if (!client) return [];
    const inside = vscode.workspace.getWorkspaceFolder(uri) !== undefined;
    const folder = inside ? null : (await askFolder(undefined))?.toString();
    if (folder === undefined) return [];
    return this.send({ uri: uri.toString(), client, kind: 'plan', folder });
  }

  private async offers(
    uri: vscode.Uri,
    kind: string | null,
    client?: string | null,
  ): Promise<Preview | undefined> {
    if (!this.server.running) return undefined;
    const options = { large: false, size: null, date: null };
    const asked = { uri: uri.toString(), client: client ?? this.choice.of(uri.toString()), kind, options };
    return readPreview(await this.server.request('stave/preview', asked));
  }

  private async ask(uri: vscode.Uri, offers: Preview, wish: ExportWish): Promise<ExportAnswers | undefined> {
    const before = readExportAnswers(this.memory.get(keyOf(uri)));
    const known = before && offers.kinds.find(({ id }) => id === before.kind);
    const again =
      before && known && (before.client === null || offers.clients.some(({ key }) => key === before.client));
    if (wish.kind === undefined && again) {
      const last = { label: `$(history) ${describe(before, known, offers)}`, value: true };
      const other = { label: vscode.l10n.t('Something else…'), value: false };
      const picked = await pick(
        vscode.l10n.t('Export'),
        [last, other],
        vscode.l10n.t('The same as last time?'),
      );
      if (picked === undefined) return undefined;
      // The day of last time is over: a card is asked for the next one.
      if (picked) return { ...before, date: null };
    }
    const kind = await this.askKind(offers, wish, before?.kind);
    if (!kind) return undefined;
    const client = kind.aboutClient ? await askClient(offers, wish, before?.client) : null;
    if (client === undefined) return undefined;
    const date = kind.hasDates ? await this.askDate(uri, kind, client, wish) : null;
    if (date === undefined) return undefined;
    const formats = await askFormats(kind, before?.formats);
    if (!formats) return undefined;
    const folder = await askWhere(uri, before?.folder);
    if (folder === undefined) return undefined;
    return { kind: kind.id, client, formats, folder, date, large: wish.large ?? false };
  }

  private async askKind(
    offers: Preview,
    wish: ExportWish,
    before?: string,
  ): Promise<PreviewKind | undefined> {
    const wanted = offers.kinds.find(({ id }) => id === wish.kind);
    if (wanted) return wanted;
    const items = offers.kinds.map((kind) => ({ label: kind.title, value: kind }));
    return pick(
      vscode.l10n.t('Which document'),
      firstOf(items, ({ id }) => id === before),
    );
  }

  private async askDate(
    uri: vscode.Uri,
    kind: PreviewKind,
    client: string | null,
    wish: ExportWish,
  ): Promise<string | null | undefined> {
    if (wish.date !== undefined) return wish.date;
    const dates = (await this.offers(uri, kind.id, client))?.dates ?? [];
    const items: Item<string | null>[] = [
      { label: vscode.l10n.t('The next one'), value: null },
      ...dates.map(({ date, title }) => ({ label: title, description: date, value: date })),
    ];
    return pick(vscode.l10n.t('Which day'), items);
  }

  private write(uri: vscode.Uri, offers: Preview, answers: ExportAnswers): Promise<vscode.Uri[]> {
    const kind = offers.kinds.find(({ id }) => id === answers.kind);
    const formats = answers.formats.filter((format) => kind?.formats.includes(format));
    return this.send({ ...answers, uri: uri.toString(), formats });
  }

  private async send(request: object): Promise<vscode.Uri[]> {
    const place = {
      location: vscode.ProgressLocation.Notification,
      title: vscode.l10n.t('Writing documents'),
      cancellable: true,
    };
    try {
      let cancelled = false;
      const written = await vscode.window.withProgress(place, async (progress, token) => {
        const given = await this.server.execute('stave.server.export', request, progress, token);
        cancelled = token.isCancellationRequested;
        return given;
      });
      const answer = readExportAnswer(written);
      // Who has cancelled knows it, and nothing was written; unless the word came when all was done.
      if (!answer && cancelled) return [];
      if (!answer) throw new Error(vscode.l10n.t('The server gave no answer; its log may say why.'));
      const files = answer.files.map((file) => vscode.Uri.parse(file));
      void offer(files, vscode.Uri.parse(answer.folder), answer.missing);
      return files;
    } catch (error) {
      const reason = error instanceof Error ? error.message : String(error);
      const log = vscode.l10n.t('Show log');
      void vscode.window
        .showErrorMessage(vscode.l10n.t('Nothing was written. {0}', reason), log)
        .then((picked) => picked === log && this.server.log.show(true));
      return [];
    }
  }
}

function say(text: string): void {
  void vscode.window.showInformationMessage(text);
}

/** A folder has its answers; a file that lies in none has its own. */
function keyOf(uri: vscode.Uri): string {
  return `export:${(vscode.workspace.getWorkspaceFolder(uri)?.uri ?? uri).toString()}`;
}

function describe({ client, formats }: ExportAnswers, kind: PreviewKind, offers: Preview): string {
  const name = offers.clients.find(({ key }) => key === client)?.name ?? vscode.l10n.t('everyone');
  return `${kind.title}: ${name}, ${formats.map((format) => format.toUpperCase()).join(', ')}`;
}

async function pick<Value>(
  title: string,
  items: readonly Item<Value>[],
  placeHolder?: string,
): Promise<Value | undefined> {
  const picked = await vscode.window.showQuickPick(items, {
    title,
    matchOnDescription: true,
    ...(placeHolder === undefined ? {} : { placeHolder }),
  });
  return picked?.value;
}

/** The answer of last time stands first, so that Enter gives it again. */
function firstOf<Value>(
  items: readonly Item<Value>[],
  before: (value: Value) => boolean,
): readonly Item<Value>[] {
  return [...items.filter(({ value }) => before(value)), ...items.filter(({ value }) => !before(value))];
}

async function askClient(
  offers: Preview,
  wish: ExportWish,
  before: string | null | undefined,
): Promise<string | null | undefined> {
  if (wish.client !== undefined) return wish.client;
  const items: Item<string | null>[] = offers.clients.map(({ key, name }) => ({ label: name, value: key }));
  const everyone = { label: vscode.l10n.t('Every client'), value: null };
  const first = before === undefined ? offers.client : before;
  return pick(
    vscode.l10n.t('For whom'),
    firstOf([...items, everyone], (key) => key === first),
  );
}

async function askFormats(
  kind: PreviewKind,
  before: readonly string[] = ['html', 'pdf'],
): Promise<readonly string[] | undefined> {
  const words = FORMATS();
  const items = kind.formats.map((format) => ({
    label: format.toUpperCase(),
    description: words[format] ?? '',
    picked: before.includes(format),
    value: format,
  }));
  const picked = await vscode.window.showQuickPick(items, {
    title: vscode.l10n.t('Which formats'),
    canPickMany: true,
  });
  return picked && picked.length > 0 ? picked.map(({ value }) => value) : undefined;
}

/** Null: the folder of the settings. */
async function askWhere(
  uri: vscode.Uri,
  before: string | null | undefined,
): Promise<string | null | undefined> {
  const inside = vscode.workspace.getWorkspaceFolder(uri);
  const items: Item<string | null | 'other'>[] = [];
  if (inside) {
    const folder = vscode.workspace.getConfiguration('stave', uri).get<string>('plan.folder', 'plans');
    items.push({ label: `$(folder) ${folder}`, description: inside.name, value: null });
  }
  if (typeof before === 'string') {
    items.push({
      label: `$(folder) ${vscode.workspace.asRelativePath(vscode.Uri.parse(before))}`,
      value: before,
    });
  }
  if (items.length === 0) return (await askFolder(undefined))?.toString();
  items.push({ label: vscode.l10n.t('Another folder…'), value: 'other' });
  const picked = await pick(
    vscode.l10n.t('Where to'),
    firstOf(items, (value) => value === before),
  );
  return picked === 'other' ? (await askFolder(inside?.uri))?.toString() : picked;
}

async function askFolder(start: vscode.Uri | undefined): Promise<vscode.Uri | undefined> {
  const picked = await vscode.window.showOpenDialog({
    canSelectFiles: false,
    canSelectFolders: true,
    title: vscode.l10n.t('Folder for the documents'),
    openLabel: vscode.l10n.t('Write here'),
    ...(start ? { defaultUri: start } : {}),
  });
  return picked?.[0];
}

/** Up to two files can be opened at once; of more, their folder is shown. */
async function offer(
  files: readonly vscode.Uri[],
  folder: vscode.Uri,
  missing: readonly string[],
): Promise<void> {
  const names = files.map((file) => vscode.workspace.asRelativePath(file));
  const few = files.length <= 2;
  const titles = few
    ? files.map((file) =>
        vscode.l10n.t('Open {0}', file.path.slice(file.path.lastIndexOf('.') + 1).toUpperCase()),
      )
    : [vscode.l10n.t('Show the folder')];
  const text = few
    ? vscode.l10n.t('Written: {0}', names.join(', '))
    : vscode.l10n.t('{0} files written to {1}', files.length, vscode.workspace.asRelativePath(folder));
  const lacks =
    missing.length === 0
      ? ''
      : `. ${vscode.l10n.t('The font of the PDF has no {0}, so another sign stands there. The HTML page has them.', missing.slice(0, 8).join(' '))}`;
  const picked = await vscode.window.showInformationMessage(`${text}${lacks}`, ...titles);
  if (picked === undefined) return;
  if (!few) {
    await vscode.commands.executeCommand('revealInExplorer', files[0]);
    return;
  }
  const file = files[titles.indexOf(picked)];
  if (!file) return;
  // On another machine the browser cannot reach the file; the editor can.
  if (vscode.env.remoteName === undefined && vscode.env.uiKind === vscode.UIKind.Desktop)
    await vscode.env.openExternal(file);
  else await vscode.commands.executeCommand('vscode.open', file);
}
