import type { ServerCapabilities } from 'vscode-languageserver';
import type { ClientAbilities } from './clientAbilities.js';
import { semanticTokenModifiers, semanticTokenTypes } from './legend.js';

/** Commands that the server runs; the extension calls them by these names. */
export const commandNames = {
  /** A document of any kind; the plan where no kind is named. */
  export: 'stave.server.export',
  /** The same, for clients that know the older name. */
  writePlan: 'stave.server.writePlan',
} as const;

/** What the server answers to. Plain values only: the greeting must not wait for the engine to load. */
export function serverCapabilities(client: ClientAbilities): ServerCapabilities {
  return {
    // Places are counted in UTF-16 inside, which every client knows.
    positionEncoding: 'utf-16',
    textDocumentSync: { openClose: true, change: 2, save: false },
    ...(client.pullsDiagnostics && {
      // A change of one file can bring a finding in another: the movement's name, the client's max.
      diagnosticProvider: { identifier: 'stave', interFileDependencies: true, workspaceDiagnostics: false },
    }),
    hoverProvider: true,
    completionProvider: { triggerCharacters: [' ', '|', ';', ':', ','], resolveProvider: true },
    signatureHelpProvider: { triggerCharacters: [' ', '|', ';'], retriggerCharacters: [','] },
    inlayHintProvider: { resolveProvider: true },
    codeLensProvider: { resolveProvider: true },
    documentLinkProvider: { resolveProvider: true },
    definitionProvider: true,
    referencesProvider: true,
    renameProvider: { prepareProvider: true },
    documentHighlightProvider: true,
    documentSymbolProvider: true,
    workspaceSymbolProvider: true,
    foldingRangeProvider: true,
    selectionRangeProvider: true,
    semanticTokensProvider: {
      legend: { tokenTypes: [...semanticTokenTypes], tokenModifiers: [...semanticTokenModifiers] },
      full: true,
    },
    documentFormattingProvider: true,
    documentRangeFormattingProvider: true,
    documentOnTypeFormattingProvider: { firstTriggerCharacter: '\n' },
    codeActionProvider: {
      codeActionKinds: [
        'quickfix',
        'refactor.rewrite',
        'refactor.extract',
        'refactor.move',
        'source.fixAll.stave',
      ],
      resolveProvider: false,
    },
    executeCommandProvider: { commands: Object.values(commandNames), workDoneProgress: true },
    workspace: { workspaceFolders: { supported: true, changeNotifications: true } },
  };
}
