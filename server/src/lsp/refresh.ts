import type { Connection } from 'vscode-languageserver';
import type { Diagnostic } from 'vscode-languageserver-types';
import type { ClientAbilities } from './clientAbilities.js';
import type { Located } from './located.js';
import { statusChanged } from './messages.js';
import type { Scope, Workspace } from './workspace.js';

/** A burst of keystrokes leads to one round of news, this long after the last one. */
const pauseMilliseconds = 120;

/**
 * Tells the client what a change outside the file it looks at has done: clients that pull are asked to pull again,
 * the others are sent the findings.
 */
export class Refresh {
  private timer: ReturnType<typeof setTimeout> | undefined;
  private readonly stale = new Set<Scope>();
  private everywhere = false;
  /** What was last sent, by document URI, so that nothing is sent twice. */
  private readonly sent = new Map<string, string>();

  constructor(
    private readonly connection: Connection,
    private readonly workspace: Workspace,
    private readonly abilities: ClientAbilities,
    private readonly diagnostics: (located: Located) => Diagnostic[],
    private readonly report: (name: string, error: unknown) => void,
  ) {}

  /** Something in a scope has changed. `own` is the document that the client knows about already. */
  scopeChanged(scope: Scope, own?: string): void {
    this.stale.add(scope);
    const others = this.workspace.openIn(scope).some((document) => document.uri !== own);
    if (own === undefined || others) this.everywhere = true;
    clearTimeout(this.timer);
    this.timer = setTimeout(() => {
      this.now().catch((error: unknown) => this.report('refresh', error));
    }, pauseMilliseconds);
  }

  /** A document was closed: its findings are no longer shown by clients that do not pull. */
  closed(uri: string): void {
    if (this.abilities.pullsDiagnostics || !this.sent.delete(uri)) return;
    void this.connection.sendDiagnostics({ uri, diagnostics: [] });
  }

  private async now(): Promise<void> {
    const scopes = [...this.stale];
    const everywhere = this.everywhere;
    this.stale.clear();
    this.everywhere = false;
    if (!this.abilities.pullsDiagnostics) for (const scope of scopes) await this.push(scope);
    else if (everywhere && this.abilities.refreshesDiagnostics)
      this.connection.languages.diagnostics.refresh();
    if (everywhere && this.abilities.refreshesHints) await this.connection.languages.inlayHint.refresh();
    if (everywhere && this.abilities.refreshesLenses)
      await this.connection.sendRequest('workspace/codeLens/refresh');
    await this.connection.sendNotification(statusChanged);
  }

  private async push(scope: Scope): Promise<void> {
    await scope.ready;
    this.workspace.settle(scope);
    for (const document of this.workspace.openIn(scope)) {
      const diagnostics = this.diagnostics({ scope, file: this.workspace.keyOf(document.uri), document });
      const text = `${document.version} ${JSON.stringify(diagnostics)}`;
      if (this.sent.get(document.uri) === text) continue;
      this.sent.set(document.uri, text);
      await this.connection.sendDiagnostics({ uri: document.uri, version: document.version, diagnostics });
    }
  }
}
