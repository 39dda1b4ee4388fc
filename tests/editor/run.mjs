#!/usr/bin/env node
// Runs an extension's tests inside the real VS Code workbench: a real extension host, a real language-server
// process, and a real window that can be looked at and typed into. The workbench comes from the npm package
// code-server (see setup.sh), the browser is Debian's Chromium; nothing is downloaded from anywhere else.
//
// It starts VS Code's own server on a free port of 127.0.0.1 with a random token and empty data folders, opens
// the workbench in headless Chromium, and names the extension and the test entry in the page address, as VS
// Code's own browser tests do. The entry is bootstrap.cjs, which gives the suite `globalThis.workbench`:
//   screenshot(file?)             PNG of the window; without a file into --screenshot
//   text(selector)                the text of every element that matches, as a person sees it
//   type(text), press(keys)       the keyboard, e.g. press('Control+Z')
//   click(selector), doubleClick(selector), hover(selector)   the mouse, on the first match, within 5 s
//   panelText, panelClick, panelSelect, panelPress, panelRun   the same inside the panel beside the text
//   consoleErrors()               what the pages wrote to the console as errors
// Exit code: 0 all passed; 1 a test failed, or the suite threw, never started, crashed or timed out; 2 wrong use.
import { spawn, spawnSync } from 'node:child_process';
import { randomUUID } from 'node:crypto';
import fs from 'node:fs';
import { createRequire } from 'node:module';
import net from 'node:net';
import os from 'node:os';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import { parseArgs } from 'node:util';

const usage = `usage: run.mjs (--extension DIR | --vsix FILE) --tests FILE --workspace DIR [options]
  --extension DIR    the extension's folder (with package.json), dependencies installed
  --vsix FILE        a packaged extension to install instead; may be given more than once
  --tests FILE       CommonJS file exporting run(), as VS Code's test runner expects
  --workspace DIR    the folder to open; a temporary copy of it is opened, so that no run changes it
  --in-place         open the workspace itself instead
  --open FILE        a .code-workspace file in the workspace, to open in the place of its folder
  --settings FILE    JSON file with user settings to add
  --language CODE    language that the window says it is in, such as de; the editor's own words stay English
  --untrusted        the folder is not trusted (otherwise nobody is asked, and all are)
  --screenshot FILE  where workbench.screenshot() writes, and the window at a time-out
  --timeout S        seconds for everything, the start included (default 120)
  --verbose          also print what the workbench and its server log`;

function fail(message) {
  console.error(`run: ${message}`);
  process.exit(2);
}

const { values: flags } = (() => {
  try {
    return parseArgs({
      options: {
        extension: { type: 'string' },
        vsix: { type: 'string', multiple: true, default: [] },
        tests: { type: 'string' },
        workspace: { type: 'string' },
        'in-place': { type: 'boolean', default: false },
        open: { type: 'string' },
        settings: { type: 'string' },
        language: { type: 'string' },
        untrusted: { type: 'boolean', default: false },
        screenshot: { type: 'string' },
        timeout: { type: 'string', default: '120' },
        verbose: { type: 'boolean', default: false },
        help: { type: 'boolean', default: false },
      },
    });
  } catch (error) {
    return fail(`${error.message}\n${usage}`);
  }
})();
if (flags.help) {
  console.log(usage);
  process.exit(0);
}
if (flags.screenshot) flags.screenshot = path.resolve(flags.screenshot);
if (!flags.extension && flags.vsix.length === 0) fail(`--extension or --vsix is missing\n${usage}`);
for (const name of ['tests', 'workspace']) if (!flags[name]) fail(`--${name} is missing\n${usage}`);
for (const name of ['extension', 'vsix', 'tests', 'workspace', 'settings']) {
  const existing = (file) => {
    if (!fs.existsSync(file)) fail(`--${name}: no such path: ${file}`);
    return path.resolve(file);
  };
  if (name === 'vsix') flags.vsix = flags.vsix.map(existing);
  else if (flags[name]) flags[name] = existing(flags[name]);
}
const seconds = Number(flags.timeout);
if (!(seconds > 0)) fail('--timeout takes a number of seconds');

const cache = process.env.STAVE_EDITOR_DIR ?? path.join(os.homedir(), '.cache', 'stave-editor');
if (!fs.existsSync(path.join(cache, 'ready'))) fail(`no editor in ${cache}: run setup.sh first`);
const { chromium } = createRequire(path.join(cache, 'tools', 'package.json'))('playwright-core');
// The Node that the workbench's server and its native modules are built for.
const node = fs.readFileSync(path.join(cache, 'node-path'), 'utf8').trim();
const here = path.dirname(fileURLToPath(import.meta.url));

const data = fs.mkdtempSync(path.join(os.tmpdir(), 'stave-editor-'));
const settings = {
  'files.autoSave': 'off', // as on the desktop; in a browser VS Code saves after a delay
  'extensions.autoCheckUpdates': false,
  'extensions.autoUpdate': false,
  'telemetry.telemetryLevel': 'off',
  'workbench.enableExperiments': false,
  'workbench.startupEditor': 'none',
  'workbench.tips.enabled': false,
  ...(flags.untrusted ? { 'security.workspace.trust.startupPrompt': 'never' } : {}),
  ...(flags.settings ? JSON.parse(fs.readFileSync(flags.settings, 'utf8')) : {}),
};
let workspace = flags.workspace;
if (!flags['in-place']) {
  workspace = path.join(data, 'open', path.basename(flags.workspace));
  fs.cpSync(flags.workspace, workspace, { recursive: true });
}
fs.mkdirSync(path.join(data, 'user', 'User'), { recursive: true });
fs.writeFileSync(path.join(data, 'user', 'User', 'settings.json'), JSON.stringify(settings, null, 2));

let server;
let browser;
let control;

async function cleanUp() {
  await browser?.close().catch(() => {});
  control?.close();
  if (server && server.exitCode === null && server.signalCode === null) {
    // The group holds the extension host, its language servers and the terminals too.
    const gone = new Promise((resolve) => {
      server.once('exit', resolve);
    });
    const kill = (signal) => {
      try {
        process.kill(-server.pid, signal);
      } catch {
        /* gone already */
      }
    };
    kill('SIGTERM');
    const patience = setTimeout(kill, 3000, 'SIGKILL');
    await gone;
    clearTimeout(patience);
    kill('SIGKILL');
  }
  fs.rmSync(data, { recursive: true, force: true, maxRetries: 5, retryDelay: 100 });
}

async function finish(code, message) {
  if (finish.called) return;
  finish.called = true;
  clearTimeout(timer);
  if (message) console.error(`run: ${message}`);
  await cleanUp();
  process.exit(code);
}

const timer = setTimeout(async () => {
  if (flags.screenshot) await page?.screenshot({ path: flags.screenshot }).catch(() => {});
  await finish(1, `timed out after ${seconds} s`);
}, seconds * 1000);
for (const signal of ['SIGINT', 'SIGTERM', 'SIGHUP'])
  process.on(signal, () => finish(1, `stopped by ${signal}`));
process.on('uncaughtException', (error) => finish(1, error.stack));

const main = path.join(cache, 'vscode', 'out', 'server-main.js');
const folders = [
  '--server-data-dir',
  path.join(data, 'server'),
  '--user-data-dir',
  path.join(data, 'user'),
  '--extensions-dir',
  path.join(data, 'extensions'),
];
const token = randomUUID(); // else any program on this machine could use the server
const env = { ...process.env };
// Else a run started from a terminal inside VS Code would talk to that VS Code.
for (const name of Object.keys(env)) if (/^(VSCODE_|ELECTRON_|CODE_SERVER_)/.test(name)) delete env[name];
env.EXTENSIONS_GALLERY = '{}'; // no marketplace
// VS Code leaves sockets and folders behind in these two.
env.TMPDIR = path.join(data, 'tmp');
env.XDG_RUNTIME_DIR = env.TMPDIR;
fs.mkdirSync(env.TMPDIR, { mode: 0o700 });

// VS Code runs tests only beside an extension "under development"; with --vsix that is an empty one.
function developmentFolder() {
  if (flags.extension) return flags.extension;
  const folder = path.join(data, 'empty');
  fs.mkdirSync(folder);
  fs.writeFileSync(
    path.join(folder, 'package.json'),
    JSON.stringify({
      name: 'empty',
      publisher: 'stave-editor',
      version: '0.0.0',
      engines: { vscode: '*' },
    }),
  );
  return folder;
}

function install(vsix) {
  const { status, stdout, stderr } = spawnSync(node, [main, ...folders, '--install-extension', vsix], {
    env,
    encoding: 'utf8',
  });
  if (flags.verbose || status !== 0) process.stderr.write(stdout + stderr);
  if (status !== 0) throw new Error(`could not install ${vsix}`);
}

function startServer(socketPath) {
  server = spawn(
    node,
    [
      main,
      ...folders,
      '--host',
      '127.0.0.1',
      '--port',
      '0',
      '--connection-token',
      token,
      '--accept-server-license-terms',
      ...(flags.untrusted ? [] : ['--disable-workspace-trust']),
      '--telemetry-level',
      'off',
    ],
    {
      detached: true,
      env: { ...env, STAVE_EDITOR_SOCKET: socketPath, STAVE_EDITOR_TESTS: flags.tests },
      stdio: ['ignore', 'pipe', 'pipe'],
    },
  );
  return new Promise((resolve, reject) => {
    let log = '';
    const listen = (chunk) => {
      log = (log + chunk).slice(-20_000);
      if (flags.verbose) process.stderr.write(chunk);
      const port = /Extension host agent listening on (\d+)/.exec(log)?.[1];
      if (port) resolve(port);
    };
    server.stdout.setEncoding('utf8').on('data', listen);
    server.stderr.setEncoding('utf8').on('data', listen);
    server.once('exit', (code) => reject(new Error(`the server ended with ${code}:\n${log}`)));
  });
}

let page;
const actions = {
  screenshot: async (file = flags.screenshot) => {
    if (file) await page.screenshot({ path: file });
    return file ?? null;
  },
  text: (selector) => page.locator(selector).allInnerTexts(),
  press: (keys) => page.keyboard.press(keys),
  type: (text) => page.keyboard.type(text),
  click: (selector) => page.locator(selector).first().click({ timeout: 5000 }),
  doubleClick: (selector) => page.locator(selector).first().dblclick({ timeout: 5000 }),
  hover: (selector) => page.locator(selector).first().hover({ timeout: 5000 }),
  panelText: async (selector) => (await panel()).locator(selector).allInnerTexts(),
  panelClick: async (selector) => (await panel()).locator(selector).first().click({ timeout: 5000 }),
  panelSelect: async (selector, value) =>
    (await panel()).locator(selector).selectOption(value, { timeout: 5000 }),
  panelPress: async (selector, keys) =>
    (await panel()).locator(selector).first().press(keys, { timeout: 5000 }),
  panelRun: async (script) => (await panel()).evaluate(script),
  consoleErrors: async () => consoleErrors,
};
/** What the window and its panels complained of since it was opened. */
const consoleErrors = [];

/** The page inside the panel that is shown: the editor puts it into a frame of a frame. */
async function panel() {
  for (const frame of page.frames()) {
    const found = await frame
      .locator('#desk')
      .count()
      .catch(() => 0);
    if (found > 0) return frame;
  }
  throw new Error('no panel is shown');
}

let suiteError; // undefined until the suite is over, then null or what went wrong

function listenForSuite(socketPath) {
  control = net.createServer((socket) => {
    let buffered = '';
    socket.setEncoding('utf8');
    socket.on('data', (chunk) => {
      const lines = (buffered + chunk).split('\n');
      buffered = lines.pop();
      for (const line of lines) receive(JSON.parse(line));
    });
    socket.on('error', () => {});
    socket.on('close', () => {
      if (suiteError === undefined) finish(1, 'the extension host went away before the suite was over');
    });
    const receive = async ({ id, method, args, output, done }) => {
      if (output !== undefined) process.stdout.write(output);
      else if (done !== undefined) suiteError = done;
      else {
        const answer = await actions[method](...args).then(
          (result) => ({ id, result }),
          (error) => ({ id, error: error.message }),
        );
        socket.write(`${JSON.stringify(answer)}\n`);
      }
    };
  });
  return new Promise((resolve) => {
    control.listen(socketPath, resolve);
  });
}

const socketPath = path.join(data, 'control.sock');
flags.vsix.forEach(install);
await listenForSuite(socketPath);
const port = await startServer(socketPath);
const origin = `http://127.0.0.1:${port}`;

browser = await chromium.launch({
  executablePath: process.env.CHROMIUM ?? '/usr/bin/chromium',
  env: { ...process.env, TMPDIR: env.TMPDIR },
  handleSIGINT: false,
  handleSIGTERM: false,
  handleSIGHUP: false, // handled above
  args: ['--no-sandbox', '--host-resolver-rules=MAP * ~NOTFOUND, EXCLUDE 127.0.0.1'],
});
page = await browser.newPage({ viewport: { width: 1280, height: 800 } });
// As a window with a language pack has it; extensions bring their own words.
if (flags.language)
  await page.addInitScript((language) => {
    globalThis._VSCODE_NLS_LANGUAGE = language;
  }, flags.language);
page.on('console', (message) => {
  if (message.type() === 'error') consoleErrors.push(message.text());
});
page.on('crash', () => finish(1, 'the workbench page crashed'));
if (flags.verbose)
  page.on('console', (message) => console.error(`[workbench ${message.type()}] ${message.text()}`));

// The workbench calls these two when it runs an extension's tests in a browser.
await page.exposeFunction('codeAutomationLog', () => {});
await page.exposeFunction('codeAutomationExit', (code) => {
  if (suiteError) console.error(suiteError);
  else if (suiteError === undefined) console.error('run: the suite never started; try --verbose');
  finish(suiteError === null ? code : code || 1);
});

const remote = (file) => `vscode-remote://127.0.0.1:${port}${encodeURI(file)}`;
const payload = [
  ['extensionDevelopmentPath', remote(developmentFolder())],
  ['extensionTestsPath', remote(path.join(here, 'bootstrap.cjs'))],
  ['skipWelcome', 'true'],
];
const address = new URL(origin);
address.searchParams.set('tkn', token);
if (flags.open) address.searchParams.set('workspace', path.join(workspace, flags.open));
else address.searchParams.set('folder', workspace);
address.searchParams.set('payload', JSON.stringify(payload));
await page.goto(address.href);
