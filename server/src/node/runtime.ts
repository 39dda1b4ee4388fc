import { randomBytes } from 'node:crypto';
import fs from 'node:fs/promises';
import path from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { staveFiles } from '../cli/staveFiles.js';
import type { OutputFile, Runtime } from '../lsp/runtime.js';
import { localToday } from '../lsp/today.js';

/** What the language server needs, from Node. `shipped` is the folder that holds `dist/` and `server/rules/`. */
export function nodeRuntime(shipped: string): Runtime {
  return {
    today: () => localToday(),
    async listFiles(folderUri) {
      const folder = pathOf(folderUri);
      return folder === undefined ? [] : (await staveFiles(folder)).map((file) => pathToFileURL(file).href);
    },
    async readFile(uri) {
      const file = pathOf(uri);
      if (file === undefined) return undefined;
      try {
        const bytes = await fs.readFile(file);
        // The editor does not show a byte order mark, so offsets do not count it either.
        return bytes.toString('utf8').replace(/^\uFEFF/, '');
      } catch {
        return undefined;
      }
    },
    rulePageUri: (code) =>
      pathToFileURL(path.join(shipped, 'server', 'rules', `${encodeURIComponent(code)}.md`)).href,
    async writeFiles(folderUri, files) {
      const folder = fileURLToPath(folderUri);
      await fs.mkdir(folder, { recursive: true });
      const written: string[] = [];
      for (const file of files) written.push(pathToFileURL(await writeWhole(folder, file)).href);
      return written;
    },
    texts: (language) =>
      fs.readFile(path.join(shipped, 'server', 'l10n', `${language}.json`), 'utf8').catch(() => undefined),
    // Loaded when the first plan is printed: the writer of PDF is megabytes large.
    drawPdf: async (definition) => (await import('../cli/pdf.js')).drawPdf(definition),
    fitPaper: async (paper) => (await import('../cli/pdf.js')).fitted(paper),
    calendarText: async (calendar, madeAt) =>
      (await import('../cli/calendarFile.js')).calendarText(calendar, madeAt),
  };
}

/** The path of a `file:` address; undefined for any other address. */
function pathOf(uri: string): string | undefined {
  try {
    return uri.startsWith('file:') ? fileURLToPath(uri) : undefined;
  } catch {
    return undefined;
  }
}

/** Writes beside the target first, then renames: nobody ever sees half a file. */
async function writeWhole(folder: string, { name, content }: OutputFile): Promise<string> {
  const target = path.join(folder, name);
  const beside = path.join(folder, `.${name}.${randomBytes(4).toString('hex')}.tmp`);
  try {
    await fs.writeFile(beside, content);
    await fs.rename(beside, target);
  } catch (error) {
    await fs.rm(beside, { force: true });
    throw error;
  }
  return target;
}
