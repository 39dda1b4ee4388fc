// Writing a table by hand: what may come next, lenses, columns by key, rows by Enter, weeks by command, refactorings.
const assert = require('node:assert/strict');
const vscode = require('vscode');
const {
  EXTENSION,
  drawnLines,
  folder,
  itInWindow,
  open,
  openUntitled,
  picture,
  until,
} = require('../support.cjs');

const run = (command, ...rest) => vscode.commands.executeCommand(command, ...rest);
const winter = 'winter/winter.stave';

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

/** The server knows the draft, and the editor what its keys do at the cursor: both a moment after it was opened. */
async function settled(editor) {
  await until('the outline', async () => {
    const symbols = await run('vscode.executeDocumentSymbolProvider', editor.document.uri);
    return (symbols ?? []).length > 0;
  });
  await new Promise((resolve) => setTimeout(resolve, 300));
}

const selected = (editor) => editor.document.getText(editor.selection);
const line = (editor, number) => editor.document.lineAt(number).text;

const DRAFT = `program Draft

block Keel, 4 weeks, heavy
day Lower
  back squat: 3x6 r2 | 4x | x5
  box squat:  3x8 r3 | 4x |
`;

describe('writing a table', function () {
  this.timeout(60_000);

  before(async () => {
    await open(winter);
    await until('activation', () => vscode.extensions.getExtension(EXTENSION).isActive);
  });

  afterEach(async () => {
    await run('closeParameterHints');
    await run('hideSuggestWidget');
    const editor = vscode.window.activeTextEditor;
    if (editor?.document.isDirty) await run('workbench.action.revertAndCloseActiveEditor');
  });

  itInWindow('says in a cell what may come next and what it means', async () => {
    const editor = await open(winter);
    await goTo(editor, placeOf(editor.document, 'r2 warm', 1));
    await run('editor.action.triggerParameterHints');
    const shown = await until('the help', async () => {
      const text = (await workbench.text('.parameter-hints-widget.visible'))
        .join('\n')
        .replaceAll('\u00a0', ' ');
      return text.includes('reserve') && text;
    });
    assert.match(shown, /3x6/);
    const marked = await workbench.text('.parameter-hints-widget.visible .parameter.active');
    assert.deepEqual(marked, ['r2']);
    await picture('writing-next');
  });

  itInWindow('shows who follows a program above it, and lists them', async () => {
    await open(winter);
    const lens = await until('a lens', async () =>
      (await workbench.text('.codelens-decoration a')).find((text) => /^1 client ·/.test(text)),
    );
    assert.match(lens, /1 client/);
    await picture('writing-lenses');
    await workbench.click('.codelens-decoration a:has-text("1 client ·")');
    await until('the list', async () =>
      (await workbench.text('.quick-input-list .monaco-list-row')).some((text) => text.includes('Heron')),
    );
    await picture('writing-lens-list');
    await workbench.press('Escape');
  });

  itInWindow('goes through the weeks with Tab and Shift+Tab, and begins the next week', async () => {
    const editor = await openUntitled(DRAFT);
    await goTo(editor, placeOf(editor.document, '3x6 r2', 2));
    await settled(editor);
    await workbench.press('Tab');
    await until('the second week', () => selected(editor) === '4x');
    await workbench.press('Tab');
    await until('the third week', () => selected(editor) === 'x5');
    await workbench.press('Shift+Tab');
    await until('the second week again', () => selected(editor) === '4x');
    await workbench.press('Tab');
    await until('the third week again', () => selected(editor) === 'x5');
    await workbench.press('Tab');
    await until('a fourth week', () => line(editor, 4) === '  back squat: 3x6 r2 | 4x | x5 | ');
    await workbench.type('r1');
    await until('what was typed', () => line(editor, 4) === '  back squat: 3x6 r2 | 4x | x5 | r1');
    await picture('writing-columns');
    await workbench.press('Escape');
    await workbench.press('Tab');
    await until('the row below', () => editor.selection.active.line === 5 && selected(editor) === '3x8 r3');
  });

  itInWindow('leaves Tab to the offered word, and to indentation outside of rows', async () => {
    const editor = await openUntitled(DRAFT);
    const end = editor.document.lineAt(5).range.end;
    await goTo(editor, end);
    await workbench.type(' war');
    await until(
      'the offers',
      async () => (await workbench.text('.suggest-widget.visible .monaco-list-row')).length > 0,
    );
    await workbench.press('Tab');
    await until('the word', () => /\bwarm\b/.test(line(editor, 5)));
    assert.equal(editor.selection.active.line, 5);
    await goTo(editor, new vscode.Position(0, 0));
    await settled(editor);
    await workbench.press('Tab');
    await until('the indentation', () => line(editor, 0).startsWith('  program'));
  });

  itInWindow(
    'begins a row with as many columns at Enter, and takes it away again while it is empty',
    async () => {
      const editor = await openUntitled(DRAFT);
      await goTo(editor, editor.document.lineAt(4).range.end);
      await settled(editor);
      await workbench.press('Enter');
      await until('the new row', () => line(editor, 5) === '  :  |  | ');
      assert.equal(editor.selection.active.character, 2);
      await picture('writing-row');
      await workbench.press('Escape');
      await workbench.press('Escape');
      await workbench.press('Enter');
      await until('an empty line', () => line(editor, 5) === '  ');
      assert.equal(line(editor, 6), '  box squat:  3x8 r3 | 4x |');
    },
  );

  itInWindow('indents behind an opener as the formatter would, and aligns a finished row', async () => {
    const editor = await openUntitled('program Draft\nblock Keel, 2 weeks, heavy\nday Lower');
    await goTo(editor, editor.document.lineAt(2).range.end);
    await settled(editor);
    await workbench.press('Enter');
    await until('the indentation', () => editor.document.lineCount === 4 && line(editor, 3) === '  ');
    const aligned = await openUntitled(
      'program Draft\nblock Keel, 2 weeks, heavy\nday Lower\n  back squat: 3x6 r2 | 4x\n  push-up: 3x8 bw|x10 -- easy',
    );
    await goTo(aligned, aligned.document.lineAt(4).range.end);
    await settled(aligned);
    await workbench.press('Enter');
    await until('the columns', () => line(aligned, 4) === '  push-up:    3x8 bw | x10 -- easy');
    await picture('writing-aligned');
  });

  itInWindow('puts a week into a block and takes it out again, with the columns still aligned', async () => {
    const editor = await openUntitled(DRAFT);
    const before = editor.document.getText();
    await goTo(editor, placeOf(editor.document, '3x6 r2', 2));
    await run('stave.insertWeek');
    await until('five weeks', () => line(editor, 2) === 'block Keel, 5 weeks, heavy');
    assert.equal(line(editor, 4), '  back squat: 3x6 r2 |  | 4x | x5');
    assert.equal(line(editor, 5), '  box squat:  3x8 r3 |  | 4x |');
    await picture('writing-week');
    await goTo(editor, placeOf(editor.document, '|  |', 2));
    await run('stave.removeWeek');
    await until('four weeks', () => editor.document.getText() === before);
  });

  itInWindow('says why a week cannot be taken out', async () => {
    const editor = await openUntitled(DRAFT.replace('4x | x5', '+5% weekly').replace('| 4x |', ''));
    await goTo(editor, placeOf(editor.document, 'weekly', 2));
    void run('stave.removeWeek');
    await until('the reason', async () =>
      (await workbench.text('.notification-list-item-message')).some((text) =>
        /would come to other work/.test(text),
      ),
    );
    await new Promise((resolve) => setTimeout(resolve, 700)); // it slides in
    await picture('writing-refused');
    await run('notifications.clearAll');
  });

  itInWindow('writes the loads of a row as fixed loads for the client that is shown', async () => {
    const editor = await open(winter);
    await goTo(editor, placeOf(editor.document, 'back squat:     3x6', 2));
    const row = editor.selection.active.line;
    const actions = await run(
      'vscode.executeCodeActionProvider',
      editor.document.uri,
      new vscode.Range(editor.selection.active, editor.selection.active),
      'refactor',
    );
    const action = actions.find(({ title }) => /as fixed loads of Heron/.test(title));
    assert.ok(action, actions.map(({ title }) => title).join('\n'));
    void run('editor.action.refactor');
    await until('the menu', async () =>
      (await workbench.text('.action-widget .monaco-list-row')).some((text) => /as fixed loads/.test(text)),
    );
    await picture('writing-refactor');
    await workbench.press('Escape');
    await vscode.workspace.applyEdit(action.edit);
    await until('the loads', () => line(editor, row).includes('3x6 45kg warm rest 3min | 4x | x5 47.5kg'));
  });

  it('links the block behind like and the rule behind allow', async () => {
    const uri = vscode.Uri.joinPath(folder(), 'boathouse/programs/storm-cycle.stave');
    await vscode.workspace.openTextDocument(uri);
    const links = await until('the links', async () => {
      const found = await run('vscode.executeLinkProvider', uri, 10);
      return found.length > 0 && found;
    });
    assert.match(links[0].target.toString(true), /storm-cycle\.stave#5,7$/);
  });

  itInWindow(
    'writes a load into its cell by a double click on its hint, where it means the same',
    async () => {
      const editor = await open(winter);
      const text = editor.document
        .getText()
        .replace('3x6 r2 warm rest 3min | 4x | x5        |  |', '3x6 40kg | +5kg');
      await editor.edit((edit) =>
        edit.replace(new vscode.Range(0, 0, editor.document.lineCount, 0), text.replace(', deload 5', '')),
      );
      await goTo(editor, placeOf(editor.document, '+5kg', 1));
      await until('the drawn load', async () =>
        (await drawnLines()).some((drawn) => /\+5kg\s*= 45 kg/.test(drawn)),
      );
      await picture('writing-hint');
      await workbench.doubleClick('.view-line:has-text("+5kg") span:text-is("= 45 kg")');
      await until('the written load', () => /3x6 40kg \| 45kg$/m.test(editor.document.getText()));
      await until('no hint beside it', async () =>
        (await drawnLines()).some((drawn) => /\| 45kg\s*$/.test(drawn)),
      );
    },
  );
});
