import * as vscode from 'vscode';
import type { ClientChoice } from './clientChoice.js';
import { goToMark } from './goToMark.js';
import {
  type FromPanel,
  type Preview,
  type PreviewState,
  readFromPanel,
  readPreview,
  readState,
  type ToPanel,
} from './previewMessages.js';
import { previewPage } from './previewPage.js';
import type { Server } from './server.js';

export { readState };

/** The panel beside the text, and what it says to the server and its page. */
export class PreviewPanel {
  private uri: vscode.Uri | undefined;
  private kind: string | null;
  private date: string | null;
  private large: boolean;
  private preview: Preview | undefined;
  private sent = '';
  private stale = false;
  private gone = false;
  private busy = false;
  private readonly parts: vscode.Disposable[] = [];

  constructor(
    private readonly panel: vscode.WebviewPanel,
    extension: vscode.Uri,
    private readonly server: Server,
    private readonly choice: ClientChoice,
    state: PreviewState,
  ) {
    this.uri = state.uri === null ? undefined : vscode.Uri.parse(state.uri);
    this.kind = state.kind;
    this.date = state.date;
    this.large = state.large;
    const { webview } = panel;
    webview.options = {
      enableScripts: true,
      localResourceRoots: [vscode.Uri.joinPath(extension, 'dist')],
    };
    const icon = (name: string) => vscode.Uri.joinPath(extension, 'client', 'media', name);
    panel.iconPath = { light: icon('file-light.svg'), dark: icon('file-dark.svg') };
    this.parts.push(
      webview.onDidReceiveMessage((value) => {
        const message = readFromPanel(value);
        if (message) void this.receive(message);
      }),
      server.onStatusChanged(() => void this.refresh()),
      vscode.window.onDidChangeActiveTextEditor((editor) => this.follow(editor)),
      vscode.window.onDidChangeTextEditorSelection(({ textEditor }) => this.sendCursor(textEditor)),
      panel.onDidDispose(() => {
        this.gone = true;
        vscode.Disposable.from(...this.parts).dispose();
      }),
    );
    webview.html = previewPage(webview, extension);
  }

  reveal(uri: vscode.Uri, kind: string | null): void {
    this.panel.reveal(undefined, true);
    if (kind !== null && kind !== this.kind) {
      this.kind = kind;
      void this.refresh();
    }
    this.show(uri);
  }

  dispose(): void {
    this.panel.dispose();
  }

  private async receive(message: FromPanel): Promise<void> {
    switch (message.type) {
      case 'ready':
        // The page is new, after it was hidden or the window was reloaded: it has nothing yet.
        this.sent = '';
        return this.refresh();
      case 'choose':
        return this.choose(message);
      case 'jump':
        return this.jump(message.at);
      case 'export':
        await vscode.commands.executeCommand('stave.export', {
          uri: this.uri?.toString(),
          kind: this.preview?.kind,
          client: this.preview?.client,
          date: this.preview?.date,
          large: this.large,
        });
    }
  }

  private async choose(message: Extract<FromPanel, { type: 'choose' }>): Promise<void> {
    if (message.kind !== undefined) this.kind = message.kind;
    if (message.date !== undefined) this.date = message.date;
    if (message.large !== undefined) this.large = message.large;
    // One client for the panel and for the loads in the text.
    if (message.client !== undefined && this.uri) await this.choice.set(this.uri, message.client);
    await this.refresh();
  }

  private follow(editor: vscode.TextEditor | undefined): void {
    if (editor && vscode.languages.match(this.server.selector, editor.document) > 0) {
      this.show(editor.document.uri);
      this.sendCursor(editor);
    }
  }

  private show(uri: vscode.Uri): void {
    if (this.uri?.toString() === uri.toString()) return;
    this.uri = uri;
    void this.refresh();
  }

  /**
   * Asks the server and sends what is new. One question at a time: what changes meanwhile is asked about afterwards,
   * and never sooner than the last answer took, so that a long document leaves the server time for the text. A panel
   * that nobody sees asks nothing; its page asks when it is shown again.
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
        const took = Date.now() - began;
        if (this.stale) await new Promise((resolve) => setTimeout(resolve, took));
      }
    } finally {
      this.busy = false;
    }
  }

  private async update(): Promise<void> {
    const answer = await this.ask().catch((error: unknown) => {
      this.server.log.error(`preview: ${error instanceof Error ? error.message : String(error)}`);
      return undefined;
    });
    if (this.gone) return;
    const preview = answer ?? this.nothing();
    this.preview = preview;
    this.kind = preview.kind;
    const client = preview.clients.find(({ key }) => key === preview.client)?.name;
    const kind = preview.kinds.find(({ id }) => id === preview.kind);
    const title = [kind?.aboutClient === false ? undefined : client, kind?.title].filter(Boolean).join(' · ');
    this.panel.title = title || vscode.l10n.t('Preview');
    const page = preview.page && {
      title: preview.page.title,
      css: preview.page.css,
      body: preview.page.body,
    };
    const uri = this.uri?.toString() ?? null;
    const message: ToPanel = { type: 'show', uri, large: this.large, preview: { ...preview, page } };
    const text = JSON.stringify(message);
    if (text !== this.sent) {
      this.sent = text;
      await this.panel.webview.postMessage(message);
      // It may have been closed meanwhile.
      if (this.gone) return;
    }
    this.sendCursor(vscode.window.activeTextEditor ?? vscode.window.visibleTextEditors[0]);
  }

  private async ask(): Promise<Preview | undefined> {
    if (!this.uri || !this.server.running) return undefined;
    const options = { large: this.large, size: null, date: this.date };
    const client = this.choice.of(this.uri.toString());
    return readPreview(
      await this.server.request('stave/preview', {
        uri: this.uri.toString(),
        client,
        kind: this.kind,
        options,
      }),
    );
  }

  /** What stands in place of a document that the server has no answer for. */
  private nothing(): Preview {
    const empty = this.server.running
      ? {
          heading: vscode.l10n.t('Nothing to show yet'),
          text: vscode.l10n.t('Open a Stave file beside this panel; its plan appears here.'),
        }
      : {
          heading: vscode.l10n.t('The language server is not running'),
          text: vscode.l10n.t(
            'Run "Stave: Restart Language Server" from the command palette. "Stave: Show Log" says what happened.',
          ),
        };
    return {
      ...{ kinds: [], clients: [], kind: '', client: null, dates: [], date: null },
      ...{ notice: null, page: null, empty },
    };
  }

  private sendCursor(editor: vscode.TextEditor | undefined): void {
    const sources = this.preview?.page?.sources ?? [];
    if (editor?.document.languageId !== 'stave') return;
    const own = editor.document.uri.toString();
    const source = sources.findIndex((uri) => vscode.Uri.parse(uri).toString() === own);
    const { line, character } = editor.selection.active;
    const message: ToPanel = { type: 'cursor', at: source < 0 ? null : { source, line, character } };
    void this.panel.webview.postMessage(message);
  }

  private async jump(at: string): Promise<void> {
    await goToMark(at, this.preview?.page?.sources ?? [], this.panel.viewColumn);
  }
}
