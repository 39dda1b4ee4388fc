// The first ten minutes of somebody who has never used an editor, in the packaged extension: from an empty window to
// the written plan, by the walkthrough alone. Every key and click is counted, and the counts are held to.
//
//   node tests/editor/firstMinutes/run.mjs [--vsix FILE]
//
// Without --vsix what dist/ holds is packed first. STAVE_EDITOR_REPORT names a JSON file for the counts of tests;
// STAVE_EDITOR_SHOTS a folder for a picture of each step.
import assert from 'node:assert/strict';
import { spawnSync } from 'node:child_process';
import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import { parseArgs } from 'node:util';
import { openWindow } from './window.mjs';

const root = path.resolve(path.dirname(fileURLToPath(import.meta.url)), '..', '..', '..');
const { values: flags } = parseArgs({ options: { vsix: { type: 'string' } } });
const scratch = fs.mkdtempSync(path.join(os.tmpdir(), 'stave-first-package-'));
const shots = process.env.STAVE_EDITOR_SHOTS;
if (shots) fs.mkdirSync(shots, { recursive: true });

/** What it takes, as the README says; one more is one too many. */
const MOST = { keys: 94, clicks: 10 };

function packed() {
  const out = path.join(scratch, 'stave.vsix');
  const { status, stdout, stderr } = spawnSync(
    process.execPath,
    ['server/build/package.mjs', '--built', '--out', out],
    { cwd: root, encoding: 'utf8' },
  );
  if (status !== 0) throw new Error(`could not pack: ${stdout}${stderr}`);
  return out;
}

const window = await openWindow({ vsix: flags.vsix ? path.resolve(flags.vsix) : packed(), shots });
const { page, home, counts } = window;
const folder = path.join(home, 'Stave');
const read = (file) => fs.readFileSync(path.join(folder, file), 'utf8');
const texts = async (selector) =>
  (await page.locator(selector).allInnerTexts()).map((text) => text.replaceAll('\u00a0', ' '));

/** Asks again until the probe gives a true value. */
async function until(what, probe, milliseconds = 30_000) {
  for (const end = Date.now() + milliseconds; Date.now() < end; ) {
    const value = await probe();
    if (value) return value;
    await new Promise((resolve) => setTimeout(resolve, 100));
  }
  throw new Error(`timed out: ${what}`);
}

/** The question that is shown, once it is; returns what it offers. */
async function question(title, name) {
  await until(`the question ${title}`, async () =>
    (await texts('.quick-input-widget:not([style*="display: none"]) .quick-input-title'))
      .join()
      .includes(title),
  );
  // Its list is drawn a moment later.
  await new Promise((resolve) => setTimeout(resolve, 400));
  await window.picture(name);
}

const offer = (text) => page.locator('.quick-input-list .monaco-list-row').filter({ hasText: text });
const button = (text) => page.locator('.gettingStartedContainer .monaco-button').filter({ hasText: text });
/** The step that the walkthrough shows open. */
const step = (title) =>
  until(`the step ${title}`, async () =>
    (await texts('.getting-started-step.expanded .step-title')).join().includes(title),
  );
const done = (id) =>
  until(
    `the tick of ${id}`,
    async () => (await page.locator(`[data-done-step-id$="#${id}"].complete`).count()) > 0,
  );
const lines = async () => texts('.editor-instance .view-line');

async function answer(text) {
  await window.type(text);
  await window.press('Enter');
}

async function throughAll() {
  // An editor that starts for the first time shows its own first steps; all of them are on the page before.
  await page.locator('.gettingStartedContainer').first().waitFor();
  await until('the page of the editor', async () => (await page.locator('.prev-button').count()) > 0);
  await window.click('.gettingStartedContainer .prev-button');
  const card = page.locator('.getting-started-category').filter({ hasText: 'First ten minutes with Stave' });
  await card.first().waitFor();
  await window.picture('first-01-welcome');
  await window.click(card.first());
  await step('A folder with your first client');
  await window.picture('first-02-walkthrough');

  await window.click(button('Add a client'));
  await question('where to keep the files?', 'first-03-where');
  await window.press('Enter');
  await question('what do you call her here?', 'first-04-alias');
  await answer('Heron');
  await question('year of birth', 'first-05-born');
  await answer('1968');
  await question('what is there to lift?', 'first-06-kit');
  await window.click(offer('Community studio'));
  await window.press('Enter');
  await question('a set she did lately (1 of 3)', 'first-07-set');
  await window.type('back squat 40kg 8 r2');
  await until('how it was read', async () =>
    (await texts('.quick-input-message')).join().includes('8 reps with 2 left in reserve, done today'),
  );
  await window.picture('first-08-set-read');
  await window.press('Enter');
  await question('(2 of 3)', 'first-09-set');
  await answer('leg press 60kg 10 r3');
  await question('(3 of 3)', 'first-10-set');
  await answer('dumbbell overhead press 6kg 8 r2');
  await question('which have you seen her do well?', 'first-11-signed-off');
  await window.click(offer('squat'));
  await window.press('Enter');

  // The folder opens in this window, and the editor asks whether it is to be trusted.
  const trust = page
    .locator('.dialog-buttons .monaco-button')
    .filter({ hasText: 'Yes, I trust the authors' });
  await trust.first().waitFor({ timeout: 60_000 });
  await window.picture('first-12-trust');
  await window.click(trust.first());
  await step('A program to start from');
  await until('her file', async () => (await lines()).some((line) => line.includes('client Heron')));
  await window.picture('first-13-client');
  assert.match(
    read('clients/heron.stave'),
    /client Heron\n {2}born: 1968\n[\s\S]*max: back squat, 40kg x8 r2, /,
  );
  assert.match(read('kits.stave'), /kit Community studio/);

  await window.click(button('Add a starter program'));
  await question('which program to start from?', 'first-14-program');
  await window.press('Enter');
  await question('on which days?', 'first-15-days');
  await window.press('Enter');
  await step('See what she lifts');
  await until('loads', async () => (await lines()).some((line) => /back squat: .*= 32\.5 kg/.test(line)));
  await window.picture('first-16-loads');
  assert.match(read('clients/heron.stave'), /follows: First weeks, from \d{4}-\d\d-\d\d, on mon thu/);

  await window.click(button('Show a load and its reasons'));
  const hover = async (text) => (await texts('.monaco-hover:not(.hidden)')).join().includes(text);
  await until('the reasons', () => hover('Brzycki: 10 reps are 75 % of the maximum'));
  await step('Meet a warning, and solve it');
  await window.picture('first-17-reasons');

  await window.click(button('Show the warning'));
  await until('the warning', () => hover('to failure while push is still being learnt'));
  await window.picture('first-18-warning');
  await window.press('Control+.');
  await until('the repairs', async () => (await texts('.action-widget')).join().includes('Change to "r4"'));
  await window.picture('first-19-repairs');
  await window.press('Enter');
  await step('Print her plan');
  await until('no finding', async () => !(await texts('.codelens-decoration')).join().includes('finding'));
  await window.picture('first-20-solved');

  await window.click(button('Print the plan'));
  const written = () => ['Heron-plan.html', 'Heron-plan.pdf'].map((name) => path.join(folder, 'plans', name));
  await until('the plan', () => written().every((file) => fs.existsSync(file)));
  await until('the notice', async () =>
    (await texts('.notification-list-item')).join().includes('Heron-plan.pdf'),
  );
  await window.picture('first-21-printed');
  const [html, pdf] = written();
  assert.match(fs.readFileSync(html, 'utf8'), /Heron[\s\S]*32\.5 kg/);
  assert.match(fs.readFileSync(html, 'utf8'), /as many as|4 left|leave/i);
  assert.equal(fs.readFileSync(pdf).subarray(0, 5).toString(), '%PDF-');
  for (const id of ['client', 'program', 'loads', 'warning', 'print']) await done(id);
  assert.ok(
    counts.keys <= MOST.keys && counts.clicks <= MOST.clicks,
    `it takes ${counts.keys} keys and ${counts.clicks} clicks`,
  );
}

let failure;
const began = Date.now();
const patience = setTimeout(() => {
  console.error('first minutes: timed out');
  void window.close().then(() => process.exit(1));
}, 240_000);
try {
  await throughAll();
  console.log(
    `first minutes: from an empty window to the printed plan with ${counts.keys} keys and ${counts.clicks} clicks (${Math.round((Date.now() - began) / 1000)} s)`,
  );
} catch (error) {
  failure = error;
  await window.picture('first-failed').catch(() => {});
  console.error(`first minutes: ${error.stack ?? error.message}`);
} finally {
  clearTimeout(patience);
  await window.close();
  fs.rmSync(scratch, { recursive: true, force: true });
}
if (process.env.STAVE_EDITOR_REPORT) {
  const report = { passes: failure ? 0 : 1, failures: failure ? 1 : 0, pending: 0 };
  fs.writeFileSync(process.env.STAVE_EDITOR_REPORT, JSON.stringify(report));
}
process.exitCode = failure ? 1 : 0;
