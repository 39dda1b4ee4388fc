import type {
  CancellationToken,
  CodeActionParams,
  Connection,
  DocumentDiagnosticParams,
  DocumentDiagnosticReport,
  DocumentRangeFormattingParams,
  ExecuteCommandParams,
  FileEvent,
  InitializeParams,
  InlayHintParams,
  ReferenceParams,
  RenameParams,
  SelectionRangeParams,
  TextDocumentPositionParams,
  TextDocuments,
  WorkDoneProgressReporter,
} from 'vscode-languageserver';
import type { TextDocument } from 'vscode-languageserver-textdocument';
import type * as lsp from 'vscode-languageserver-types';
import { z } from 'zod';
import { say } from '../../../grammar/say.js';
import { SETTINGS_FILE } from '../engine/ruleSettings.js';
import { RULES } from '../engine/rules/index.js';
import { codeActions } from './actions.js';
import { type CheckAnswer, checkFolder, readCheckParams } from './check.js';
import type { ClientAbilities } from './clientAbilities.js';
import { diagnosticsOf } from './diagnostics.js';
import * as editing from './editing.js';
import { type ExportAnswer, readExportRequest, writeDocuments } from './export.js';
import { speak } from './language.js';
import { languageOf } from './languages.js';
import type { Located } from './located.js';
import type { Preview, Status } from './messages.js';
import { moreFeatures } from './moreFeatures.js';
import * as names from './names.js';
import { previewOf, readPreviewParams } from './preview.js';
import { progressWhile } from './progress.js';
import * as reading from './reading.js';
import { refactorActions } from './refactors.js';
import { Refresh } from './refresh.js';
import { Refusal } from './refusal.js';
import type { Runtime } from './runtime.js';
import { commandNames } from './serverCapabilities.js';
import { readSettings, type Settings } from './settings.js';
import { isSettingsFile } from './settingsFiles.js';
import { starterFeatures } from './starter.js';
import { statusOf } from './status.js';
import { fileName } from './uris.js';
import { type Scope, Workspace } from './workspace.js';

interface InDocument {
  readonly textDocument: lsp.TextDocumentIdentifier;
}

export interface FeatureHost {
  readonly connection: Connection;
  readonly documents: TextDocuments<TextDocument>;
  readonly runtime: Runtime;
  readonly greeting: InitializeParams;
  readonly abilities: ClientAbilities;
  /** The catalogue of the coach's language as it is shipped; undefined for English. */
  readonly texts: string | undefined;
}

export type Features = ReturnType<typeof createFeatures>;

/** What a client may say in its greeting beside the protocol. */
const greetingOptions = z
  .object({
    /** Address of a rule's page, with `{code}` where the rule's code goes. */
    rulePageUri: z.string().includes('{code}').optional().catch(undefined),
    /** A command of the client that takes the address of a document and a range, and selects it. */
    selectCommand: z.string().optional().catch(undefined),
    /** A command of the client that takes a title and places with words, and lets one be chosen. */
    listCommand: z.string().optional().catch(undefined),
    /** A command of the client that takes the address of a document, a position and a snippet, and writes it there. */
    snippetCommand: z.string().optional().catch(undefined),
    /** A command of the client that takes the address of a document and a position, and shows the reasons there. */
    explainCommand: z.string().optional().catch(undefined),
    /** A command of the client that shows what can be written at the cursor. */
    suggestCommand: z.string().optional().catch(undefined),
    /** A command of the client that asks whose loads to show. */
    chooseCommand: z.string().optional().catch(undefined),
    /** Settings, for clients that cannot be asked for them. */
    settings: z.unknown().optional(),
  })
  .catch({
    rulePageUri: undefined,
    selectCommand: undefined,
    listCommand: undefined,
    snippetCommand: undefined,
    explainCommand: undefined,
    suggestCommand: undefined,
    chooseCommand: undefined,
    settings: undefined,
  });

const pushedSettings = z.object({ stave: z.unknown() });
const statusParams = z.object({ uri: z.string() });

/** Everything that the server does after the greeting. Loaded on demand: this is where the engine comes in. */
export function createFeatures({ connection, documents, runtime, greeting, abilities, texts }: FeatureHost) {
  // A server that was restarted must not recognise what the one before it has said.
  const thisRun = Date.now().toString(36);
  const options = greetingOptions.parse(greeting.initializationOptions ?? {});
  speak(texts, languageOf(greeting.locale));
  let pushed: Settings = readSettings(options.settings);
  const report = (name: string, error: unknown): void =>
    connection.console.error(`${name}: ${error instanceof Error ? error.stack : String(error)}`);

  const workspace = new Workspace({
    runtime,
    defaults: readSettings({}),
    log: (message) => connection.console.error(message),
    complain: (uri, problems) => {
      connection.console.warn(`${uri}: ${problems.join(' ')}`);
      // A notice, not a question: not every client answers questions.
      const message = `${fileName(uri)}: ${problems.join(' ')}`;
      void connection.sendNotification('window/showMessage', { type: 2, message });
    },
    settingsFor: async (scopeUri) => {
      if (!abilities.asksConfiguration) return pushed;
      try {
        return readSettings(await connection.workspace.getConfiguration({ scopeUri, section: 'stave' }));
      } catch (error) {
        report('settings', error);
        return readSettings({});
      }
    },
  });

  const withPage = new Set(RULES.map(({ code }) => code));
  /** Mistakes in the notation explain themselves; the rules have a page each. */
  const rulePageUri = (code: string): string | undefined => {
    if (!withPage.has(code)) return undefined;
    return options.rulePageUri?.replace('{code}', encodeURIComponent(code)) ?? runtime.rulePageUri(code);
  };
  const diagnose = (located: Located): lsp.Diagnostic[] =>
    diagnosticsOf(workspace, located, abilities, rulePageUri);
  const refresh = new Refresh(connection, workspace, abilities, diagnose, report);

  /** The file of a request, once its folder has been read; undefined for a file that nobody knows. */
  async function located(uri: string): Promise<Located | undefined> {
    await workspace.scopeOf(uri)?.ready;
    const found = workspace.locate(uri);
    if (found) workspace.settle(found.scope);
    return found;
  }

  /** Answers from a file, or with the fallback when nobody knows the file. */
  async function inFile<Answer>(
    params: { textDocument: { uri: string } },
    fallback: Answer,
    answer: (found: Located) => Answer,
  ): Promise<Answer> {
    const found = await located(params.textDocument.uri);
    return found ? answer(found) : fallback;
  }

  function folderChanged(folders: readonly string[]): void {
    workspace.setFolders(folders);
    for (const scope of workspace.scopes()) void scope.ready.then(() => refresh.scopeChanged(scope));
    watchOutside().catch((error: unknown) => report('watching', error));
  }

  async function documentOpened(uri: string): Promise<void> {
    const scope = await workspace.refreshSettingsAbove(uri);
    if (scope) refresh.scopeChanged(scope);
    await watchOutside();
  }

  /** Folders outside of the open ones whose settings file is watched already. */
  const watchedOutside = new Set<string>();

  async function watchOutside(): Promise<void> {
    if (!abilities.watchesFolders) return;
    const folders = workspace.foldersOutside().filter((folder) => !watchedOutside.has(folder));
    if (folders.length === 0) return;
    for (const folder of folders) watchedOutside.add(folder);
    const watchers = folders.map((baseUri) => ({ globPattern: { baseUri, pattern: SETTINGS_FILE } }));
    await connection.sendRequest('client/registerCapability', {
      registrations: [
        {
          id: `settings of ${folders[0]}`,
          method: 'workspace/didChangeWatchedFiles',
          registerOptions: { watchers },
        },
      ],
    });
  }

  async function settingsChanged(): Promise<void> {
    await workspace.reloadSettings();
    for (const scope of workspace.scopes()) refresh.scopeChanged(scope);
  }

  async function register(): Promise<void> {
    if (abilities.registersConfiguration) {
      await connection.sendRequest('client/registerCapability', {
        registrations: [
          {
            id: 'settings',
            method: 'workspace/didChangeConfiguration',
            registerOptions: { section: 'stave' },
          },
        ],
      });
    }
    if (abilities.watchesFiles) {
      // A folder that is made, moved or deleted is told of as one event, which only the last pattern sees: 1 is for
      // what is made, 4 for what is deleted.
      const watchers = [
        { globPattern: '**/*.stave' },
        { globPattern: `**/${SETTINGS_FILE}` },
        { globPattern: '**/*', kind: 1 | 4 },
      ];
      await connection.sendRequest('client/registerCapability', {
        registrations: [
          { id: 'files', method: 'workspace/didChangeWatchedFiles', registerOptions: { watchers } },
        ],
      });
    }
  }

  const roots =
    greeting.workspaceFolders?.map(({ uri }) => uri) ?? (greeting.rootUri ? [greeting.rootUri] : []);
  workspace.setFolders(roots);

  return {
    async start(): Promise<void> {
      if (abilities.workspaceFolders) {
        let current = [...roots];
        connection.workspace.onDidChangeWorkspaceFolders(({ added, removed }) => {
          const gone = new Set(removed.map(({ uri }) => uri));
          current = [...current.filter((uri) => !gone.has(uri)), ...added.map(({ uri }) => uri)];
          folderChanged(current);
        });
      }
      if (abilities.showsProgress) void progressWhile(connection, say('Reading the folder'), allReady());
      await register();
      await watchOutside();
      for (const scope of workspace.scopes()) void scope.ready.then(() => refresh.scopeChanged(scope));
    },
    changed(document: TextDocument): void {
      // Only the newest state matters, and a document closed meanwhile has none.
      const current = documents.get(document.uri);
      if (!current) return;
      const opened = !workspace.isOpen(current.uri);
      refresh.scopeChanged(workspace.setDocument(current), current.uri);
      if (opened) documentOpened(current.uri).catch((error: unknown) => report('opening', error));
    },
    async closed(document: TextDocument): Promise<void> {
      const scope = workspace.scopeOf(document.uri);
      refresh.closed(document.uri);
      await workspace.closeDocument(document.uri);
      if (scope) refresh.scopeChanged(scope);
    },
    async configured(settings: unknown): Promise<void> {
      const given = pushedSettings.safeParse(settings);
      if (given.success && given.data.stave !== undefined) pushed = readSettings(given.data.stave);
      await settingsChanged();
    },
    async filesChanged(changes: readonly FileEvent[]): Promise<void> {
      const touched = new Set<Scope>();
      // A file is told of by each pattern that it matches.
      for (const uri of new Set(changes.map((change) => change.uri))) {
        if (isSettingsFile(uri)) {
          for (const scope of await workspace.rereadSettingsFile(uri)) touched.add(scope);
        } else if (uri.endsWith('.stave')) {
          await workspace.readFromDisk(uri);
          const scope = workspace.scopeOf(uri);
          if (scope) touched.add(scope);
        } else {
          for (const scope of await workspace.readBelow(uri)) touched.add(scope);
        }
      }
      for (const scope of touched) refresh.scopeChanged(scope);
    },

    diagnostics: (params: DocumentDiagnosticParams): Promise<DocumentDiagnosticReport> =>
      inFile<DocumentDiagnosticReport>(params, { kind: 'full', items: [] }, (found) => {
        const resultId = `${thisRun}-${found.scope.revision}`;
        if (params.previousResultId === resultId) return { kind: 'unchanged', resultId };
        return { kind: 'full', resultId, items: diagnose(found) };
      }),
    hints: (params: InlayHintParams) =>
      inFile<lsp.InlayHint[]>(params, [], (found) =>
        reading.hints(found, params.range, !abilities.resolvesTooltips),
      ),
    semanticTokens: (params: InDocument) =>
      inFile<lsp.SemanticTokens>(params, { data: [] }, (found) => ({ data: reading.colours(found) })),
    hover: (params: TextDocumentPositionParams) =>
      inFile<lsp.Hover | null>(params, null, (found) =>
        reading.hover(found, params.position, abilities.markdown, options.explainCommand),
      ),
    documentSymbols: (params: InDocument) =>
      inFile<lsp.DocumentSymbol[] | lsp.SymbolInformation[]>(params, [], (found) =>
        abilities.nestedSymbols ? reading.outline(found) : reading.flatOutline(found),
      ),
    folding: (params: InDocument) => inFile<lsp.FoldingRange[]>(params, [], reading.folds),
    selections: (params: SelectionRangeParams) =>
      inFile<lsp.SelectionRange[] | null>(params, null, (found) =>
        reading.selections(found, params.positions),
      ),

    definition: (params: TextDocumentPositionParams) =>
      inFile<lsp.Location[]>(params, [], (found) => names.definition(workspace, found, params.position)),
    references: (params: ReferenceParams) =>
      inFile<lsp.Location[]>(params, [], (found) =>
        names.references(workspace, found, params.position, params.context.includeDeclaration),
      ),
    highlights: (params: TextDocumentPositionParams) =>
      inFile<lsp.DocumentHighlight[]>(params, [], (found) => names.highlights(found, params.position)),
    prepareRename: (params: TextDocumentPositionParams) =>
      inFile<ReturnType<typeof names.prepareRename>>(params, null, (found) =>
        names.prepareRename(found, params.position),
      ),
    rename: (params: RenameParams) =>
      inFile<lsp.WorkspaceEdit | null>(params, null, (found) =>
        names.rename(workspace, found, params.position, params.newName, abilities.versionedEdits),
      ),
    async workspaceSymbols({ query }: { query: string }): Promise<lsp.WorkspaceSymbol[]> {
      await allReady();
      return names.findSymbols(workspace, query);
    },

    completion: (params: TextDocumentPositionParams) =>
      inFile<lsp.CompletionList | null>(params, null, (found) =>
        editing.completion(found, params.position, abilities, options.suggestCommand),
      ),
    format: (params: InDocument) => inFile<lsp.TextEdit[]>(params, [], (found) => editing.format(found)),
    formatRange: (params: DocumentRangeFormattingParams) =>
      inFile<lsp.TextEdit[]>(params, [], (found) => editing.format(found, params.range)),
    codeActions: (params: CodeActionParams) =>
      inFile<lsp.CodeAction[]>(params, [], (found) => [
        ...codeActions(workspace, found, params.range, params.context, {
          versioned: abilities.versionedEdits,
          selectCommand: options.selectCommand,
          listCommand: options.listCommand,
        }),
        ...refactorActions(workspace, found, params.range, params.context, {
          versioned: abilities.versionedEdits,
          createsFiles: abilities.createsFiles,
          showsDisabled: abilities.showsDisabled,
          selectCommand: options.selectCommand,
          snippetCommand: options.snippetCommand,
        }),
      ]),
    ...moreFeatures({
      ...{ workspace, abilities, rulePageUri, located },
      lensCommands: { list: options.listCommand, choose: options.chooseCommand },
    }),
    ...starterFeatures({ workspace, runtime, scopeOf }),

    async execute(
      { command, arguments: given }: ExecuteCommandParams,
      token: CancellationToken,
      progress: WorkDoneProgressReporter,
    ): Promise<ExportAnswer | null> {
      if (!Object.values<string>(commandNames).includes(command))
        throw new Refusal(say`There is no command ${command}.`);
      const request = readExportRequest(given?.[0]);
      if (!request) throw new Refusal(say('The plan needs a file or folder, and a client.'));
      const scope = await scopeOf(request.uri);
      if (!scope) throw new Refusal(say('This file is not open, and lies in no open folder.'));
      progress.begin(say('Writing documents'), 0);
      try {
        return await writeDocuments(runtime, scope, request, {
          isCancelled: () => token.isCancellationRequested,
          report: (name, done, all) =>
            progress.report(
              Math.floor((100 * done) / all),
              all === 1 ? name : `${done + 1}/${all} · ${name}`,
            ),
        });
      } finally {
        progress.done();
      }
    },
    /** Takes the address of a folder that is open. */
    async check(params: unknown): Promise<CheckAnswer | null> {
      const folder = readCheckParams(params)?.folder;
      const scope = folder === undefined ? undefined : await scopeOf(folder);
      return scope?.isFolder ? checkFolder(workspace, scope) : null;
    },
    /** Takes the address of a file or of a folder. */
    async status(params: unknown): Promise<Status | null> {
      const uri = statusParams.safeParse(params).data?.uri;
      const scope = uri === undefined ? undefined : await scopeOf(uri);
      return scope && uri !== undefined ? statusOf(scope, workspace.keyOf(uri)) : null;
    },
    /** The document for the panel; null for a file that is not open and lies in no open folder. */
    async preview(params: unknown): Promise<Preview | null> {
      const asked = readPreviewParams(params);
      const scope = asked && (await scopeOf(asked.uri));
      return scope ? previewOf(workspace, scope, runtime.today(), asked) : null;
    },
  };

  /** The scope of a file, or of the folder itself, once it has been read. */
  async function scopeOf(uri: string): Promise<Scope | undefined> {
    const scope = workspace.scopeOf(uri) ?? workspace.folder(uri);
    await scope?.ready;
    if (scope) workspace.settle(scope);
    return scope;
  }

  async function allReady(): Promise<void> {
    await Promise.all(workspace.scopes().map(({ ready }) => ready));
    for (const scope of workspace.scopes()) workspace.settle(scope);
  }
}
