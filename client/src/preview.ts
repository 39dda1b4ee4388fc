import * as vscode from 'vscode';
import type { ClientChoice } from './clientChoice.js';
import { currentFile } from './currentFile.js';
import type { PreviewPanel } from './previewPanel.js';
import type { Server } from './server.js';
import { guideGroup } from './tour.js';

/** The type of the panel, by which the editor knows it again after a reload. */
export const PREVIEW_TYPE = 'stave.preview';

/** The panel beside the text: opens it, and gives it back after the window was reloaded. There is one at a time. */
export class Previews implements vscode.WebviewPanelSerializer, vscode.Disposable {
  private panel: PreviewPanel | undefined;
  private readonly registration = vscode.window.registerWebviewPanelSerializer(PREVIEW_TYPE, this);

  constructor(
    private readonly extension: vscode.Uri,
    private readonly server: Server,
    private readonly choice: ClientChoice,
  ) {}

  /**
   * Opens the panel beside the text; where it is open, shows it. `kind`: the document to show, else the one that was
   * shown last. The text keeps the keyboard.
   */
  async open(kind: string | null = null): Promise<void> {
    const uri = await currentFile();
    if (!uri) {
      void vscode.window.showInformationMessage(
        vscode.l10n.t('Open a Stave file or a folder with some first.'),
      );
      return;
    }
    if (this.panel) return this.panel.reveal(uri, kind);
    const panel = vscode.window.createWebviewPanel(
      PREVIEW_TYPE,
      vscode.l10n.t('Preview'),
      { viewColumn: besideText(), preserveFocus: true },
      {},
    );
    await this.take(panel, { uri: uri.toString(), ...(kind !== null && { kind }) });
  }

  async deserializeWebviewPanel(panel: vscode.WebviewPanel, state: unknown): Promise<void> {
    await this.take(panel, state);
  }

  private async take(panel: vscode.WebviewPanel, state: unknown): Promise<void> {
    const { PreviewPanel, readState } = await import('./previewPanel.js');
    this.panel?.dispose();
    const made = new PreviewPanel(panel, this.extension, this.server, this.choice, readState(state ?? {}));
    this.panel = made;
    panel.onDidDispose(() => {
      if (this.panel === made) this.panel = undefined;
    });
  }

  dispose(): void {
    this.registration.dispose();
  }
}

/** The column of the walkthrough, which makes room; else a new one beside the text. */
function besideText(): vscode.ViewColumn {
  const guide = guideGroup();
  return guide && guide !== vscode.window.tabGroups.activeTabGroup
    ? guide.viewColumn
    : vscode.ViewColumn.Beside;
}
