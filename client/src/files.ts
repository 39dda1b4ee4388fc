import * as vscode from 'vscode';
import type { BaseLanguageClient } from 'vscode-languageclient';

/** Folders that hold no coach's files, and may hold very many others. */
const skipped = new Set(['node_modules', '.git', '.hg', '.svn']);

/** Where the extension ships what the server may ask for. */
const shippedFolders = ['dist/fonts/', 'server/l10n/'];

/**
 * Reads and writes for the server what only the editor can reach: files of a browser, of a repository that was
 * never cloned, of another machine. What comes from the server is of this version, so its shape is known.
 */
export function answerForFiles(client: BaseLanguageClient, extension: vscode.Uri): void {
  client.onRequest('stave/files/list', async ({ folder }: { folder: string }) => {
    const found = await staveFiles(vscode.Uri.parse(folder, true));
    return found.map((uri) => uri.toString()).sort();
  });
  client.onRequest('stave/files/read', ({ uris }: { uris: readonly string[] }) =>
    Promise.all(
      uris.map(async (uri) => {
        const bytes = await readFile(vscode.Uri.parse(uri, true));
        return bytes && new TextDecoder().decode(bytes);
      }),
    ),
  );
  client.onRequest('stave/files/shipped', async ({ path }: { path: string }) => {
    if (!shippedFolders.some((folder) => path.startsWith(folder)) || path.includes('..')) return null;
    const bytes = await readFile(vscode.Uri.joinPath(extension, path));
    return bytes && toBase64(bytes);
  });
  client.onRequest(
    'stave/files/write',
    async ({ folder, files }: { folder: string; files: readonly { name: string; base64: string }[] }) => {
      const target = vscode.Uri.parse(folder, true);
      await vscode.workspace.fs.createDirectory(target);
      const written: string[] = [];
      for (const { name, base64 } of files) {
        const file = vscode.Uri.joinPath(target, name);
        await vscode.workspace.fs.writeFile(file, fromBase64(base64));
        written.push(file.toString());
      }
      return written;
    },
  );
}

/** Null for a file that is not there or cannot be read. */
async function readFile(uri: vscode.Uri): Promise<Uint8Array | null> {
  try {
    return await vscode.workspace.fs.readFile(uri);
  } catch {
    return null;
  }
}

/** All `.stave` files of a folder and below. Links to folders are not followed, and what cannot be read is left out. */
async function staveFiles(folder: vscode.Uri): Promise<vscode.Uri[]> {
  let entries: [string, vscode.FileType][];
  try {
    entries = await vscode.workspace.fs.readDirectory(folder);
  } catch {
    return [];
  }
  const found = await Promise.all(
    entries.map(async ([name, type]) => {
      const uri = vscode.Uri.joinPath(folder, name);
      if (type === vscode.FileType.Directory) return skipped.has(name) ? [] : staveFiles(uri);
      return name.endsWith('.stave') && type & vscode.FileType.File ? [uri] : [];
    }),
  );
  return found.flat();
}

function toBase64(bytes: Uint8Array): string {
  let text = '';
  // A call takes only so many arguments.
  for (let at = 0; at < bytes.length; at += 0x8000) {
    text += String.fromCharCode(...bytes.subarray(at, at + 0x8000));
  }
  return btoa(text);
}

function fromBase64(text: string): Uint8Array {
  return Uint8Array.from(atob(text), (character) => character.charCodeAt(0));
}
