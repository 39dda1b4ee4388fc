import type { InitializeParams } from 'vscode-languageserver';

/** What the client can do, read once from its greeting. Everything missing is taken as "cannot". */
export interface ClientAbilities {
  readonly pullsDiagnostics: boolean;
  readonly refreshesDiagnostics: boolean;
  readonly refreshesHints: boolean;
  /** Asks for the tooltip of a hint when somebody points at it. */
  readonly resolvesTooltips: boolean;
  readonly asksConfiguration: boolean;
  readonly registersConfiguration: boolean;
  readonly watchesFiles: boolean;
  /** Whether it watches in a folder that is named, and so outside of the open ones. */
  readonly watchesFolders: boolean;
  readonly workspaceFolders: boolean;
  readonly snippets: boolean;
  readonly insertReplace: boolean;
  readonly versionedEdits: boolean;
  readonly relatedInformation: boolean;
  readonly codeDescription: boolean;
  readonly markdown: boolean;
  readonly nestedSymbols: boolean;
  readonly signatureMarkdown: boolean;
  readonly itemMarkdown: boolean;
  readonly refreshesLenses: boolean;
  readonly showsProgress: boolean;
  /** Takes edits that make new files. */
  readonly createsFiles: boolean;
  /** Shows code actions that cannot be taken, with the reason. */
  readonly showsDisabled: boolean;
}

export function readAbilities({ capabilities }: InitializeParams): ClientAbilities {
  const { textDocument, workspace, window } = capabilities;
  const published = textDocument?.publishDiagnostics;
  const pullsDiagnostics = textDocument?.diagnostic !== undefined;
  return {
    pullsDiagnostics,
    refreshesDiagnostics: workspace?.diagnostics?.refreshSupport === true,
    refreshesHints: workspace?.inlayHint?.refreshSupport === true,
    resolvesTooltips: textDocument?.inlayHint?.resolveSupport?.properties.includes('tooltip') === true,
    asksConfiguration: workspace?.configuration === true,
    registersConfiguration: workspace?.didChangeConfiguration?.dynamicRegistration === true,
    watchesFiles: workspace?.didChangeWatchedFiles?.dynamicRegistration === true,
    watchesFolders:
      workspace?.didChangeWatchedFiles?.dynamicRegistration === true &&
      workspace.didChangeWatchedFiles.relativePatternSupport === true,
    workspaceFolders: workspace?.workspaceFolders === true,
    snippets: textDocument?.completion?.completionItem?.snippetSupport === true,
    insertReplace: textDocument?.completion?.completionItem?.insertReplaceSupport === true,
    versionedEdits: workspace?.workspaceEdit?.documentChanges === true,
    // Clients that pull say the same things under publishDiagnostics, where 3.17 put them.
    relatedInformation: published?.relatedInformation === true,
    codeDescription: published?.codeDescriptionSupport === true,
    markdown: textDocument?.hover?.contentFormat?.includes('markdown') === true,
    nestedSymbols: textDocument?.documentSymbol?.hierarchicalDocumentSymbolSupport === true,
    signatureMarkdown:
      textDocument?.signatureHelp?.signatureInformation?.documentationFormat?.includes('markdown') === true,
    itemMarkdown:
      textDocument?.completion?.completionItem?.documentationFormat?.includes('markdown') === true,
    refreshesLenses: workspace?.codeLens?.refreshSupport === true,
    showsProgress: window?.workDoneProgress === true,
    createsFiles:
      workspace?.workspaceEdit?.documentChanges === true &&
      workspace.workspaceEdit.resourceOperations?.includes('create') === true,
    showsDisabled: textDocument?.codeAction?.disabledSupport === true,
  };
}
