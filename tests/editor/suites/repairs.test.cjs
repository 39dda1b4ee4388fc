// Repairs: one from the light bulb, one that silences with a reason, all that are safe at once.
const assert = require('node:assert/strict');
const vscode = require('vscode');
const { goTo, itInWindow, open, picture, placeOf, ready, until } = require('../support.cjs');

const run = (command, ...rest) => vscode.commands.executeCommand(command, ...rest);
const winter = 'winter/winter.stave';
const codes = (document) =>
  vscode.languages
    .getDiagnostics(document.uri)
    .map(({ code }) => (typeof code === 'object' ? code.value : code));

/** The file with other words in it. */
async function withText(change) {
  const editor = await open(winter);
  const whole = new vscode.Range(0, 0, editor.document.lineCount, 0);
  await editor.edit((edit) => edit.replace(whole, change(editor.document.getText())));
  return editor;
}

/** Opens the repairs at the cursor by their key, and takes the one whose title holds the words. */
async function take(words, shot) {
  const rows = () => workbench.text('.action-widget .monaco-list-row');
  const isOffered = async () => (await rows()).some((row) => row.includes(words));
  // The list holds what the editor knew when it was opened, a moment after the last keystroke perhaps nothing yet.
  await until(`the repair ${words}`, async () => {
    await workbench.press('Escape');
    await workbench.press('Control+.');
    return until('a list', isOffered, 2000).catch(() => false);
  });
  if (shot) await picture(shot);
  const focused = async () => (await workbench.text('.action-widget .monaco-list-row.focused')).join();
  for (let steps = 0; steps < 15 && !(await focused()).includes(words); steps += 1)
    await workbench.press('ArrowDown');
  assert.ok((await focused()).includes(words), `${words} can be reached by key`);
  await workbench.press('Enter');
}

describe('repairs', function () {
  this.timeout(60_000);

  before(async () => {
    await run('workbench.action.closeAllEditors');
    const { document } = await open(winter);
    await ready(document.uri);
  });

  afterEach(async () => {
    if (globalThis.workbench) await workbench.press('Escape');
    const editor = vscode.window.activeTextEditor;
    if (editor?.document.isDirty) await run('workbench.action.files.revert');
  });

  itInWindow('mend a misspelt name from the light bulb', async () => {
    const editor = await withText((text) => text.replace('back squat:     3x6', 'bakc squat:     3x6'));
    await until('the finding', () => codes(editor.document).includes('unknown-name'));
    await goTo(editor, placeOf(editor.document, 'bakc squat', 2));
    await take('Change to "back squat"', 'repairs-name');
    await until('the name', () => editor.document.getText().includes('back squat:     3x6'));
    await until('no finding', () => !codes(editor.document).includes('unknown-name'));
  });

  itInWindow('silence a finding in its place, with a reason to fill in', async () => {
    const editor = await withText((text) => text);
    await until('the finding', () => codes(editor.document).includes('stuck'));
    const found = vscode.languages
      .getDiagnostics(editor.document.uri)
      .find(({ code }) => (code?.value ?? code) === 'stuck');
    await goTo(editor, found.range.start);
    // The bulb looks at the line a moment after the cursor has come.
    await new Promise((resolve) => setTimeout(resolve, 500));
    await take('Allow', 'repairs-allow');
    await until('the line', () => /allow: stuck "/.test(editor.document.getText()));
    await until(
      'the reason is selected',
      () => editor.document.getText(vscode.window.activeTextEditor.selection) !== '',
    );
    await workbench.type('small plates come in March');
    await until('the reason', () =>
      /allow: stuck "small plates come in March"/.test(editor.document.getText()),
    );
    await until('no finding', () => !codes(editor.document).includes('stuck'));
  });

  itInWindow('that are safe are all made by one command', async () => {
    const editor = await withText((text) => text.replaceAll('2026-11-23', '2026/11/23'));
    await until('the mistakes', () => codes(editor.document).filter(Boolean).length > 2);
    await run('editor.action.fixAll');
    await until('the dates', () => !editor.document.getText().includes('2026/11/23'));
    assert.equal(editor.document.getText().match(/2026-11-23/g).length, 2);
  });
});
