import * as vscode from 'vscode';
import type { ClientChoice } from './clientChoice.js';
import { goToMark } from './goToMark.js';
import type { Server } from './server.js';
import {
  type FromWhyPanel,
  readFromWhyPanel,
  readWhy,
  readWhyState,
  type ToWhyPanel,
  type Why,
  type WhyState,
  type WhyView,
} from './whyMessages.js';
import { whyPage } from './whyPage.js';

export { readWhyState };

/** The panel of reasons, and what it says to the server and its page. */
export class WhyPanel {
  private answer: Why | undefined;
  private sent = '';
  /** A place where the cursor went by itself: it is taken over only where there is something to explain. */
  private tentative: WhyState | undefined;
  private stale = false;
  private gone = false;
  private busy = false;
  private readonly parts: vscode.Disposable[] = [];

  constructor(
    private readonly panel: vscode.WebviewPanel,
    extension: vscode.Uri,
    private readonly server: Server,
    private readonly choice: ClientChoice,
    private state: WhyState,
  ) {
    const { webview } = panel;
    webview.options = {
      enableScripts: true,
      localResourceRoots: [vscode.Uri.joinPath(extension, 'dist')],
    };
    const icon = (name: string) => vscode.Uri.joinPath(extension, 'client', 'media', name);
    panel.iconPath = { light: icon('file-light.svg'), dark: icon('file-dark.svg') };
    this.parts.push(
      webview.onDidReceiveMessage((value) => {
        const message = readFromWhyPanel(value);
        if (message) void this.receive(message);
      }),
      server.onStatusChanged(() => void this.refresh()),
      vscode.workspace.onDidChangeTextDocument((change) => this.moveWith(change)),
      vscode.window.onDidChangeTextEditorSelection(({ textEditor }) => this.follow(textEditor)),
      panel.onDidDispose(() => {
        this.gone = true;
        vscode.Disposable.from(...this.parts).dispose();
      }),
    );
    webview.html = whyPage(webview, extension);
  }

  show(state: WhyState): void {
    this.tentative = undefined;
    // What was tried is kept while the panel is open.
    this.state = { ...state, changes: this.state.uri === state.uri ? this.state.changes : {} };
    this.panel.reveal();
    void this.refresh();
  }

  turnTo(view: WhyView): void {
    this.show({ ...this.state, view });
  }

  dispose(): void {
    this.panel.dispose();
  }

  private async receive(message: FromWhyPanel): Promise<void> {
    if (message.type === 'ready') {
      // The page is new, after it was hidden or the window was reloaded: it has nothing yet.
      this.sent = '';
      return this.refresh();
    }
    if (message.type === 'jump')
      return goToMark(message.at, this.answer?.sources ?? [], this.panel.viewColumn);
    const { view, client, day, changes } = message;
    this.tentative = undefined;
    this.state = {
      ...this.state,
      ...(view !== undefined && { view }),
      ...(day !== undefined && { day }),
      ...(changes !== undefined && { changes }),
    };
    const { uri } = this.state;
    if (client !== undefined && uri !== null) {
      // Days and maxes are hers alone; one client for the panel and for the loads in the text.
      this.state = { ...this.state, day: null, changes: {} };
      await this.choice.set(vscode.Uri.parse(uri), client);
    }
    await this.refresh();
  }

  /** The cell of the cursor, while the coach goes through the text; what is tried out stays what it is. */
  private follow(editor: vscode.TextEditor): void {
    if (this.state.view !== 'why' || vscode.languages.match(this.server.selector, editor.document) === 0)
      return;
    const uri = editor.document.uri.toString();
    const { line, character } = editor.selection.active;
    const { state } = this;
    if (uri === state.uri && line === state.line && character === state.character) return;
    this.tentative = { ...state, uri, line, character, day: null };
    void this.refresh();
  }

  /** The place stays on its words while lines are written above it. */
  private moveWith({ document, contentChanges }: vscode.TextDocumentChangeEvent): void {
    if (document.uri.toString() !== this.state.uri) return;
    for (const { range, text } of contentChanges) {
      const { line, character } = this.state;
      if (range.end.line > line || (range.end.line === line && range.end.character > character)) continue;
      const added = text.split('\n');
      const end = (added[added.length - 1] ?? '').length + (added.length === 1 ? range.start.character : 0);
      this.state = {
        ...this.state,
        line: line + added.length - 1 - (range.end.line - range.start.line),
        character: range.end.line === line ? character - range.end.character + end : character,
      };
    }
  }

  /**
   * Asks the server and sends what is new. One question at a time: what changes meanwhile is asked about afterwards. A
   * panel that nobody sees asks nothing; its page asks when it is shown again.
   */
  private async refresh(): Promise<void> {
    this.stale = true;
    if (this.busy) return;
    this.busy = true;
    try {
      while (!this.gone && this.stale && this.panel.visible) {
        this.stale = false;
        const began = Date.now();
        await this.update();
        if (this.stale) await new Promise((resolve) => setTimeout(resolve, Date.now() - began));
      }
    } finally {
      this.busy = false;
    }
  }

  private async update(): Promise<void> {
    const { tentative } = this;
    const asked = tentative ?? this.state;
    const answer = await this.ask(asked).catch((error: unknown) => {
      this.server.log.error(`reasons: ${error instanceof Error ? error.message : String(error)}`);
      return undefined;
    });
    if (this.gone) return;
    if (tentative) {
      if (this.tentative === tentative) this.tentative = undefined;
      if (!answer?.found) return;
      this.state = tentative;
    }
    this.answer = answer ?? this.nothing(asked.view);
    const { sources: _, ...shown } = this.answer;
    this.panel.title = this.answer.title;
    const message: ToWhyPanel = { type: 'show', state: this.state, answer: shown };
    const text = JSON.stringify(message);
    if (text === this.sent) return;
    this.sent = text;
    await this.panel.webview.postMessage(message);
  }

  private async ask({ uri, view, line, character, day, changes }: WhyState): Promise<Why | undefined> {
    if (uri === null || !this.server.running) return undefined;
    const client = this.choice.of(uri);
    const position = { line, character };
    return readWhy(await this.server.request('stave/why', { uri, view, position, client, day, changes }));
  }

  /** What stands in place of a page that the server has no answer for. */
  private nothing(view: WhyView): Why {
    const words = this.server.running
      ? vscode.l10n.t('Put the cursor into a cell of a Stave file; its reasons appear here.')
      : vscode.l10n.t(
          'The language server is not running. Run "Stave: Restart Language Server" from the command palette. "Stave: Show Log" says what happened.',
        );
    return {
      ...{ view, found: false, title: vscode.l10n.t('Why this load'), clients: [], client: null },
      ...{ days: [], day: null, fields: [], body: '', sources: [], spoken: words },
    };
  }
}
