// A reload of the whole window, as a person does it: the panel beside the text comes back with the document, the size
// and the place that it had, and follows the text again. In the packaged extension, driven from outside, because what
// runs in the window ends with it.
//
//   node tests/editor/reload/run.mjs [--vsix FILE]
//
// Without --vsix what dist/ holds is packed first. STAVE_EDITOR_REPORT names a JSON file for the counts of tests;
// STAVE_EDITOR_SHOTS a folder for pictures.
import assert from 'node:assert/strict';
import { spawnSync } from 'node:child_process';
import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import { parseArgs } from 'node:util';
import { openWindow } from '../firstMinutes/window.mjs';

const root = path.resolve(path.dirname(fileURLToPath(import.meta.url)), '..', '..', '..');
const { values: flags } = parseArgs({ options: { vsix: { type: 'string' } } });
const scratch = fs.mkdtempSync(path.join(os.tmpdir(), 'stave-reload-'));
const shots = process.env.STAVE_EDITOR_SHOTS;

function packed() {
  const out = path.join(scratch, 'stave.vsix');
  const args = ['server/build/package.mjs', '--built', '--out', out];
  const { status, stdout, stderr } = spawnSync(process.execPath, args, { cwd: root, encoding: 'utf8' });
  if (status !== 0) throw new Error(`could not pack: ${stdout}${stderr}`);
  return out;
}

const window = await openWindow({ vsix: flags.vsix ? path.resolve(flags.vsix) : packed(), shots });
const { page, home } = window;

async function until(what, probe, milliseconds = 30_000) {
  for (const end = Date.now() + milliseconds; Date.now() < end; ) {
    const value = await probe().catch(() => undefined);
    if (value) return value;
    await new Promise((resolve) => setTimeout(resolve, 100));
  }
  throw new Error(`timed out: ${what}`);
}

/** The frame of the panel that is shown. */
async function panel() {
  for (const frame of page.frames()) if ((await frame.locator('#desk').count()) > 0) return frame;
  throw new Error('no panel is shown');
}

/** What a person sees of the panel. */
const seen = async () =>
  (await panel()).evaluate(() => ({
    kind: document.getElementById('kind').value,
    client: document.getElementById('client').selectedOptions[0]?.text,
    large: document.getElementById('large').checked,
    zoom: document.getElementById('zoom').value,
    top: Math.round(document.getElementById('desk').scrollTop),
    text: document.getElementById('sheet').shadowRoot.textContent,
  }));

async function throughReload() {
  const folder = path.join(home, 'boathouse');
  fs.cpSync(path.join(root, 'samples', 'boathouse'), folder, { recursive: true });
  const address = new URL(page.url());
  address.searchParams.delete('ew');
  address.searchParams.set('folder', folder);
  await page.goto(address.href);
  const trust = page
    .locator('.dialog-buttons .monaco-button')
    .filter({ hasText: 'Yes, I trust the authors' });
  await trust.first().click({ timeout: 60_000 });
  await window.press('Control+P');
  await page.locator('.quick-input-widget').first().waitFor();
  await window.type('storm-cycle.stave');
  await page
    .locator('.quick-input-list .monaco-list-row')
    .filter({ hasText: 'storm-cycle' })
    .first()
    .waitFor();
  await window.press('Enter');
  await until('the text', async () =>
    (await page.locator('.view-lines').first().textContent())
      .replaceAll('\u00a0', ' ')
      .includes('Storm cycle'),
  );
  await window.press('Control+K');
  await window.press('V');
  await until('the plan', async () => (await seen()).text.includes('Back squat'), 60_000);
  await (await panel()).locator('#large').click();
  await until('large print', async () => (await seen()).text.includes('What to do, and what you did'));
  await (await panel()).locator('#zoom').selectOption('90');
  await (await panel()).evaluate(() => {
    document.getElementById('desk').scrollTop = 2400;
  });
  await until('the place', async () => (await seen()).top > 2000);
  // What the panel knows is handed to the editor a moment later, and kept by it another moment later.
  await new Promise((resolve) => setTimeout(resolve, 3000));
  const before = await seen();
  await window.picture('reload-before');

  // The editor's own command: it puts away what its panels know before it goes.
  const loaded = page.waitForEvent('load', { timeout: 60_000 });
  await window.press('F1');
  await page.locator('.quick-input-widget').first().waitFor();
  await window.type('Developer: Reload Window');
  await page
    .locator('.quick-input-list .monaco-list-row')
    .filter({ hasText: 'Reload Window' })
    .first()
    .waitFor();
  await window.press('Enter');
  await loaded;
  await until('the panel again', async () => (await seen()).text.includes('Back squat'), 60_000);
  await until('its place', async () => Math.abs((await seen()).top - before.top) < 4);
  const after = await seen();
  await window.picture('reload-after');
  assert.deepEqual({ ...after, top: 0 }, { ...before, top: 0 });

  // It is alive: it shows another document when it is asked to.
  await (await panel()).locator('#kind').selectOption('overview');
  await until('the overview', async () => (await seen()).text.includes('the months at a glance'));
}

let failure;
try {
  await throughReload();
} catch (error) {
  failure = error;
  await window.picture('reload-failed');
} finally {
  await window.close();
  fs.rmSync(scratch, { recursive: true, force: true });
}
if (failure) console.error(failure);
else console.log('the panel came back after a reload of the window');
const report = process.env.STAVE_EDITOR_REPORT;
const counts = { passes: failure ? 0 : 1, failures: failure ? 1 : 0, pending: 0 };
if (report) fs.writeFileSync(report, JSON.stringify(counts));
process.exitCode = failure ? 1 : 0;
