import * as vscode from 'vscode';
import type { Server } from './server.js';

/** As `taskDefinitions` of the manifest has it. */
interface Definition extends vscode.TaskDefinition {
  readonly type: 'stave';
  readonly task: 'check' | 'watch';
}

/**
 * The tasks of a folder: `check` puts the findings of all its files, open or not, into the list of problems; `watch`
 * does so again after every change. The language server does the work, so no program is needed on the machine.
 */
export function registerTasks(server: Server): vscode.Disposable {
  return vscode.tasks.registerTaskProvider('stave', {
    provideTasks: () =>
      (vscode.workspace.workspaceFolders ?? []).flatMap((folder) =>
        (['check', 'watch'] as const).map((task) => taskFor(server, { type: 'stave', task }, folder)),
      ),
    resolveTask({ definition, scope }) {
      const { task } = definition;
      if (task !== 'check' && task !== 'watch') return undefined;
      const folder = typeof scope === 'object' ? scope : vscode.workspace.workspaceFolders?.[0];
      // The editor takes an answer only with the very definition that it asked about.
      return folder && taskFor(server, definition as Definition, folder);
    },
  });
}

function taskFor(server: Server, definition: Definition, folder: vscode.WorkspaceFolder): vscode.Task {
  const watching = definition.task === 'watch';
  const task = new vscode.Task(
    definition,
    folder,
    definition.task,
    'stave',
    new vscode.CustomExecution(async () => new CheckTerminal(server, folder, watching)),
    watching ? '$stave-watch' : '$stave',
  );
  task.isBackground = watching;
  task.detail = watching
    ? vscode.l10n.t('Lists the findings of all files, again after every change')
    : vscode.l10n.t('Lists the findings of all files');
  task.presentationOptions = { reveal: vscode.TaskRevealKind.Silent };
  return task;
}

const readingMilliseconds = 300;

/** Looks like a terminal to the editor; what stands in it comes from the server. */
class CheckTerminal implements vscode.Pseudoterminal {
  private readonly written = new vscode.EventEmitter<string>();
  private readonly ended = new vscode.EventEmitter<number>();
  readonly onDidWrite = this.written.event;
  readonly onDidClose = this.ended.event;
  private following: vscode.Disposable | undefined;
  private running = false;
  private again = false;

  constructor(
    private readonly server: Server,
    private readonly folder: vscode.WorkspaceFolder,
    private readonly watching: boolean,
  ) {}

  open(): void {
    if (this.watching) this.following = this.server.onStatusChanged(() => void this.check());
    void this.check();
  }

  close(): void {
    this.following?.dispose();
  }

  /** One check at a time; changes meanwhile lead to one more. */
  private async check(): Promise<void> {
    this.again = true;
    if (this.running) return;
    this.running = true;
    while (this.again) {
      this.again = false;
      await this.checkOnce();
    }
    this.running = false;
  }

  private async checkOnce(): Promise<void> {
    // The problem matcher of `watch` knows these words: they are the same in every language.
    this.say(`Checking ${this.folder.name}`);
    try {
      const { lines, files } = await this.server.check(this.folder.uri);
      for (const line of lines) this.say(line);
      this.say(`Checked ${files} files: ${lines.length} findings`);
      this.end(lines.some((line) => /: (error|warning) /.test(line)) ? 1 : 0);
    } catch (error) {
      this.say(error instanceof Error ? error.message : String(error));
      this.say('Checked nothing');
      this.end(2);
    }
  }

  /** The editor drops the last lines of a terminal that ends at once: it gets a moment to read them. */
  private end(code: number): void {
    if (!this.watching) setTimeout(() => this.ended.fire(code), readingMilliseconds);
  }

  private say(line: string): void {
    this.written.fire(`${line}\r\n`);
  }
}
