import * as vscode from 'vscode';
import type { ClientChoice } from './clientChoice.js';
import type { Server } from './server.js';
import type { WhyView } from './whyMessages.js';
import type { WhyPanel } from './whyPanel.js';

/** The type of the panel, by which the editor knows it again after a reload. */
export const WHY_TYPE = 'stave.why';

/** The panel of reasons: opens it, and gives it back after the window was reloaded. There is one at a time. */
export class Whys implements vscode.WebviewPanelSerializer, vscode.Disposable {
  private panel: WhyPanel | undefined;
  private readonly registration = vscode.window.registerWebviewPanelSerializer(WHY_TYPE, this);

  constructor(
    private readonly extension: vscode.Uri,
    private readonly server: Server,
    private readonly choice: ClientChoice,
  ) {}

  /**
   * Shows the reasons of a cell, or what would be if something else were written. Without an address and a position:
   * of the cell of the cursor.
   */
  async open(view: WhyView, address?: unknown, position?: unknown): Promise<void> {
    const given = typeof address === 'string' ? vscode.Uri.parse(address) : undefined;
    const editor = given ? undefined : shownEditor();
    const uri = given ?? editor?.document.uri;
    if (!uri) {
      if (this.panel) return this.panel.turnTo(view);
      void vscode.window.showInformationMessage(vscode.l10n.t('Open a Stave file first.'));
      return;
    }
    const place = readPosition(given ? position : editor?.selection.active);
    const state = { uri: uri.toString(), view, ...place };
    if (this.panel) return this.panel.show((await import('./whyPanel.js')).readWhyState(state));
    const panel = vscode.window.createWebviewPanel(
      WHY_TYPE,
      vscode.l10n.t('Why this load'),
      // A coach who asked for reasons wants to read them: the keyboard goes along.
      { viewColumn: vscode.ViewColumn.Beside },
      {},
    );
    await this.take(panel, state);
  }

  async deserializeWebviewPanel(panel: vscode.WebviewPanel, state: unknown): Promise<void> {
    await this.take(panel, state);
  }

  private async take(panel: vscode.WebviewPanel, state: unknown): Promise<void> {
    const { WhyPanel, readWhyState } = await import('./whyPanel.js');
    this.panel?.dispose();
    const made = new WhyPanel(panel, this.extension, this.server, this.choice, readWhyState(state ?? {}));
    this.panel = made;
    panel.onDidDispose(() => {
      if (this.panel === made) this.panel = undefined;
    });
  }

  dispose(): void {
    this.registration.dispose();
  }
}

/** The text that is written in, else one that can be seen, as when the panel has the keyboard. */
function shownEditor(): vscode.TextEditor | undefined {
  const editors = [vscode.window.activeTextEditor, ...vscode.window.visibleTextEditors];
  return editors.find((editor) => editor?.document.languageId === 'stave');
}

function readPosition(value: unknown): { line: number; character: number } {
  if (typeof value !== 'object' || value === null) return { line: 0, character: 0 };
  const { line, character } = value as { line?: unknown; character?: unknown };
  return { line: Number(line) || 0, character: Number(character) || 0 };
}
