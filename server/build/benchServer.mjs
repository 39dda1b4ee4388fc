// The server as it is shipped, over stdio, beside a client that does nothing but ask.
import { spawn } from 'node:child_process';
import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { performance } from 'node:perf_hooks';
import { pathToFileURL } from 'node:url';
import { benchWorkspace, keystrokes } from './benchWorkspace.mjs';
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
    inlayHint: { dynamicRegistration: false },
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

/** Opens the workspace in the bundled server and types in a program file; times in milliseconds. */
export async function measureServer(strokes) {
  const { default: node } = await import('vscode-languageserver/node.js');
  const bundle = path.join(root, 'dist', 'server.cjs');
  if (!fs.existsSync(bundle)) throw new Error('dist/server.cjs is not built: npm run build');
  const folder = fs.realpathSync(fs.mkdtempSync(path.join(os.tmpdir(), 'stave-bench-')));
  for (const [file, text] of benchWorkspace()) fs.writeFileSync(path.join(folder, file), text);
  const uri = pathToFileURL(path.join(folder, 'program-0.stave')).href;
  const text = fs.readFileSync(path.join(folder, 'program-0.stave'), 'utf8');
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
    await connection.sendNotification('textDocument/didOpen', {
      textDocument: { uri, languageId: 'stave', version: 1, text },
    });
    const lineStarts = [0, ...[...text.matchAll(/\n/g)].map((match) => match.index + 1)];
    const position = (offset) => {
      const line = lineStarts.findLastIndex((start) => start <= offset);
      return { line, character: offset - lineStarts[line] };
    };
    const everything = { start: { line: 0, character: 0 }, end: { line: lineStarts.length, character: 0 } };
    const textDocument = { uri };
    const ask = () =>
      Promise.all([
        connection.sendRequest('textDocument/diagnostic', { textDocument }),
        connection.sendRequest('textDocument/inlayHint', { textDocument, range: everything }),
      ]);
    const [diagnostics, hints] = await ask();
    const coldMs = performance.now() - began;
    if (hints.length === 0 || !Array.isArray(diagnostics.items))
      throw new Error('the server did not answer with hints');

    let version = 1;
    const keystrokeMs = [];
    for (const { offset, typed } of keystrokes(text, strokes)) {
      for (const character of [typed, text[offset]]) {
        const start = performance.now();
        version += 1;
        await connection.sendNotification('textDocument/didChange', {
          textDocument: { uri, version },
          contentChanges: [
            { range: { start: position(offset), end: position(offset + 1) }, text: character },
          ],
        });
        await ask();
        keystrokeMs.push(performance.now() - start);
      }
    }
    const timed = async (method, params) => {
      const start = performance.now();
      await connection.sendRequest(method, { textDocument, ...params });
      return performance.now() - start;
    };
    const hoverMs = [];
    for (const { offset } of keystrokes(text, 20))
      hoverMs.push(await timed('textDocument/hover', { position: position(offset) }));
    const formatMs = [];
    for (let run = 0; run < 10; run += 1) {
      formatMs.push(await timed('textDocument/formatting', { options: { tabSize: 2, insertSpaces: true } }));
    }
    return { coldMs, keystrokeMs, hoverMs, formatMs, rssPeak: peakOf(server.pid) };
  } finally {
    connection.dispose();
    server.kill();
    fs.rmSync(folder, { recursive: true, force: true });
  }
}
