import { type ChildProcess, spawn } from 'node:child_process';
import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { pathToFileURL } from 'node:url';
import {
  type ClientCapabilities,
  createProtocolConnection,
  type Diagnostic,
  type InitializeResult,
  type ProtocolConnection,
  StreamMessageReader,
  StreamMessageWriter,
} from 'vscode-languageserver/node';
import { root } from '../structure/repository.js';

export { root };
/** The server as it is shipped. */
export const bundle = path.join(root, 'dist', 'server.cjs');

/** What an editor with everything says that it can do. */
export const fullAbilities: ClientCapabilities = {
  workspace: {
    configuration: true,
    workspaceFolders: true,
    diagnostics: { refreshSupport: true },
    inlayHint: { refreshSupport: true },
    didChangeConfiguration: { dynamicRegistration: true },
    didChangeWatchedFiles: { dynamicRegistration: true },
    workspaceEdit: { documentChanges: true },
  },
  textDocument: {
    diagnostic: { dynamicRegistration: false, relatedDocumentSupport: false },
    publishDiagnostics: { relatedInformation: true, codeDescriptionSupport: true },
    completion: { completionItem: { snippetSupport: true, insertReplaceSupport: true } },
    hover: { contentFormat: ['markdown', 'plaintext'] },
    documentSymbol: { hierarchicalDocumentSymbolSupport: true },
  },
};

export interface EditorOptions {
  readonly folders?: readonly string[];
  readonly abilities?: ClientCapabilities;
  readonly initializationOptions?: unknown;
  readonly environment?: NodeJS.ProcessEnv;
  /** The language that the editor is set to, such as `de-AT`. */
  readonly locale?: string;
  /** Answer to the server's question for the settings of a folder or file. */
  readonly settings?: (scopeUri: string | undefined) => unknown;
}

/** A small editor: starts the server, says hello, and keeps what the server sends. */
export class Editor {
  readonly refreshes: string[] = [];
  readonly pushed = new Map<string, Diagnostic[]>();
  readonly registered: string[] = [];
  readonly logged: string[] = [];
  private versions = new Map<string, number>();

  private constructor(
    readonly connection: ProtocolConnection,
    private readonly server: ChildProcess,
    readonly greeting: InitializeResult,
  ) {}

  static async start(options: EditorOptions = {}): Promise<Editor> {
    if (!fs.existsSync(bundle)) throw new Error('dist/server.cjs is not built: npm run build');
    const server = spawn(process.execPath, [bundle, '--stdio'], {
      stdio: ['pipe', 'pipe', 'inherit'],
      env: { ...process.env, ...options.environment },
    });
    const connection = createProtocolConnection(
      new StreamMessageReader(server.stdout),
      new StreamMessageWriter(server.stdin),
    );
    connection.listen();
    const greeting = await connection.sendRequest<InitializeResult>('initialize', {
      processId: process.pid,
      rootUri: null,
      capabilities: options.abilities ?? fullAbilities,
      workspaceFolders:
        options.folders?.map((folder) => ({ uri: uriOf(folder), name: path.basename(folder) })) ?? null,
      initializationOptions: options.initializationOptions,
      ...(options.locale === undefined ? {} : { locale: options.locale }),
    });
    const editor = new Editor(connection, server, greeting);
    connection.onRequest('workspace/configuration', ({ items }: { items: { scopeUri?: string }[] }) =>
      Promise.all(items.map(async ({ scopeUri }) => (await options.settings?.(scopeUri)) ?? {})),
    );
    connection.onRequest(
      'client/registerCapability',
      ({ registrations }: { registrations: { method: string }[] }) => {
        editor.registered.push(...registrations.map(({ method }) => method));
        return null;
      },
    );
    for (const method of ['workspace/diagnostic/refresh', 'workspace/inlayHint/refresh']) {
      connection.onRequest(method, () => {
        editor.refreshes.push(method);
        return null;
      });
    }
    connection.onNotification(
      'textDocument/publishDiagnostics',
      (params: { uri: string; diagnostics: Diagnostic[] }) =>
        editor.pushed.set(params.uri, params.diagnostics),
    );
    connection.onNotification('window/logMessage', ({ message }: { message: string }) =>
      editor.logged.push(message),
    );
    await connection.sendNotification('initialized', {});
    return editor;
  }

  /**
   * A request and the word to give it up, in one piece, so that both have arrived before the server acts on either.
   * The connection would wait in between. Returns the code of the error that answers it; undefined for a result.
   */
  async cancelledAtOnce(method: string, params: unknown): Promise<number | undefined> {
    const id = `given up: ${method}`;
    const framed = (message: object) => {
      const body = JSON.stringify({ jsonrpc: '2.0', ...message });
      return `Content-Length: ${Buffer.byteLength(body)}\r\n\r\n${body}`;
    };
    let received = '';
    const answer = new Promise<{ error?: { code: number } }>((resolve) => {
      const listen = (chunk: Buffer) => {
        received += chunk.toString('utf8');
        const found = /\{[^\r\n]*?"id":"given up: [^\r\n]*?\}(?=Content-Length|$)/.exec(received)?.[0];
        if (!found?.includes(JSON.stringify(id))) return;
        this.server.stdout?.off('data', listen);
        resolve(JSON.parse(found));
      };
      this.server.stdout?.on('data', listen);
    });
    this.server.stdin?.write(
      framed({ id, method, params }) + framed({ method: '$/cancelRequest', params: { id } }),
    );
    return (await answer).error?.code;
  }

  async open(uri: string, text: string): Promise<void> {
    this.versions.set(uri, 1);
    await this.connection.sendNotification('textDocument/didOpen', {
      textDocument: { uri, languageId: 'stave', version: 1, text },
    });
  }

  /** Replaces the whole text, as an undo of everything does. */
  async change(uri: string, text: string): Promise<void> {
    const version = (this.versions.get(uri) ?? 0) + 1;
    this.versions.set(uri, version);
    await this.connection.sendNotification('textDocument/didChange', {
      textDocument: { uri, version },
      contentChanges: [{ text }],
    });
  }

  close(uri: string): Promise<void> {
    return this.connection.sendNotification('textDocument/didClose', { textDocument: { uri } });
  }

  /** Sends a request about a document. */
  ask<Answer>(method: string, uri: string, more: object = {}): Promise<Answer> {
    return this.connection.sendRequest<Answer>(method, { textDocument: { uri }, ...more });
  }

  async diagnostics(uri: string): Promise<Diagnostic[]> {
    const report = await this.ask<{ kind: string; items: Diagnostic[] }>('textDocument/diagnostic', uri);
    return report.items;
  }

  async stop(): Promise<number | null> {
    const ended = new Promise<number | null>((resolve) => {
      this.server.once('exit', resolve);
    });
    await this.connection.sendRequest('shutdown');
    await this.connection.sendNotification('exit');
    const code = await ended;
    this.connection.dispose();
    return code;
  }
}

export const uriOf = (file: string): string => pathToFileURL(file).href;

/** Makes a folder with these files; it is removed by `remove`. */
export function folderWith(files: Record<string, string>): {
  path: string;
  uri: (name: string) => string;
  remove: () => void;
} {
  const folder = fs.mkdtempSync(path.join(os.tmpdir(), 'stave-protocol-'));
  for (const [name, text] of Object.entries(files)) {
    fs.mkdirSync(path.dirname(path.join(folder, name)), { recursive: true });
    fs.writeFileSync(path.join(folder, name), text);
  }
  return {
    path: folder,
    uri: (name) => uriOf(path.join(folder, name)),
    remove: () => fs.rmSync(folder, { recursive: true, force: true }),
  };
}

/** Asks again until the probe gives a value that is neither undefined nor false. */
export async function until<Value>(
  what: string,
  probe: () => Value | Promise<Value>,
): Promise<NonNullable<Value>> {
  for (const end = Date.now() + 8000; Date.now() < end; ) {
    const value = await probe();
    if (value) return value as NonNullable<Value>;
    await new Promise((resolve) => setTimeout(resolve, 20));
  }
  throw new Error(`did not happen: ${what}`);
}

/** Position of the first character of a piece of text, plus some characters. */
export function positionOf(text: string, piece: string, plus = 0): { line: number; character: number } {
  const at = text.indexOf(piece);
  if (at < 0) throw new Error(`the text does not hold ${piece}`);
  const before = text.slice(0, at + plus).split(/\r\n|\n|\r/);
  return { line: before.length - 1, character: before[before.length - 1]?.length ?? 0 };
}
