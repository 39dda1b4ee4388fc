import { BrowserMessageReader, BrowserMessageWriter, createConnection } from 'vscode-languageserver/browser';
import { clientFiles } from '../lsp/clientFiles.js';
import { startServer } from '../lsp/startServer.js';
import { localToday } from '../lsp/today.js';

// Bundled as dist/web/server.js, which the extension runs in a web worker. It has no files of its own: the
// extension reads and writes them through the editor.
const worker = self as unknown as DedicatedWorkerGlobalScope;
const connection = createConnection(new BrowserMessageReader(worker), new BrowserMessageWriter(worker));
const files = clientFiles(connection);

startServer(connection, {
  today: () => localToday(),
  listFiles: files.listFiles,
  readFile: files.readFile,
  writeFiles: files.writeFiles,
  // The extension says in its greeting how a page is opened.
  rulePageUri: () => undefined,
  texts: async (language) => {
    const bytes = await files.shipped(`server/l10n/${language}.json`);
    return bytes && new TextDecoder().decode(bytes);
  },
  renderPdf: async (definition) => (await import('./pdf.js')).renderPdf(definition, files.shipped),
});
