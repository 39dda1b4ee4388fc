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
  drawPdf: async (definition) => (await (await import('./pdf.js')).pdfWriter(files.shipped)).draw(definition),
  fitPaper: async (paper) => (await import('./pdf.js')).fitPaper(paper, files.shipped),
  texts: async (language) => {
    const bytes = await files.shipped(`server/l10n/${language}.json`);
    return bytes && new TextDecoder().decode(bytes);
  },
});
