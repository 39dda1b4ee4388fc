import { spawn, spawnSync } from 'node:child_process';
import fs from 'node:fs';
import { builtinModules } from 'node:module';
import path from 'node:path';
import { beforeAll, describe, expect, it } from 'vitest';
import { root } from '../structure/repository.js';

// What is shipped, as it is shipped: the bundles in dist/. `npm test` builds them first; a run of the unit tests
// alone builds them when they are not there.

const dist = (file: string): string => path.join(root, 'dist', file);
const manifest = JSON.parse(fs.readFileSync(path.join(root, 'package.json'), 'utf8'));

beforeAll(() => {
  if (fs.existsSync(dist('stave.js'))) return;
  const { status } = spawnSync(process.execPath, ['server/build/build.mjs'], { cwd: root, stdio: 'inherit' });
  expect(status).toBe(0);
}, 120_000);

/** Sends `initialize` to a language server and gives back its answer. */
function initialize(args: string[]): Promise<{ result?: { capabilities?: Record<string, unknown> } }> {
  const child = spawn(process.execPath, args, { cwd: root, stdio: ['pipe', 'pipe', 'pipe'] });
  const request = JSON.stringify({
    jsonrpc: '2.0',
    id: 1,
    method: 'initialize',
    params: { processId: process.pid, rootUri: null, capabilities: {} },
  });
  child.stdin.write(`Content-Length: ${Buffer.byteLength(request)}\r\n\r\n${request}`);
  return new Promise((resolve, reject) => {
    let out = '';
    let err = '';
    const timer = setTimeout(() => finish(new Error(`no answer: ${out}${err}`)), 15_000);
    const finish = (error: Error | null, answer?: object): void => {
      clearTimeout(timer);
      child.kill('SIGKILL');
      if (error) reject(error);
      else resolve(answer ?? {});
    };
    child.stderr.setEncoding('utf8').on('data', (chunk: string) => {
      err += chunk;
    });
    child.stdout.setEncoding('utf8').on('data', (chunk: string) => {
      out += chunk;
      for (const part of out.split(/Content-Length: \d+\r\n\r\n/)) {
        if (!part.includes('"id":1')) continue;
        try {
          finish(null, JSON.parse(part));
        } catch {
          // The rest of the message is still to come.
        }
      }
    });
    child.once('exit', (code) => finish(new Error(`ended with ${code}: ${err}`)));
  });
}

describe('the bundles', () => {
  it('need no package beside them', () => {
    const builtin = new Set([...builtinModules, ...builtinModules.map((name) => `node:${name}`)]);
    const bundles = fs.readdirSync(dist('')).filter((file) => /\.[cm]?js$/.test(file));
    expect(bundles).toEqual(expect.arrayContaining(['extension.cjs', 'server.cjs', 'stave.js']));
    const missing = bundles.flatMap((file) => {
      const text = fs.readFileSync(dist(file), 'utf8');
      const calls = text.matchAll(/\b(?:require|import)\(\s*"([^"]+)"\s*\)/g);
      const froms = file.endsWith('.cjs') ? [] : text.matchAll(/(?:^|;)import\b[^;"']*"([^"]+)"/gm);
      return [...calls, ...froms]
        .map(([, name]) => name ?? '')
        .filter((name) => {
          if (name.startsWith('./')) return !fs.existsSync(dist(name));
          return (
            !builtin.has(name) &&
            !(name === 'vscode' && ['extension.cjs', 'languageClient.cjs'].includes(file))
          );
        })
        .map((name) => `${file}: ${name}`);
    });
    expect(missing).toEqual([]);
  });

  it('leave the PDF writer out of what starts', () => {
    for (const file of ['server.cjs', 'stave.js', 'extension.cjs']) {
      expect(fs.readFileSync(dist(file), 'utf8')).not.toContain('pdfkit');
    }
  });

  it('the program gives its version', () => {
    const { status, stdout } = spawnSync(process.execPath, [dist('stave.js'), '--version'], {
      encoding: 'utf8',
    });
    expect(stdout.trim()).toBe(manifest.version);
    expect(status).toBe(0);
    expect(fs.readFileSync(dist('stave.js'), 'utf8').startsWith('#!/usr/bin/env node\n')).toBe(true);
  });

  it.each([
    ['the server', ['dist/server.cjs', '--stdio']],
    ['the program as a server', ['dist/stave.js', 'lsp', '--stdio']],
  ])('%s answers', async (_name, args) => {
    const { result } = await initialize(args);
    expect(result?.capabilities).toMatchObject({ hoverProvider: expect.anything() });
  });
});

describe('the package', () => {
  let listed: string[] = [];

  beforeAll(() => {
    const vsce = ['node_modules/@vscode/vsce/vsce', 'ls', '--no-dependencies'];
    listed = spawnSync(process.execPath, vsce, { cwd: root, encoding: 'utf8' }).stdout.split('\n');
  }, 60_000);

  it('holds what the manifest names', () => {
    const named = [manifest.main, manifest.bin.stave].map((file: string) => file.replace(/^\.\//, ''));
    for (const { path: file } of manifest.contributes.grammars) named.push(file.replace(/^\.\//, ''));
    for (const { configuration } of manifest.contributes.languages)
      named.push(configuration.replace(/^\.\//, ''));
    expect(named.filter((file) => !listed.includes(file))).toEqual([]);
  });

  it('holds the licences of what it contains', () => {
    expect(listed).toEqual(expect.arrayContaining(['LICENSE', 'dist/THIRD-PARTY.txt', 'dist/fonts/LICENSE']));
    const notices = fs.readFileSync(dist('THIRD-PARTY.txt'), 'utf8');
    for (const name of ['chevrotain', 'pdfmake', 'vscode-languageclient'])
      expect(notices).toContain(`\n${name} `);
  });

  it('holds no sources and no tests', () => {
    expect(listed.filter((file) => /\.tsx?$|^tests\/|^samples\/|node_modules/.test(file))).toEqual([]);
  });
});
