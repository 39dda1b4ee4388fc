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
  const problems = new VirtualProblems();
  const provider = vscode.tasks.registerTaskProvider('stave', {
    provideTasks: () =>
      (vscode.workspace.workspaceFolders ?? []).flatMap((folder) =>
        (['check', 'watch'] as const).map((task) =>
          taskFor(server, problems, { type: 'stave', task }, folder),
        ),
      ),
    resolveTask({ definition, scope }) {
      const { task } = definition;
      if (task !== 'check' && task !== 'watch') return undefined;
      const folder = typeof scope === 'object' ? scope : vscode.workspace.workspaceFolders?.[0];
      // The editor takes an answer only with the very definition that it asked about.
      return folder && taskFor(server, problems, definition as Definition, folder);
    },
  });
  return vscode.Disposable.from(provider, problems);
}

function taskFor(
  server: Server,
  problems: VirtualProblems,
  definition: Definition,
  folder: vscode.WorkspaceFolder,
): vscode.Task {
  const watching = definition.task === 'watch';
  const task = new vscode.Task(
    definition,
    folder,
    definition.task,
    'stave',
    new vscode.CustomExecution(async () => new CheckTerminal(server, problems, folder, watching)),
    isVirtual(folder) ? [] : watching ? '$stave-watch' : '$stave',
  );
  task.isBackground = watching;
  task.detail = watching
    ? vscode.l10n.t('Lists the findings of all files, again after every change')
    : vscode.l10n.t('Lists the findings of all files');
  task.presentationOptions = { reveal: vscode.TaskRevealKind.Silent };
  return task;
}

/** A problem matcher makes paths of the disk out of what it reads; a folder that lies on none has other addresses. */
function isVirtual({ uri }: vscode.WorkspaceFolder): boolean {
  return uri.scheme !== 'file' && uri.scheme !== 'vscode-remote';
}

/** The list of problems of folders that lie on no disk, where no problem matcher can find the files. */
class VirtualProblems implements vscode.Disposable {
  // Not the owner of the problem matchers: the editor hides what they find from extensions while one owns the name.
  private readonly found = vscode.languages.createDiagnosticCollection('stave.check.virtual');
  /** Open files show their findings themselves. */
  private readonly opening = vscode.workspace.onDidOpenTextDocument(({ uri }) => {
    if (this.found.has(uri)) this.found.delete(uri);
  });

  show(folder: vscode.Uri, lines: readonly string[]): void {
    const open = new Set(vscode.workspace.textDocuments.map(({ uri }) => uri.toString()));
    const byFile = new Map<string, vscode.Diagnostic[]>();
    for (const line of lines) {
      // As the problem pattern of the manifest has it.
      const parts = /^(.+?):(\d+):(\d+): (error|warning|info|hint) (\S+) (.*)$/.exec(line);
      if (!parts) continue;
      const [, file = '', row, column, severity = '', code = '', message = ''] = parts;
      const uri = vscode.Uri.joinPath(folder, file).toString();
      if (open.has(uri)) continue;
      const place = new vscode.Position(Number(row) - 1, Number(column) - 1);
      const problem = new vscode.Diagnostic(new vscode.Range(place, place), message, SEVERITIES[severity]);
      problem.source = 'stave';
      problem.code = code;
      byFile.set(uri, [...(byFile.get(uri) ?? []), problem]);
    }
    this.found.forEach((uri) => {
      if (uri.toString().startsWith(`${folder.toString()}/`)) this.found.delete(uri);
    });
    for (const [uri, problems] of byFile) this.found.set(vscode.Uri.parse(uri), problems);
  }

  dispose(): void {
    vscode.Disposable.from(this.found, this.opening).dispose();
  }
}

const SEVERITIES: Readonly<Record<string, vscode.DiagnosticSeverity>> = {
  error: vscode.DiagnosticSeverity.Error,
  warning: vscode.DiagnosticSeverity.Warning,
  info: vscode.DiagnosticSeverity.Information,
  hint: vscode.DiagnosticSeverity.Hint,
};

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
    private readonly problems: VirtualProblems,
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
      if (isVirtual(this.folder)) this.problems.show(this.folder.uri, lines);
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
