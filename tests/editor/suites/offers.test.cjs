// What is offered while somebody writes: with words to it, made of her own data, over what stands there, and quiet in prose.
const assert = require('node:assert/strict');
const vscode = require('vscode');
const { goTo, itInWindow, open, openUntitled, picture, placeOf, ready, until } = require('../support.cjs');

const run = (command, ...rest) => vscode.commands.executeCommand(command, ...rest);
const winter = 'winter/winter.stave';
const storm = 'boathouse/programs/storm-cycle.stave';
const rows = () => workbench.text('.suggest-widget.visible .monaco-list-row');
const line = (editor, number) => editor.document.lineAt(number).text;

describe('what is offered while writing', function () {
  this.timeout(60_000);

  before(async () => {
    await run('workbench.action.closeAllEditors');
    const { document } = await open(winter);
    await ready(document.uri);
  });

  afterEach(async () => {
    await run('hideSuggestWidget');
    await run('leaveSnippet');
    const editor = vscode.window.activeTextEditor;
    if (editor?.document.isDirty) await run('workbench.action.revertAndCloseActiveEditor');
  });

  itInWindow('explains itself beside the list', async () => {
    const editor = await open(storm);
    const at = placeOf(editor.document, '  box jump').line;
    await editor.edit((edit) => edit.insert(new vscode.Position(at, 0), '  \n'));
    await goTo(editor, new vscode.Position(at, 2));
    await workbench.type('goblet');
    await until('the list', async () => (await rows()).some((row) => row.includes('goblet squat')));
    const words = async () => (await workbench.text('.suggest-details')).join('\n').replaceAll('\u00a0', ' ');
    if (!(await words()).includes('Pattern')) await workbench.press('Control+Space');
    await until('the words', async () => /Pattern: squat/.test(await words()));
    await picture('offers-words');
  });

  itInWindow('fills in a line with places for her own names, to go through by Tab', async () => {
    const editor = await open(winter);
    const at = placeOf(editor.document, '  follows: Harbour').line;
    await editor.edit((edit) => edit.insert(new vscode.Position(at, 0), '  \n'));
    await goTo(editor, new vscode.Position(at, 2));
    await workbench.type('trains');
    await until('the line', async () => (await rows()).some((row) => /^trains at/.test(row)));
    await workbench.press('Enter');
    await until('her kit', () => line(editor, at).startsWith('  trains at: Boathouse'));
    assert.match(editor.document.getText(vscode.window.activeTextEditor.selection), /^Boathouse/);
    await picture('offers-line');
    await workbench.press('Tab');
    await until('the end of the line', () => editor.selection.isEmpty);
  });

  itInWindow('takes the place of the word that stands there, when asked to', async () => {
    const editor = await open(winter);
    await goTo(editor, placeOf(editor.document, 'back squat:     3x6', 'back '.length));
    await run('editor.action.triggerSuggest');
    await until('the list', async () => (await rows()).some((row) => row.includes('back squat')));
    const focused = async () =>
      (await workbench.text('.suggest-widget.visible .monaco-list-row.focused')).join();
    for (let steps = 0; steps < 40 && !/^back squat/.test(await focused()); steps += 1)
      await workbench.press('ArrowDown');
    assert.match(await focused(), /^back squat/);
    // The alternative of the editor's own setting: Shift+Enter writes over the rest of the word.
    await workbench.press('Shift+Enter');
    await new Promise((resolve) => setTimeout(resolve, 400));
    assert.match(editor.document.getText(), /^ {2}back squat: +3x6 r2 warm/m);
  });

  itInWindow('is there on an empty line when asked for', async () => {
    const editor = await openUntitled('program Draft\nblock Keel, 4 weeks, heavy\nday Lower\n  ');
    await until(
      'the outline',
      async () => ((await run('vscode.executeDocumentSymbolProvider', editor.document.uri)) ?? []).length > 0,
    );
    await goTo(editor, new vscode.Position(3, 2));
    await workbench.press('Control+Space');
    await until('movements', async () => (await rows()).length > 5);
    await picture('offers-empty');
  });

  itInWindow('is quiet in notes and in quotation marks', async () => {
    const editor = await open(winter);
    for (const prose of [' -- slow and easy back to the rack', '\n  "Keep the box low and squat to it"']) {
      const end = editor.document.lineAt(placeOf(editor.document, 'back squat:     3x6').line).range.end;
      await goTo(editor, end);
      const seen = [];
      for (const word of prose.split(/(?<= )/)) {
        await workbench.type(word);
        await new Promise((resolve) => setTimeout(resolve, 250));
        // Only while the cursor stands in the prose itself.
        const before = line(editor, editor.selection.active.line).slice(0, editor.selection.active.character);
        if (/--\s\S|"\S/.test(before)) seen.push(...(await rows()));
      }
      assert.deepEqual(seen, []);
      await run('workbench.action.files.revert');
    }
  });
});
