// A VS Code workbench as somebody has it who has just installed the extension: an empty window in Chromium, the package
// installed, a home folder with nothing in it, all settings as they come. What is typed and clicked is counted.
import { spawn, spawnSync } from 'node:child_process';
import { randomUUID } from 'node:crypto';
import fs from 'node:fs';
import { createRequire } from 'node:module';
import os from 'node:os';
import path from 'node:path';

const cache = process.env.STAVE_EDITOR_DIR ?? path.join(os.homedir(), '.cache', 'stave-editor');

/** Opens the window. `close` ends everything that was started. */
export async function openWindow({ vsix, shots, width = 1280, height = 800 }) {
  const { chromium } = createRequire(path.join(cache, 'tools', 'package.json'))('playwright-core');
  const node = fs.readFileSync(path.join(cache, 'node-path'), 'utf8').trim();
  const main = path.join(cache, 'vscode', 'out', 'server-main.js');
  const data = fs.mkdtempSync(path.join(os.tmpdir(), 'stave-first-'));
  const home = path.join(data, 'home');
  const env = { ...process.env, HOME: home, EXTENSIONS_GALLERY: '{}', TMPDIR: path.join(data, 'tmp') };
  for (const name of Object.keys(env)) if (/^(VSCODE_|ELECTRON_|CODE_SERVER_)/.test(name)) delete env[name];
  env.XDG_RUNTIME_DIR = env.TMPDIR;
  for (const folder of [home, env.TMPDIR, path.join(data, 'user', 'User')])
    fs.mkdirSync(folder, { recursive: true, mode: 0o700 });
  fs.writeFileSync(
    path.join(data, 'user', 'User', 'settings.json'),
    // As on the desktop; nothing is asked of the network.
    JSON.stringify({
      'files.autoSave': 'off',
      'telemetry.telemetryLevel': 'off',
      'extensions.autoUpdate': false,
    }),
  );
  const folders = ['server', 'user', 'extensions'].flatMap((name) => [
    `--${{ server: 'server-data-dir', user: 'user-data-dir', extensions: 'extensions-dir' }[name]}`,
    path.join(data, name),
  ]);
  const installed = spawnSync(node, [main, ...folders, '--install-extension', vsix], {
    env,
    encoding: 'utf8',
  });
  if (installed.status !== 0)
    throw new Error(`could not install ${vsix}: ${installed.stdout}${installed.stderr}`);

  const token = randomUUID();
  const serverArgs = ['--host', '127.0.0.1', '--port', '0', '--connection-token', token];
  const server = spawn(
    node,
    [main, ...folders, ...serverArgs, '--accept-server-license-terms', '--telemetry-level', 'off'],
    { detached: true, env, cwd: home, stdio: ['ignore', 'pipe', 'pipe'] },
  );
  const port = await new Promise((resolve, reject) => {
    let log = '';
    const listen = (chunk) => {
      log += chunk;
      const found = /Extension host agent listening on (\d+)/.exec(log)?.[1];
      if (found) resolve(found);
    };
    server.stdout.setEncoding('utf8').on('data', listen);
    server.stderr.setEncoding('utf8').on('data', listen);
    server.once('exit', (code) => reject(new Error(`the server ended with ${code}:\n${log}`)));
  });
  const browser = await chromium.launch({
    executablePath: process.env.CHROMIUM ?? '/usr/bin/chromium',
    env: { ...process.env, TMPDIR: env.TMPDIR },
    args: ['--no-sandbox', '--host-resolver-rules=MAP * ~NOTFOUND, EXCLUDE 127.0.0.1'],
  });
  const page = await browser.newPage({ viewport: { width, height } });
  await page.goto(`http://127.0.0.1:${port}/?ew=true&tkn=${token}`);

  async function close() {
    await browser.close().catch(() => {});
    const gone = new Promise((resolve) => {
      if (server.exitCode !== null || server.signalCode !== null) resolve(undefined);
      else server.once('exit', resolve);
    });
    for (const signal of ['SIGTERM', 'SIGKILL']) {
      try {
        process.kill(-server.pid, signal);
      } catch {
        // gone already
      }
      if (signal === 'SIGTERM')
        await Promise.race([gone, new Promise((resolve) => setTimeout(resolve, 3000))]);
    }
    await gone;
    fs.rmSync(data, { recursive: true, force: true, maxRetries: 5, retryDelay: 100 });
  }

  const counts = { keys: 0, clicks: 0 };
  return {
    page,
    home,
    counts,
    close,
    /** Each character is a key. */
    async type(text) {
      counts.keys += [...text].length;
      await page.keyboard.type(text, { delay: 15 });
    },
    /** A chord such as Control+. counts as the keys that it has. */
    async press(keys) {
      counts.keys += keys.split('+').filter((key) => key !== '').length;
      await page.keyboard.press(keys);
    },
    async click(target) {
      counts.clicks += 1;
      await (typeof target === 'string' ? page.locator(target).first() : target).click({ timeout: 15_000 });
    },
    async picture(name) {
      if (shots) await page.screenshot({ path: path.join(shots, `${name}.png`) });
    },
  };
}
