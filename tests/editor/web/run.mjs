// Runs tests/editor/web/suite.cjs in the VS Code workbench with nothing behind it: no remote machine, no process, the
// extension host a web worker, the language server another, and a folder that lies on no disk. Only a server of plain
// files, on a free port of 127.0.0.1, hands out the workbench, the extension and the suite.
//
//   node tests/editor/web/run.mjs [--vsix FILE] [--timeout SECONDS] [--verbose]
//
// STAVE_EDITOR_REPORT names a JSON file for the counts; STAVE_EDITOR_SHOTS a folder for pictures of the window.
import { spawnSync } from 'node:child_process';
import fs from 'node:fs';
import http from 'node:http';
import { createRequire } from 'node:module';
import os from 'node:os';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import { parseArgs } from 'node:util';
import { build } from 'esbuild';

const here = path.dirname(fileURLToPath(import.meta.url));
const root = path.resolve(here, '..', '..', '..');
const { values: flags } = parseArgs({
  options: {
    vsix: { type: 'string' },
    verbose: { type: 'boolean', default: false },
    timeout: { type: 'string', default: '120' },
  },
});
const cache = process.env.STAVE_EDITOR_DIR ?? path.join(os.homedir(), '.cache', 'stave-editor');
const { chromium } = createRequire(path.join(cache, 'tools', 'package.json'))('playwright-core');
const scratch = fs.mkdtempSync(path.join(os.tmpdir(), 'stave-web-'));
const shots = process.env.STAVE_EDITOR_SHOTS;

/** The extension's folder: the repository, or what a package holds. */
function extensionFolder() {
  if (!flags.vsix) return root;
  const { status } = spawnSync('python3', ['-m', 'zipfile', '-e', path.resolve(flags.vsix), scratch]);
  if (status !== 0) throw new Error(`could not unpack ${flags.vsix}`);
  return path.join(scratch, 'extension');
}

// The editor runs a suite only where it lies inside an extension.
fs.cpSync(path.join(here, 'memory'), path.join(scratch, 'memory'), { recursive: true });
await build({
  entryPoints: [path.join(here, 'suite.cjs')],
  outfile: path.join(scratch, 'memory', 'suite.js'),
  bundle: true,
  format: 'cjs',
  platform: 'browser',
  external: ['vscode'],
  define: { global: 'globalThis' },
  logLevel: 'warning',
});

/** The samples as they lie in the folder of memory, by path. */
function files() {
  const samples = path.join(root, 'samples');
  const names = fs.readdirSync(samples, { recursive: true }).map((name) => name.split(path.sep).join('/'));
  const texts = names.filter((name) => fs.statSync(path.join(samples, name)).isFile());
  return Object.fromEntries(
    texts.map((name) => [`/samples/${name}`, fs.readFileSync(path.join(samples, name), 'utf8')]),
  );
}

const folders = {
  vscode: path.join(cache, 'vscode'),
  extension: extensionFolder(),
  memory: path.join(scratch, 'memory'),
};
const types = {
  '.html': 'text/html',
  '.js': 'text/javascript',
  '.css': 'text/css',
  '.json': 'application/json',
  '.svg': 'image/svg+xml',
  '.png': 'image/png',
  '.ttf': 'font/ttf',
};

const workbenchScript = path.join('code', 'browser', 'workbench', 'workbench.js');

/** This build always looks for a machine behind the page, and keeps its settings there: here there is none. */
const changes = [
  ['remoteAuthority:location.host', 'remoteAuthority:undefined'],
  ['file(this.userDataPath).with({scheme:K.vscodeRemote})', 'file("/").with({scheme:K.vscodeUserData})'],
];

function withoutRemote(file) {
  return changes.reduce(
    (text, [from, to]) => {
      const parts = text.split(from);
      if (parts.length !== 2) throw new Error(`${file} is another build: it does not hold ${from} once`);
      return parts.join(to);
    },
    fs.readFileSync(file, 'utf8'),
  );
}

let page;
const outside = [];
const actions = {
  text: (selector) => page.locator(selector).allInnerTexts(),
  // In the panel beside the text, which is a page of its own in a frame of a frame.
  panelText: async (selector) => {
    for (const frame of page.frames()) {
      const found = await frame
        .locator('#desk')
        .count()
        .catch(() => 0);
      if (found > 0) return frame.locator(selector).allInnerTexts();
    }
    return [];
  },
  type: (text) => page.keyboard.type(text),
  press: (keys) => page.keyboard.press(keys),
  outside: () => outside,
  picture: async (name) => {
    if (shots) await page.screenshot({ path: path.join(shots, `${name}.png`) });
    return null;
  },
  print: (line) => console.log(line),
  done: (counts) => finish(counts),
};

const server = http.createServer(async (request, response) => {
  const { pathname } = new URL(request.url, 'http://127.0.0.1');
  const answer = (status, type, body) => {
    response.writeHead(status, { 'content-type': type, 'access-control-allow-origin': '*' });
    response.end(body);
  };
  if (pathname === '/') return answer(200, 'text/html', workbench());
  if (pathname === '/files.json') return answer(200, 'application/json', JSON.stringify(files()));
  if (pathname === '/do') {
    const chunks = [];
    for await (const chunk of request) chunks.push(chunk);
    const { method, args } = JSON.parse(Buffer.concat(chunks).toString('utf8'));
    const result = await Promise.resolve(actions[method](...args)).catch((error) => ({
      error: error.message,
    }));
    return answer(200, 'application/json', JSON.stringify(result ?? null));
  }
  const [, folder, ...rest] = pathname.split('/').map(decodeURIComponent);
  const file = folders[folder] && path.join(folders[folder], ...rest);
  if (!file?.startsWith(folders[folder]) || !fs.existsSync(file) || !fs.statSync(file).isFile())
    return answer(404, 'text/plain', 'not here');
  if (file.endsWith(workbenchScript)) return answer(200, types['.js'], withoutRemote(file));
  return answer(200, types[path.extname(file)] ?? 'application/octet-stream', fs.readFileSync(file));
});
await new Promise((resolve) => server.listen(0, '127.0.0.1', resolve));
const authority = `127.0.0.1:${server.address().port}`;

function workbench() {
  const at = (folder) => ({ scheme: 'http', authority, path: `/${folder}` });
  const builtin = ['theme-defaults', 'markdown-basics'];
  const settings = {
    folderUri: { scheme: 'memory', path: '/samples' },
    additionalBuiltinExtensions: [at('memory'), ...builtin.map((name) => at(`vscode/extensions/${name}`))],
    developmentOptions: { extensions: [at('extension')], extensionTestsPath: at('memory/suite.js') },
    isEnabledFileDownloads: true,
    isEnabledFileUploads: true,
    isEnabledCoderGettingStarted: false,
    productConfiguration: {
      enableTelemetry: false,
      // Panels are pages of their own, which come from elsewhere unless told otherwise.
      webviewContentExternalBaseUrlTemplate: `http://${authority}/vscode/out/vs/workbench/contrib/webview/browser/pre/`,
    },
    configurationDefaults: {
      'files.autoSave': 'off',
      'security.workspace.trust.enabled': false,
      'telemetry.telemetryLevel': 'off',
      'workbench.startupEditor': 'none',
      'workbench.tips.enabled': false,
    },
  };
  const replaced = {
    WORKBENCH_WEB_CONFIGURATION: JSON.stringify(settings).replaceAll('"', '&quot;'),
    WORKBENCH_AUTH_SESSION: '',
    WORKBENCH_WEB_BASE_URL: '/vscode',
    WORKBENCH_NLS_FALLBACK_URL: '/vscode/out/nls.messages.js',
    WORKBENCH_NLS_URL: '/vscode/out/nls.messages.js',
    BASE: '',
    VS_BASE: '',
  };
  const file = path.join(cache, 'vscode', 'out', 'vs', 'code', 'browser', 'workbench', 'workbench.html');
  return fs.readFileSync(file, 'utf8').replace(/\{\{(\w+)\}\}/g, (_, name) => replaced[name] ?? '');
}

const browser = await chromium.launch({
  executablePath: process.env.CHROMIUM ?? '/usr/bin/chromium',
  args: ['--no-sandbox', '--host-resolver-rules=MAP * ~NOTFOUND, EXCLUDE 127.0.0.1'],
});

async function finish({ passes, failures, reason }) {
  if (finish.called) return;
  finish.called = true;
  clearTimeout(timer);
  if (reason) console.error(`web: ${reason}`);
  if (process.env.STAVE_EDITOR_REPORT)
    fs.writeFileSync(process.env.STAVE_EDITOR_REPORT, JSON.stringify({ passes, failures, pending: 0 }));
  console.log(`in the editor in a browser: ${passes} passed, ${failures} failed`);
  await browser.close();
  server.close();
  fs.rmSync(scratch, { recursive: true, force: true });
  process.exit(failures > 0 || passes === 0 ? 1 : 0);
}
const timer = setTimeout(async () => {
  await actions.picture('web-timed-out').catch(() => {});
  await finish({ passes: 0, failures: 1, reason: 'timed out; try --verbose' });
}, Number(flags.timeout) * 1000);

page = await browser.newPage({ viewport: { width: 1280, height: 800 } });
if (flags.verbose) {
  page.on('pageerror', (error) => console.error(`[page] ${error.stack}`));
  page.on('console', (message) => console.error(`[${message.type()}] ${message.text()}`));
  page.on('requestfailed', (request) => console.error(`[failed] ${request.url()}`));
  page.on(
    'response',
    (response) => response.status() >= 400 && console.error(`[${response.status()}] ${response.url()}`),
  );
}
// What the window and its workers ask for beyond this machine, whether they get it or not.
page.context().on('request', (request) => {
  const url = new URL(request.url());
  if (/^(https?|wss?):$/.test(url.protocol) && url.host !== authority) outside.push(request.url());
});
page.on('crash', () => finish({ passes: 0, failures: 1, reason: 'the workbench page crashed' }));
await page.exposeFunction('codeAutomationLog', () => {});
await page.exposeFunction('codeAutomationExit', (code) => {
  // The suite has said more; without a word from it, it never ran.
  setTimeout(
    () => finish({ passes: 0, failures: 1, reason: `the suite did not run (exit ${code}); try --verbose` }),
    1000,
  );
});
await page.goto(`http://${authority}/`);
