// Ways through the files by their names and parts, as keys and commands of the editor take them.
const assert = require('node:assert/strict');
const path = require('node:path');
const vscode = require('vscode');
const {
  drawnLines,
  folder,
  goTo,
  itInWindow,
  open,
  picture,
  placeOf,
  ready,
  until,
} = require('../support.cjs');

const run = (command, ...rest) => vscode.commands.executeCommand(command, ...rest);
const winter = 'winter/winter.stave';
const storm = 'boathouse/programs/storm-cycle.stave';
const wren = 'boathouse/clients/wren.stave';
const base = (uri) => path.basename(uri.fsPath);

const shownFile = () => {
  const editor = vscode.window.activeTextEditor;
  return editor && base(editor.document.uri);
};

describe('names and parts', function () {
  this.timeout(60_000);

  before(async () => {
    await run('workbench.action.closeAllEditors');
    const { document } = await open(winter);
    await ready(document.uri);
  });

  itInWindow('lead to where they are written, in another file, and back', async () => {
    const editor = await open(wren);
    await goTo(editor, placeOf(editor.document, 'follows: Storm cycle', 11));
    await workbench.press('F12');
    const there = await until('the program', () => {
      const shown = vscode.window.activeTextEditor;
      return shown && base(shown.document.uri) === 'storm-cycle.stave' && shown;
    });
    assert.equal(there.selection.active.line, placeOf(there.document, 'program Storm').line);
    await run('workbench.action.navigateBack');
    await until('her file', () => shownFile() === 'wren.stave');
  });

  itInWindow('list every place that names them', async () => {
    const editor = await open(storm);
    const at = placeOf(editor.document, 'program Storm cycle', 10);
    const found = await run('vscode.executeReferenceProvider', editor.document.uri, at);
    assert.deepEqual([...new Set(found.map(({ uri }) => base(uri)))].sort(), [
      'storm-cycle.stave',
      'wren.stave',
    ]);
    // With one other place the key leads there at once; with more it lists them.
    await goTo(editor, placeOf(editor.document, 'back squat:', 3));
    await workbench.press('Shift+F12');
    await until('the list', async () =>
      (await workbench.text('.peekview-widget .monaco-list-row')).join().includes('wren.stave'),
    );
    await picture('names-references');
    await run('closeReferenceSearch');
  });

  itInWindow('are marked wherever they stand while the cursor is on one', async () => {
    const editor = await open(storm);
    const at = placeOf(editor.document, 'back squat:', 3);
    await goTo(editor, at);
    const own = await run('vscode.executeDocumentHighlights', editor.document.uri, at);
    const written = editor.document.getText().match(/^ *back squat(?= *[:(])/gm).length;
    assert.equal(own.length, written);
    await until(
      'the marks',
      async () =>
        (await workbench.text('.editor-instance .wordHighlightText')).length +
          (await workbench.text('.editor-instance .wordHighlight')).length >=
        2,
    );
  });

  itInWindow('stand in the outline of the file and in the search of the folder', async () => {
    await open(storm);
    await workbench.press('Control+Shift+O');
    const outline = await until('the outline', async () => {
      const rows = await workbench.text('.quick-input-list .monaco-list-row');
      return rows.some((row) => row.includes('Swell')) && rows;
    });
    for (const name of ['Storm cycle', 'Swell', 'Squat', 'back squat'])
      assert.ok(
        outline.some((row) => row.includes(name)),
        `${name} in ${outline.join('\n')}`,
      );
    await picture('names-outline');
    await workbench.press('Escape');
    await run('workbench.action.showAllSymbols');
    await workbench.type('wre');
    await until('the client', async () =>
      (await workbench.text('.quick-input-list .monaco-list-row')).some((row) => row.includes('Wren')),
    );
    await workbench.press('Enter');
    await until('her file', () => shownFile() === 'wren.stave');
  });

  itInWindow('fold to a line each', async () => {
    const editor = await open(storm);
    await goTo(editor, new vscode.Position(0, 0));
    await until('folds', async () => {
      const ranges = await run('vscode.executeFoldingRangeProvider', editor.document.uri);
      return (ranges ?? []).length > 5;
    });
    await run('editor.foldAll');
    await until('one line of the program', async () => {
      const lines = await drawnLines();
      return (
        lines.some((line) => line.includes('program Storm cycle')) &&
        !lines.some((line) => /block Swell/.test(line))
      );
    });
    await picture('names-folded');
    await run('editor.unfoldAll');
    await until('all lines', async () => (await drawnLines()).some((line) => /block Swell/.test(line)));
  });

  itInWindow('grow a selection from the item to the cell, the row, the day', async () => {
    const editor = await open(winter);
    await goTo(editor, placeOf(editor.document, '3x6 r2', 1));
    const grown = [];
    for (let step = 0; step < 6; step += 1) {
      const before = editor.document.getText(editor.selection);
      await run('editor.action.smartSelect.expand');
      await until('a larger selection', () => editor.document.getText(editor.selection) !== before);
      grown.push(editor.document.getText(editor.selection).trim());
    }
    assert.equal(grown[0], '3x6');
    assert.ok(grown.includes('3x6 r2 warm rest 3min'), grown.join('\n---\n'));
    assert.ok(
      grown.some((text) => text.startsWith('back squat:') && !text.includes('\n')),
      grown.join('\n---\n'),
    );
    assert.ok(
      grown.some((text) => text.startsWith('day Lower')),
      grown.join('\n---\n'),
    );
  });

  itInWindow('are coloured by what they mean', async () => {
    const editor = await open(winter);
    await goTo(editor, placeOf(editor.document, 'client Heron', 8));
    await run('editor.action.inspectTMScopes');
    const shown = await until('what it is', async () => {
      const text = (await workbench.text('.token-inspect-widget')).join('\n');
      return /semantic token type/i.test(text) && text;
    });
    assert.match(shown, /semantic token type\s+\w+/i);
    await workbench.press('Escape');
    const legend = await run('vscode.provideDocumentSemanticTokensLegend', editor.document.uri);
    const tokens = await run('vscode.provideDocumentSemanticTokens', editor.document.uri);
    assert.ok(legend.tokenTypes.length > 3 && tokens.data.length > 100);
  });

  itInWindow('lay out the lines that are selected alone', async () => {
    const editor = await open(winter);
    const before = editor.document.getText();
    const messy = before
      .replace('back squat:     3x6 r2', 'back squat: 3X6   r2')
      .replace('  aim: strength', '    aim:   strength');
    const whole = new vscode.Range(0, 0, editor.document.lineCount, 0);
    await editor.edit((edit) => edit.replace(whole, messy));
    const row = placeOf(editor.document, 'back squat: 3X6').line;
    editor.selection = new vscode.Selection(row, 0, row, 10);
    await run('editor.action.formatSelection');
    await until('the row', () => /^ {2}back squat: +3x6 r2 warm/m.test(editor.document.getText()));
    assert.ok(editor.document.getText().includes('    aim:   strength'), 'the other line is left alone');
    await run('workbench.action.files.revert');
    assert.ok(folder());
  });
});
