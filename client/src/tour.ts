import * as vscode from 'vscode';
import type { ClientChoice } from './clientChoice.js';
import { clientFirst } from './clientFirst.js';
import { currentFile } from './currentFile.js';
import type { Server } from './server.js';
import type { Arrival, StarterPlace } from './starterMessages.js';

const WALKTHROUGH = 'stave.firstSteps';
const ARRIVAL = 'arrival';

/** What gives the keyboard to a column. */
const FOCUS = ['First', 'Second', 'Third'].map((name) => `workbench.action.focus${name}EditorGroup`);

/** The steps of the walkthrough, by the contexts that tick them. */
type Step = 'client' | 'program' | 'loads' | 'solved' | 'printed';

/** What leads a coach through her first ten minutes: what is shown after each step, and what ticks it. */
export class Tour implements vscode.Disposable {
  private watching: vscode.Disposable | undefined;

  constructor(
    private readonly context: vscode.ExtensionContext,
    private readonly server: Server,
    private readonly choice: ClientChoice,
  ) {}

  /** The command `stave.getStarted`. */
  async getStarted(): Promise<void> {
    const category = `${this.context.extension.id}#${WALKTHROUGH}`;
    await vscode.commands.executeCommand('workbench.action.openWalkthrough', category, false);
  }

  /** A client was written: shows her file, in this window where her folder is open, else after opening it. */
  async arrive(arrival: Arrival): Promise<void> {
    const folder = vscode.Uri.parse(arrival.folder);
    if (isOpen(folder)) return this.show(arrival);
    await this.context.globalState.update(ARRIVAL, arrival);
    const other = (vscode.workspace.workspaceFolders ?? []).length > 0;
    // Editors before 1.102 do not know the last one: the folder opens with nothing shown.
    const options = {
      forceNewWindow: other,
      forceReuseWindow: !other,
      filesToOpen: [vscode.Uri.parse(arrival.file)],
    };
    await vscode.commands.executeCommand('vscode.openFolder', folder, options);
  }

  /** Goes on where a window was opened for a new client. */
  async resume(): Promise<void> {
    const kept = this.context.globalState.get(ARRIVAL);
    if (kept === undefined) return;
    const { readArrival } = await import('./starterMessages.js');
    const arrival = readArrival(kept);
    if (!arrival || !isOpen(vscode.Uri.parse(arrival.folder))) return;
    await this.context.globalState.update(ARRIVAL, undefined);
    await this.getStarted();
    await this.show(arrival);
  }

  private async show({ folder, file, client }: Arrival): Promise<void> {
    await this.choice.set(vscode.Uri.parse(folder), client);
    await this.tick('client', 'program');
    await open(vscode.Uri.parse(file));
  }

  /** A client follows a program now: shows it. */
  async hasProgram(file: vscode.Uri, folder: string, client: string): Promise<void> {
    await this.choice.set(vscode.Uri.parse(folder), client);
    await this.tick('program', 'loads');
    await open(file);
  }

  /** The command `stave.showLoads`: the first cell with a load, and why it is that load. */
  async showLoads(): Promise<void> {
    const places = await this.places();
    if (!places) return clientFirst();
    if (!places.load) {
      void vscode.window.showInformationMessage(
        vscode.l10n.t(
          'No load is worked out yet. "Stave: Add a Starter Program…" gives a client something to do.',
        ),
      );
      return;
    }
    await this.tick('loads', 'warning');
    await explain(places.load);
  }

  /** The command `stave.showWarning`: the first warning; solving it ticks the step. */
  async showWarning(): Promise<void> {
    const places = await this.places();
    if (!places) return clientFirst();
    if (!places.finding) {
      await this.tick('solved', 'print');
      void vscode.window.showInformationMessage(vscode.l10n.t('There is no warning in this folder.'));
      return;
    }
    const { uri } = places.finding;
    this.tickWhenSolved(vscode.Uri.parse(uri), places.code);
    await explain(places.finding);
  }

  async printed(): Promise<void> {
    await this.tick('printed', 'print');
  }

  private tickWhenSolved(uri: vscode.Uri, code: string | null): void {
    this.watching?.dispose();
    const there = () =>
      vscode.languages
        .getDiagnostics(uri)
        .some((found) => (typeof found.code === 'object' ? found.code.value : found.code) === code);
    let seen = there();
    this.watching = vscode.languages.onDidChangeDiagnostics(({ uris }) => {
      if (!uris.some((each) => each.toString() === uri.toString())) return;
      if (there()) seen = true;
      else if (seen) {
        this.watching?.dispose();
        void this.solved();
      }
    });
  }

  private async places() {
    const uri = await currentFile();
    if (!uri || !this.server.running) return undefined;
    const client = this.choice.of(uri.toString());
    const { readPlaces } = await import('./starterMessages.js');
    return readPlaces(await this.server.request('stave/starter/places', { uri: uri.toString(), client }));
  }

  private async solved(): Promise<void> {
    // The editor draws the lines above a text anew only while the text has the keyboard.
    await new Promise((resolve) => setTimeout(resolve, 800));
    await this.tick('solved', 'print');
  }

  /** Ticks a step, and shows the next one where the walkthrough is shown. It takes the keyboard for that. */
  private async tick(step: Step, next: string): Promise<void> {
    await vscode.commands.executeCommand('setContext', `stave.tour.${step}`, true);
    const focus = FOCUS[(guideGroup()?.viewColumn ?? 0) - 1];
    if (focus === undefined) return;
    await vscode.commands.executeCommand(focus);
    const id = `${this.context.extension.id}#${WALKTHROUGH}#${next}`;
    // An editor without this command keeps showing the step that is done.
    await vscode.commands.executeCommand('walkthroughs.selectStep', id).then(undefined, () => {});
    // It takes the keyboard a quarter of a second later, and would close what is shown meanwhile.
    await new Promise((resolve) => setTimeout(resolve, 400));
  }

  dispose(): void {
    this.watching?.dispose();
  }
}

function isOpen(folder: vscode.Uri): boolean {
  const open = vscode.workspace.workspaceFolders ?? [];
  return open.some(({ uri }) => uri.toString() === folder.toString());
}

/** Opens a text beside the walkthrough where that is shown, so that the next step stays in sight. */
async function open(file: vscode.Uri, selection?: vscode.Range): Promise<vscode.TextEditor> {
  const document = await vscode.workspace.openTextDocument(file);
  const guide = guideGroup();
  const viewColumn = guide ? guide.viewColumn + 1 : vscode.ViewColumn.Active;
  // A row with its loads is wider than a step of the walkthrough.
  if (guide && vscode.window.tabGroups.all.length === 1) {
    const groups = [{ size: 0.45 }, { size: 0.55 }];
    await vscode.commands.executeCommand('vscode.setEditorLayout', { orientation: 0, groups });
  }
  return vscode.window.showTextDocument(document, {
    preview: false,
    viewColumn,
    ...(selection && { selection }),
  });
}

/** The column that shows the walkthrough: pages of the editor itself say nothing of what they show. */
export function guideGroup(): vscode.TabGroup | undefined {
  return vscode.window.tabGroups.all.find(({ activeTab }) => activeTab && activeTab.input === undefined);
}

/** Puts the cursor before the first character of a place, and shows what there is to say of it. */
async function explain(place: NonNullable<StarterPlace>): Promise<void> {
  const { start } = place.range;
  const at = new vscode.Position(start.line, start.character);
  const editor = await open(vscode.Uri.parse(place.uri), new vscode.Range(at, at));
  editor.revealRange(new vscode.Range(at, at), vscode.TextEditorRevealType.InCenterIfOutsideViewport);
  // One that is shown already would only get the keyboard. Older editors do not know this command.
  await vscode.commands.executeCommand('editor.action.hideHover').then(undefined, () => {});
  await vscode.commands.executeCommand('editor.action.showHover');
}
