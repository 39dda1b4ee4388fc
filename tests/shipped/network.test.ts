import { spawnSync } from 'node:child_process';
import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { describe, expect, it } from 'vitest';
import { NETWORK_MODULES } from '../../server/build/noNetwork.mjs';
import { root } from '../structure/repository.js';

// Clients' files are health data: nothing that is shipped can open a connection. What libraries bring along for it is
// taken out when the bundles are made (server/build/noNetwork.mjs); here the bundles are searched and watched.

const dist = path.join(root, 'dist');
const bundles = fs
  .readdirSync(dist, { recursive: true, encoding: 'utf8' })
  .filter((file) => /\.[cm]?js$/.test(file));

/** What opens connections: the modules of Node, and what browsers and Node have without one. */
const modules = new RegExp(
  `(?:\\brequire\\(|\\bimport\\(|\\bfrom\\s*|\\bimport\\s*)["'\`](?:node:)?(?:${NETWORK_MODULES.join('|')})(?:/[a-z]+)?["'\`]`,
  'g',
);
const globals =
  /\bfetch\(|\bXMLHttpRequest\b|\bWebSocket\b|\bEventSource\b|\bsendBeacon\b|\bimportScripts\b|\bRTCPeerConnection\b/g;

describe('the bundles', () => {
  it('are all looked at', () => {
    expect(bundles).toEqual(expect.arrayContaining(['extension.cjs', 'server.cjs', 'stave.js']));
    expect(bundles.map((file) => file.split(path.sep).join('/'))).toEqual(
      expect.arrayContaining(['web/extension.js', 'web/server.js']),
    );
  });

  it.each(bundles)('%s holds nothing that opens a connection', (file) => {
    const text = fs.readFileSync(path.join(dist, file), 'utf8');
    expect([...text.matchAll(modules), ...text.matchAll(globals)].map(([found]) => found)).toEqual([]);
  });

  it('the search would find what it is for', () => {
    const bad =
      'require("net");import x from"node:https";await import("http2");fetch("x");new XMLHttpRequest;require("node:dns/promises")';
    expect([...bad.matchAll(modules)]).toHaveLength(4);
    expect([...bad.matchAll(globals)]).toHaveLength(2);
  });
});

describe('the command line', () => {
  const guard = path.join(root, 'tests', 'editor', 'network.cjs');

  /** Runs a program with a watch on everything that leads to another machine; what was tried, a line each. */
  function watched(args: string[], cwd: string): { readonly status: number | null; readonly tried: string } {
    const folder = fs.mkdtempSync(path.join(os.tmpdir(), 'stave-network-'));
    const log = path.join(folder, 'log');
    fs.writeFileSync(log, '');
    const { status } = spawnSync(process.execPath, ['--require', guard, ...args], {
      cwd,
      env: { ...process.env, STAVE_NETWORK_LOG: log },
    });
    const tried = fs.readFileSync(log, 'utf8');
    fs.rmSync(folder, { recursive: true, force: true });
    return { status, tried };
  }

  it('reaches for no other machine while it checks, works loads out and prints', () => {
    const folder = fs.mkdtempSync(path.join(os.tmpdir(), 'stave-network-'));
    const stave = path.join(dist, 'stave.js');
    fs.cpSync(path.join(root, 'samples', 'winter'), folder, { recursive: true });
    for (const args of [
      ['check'],
      ['loads', '--for', 'Heron', '--json'],
      ['plan', '--for', 'Heron', '--to', 'html,pdf,ics,csv,json,md', '-o', 'plans'],
    ]) {
      const { status, tried } = watched([stave, ...args], folder);
      expect(tried, args.join(' ')).toBe('');
      expect(status, args.join(' ')).toBeLessThan(2);
    }
    expect(fs.readdirSync(path.join(folder, 'plans'))).toHaveLength(6);
    fs.rmSync(folder, { recursive: true, force: true });
  }, 60_000);

  it('would be seen reaching', () => {
    expect(
      watched(['-e', "require('net').connect(1, '127.0.0.1').on('error', () => {})"], root).tried,
    ).toContain('net.connect');
  });
});
