// A client and a program for her in a folder that is open: what is asked, what may be gone back to, what is written.
const assert = require('node:assert/strict');
const fs = require('node:fs');
const path = require('node:path');
const vscode = require('vscode');
const { EXTENSION, chooseClient, folder, itInWindow, open, picture, until } = require('../support.cjs');

const run = (command, ...rest) => vscode.commands.executeCommand(command, ...rest);
const inFolder = (file) => path.join(folder().fsPath, file);

/** Waits for the question with this title. */
async function question(title) {
  await until(`the question ${title}`, async () =>
    (await workbench.text('.quick-input-widget:not([style*="display: none"]) .quick-input-title'))
      .join()
      .includes(title),
  );
}

async function answer(title, text = '') {
  await question(title);
  if (text) await workbench.type(text);
  await workbench.press('Enter');
}

const message = (text) =>
  until(`the message ${text}`, async () =>
    (await workbench.text('.quick-input-message')).join().includes(text),
  );

/** Ticks the one that a filter leaves. */
async function tick(title, filter) {
  await question(title);
  await workbench.type(filter);
  await until(
    'the filtered list',
    async () => (await workbench.text('.quick-input-list .monaco-list-row')).length === 1,
  );
  await workbench.click('.quick-input-list .monaco-list-row');
}

describe('a new client in the open folder', function () {
  this.timeout(60_000);

  before(async function () {
    if (!globalThis.workbench) this.skip();
    await open('winter/winter.stave');
    await until('activation', () => vscode.extensions.getExtension(EXTENSION).isActive);
    await run('notifications.clearAll');
  });

  itInWindow('writes nothing when it is left', async () => {
    const before = fs.readdirSync(folder().fsPath, { recursive: true });
    const asked = run('stave.newClient');
    await answer('where to keep the files?');
    await question('what do you call her here?');
    await workbench.press('Escape');
    assert.equal(await asked, undefined);
    assert.deepEqual(fs.readdirSync(folder().fsPath, { recursive: true }), before);
  });

  itInWindow('says what is wrong with an answer, goes back, and keeps what was said', async () => {
    const asked = run('stave.newClient');
    await answer('where to keep the files?');
    await question('what do you call her here?');
    await workbench.type('heron');
    await message('There is a client "heron" already. Take another alias.');
    await workbench.press('Control+A');
    await answer('what do you call her here?', 'Redstart');
    await question('Redstart: year of birth');
    await workbench.type('68');
    await message('"68" is no year.');
    await workbench.press('Enter');
    await question('Redstart: year of birth');
    await workbench.click('.quick-input-widget .quick-input-titlebar .codicon-quick-input-back');
    await question('what do you call her here?');
    await workbench.press('Enter');
    await question('Redstart: year of birth');
    await workbench.press('Control+A');
    await workbench.press('Delete');
    await workbench.press('Enter');
    await tick('Redstart: what is there to lift?', 'Home corner');
    await workbench.press('Enter');
    await question('a set she did lately (1 of 3)');
    await workbench.type('bak squat 40kg 8');
    await message('Did you mean "back squat"?');
    await picture('starter-problem');
    await workbench.press('Control+A');
    await answer('(1 of 3)', 'goblet squat 8kg 10 r3');
    // An empty one ends the sets, and nothing of them wants a sign-off.
    await answer('(2 of 3)');
    const file = await asked;
    assert.equal(file.fsPath, inFolder('clients/redstart.stave'));
    const text = fs.readFileSync(file.fsPath, 'utf8');
    assert.match(text, /client Redstart\n[\s\S]*trains at: Home corner\n {2}max: goblet squat, 8kg x10 r3, /);
    assert.ok(!text.includes('born'));
    await until('her file', () => vscode.window.activeTextEditor?.document.uri.fsPath === file.fsPath);
  });

  itInWindow('gets a program that shows loads, one warning and its repair', async () => {
    const asked = run('stave.starterProgram');
    await question('Starter program: for whom?');
    await workbench.type('Redstart');
    await answer('Starter program: for whom?');
    await answer('Redstart: which program to start from?');
    await answer('Redstart: on which days?');
    await asked;
    const own = fs.readFileSync(inFolder('clients/redstart.stave'), 'utf8');
    assert.match(own, /\n {2}follows: First weeks, from \d{4}-\d\d-\d\d, on mon thu\n/);
    const { document } = vscode.window.activeTextEditor;
    assert.equal(document.uri.fsPath, inFolder('programs/first-weeks.stave'));
    const codes = () =>
      vscode.languages
        .getDiagnostics(document.uri)
        .map(({ code }) => (typeof code === 'object' ? code.value : code));
    await until('one warning', () => codes().join() === 'failure-early');
    const whole = new vscode.Range(0, 0, document.lineCount, 0);
    const hints = await until('hints', async () => {
      const found = await run('vscode.executeInlayHintProvider', document.uri, whole);
      return found.length > 0 && found;
    });
    const labels = hints.map(({ label }) =>
      typeof label === 'string' ? label : label.map(({ value }) => value).join(''),
    );
    assert.ok(labels.join().includes('~ 6 kg'), labels.join());
  });

  after(async () => {
    if (!globalThis.workbench) return;
    await run('workbench.action.closeAllEditors');
    for (const name of ['clients', 'programs', 'kits.stave'])
      fs.rmSync(inFolder(name), { recursive: true, force: true });
    // A new client is the chosen one; the suites that follow look at the loads of Heron.
    await open('winter/winter.stave');
    await chooseClient('Heron');
  });
});
