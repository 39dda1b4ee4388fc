// Refactorings as a coach takes them: from the menu at the cursor, with the loads where they were.
const assert = require('node:assert/strict');
const vscode = require('vscode');
const { EXTENSION, folder, itInWindow, open, picture, until } = require('../support.cjs');

const run = (command, ...rest) => vscode.commands.executeCommand(command, ...rest);
const winter = 'winter/winter.stave';
const pair = 'refactor/pair.stave';

function placeOf(document, piece, plus = 0) {
  const at = document.getText().indexOf(piece);
  assert.notEqual(at, -1, `the file holds ${piece}`);
  return document.positionAt(at + plus);
}

async function goTo(editor, position) {
  editor.selection = new vscode.Selection(position, position);
  editor.revealRange(editor.selection, vscode.TextEditorRevealType.InCenter);
  await run('workbench.action.focusActiveEditorGroup');
}

const rows = () => workbench.text('.action-widget .monaco-list-row');

/** Opens the menu of refactorings at the cursor and takes the one whose title holds the words. */
async function take(words, shot) {
  const isOffered = async () => (await rows()).some((row) => row.includes(words));
  // A lens that is drawn meanwhile moves the text, which closes an open menu: then it is opened again.
  await until(`the menu with ${words}`, async () => {
    await workbench.press('Escape');
    await run('editor.action.refactor');
    return until('the menu', isOffered, 3000).catch(() => false);
  });
  if (shot) await picture(shot);
  const focused = async () => (await workbench.text('.action-widget .monaco-list-row.focused')).join();
  for (let steps = 0; steps < 12 && !(await focused()).includes(words); steps += 1)
    await workbench.press('ArrowDown');
  assert.ok((await focused()).includes(words), `${words} can be reached by key`);
  await workbench.press('Enter');
}

async function labels(document) {
  const whole = new vscode.Range(0, 0, document.lineCount, 0);
  const found = await run('vscode.executeInlayHintProvider', document.uri, whole);
  return found
    .sort((a, b) => a.position.compareTo(b.position))
    .map(({ label }) => (typeof label === 'string' ? label : label.map(({ value }) => value).join('')));
}

/** What is told of the words under the mouse. */
async function hover(document, piece) {
  const found = await run('vscode.executeHoverProvider', document.uri, placeOf(document, piece, 1));
  return found.flatMap(({ contents }) => contents.map(({ value }) => value)).join('\n');
}

/** The file with its loads drawn. */
async function withLoads(file) {
  const editor = await open(file);
  await until('loads', async () => (await labels(editor.document)).length > 0);
  return editor;
}

describe('refactorings', function () {
  this.timeout(60_000);

  before(async () => {
    await run('workbench.action.closeAllEditors');
    await open(winter);
    await until('activation', () => vscode.extensions.getExtension(EXTENSION).isActive);
  });

  afterEach(async () => {
    if (globalThis.workbench) await workbench.press('Escape');
    for (const document of vscode.workspace.textDocuments.filter(({ isDirty }) => isDirty)) {
      await vscode.window.showTextDocument(document);
      await run('workbench.action.revertAndCloseActiveEditor');
    }
  });

  itInWindow('make a block a template, with every load where it was', async () => {
    const editor = await withLoads(winter);
    await goTo(editor, placeOf(editor.document, 'block Keel', 2));
    await take('Make block Keel a template', 'refactor-template-menu');
    await until('the block like its template', () =>
      editor.document.getText().includes('block Keel, like Harbour winter templates / Keel\n'),
    );
    const text = editor.document.getText();
    assert.match(
      text,
      /\nprogram Harbour winter templates\n\nblock Keel, 5 weeks, heavy, deload 5\nday Lower\n/,
    );
    assert.equal(text.match(/back squat: {5}3x6/g).length, 1);
    // The rows stand in the template now; what she lifts is told there.
    const words = await until('her loads', async () => {
      const told = await hover(editor.document, '3x6 r2');
      return told.includes('45 kg') && told;
    });
    assert.match(words, /Heron/);
    await goTo(editor, placeOf(editor.document, 'back squat:     3x6', 2));
    await picture('refactor-template');
  });

  itInWindow('move a day behind the next one', async () => {
    const editor = await withLoads(winter);
    await goTo(editor, placeOf(editor.document, 'day Lower', 2));
    await take('Move day Lower behind Upper', 'refactor-day-menu');
    await until('the other order', () => /day Upper[\s\S]*day Lower/.test(editor.document.getText()));
    // She squats on Thursdays now: the same loads, three days later.
    await until('the loads', async () => (await labels(editor.document)).includes('= 47.5 kg'));
    assert.match(await hover(editor.document, '3x6 r2'), /2026-12-10/);
    await picture('refactor-day');
  });

  itInWindow('swap a movement for one client from her next session on, and ask for the reason', async () => {
    const editor = await withLoads(winter);
    await goTo(editor, placeOf(editor.document, 'back squat:     3x6', 2));
    await take('Swap back squat for goblet squat (easier) for Heron', 'refactor-swap-menu');
    const { document } = editor;
    const line = /swap: back squat, to goblet squat, from \d{4}-\d\d-\d\d, "why"/;
    await until('the line', () => line.test(document.getText()));
    await until(
      'the reason to write over',
      () => document.getText(vscode.window.activeTextEditor.selection) === 'why',
    );
    await workbench.type('knee');
    await until('the reason', () => /goblet squat, from [\d-]+, "knee"/.test(document.getText()));
    assert.ok(document.getText().indexOf('swap:') < document.getText().indexOf('program Harbour'));
    await picture('refactor-swap');
  });

  itInWindow('swap a movement for any other, with places to fill in', async () => {
    const editor = await withLoads(winter);
    await goTo(editor, placeOf(editor.document, 'back squat:     3x6', 2));
    await take('Swap back squat for Heron…');
    const { document } = editor;
    await until('the line', () => /swap: back squat, to [a-z ]+, from/.test(document.getText()));
    await until('the movements to choose from', async () =>
      (await workbench.text('.suggest-widget.visible .monaco-list-row')).some((row) => /squat/.test(row)),
    );
    await picture('refactor-swap-choice');
    await workbench.press('Escape');
  });

  itInWindow('split a file by client, in a file of her own for each', async () => {
    const uri = vscode.Uri.joinPath(folder(), pair);
    const text = `client Sanderling
  born: 1980
client Whimbrel
  born: 1955

log Whimbrel, 2026-11-02
  note: "first visit"
`;
    await vscode.workspace.fs.writeFile(uri, new TextEncoder().encode(text));
    try {
      const editor = await open(pair);
      await until('the outline', async () => {
        const symbols = await run('vscode.executeDocumentSymbolProvider', editor.document.uri);
        return (symbols ?? []).length > 0;
      });
      await goTo(editor, placeOf(editor.document, 'client Sanderling', 2));
      await take('Split this file: a file for each client', 'refactor-split-menu');
      const other = vscode.Uri.joinPath(folder(), 'refactor/Whimbrel.stave');
      const made = await until('her file', async () =>
        vscode.workspace.openTextDocument(other).then(
          (document) => document.getText().includes('log Whimbrel') && document,
          () => null,
        ),
      );
      assert.match(made.getText(), /^client Whimbrel\n {2}born: 1955\n\nlog Whimbrel, 2026-11-02\n/);
      assert.match(editor.document.getText(), /^client Sanderling\n {2}born: 1980\n$/);
      await picture('refactor-split');
    } finally {
      for (const document of vscode.workspace.textDocuments.filter(({ isDirty }) => isDirty))
        await document.save();
      await run('workbench.action.closeAllEditors');
      await vscode.workspace.fs.delete(vscode.Uri.joinPath(folder(), 'refactor'), { recursive: true });
    }
  });
});
