// The server as it is shipped, over stdio, beside a client that does nothing but ask.
import { spawn } from 'node:child_process';
import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { performance } from 'node:perf_hooks';
import { pathToFileURL } from 'node:url';
import { keystrokes } from './benchWorkspace.mjs';
import { root } from './prepare.mjs';

const capabilities = {
  workspace: {
    configuration: true,
    workspaceFolders: true,
    diagnostics: { refreshSupport: true },
    inlayHint: { refreshSupport: true },
  },
  textDocument: {
    diagnostic: { dynamicRegistration: false },
    // As in VS Code, where the tooltip is asked for when somebody points at a hint.
    inlayHint: { dynamicRegistration: false, resolveSupport: { properties: ['tooltip', 'textEdits'] } },
    publishDiagnostics: { relatedInformation: true, codeDescriptionSupport: true },
    hover: { contentFormat: ['markdown', 'plaintext'] },
  },
};

/** Most memory that a process has held, in bytes; null where the system does not tell. */
function peakOf(pid) {
  try {
    const found = /VmHWM:\s+(\d+) kB/.exec(fs.readFileSync(`/proc/${pid}/status`, 'utf8'));
    return found ? Number(found[1]) * 1024 : null;
  } catch {
    return null;
  }
}

/** User and system time that a process has used, in milliseconds; null where the system does not tell. */
function processorOf(pid) {
  try {
    const fields = fs.readFileSync(`/proc/${pid}/stat`, 'utf8').split(') ').pop().split(' ');
    // Fields 14 and 15 in ticks, of which there are 100 in a second on every Linux of today.
    return (Number(fields[11]) + Number(fields[12])) * 10;
  } catch {
    return null;
  }
}

/** Writes texts into a folder of their own, hands it to `work`, and takes it away again. */
export async function withFolder(files, work) {
  const folder = fs.realpathSync(fs.mkdtempSync(path.join(os.tmpdir(), 'stave-bench-')));
  try {
    for (const [file, text] of files) fs.writeFileSync(path.join(folder, file), text);
    return await work(folder);
  } finally {
    fs.rmSync(folder, { recursive: true, force: true });
  }
}

/**
 * Opens a folder in the bundled server and types in files of it: `typing` has, by a name, the file and the keystrokes.
 * Times in milliseconds. The cold open ends when the first file has its findings and hints.
 */
export async function measureServer(files, typing) {
  const { default: node } = await import('vscode-languageserver/node.js');
  const bundle = path.join(root, 'dist', 'server.cjs');
  if (!fs.existsSync(bundle)) throw new Error('dist/server.cjs is not built: npm run build');
  return withFolder(files, async (folder) => {
    const began = performance.now();
    const server = spawn(process.execPath, [bundle, '--stdio'], { stdio: ['pipe', 'pipe', 'inherit'] });
    const connection = node.createProtocolConnection(
      new node.StreamMessageReader(server.stdout),
      new node.StreamMessageWriter(server.stdin),
    );
    try {
      connection.onRequest('workspace/configuration', ({ items }) => items.map(() => ({})));
      connection.onRequest('client/registerCapability', () => null);
      connection.onRequest('workspace/diagnostic/refresh', () => null);
      connection.onRequest('workspace/inlayHint/refresh', () => null);
      connection.listen();
      await connection.sendRequest('initialize', {
        processId: process.pid,
        rootUri: null,
        capabilities,
        workspaceFolders: [{ uri: pathToFileURL(folder).href, name: 'bench' }],
      });
      await connection.sendNotification('initialized', {});
      const strokes = {};
      let coldMs = null;
      let coldCpuMs = null;
      let first = null;
      for (const [name, { file, keystrokes }] of Object.entries(typing)) {
        const document = await openDocument(connection, folder, file, files.get(file));
        const [diagnostics, hints] = await document.ask();
        if (coldMs === null) {
          coldMs = performance.now() - began;
          coldCpuMs = processorOf(server.pid);
          first = document;
          if (hints.length === 0 || !Array.isArray(diagnostics.items))
            throw new Error('the server did not answer with hints');
        }
        strokes[name] = [];
        for (const { offset, typed } of keystrokes) {
          for (const character of [typed, document.text[offset]]) {
            const start = performance.now();
            await document.type(offset, character);
            await document.ask();
            strokes[name].push(performance.now() - start);
          }
        }
      }
      const { textDocument, text } = first;
      const timed = async (method, params) => {
        const start = performance.now();
        await connection.sendRequest(method, { textDocument, ...params });
        return performance.now() - start;
      };
      const hoverMs = [];
      for (const { offset } of keystrokes(text, 20))
        hoverMs.push(await timed('textDocument/hover', { position: first.position(offset) }));
      const formatMs = [];
      for (let run = 0; run < 10; run += 1) {
        formatMs.push(
          await timed('textDocument/formatting', { options: { tabSize: 2, insertSpaces: true } }),
        );
      }
      return { coldMs, coldCpuMs, strokes, hoverMs, formatMs, rssPeak: peakOf(server.pid) };
    } finally {
      connection.dispose();
      server.kill();
    }
  });
}

/** Opens a document as an editor does, and gives what is needed to type in it and to ask for what it shows. */
async function openDocument(connection, folder, file, text) {
  const uri = pathToFileURL(path.join(folder, file)).href;
  const textDocument = { uri };
  const lineStarts = [0, ...[...text.matchAll(/\n/g)].map((match) => match.index + 1)];
  const position = (offset) => {
    const line = lineStarts.findLastIndex((start) => start <= offset);
    return { line, character: offset - lineStarts[line] };
  };
  const range = { start: { line: 0, character: 0 }, end: { line: lineStarts.length, character: 0 } };
  let version = 1;
  await connection.sendNotification('textDocument/didOpen', {
    textDocument: { uri, languageId: 'stave', version, text },
  });
  return {
    text,
    textDocument,
    position,
    type(offset, character) {
      version += 1;
      return connection.sendNotification('textDocument/didChange', {
        textDocument: { uri, version },
        contentChanges: [{ range: { start: position(offset), end: position(offset + 1) }, text: character }],
      });
    },
    ask: () =>
      Promise.all([
        connection.sendRequest('textDocument/diagnostic', { textDocument }),
        connection.sendRequest('textDocument/inlayHint', { textDocument, range }),
      ]),
  };
}
