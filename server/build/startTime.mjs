// How long the language server takes from its start to its answer to `initialize`, beside a server of the same
// framework, bundled the same way, that can do nothing.
//
//   node server/build/startTime.mjs [RUNS]
import { spawn } from 'node:child_process';
import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import { root } from './prepare.mjs';

const empty = `
import { createConnection, ProposedFeatures, TextDocuments } from 'vscode-languageserver/node';
import { TextDocument } from 'vscode-languageserver-textdocument';
const connection = createConnection(ProposedFeatures.all);
const documents = new TextDocuments(TextDocument);
connection.onInitialize(() => ({ capabilities: { textDocumentSync: 2 } }));
documents.listen(connection);
connection.listen();
`;

/** Milliseconds from the start of a server to its answer to `initialize`. */
function startOnce(file) {
  return new Promise((resolve, reject) => {
    const began = process.hrtime.bigint();
    const server = spawn(process.execPath, [file, '--stdio'], { stdio: ['pipe', 'pipe', 'inherit'] });
    let answer = '';
    server.on('error', reject);
    server.on('exit', () => reject(new Error(`${file} ended without an answer: ${answer}`)));
    server.stdout.setEncoding('utf8').on('data', (chunk) => {
      answer += chunk;
      if (!answer.includes('"capabilities"')) return;
      const milliseconds = Number(process.hrtime.bigint() - began) / 1e6;
      server.removeAllListeners('exit');
      server.once('exit', () => resolve(milliseconds));
      server.kill();
    });
    const params = { processId: process.pid, rootUri: null, capabilities: {}, workspaceFolders: null };
    const body = JSON.stringify({ jsonrpc: '2.0', id: 1, method: 'initialize', params });
    server.stdin.write(`Content-Length: ${Buffer.byteLength(body)}\r\n\r\n${body}`);
  });
}

const median = (values) => [...values].sort((a, b) => a - b)[Math.floor(values.length / 2)];

/** Starts both servers in turn, so that a busy machine is busy for both; the medians in milliseconds. */
export async function measureStart(runs = 15) {
  const { build } = await import('esbuild');
  const scratch = fs.mkdtempSync(path.join(os.tmpdir(), 'stave-start-'));
  try {
    const floor = path.join(scratch, 'empty.cjs');
    await build({
      stdin: { contents: empty, resolveDir: root, sourcefile: 'empty.mjs' },
      outfile: floor,
      bundle: true,
      minify: true,
      platform: 'node',
      format: 'cjs',
      target: 'node20',
    });
    const ours = path.join(root, 'dist', 'server.cjs');
    const times = { ours: [], empty: [] };
    // The first start of each reads its file from the disk; it does not count.
    for (let run = -1; run < runs; run += 1) {
      const pair = { ours: await startOnce(ours), empty: await startOnce(floor) };
      if (run < 0) continue;
      times.ours.push(pair.ours);
      times.empty.push(pair.empty);
    }
    const result = { ours: median(times.ours), empty: median(times.empty) };
    return { ...result, ratio: result.ours / result.empty, runs };
  } finally {
    fs.rmSync(scratch, { recursive: true, force: true });
  }
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  const { ours, empty: floor, ratio, runs } = await measureStart(Number(process.argv[2] ?? 15));
  console.log(`start to answered initialize, median of ${runs}:`);
  console.log(`  this server   ${ours.toFixed(0)} ms`);
  console.log(`  empty server  ${floor.toFixed(0)} ms`);
  console.log(`  ratio         ${ratio.toFixed(2)}`);
}
