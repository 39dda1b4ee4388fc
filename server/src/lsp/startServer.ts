import type {
  Connection,
  DocumentDiagnosticReport,
  InitializeParams,
  InitializeResult,
} from 'vscode-languageserver';
import { type CancellationToken, LSPErrorCodes, ResponseError, TextDocuments } from 'vscode-languageserver';
import { TextDocument } from 'vscode-languageserver-textdocument';
import { type ClientAbilities, readAbilities } from './clientAbilities.js';
import type { Features } from './features.js';
import { languageOf } from './languages.js';
import { mailRead } from './mailRead.js';
import { checkRequest, previewRequest, statusRequest } from './messages.js';
import { answerMore } from './moreRequests.js';
import { isRefusal } from './refusal.js';
import type { Runtime } from './runtime.js';
import { serverCapabilities } from './serverCapabilities.js';

/**
 * Starts the language server on a connection. This file and what it imports stay small: the greeting is answered
 * before the grammar and the engine are loaded, which happens right after it.
 */
export function startServer(connection: Connection, runtime: Runtime): void {
  const documents = new TextDocuments(TextDocument);
  let greeting: InitializeParams | undefined;
  let abilities: ClientAbilities | undefined;
  let loading: Promise<Features> | undefined;

  const load = async (): Promise<Features> => {
    const { createFeatures } = await import('./features.js');
    if (!greeting || !abilities) throw new Error('asked before the greeting');
    const language = languageOf(greeting.locale);
    const texts = language === 'en' ? undefined : await runtime.texts?.(language);
    return createFeatures({ connection, documents, runtime, greeting, abilities, texts });
  };
  const features = (): Promise<Features> => {
    loading ??= load();
    return loading;
  };

  /**
   * Answers one request. A request that was cancelled while it waited is not worked on; a failure is logged and
   * answered with the fallback, so that one bad request never takes the editor's other functions with it. `tells`: what
   * came of the work is said even where it was given up meanwhile.
   */
  async function serve<Result>(
    name: string,
    token: CancellationToken,
    fallback: Result,
    work: (features: Features) => Result | Promise<Result>,
    tells = false,
  ): Promise<Result | ResponseError> {
    try {
      const ready = await features();
      await mailRead();
      if (token.isCancellationRequested) return cancelled();
      const result = await work(ready);
      return token.isCancellationRequested && !tells ? cancelled() : result;
    } catch (error) {
      if (isRefusal(error)) {
        return new ResponseError(LSPErrorCodes.RequestFailed, error.message);
      }
      connection.console.error(`${name}: ${error instanceof Error ? error.stack : String(error)}`);
      return fallback;
    }
  }

  /** Handles one notification; a failure is logged. */
  function note(name: string, work: (features: Features) => unknown): void {
    features()
      .then(work)
      .catch((error: unknown) => {
        connection.console.error(`${name}: ${error instanceof Error ? error.stack : String(error)}`);
      });
  }

  connection.onInitialize((params): InitializeResult => {
    greeting = params;
    abilities = readAbilities(params);
    return { capabilities: serverCapabilities(abilities), serverInfo: { name: 'stave' } };
  });
  connection.onInitialized(() => note('start', (ready) => ready.start()));

  documents.onDidChangeContent(({ document }) => note('change', (ready) => ready.changed(document)));
  documents.onDidClose(({ document }) => note('close', (ready) => ready.closed(document)));
  connection.onDidChangeConfiguration(({ settings }) =>
    note('settings', (ready) => ready.configured(settings)),
  );
  connection.onDidChangeWatchedFiles(({ changes }) => note('files', (ready) => ready.filesChanged(changes)));

  connection.languages.diagnostics.on(
    (params, token) =>
      serve('diagnostics', token, emptyReport, (ready) => ready.diagnostics(params)) as never,
  );
  connection.languages.inlayHint.on((params, token) =>
    serve('hints', token, [], (ready) => ready.hints(params)),
  );
  connection.languages.semanticTokens.on(
    (params, token) =>
      serve('colours', token, { data: [] }, (ready) => ready.semanticTokens(params)) as never,
  );
  connection.onHover((params, token) => serve('hover', token, null, (ready) => ready.hover(params)));
  connection.onCompletion((params, token) =>
    serve('completion', token, null, (ready) => ready.completion(params)),
  );
  connection.onDefinition((params, token) =>
    serve('definition', token, null, (ready) => ready.definition(params)),
  );
  connection.onReferences((params, token) =>
    serve('references', token, null, (ready) => ready.references(params)),
  );
  connection.onDocumentHighlight((params, token) =>
    serve('highlight', token, null, (ready) => ready.highlights(params)),
  );
  connection.onPrepareRename((params, token) =>
    serve('rename', token, null, (ready) => ready.prepareRename(params)),
  );
  connection.onRenameRequest((params, token) =>
    serve('rename', token, null, (ready) => ready.rename(params)),
  );
  connection.onDocumentSymbol((params, token) =>
    serve('outline', token, null, (ready) => ready.documentSymbols(params)),
  );
  connection.onWorkspaceSymbol((params, token) =>
    serve('symbols', token, null, (ready) => ready.workspaceSymbols(params)),
  );
  connection.onFoldingRanges((params, token) =>
    serve('folding', token, null, (ready) => ready.folding(params)),
  );
  connection.onSelectionRanges((params, token) =>
    serve('selection', token, null, (ready) => ready.selections(params)),
  );
  connection.onDocumentFormatting((params, token) =>
    serve('format', token, null, (ready) => ready.format(params)),
  );
  connection.onDocumentRangeFormatting((params, token) =>
    serve('format', token, null, (ready) => ready.formatRange(params)),
  );
  connection.onCodeAction((params, token) =>
    serve('fixes', token, null, (ready) => ready.codeActions(params)),
  );
  // What was written before it was given up is said: the command itself listens to the token.
  connection.onExecuteCommand((params, token, progress) =>
    serve('command', token, null, (ready) => ready.execute(params, token, progress), true),
  );
  connection.onRequest(statusRequest, (params: unknown, token: CancellationToken) =>
    serve('status', token, null, (ready) => ready.status(params)),
  );
  connection.onRequest(checkRequest, (params: unknown, token: CancellationToken) =>
    serve('check', token, null, (ready) => ready.check(params)),
  );
  connection.onRequest(previewRequest, (params: unknown, token: CancellationToken) =>
    serve('preview', token, null, (ready) => ready.preview(params)),
  );

  answerMore(connection, serve);

  documents.listen(connection);
  connection.listen();
}

const emptyReport: DocumentDiagnosticReport = { kind: 'full', items: [] };

function cancelled(): ResponseError {
  return new ResponseError(LSPErrorCodes.RequestCancelled, 'cancelled');
}
