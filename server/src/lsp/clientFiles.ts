import type { Connection } from 'vscode-languageserver';
import { fromBase64, toBase64 } from './base64.js';
import type { clientAnswers } from './clientAnswers.js';
import type { OutputFile, Runtime } from './runtime.js';

/**
 * Files that only the client can reach: those of a web page, of a repository that was never cloned, of another
 * machine. The client answers these requests of ours; one that knows none of them has no such files.
 */
export const fileRequests = {
  /** `{ folder }` -> addresses of all `.stave` files in it and below. */
  list: 'stave/files/list',
  /** `{ uris }` -> for each its text, null for a file that is not there. */
  read: 'stave/files/read',
  /** `{ path }` -> base64 of a file that is shipped with the extension, null when there is none. */
  shipped: 'stave/files/shipped',
  /** `{ folder, files: { name, base64 }[] }` -> addresses of the files written. */
  write: 'stave/files/write',
} as const;

/** As many files are asked for at once; a folder of thousands does not become one message. */
const BATCH = 100;

type Answers = { [Kind in keyof typeof clientAnswers]: ReturnType<(typeof clientAnswers)[Kind]['parse']> };

export interface ClientFiles extends Pick<Runtime, 'listFiles' | 'readFile' | 'writeFiles'> {
  /** A file of the extension, by its path in the package. */
  shipped(path: string): Promise<Uint8Array | undefined>;
}

export function clientFiles(connection: Pick<Connection, 'sendRequest'>): ClientFiles {
  const waiting: { uri: string; resolve: (text: string | undefined) => void }[] = [];

  async function readBatch(): Promise<void> {
    const batch = waiting.splice(0, BATCH);
    if (waiting.length > 0) setTimeout(() => void readBatch(), 0);
    const answer = await ask(fileRequests.read, { uris: batch.map(({ uri }) => uri) }, 'texts');
    batch.forEach(({ resolve }, index) => {
      resolve(answer?.[index]?.replace(/^\uFEFF/, ''));
    });
  }

  /** Undefined where the client does not know the request, or answers something else. */
  async function ask<Kind extends keyof Answers>(
    method: string,
    params: object,
    kind: Kind,
  ): Promise<Answers[Kind] | undefined> {
    const answer: unknown = await connection.sendRequest(method, params).catch(() => undefined);
    return checked(kind, answer);
  }

  async function checked<Kind extends keyof Answers>(
    kind: Kind,
    answer: unknown,
  ): Promise<Answers[Kind] | undefined> {
    const { clientAnswers } = await import('./clientAnswers.js');
    return clientAnswers[kind].safeParse(answer).data as Answers[Kind] | undefined;
  }

  return {
    listFiles: async (folder) => (await ask(fileRequests.list, { folder }, 'addresses')) ?? [],
    readFile: (uri) =>
      new Promise((resolve) => {
        if (waiting.length === 0) setTimeout(() => void readBatch(), 0);
        waiting.push({ uri, resolve });
      }),
    async writeFiles(folder, files) {
      const encoded = files.map(({ name, content }: OutputFile) => ({
        name,
        base64: toBase64(typeof content === 'string' ? new TextEncoder().encode(content) : content),
      }));
      // What goes wrong is told to the coach, so it is not caught here.
      const answer: unknown = await connection.sendRequest(fileRequests.write, { folder, files: encoded });
      return (await checked('addresses', answer)) ?? [];
    },
    async shipped(path) {
      const text = await ask(fileRequests.shipped, { path }, 'bytes');
      return text === null || text === undefined ? undefined : fromBase64(text);
    },
  };
}

/** The same runtime, with the client's help for addresses that are not of the disk. */
export function withClientFiles(runtime: Runtime, files: ClientFiles): Runtime {
  const onDisk = (uri: string): boolean => uri.startsWith('file:');
  return {
    ...runtime,
    listFiles: (folder) => (onDisk(folder) ? runtime : files).listFiles(folder),
    readFile: (uri) => (onDisk(uri) ? runtime : files).readFile(uri),
    writeFiles: (folder, output) => (onDisk(folder) ? runtime : files).writeFiles(folder, output),
  };
}
