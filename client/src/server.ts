import * as vscode from 'vscode';
import type { BaseLanguageClient, LanguageClientOptions, ProgressType } from 'vscode-languageclient';
import type { ClientChoice } from './clientChoice.js';
import { answerForFiles } from './files.js';
import { readStatus, type Status } from './status.js';

/** Documents that are a coach's texts. Old versions shown beside new ones (`git:` and the like) are not. */
function selector(): { language: string; scheme: string }[] {
  const schemes = new Set(['file', 'untitled']);
  for (const folder of vscode.workspace.workspaceFolders ?? []) schemes.add(folder.uri.scheme);
  return [...schemes].map((scheme) => ({ language: 'stave', scheme }));
}

/** What a server says of its work as it goes. The library's own name for it would be loaded for this alone. */
const workDone = {} as ProgressType<{ message?: string; percentage?: number }>;

/** Makes the client of a language server that is not started yet. */
export type MakeClient = (
  context: vscode.ExtensionContext,
  options: LanguageClientOptions,
) => Promise<BaseLanguageClient>;

/** The language server and everything that is said to it. */
export class Server implements vscode.Disposable {
  readonly log = vscode.window.createOutputChannel('Stave', { log: true });
  readonly selector = selector();
  /** Undefined until the first start. */
  private started: BaseLanguageClient | undefined;
  /** Commands so far, to tell their progress apart. */
  private commands = 0;
  private readonly changed = new vscode.EventEmitter<void>();
  /** Fires when the clients, their programs or the choice may have changed. */
  readonly onStatusChanged = this.changed.event;

  constructor(
    private readonly context: vscode.ExtensionContext,
    private readonly choice: ClientChoice,
    private readonly makeClient: MakeClient,
  ) {
    choice.onChanged(() => {
      // The choice travels with the settings, so that one path carries both.
      void this.started?.sendNotification('workspace/didChangeConfiguration', { settings: null });
      this.changed.fire();
    });
  }

  private async newClient(): Promise<BaseLanguageClient> {
    const options: LanguageClientOptions = {
      documentSelector: this.selector,
      outputChannel: this.log,
      // Of the commands only this one may be run by a link in what the server shows.
      markdown: { isTrusted: { enabledCommands: ['stave.explain'] } },
      initializationOptions: {
        // A page of a rule opens as a page, not as its source.
        selectCommand: 'stave.select',
        listCommand: 'stave.showPlaces',
        snippetCommand: 'stave.insertSnippet',
        explainCommand: 'stave.explain',
        suggestCommand: 'editor.action.triggerSuggest',
        chooseCommand: 'stave.chooseClient',
        rulePageUri: 'command:stave.showRule?%5B%22{code}%22%5D',
      },
      middleware: {
        workspace: {
          configuration: async (params, token, next) => {
            const answer = await next(params, token);
            if (!Array.isArray(answer)) return answer;
            return answer.map((value: unknown, index) =>
              params.items[index]?.section === 'stave' && typeof value === 'object'
                ? { ...value, client: this.choice.of(params.items[index]?.scopeUri) }
                : value,
            );
          },
        },
      },
    };
    const client = await this.makeClient(this.context, options);
    answerForFiles(client, this.context.extensionUri);
    client.onNotification('stave/statusChanged', () => this.changed.fire());
    return client;
  }

  start(): Promise<void> {
    return this.begin(async () => {
      this.started = await this.newClient();
      await this.started.start();
    });
  }

  restart(): Promise<void> {
    return this.begin(async () => {
      // One that failed to start has nothing to stop.
      await this.started?.dispose().catch(() => {});
      this.started = await this.newClient();
      await this.started.start();
    });
  }

  /** A server that does not start is told of with a way to its log; colours and commands stay. */
  private async begin(start: () => Promise<void>): Promise<void> {
    try {
      await start();
      this.changed.fire();
    } catch (error) {
      const reason = error instanceof Error ? error.message : String(error);
      this.log.error(reason);
      const log = vscode.l10n.t('Show log');
      void vscode.window
        .showErrorMessage(vscode.l10n.t('The language server did not start. {0}', reason), log)
        .then((picked) => picked === log && this.log.show(true));
    }
  }

  private get client(): BaseLanguageClient {
    if (!this.started) throw new Error(vscode.l10n.t('The language server has not started yet.'));
    return this.started;
  }

  get running(): boolean {
    return this.started?.isRunning() ?? false;
  }

  /** Who follows the programs of a file or folder, and whose loads are shown there. */
  async status(uri: vscode.Uri): Promise<Status | undefined> {
    if (!this.running) return undefined;
    return readStatus(await this.client.sendRequest('stave/status', { uri: uri.toString() }));
  }

  /** Sends a request of our own. */
  request(method: `stave/${string}`, params: unknown): Promise<unknown> {
    return this.client.sendRequest(method, params);
  }

  /** The findings of all files of a folder, a line each. */
  async check(folder: vscode.Uri): Promise<{ lines: readonly string[]; files: number }> {
    const answer: unknown = await this.client.sendRequest('stave/check', { folder: folder.toString() });
    const { lines, files } = (answer ?? {}) as Record<string, unknown>;
    if (!Array.isArray(lines) || typeof files !== 'number')
      throw new Error(vscode.l10n.t('The server gave no answer; its log may say why.'));
    return { lines: lines.map(String), files };
  }

  /**
   * Runs a command of the server, which says how far it is as it goes. Undefined where it was given up.
   */
  async execute(
    command: string,
    argument: unknown,
    progress?: vscode.Progress<{ message?: string; increment?: number }>,
    token?: vscode.CancellationToken,
  ): Promise<unknown> {
    const workDoneToken = `${command}:${++this.commands}`;
    let shown = 0;
    const listening = this.client.onProgress(workDone, workDoneToken, ({ message, percentage }) => {
      const increment = Math.max(0, (percentage ?? shown) - shown);
      shown += increment;
      progress?.report({ ...(message === undefined ? {} : { message }), increment });
    });
    try {
      const params = { command, arguments: [argument], workDoneToken };
      // A token that is missing would count as a second parameter.
      return await (token
        ? this.client.sendRequest('workspace/executeCommand', params, token)
        : this.client.sendRequest('workspace/executeCommand', params));
    } catch (error) {
      if (token?.isCancellationRequested) return undefined;
      throw error;
    } finally {
      listening.dispose();
    }
  }

  dispose(): void {
    void this.started?.dispose();
    this.changed.dispose();
    this.log.dispose();
  }
}
