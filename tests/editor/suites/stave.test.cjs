// What a coach sees and does: loads in the text, a warning, the reasons, layout, names, the plan.
const assert = require('node:assert/strict');
const fs = require('node:fs');
const path = require('node:path');
const vscode = require('vscode');
const {
  EXTENSION,
  chooseClient,
  drawnLines,
  folder,
  itInWindow,
  open,
  picture,
  until,
} = require('../support.cjs');

const run = (command, ...rest) => vscode.commands.executeCommand(command, ...rest);
const inFolder = (file) => vscode.Uri.joinPath(folder(), file);
const whole = (document) => new vscode.Range(0, 0, document.lineCount, 0);
const hints = (document) => run('vscode.executeInlayHintProvider', document.uri, whole(document));
const label = (hint) =>
  typeof hint.label === 'string' ? hint.label : hint.label.map(({ value }) => value).join('');

/** The first place of a piece of text in a document. */
function placeOf(document, piece, plus = 0) {
  const at = document.getText().indexOf(piece);
  assert.notEqual(at, -1, `the file holds ${piece}`);
  return document.positionAt(at + plus);
}

/** Puts the cursor there and shows it, with the keyboard in the editor. */
async function goTo(editor, position) {
  editor.selection = new vscode.Selection(position, position);
  editor.revealRange(editor.selection, vscode.TextEditorRevealType.InCenter);
  await run('workbench.action.focusActiveEditorGroup');
}

async function replaceAll(editor, text) {
  await editor.edit((edit) => edit.replace(whole(editor.document), text));
}

const winter = 'winter/winter.stave';
const storm = 'boathouse/programs/storm-cycle.stave';

describe('Stave in the editor', function () {
  this.timeout(60_000); // a busy machine draws slowly

  before(async () => {
    await open(winter);
    await until('activation', () => vscode.extensions.getExtension(EXTENSION).isActive);
    await until(
      'the first hints',
      async () => (await hints(vscode.window.activeTextEditor.document)).length > 0,
    );
  });

  // The choice is kept for the folder, and the suites that follow look at the loads of Heron.
  after(async () => {
    if (!globalThis.workbench) return;
    await open(winter);
    await chooseClient('Heron');
  });

  afterEach(async () => {
    await run('closeReferenceSearch');
    const editor = vscode.window.activeTextEditor;
    if (editor?.document.isDirty) await run('workbench.action.files.revert');
  });

  it('gives the loads of the worked example', async () => {
    const { document } = await open(winter);
    const line = placeOf(document, 'back squat:     3x6').line;
    const own = (await hints(document)).filter(({ position }) => position.line === line);
    own.sort((a, b) => a.position.character - b.position.character);
    assert.deepEqual(own.map(label), ['= 45 kg', '= 45 kg', '= 47.5 kg', '= 47.5 kg', '= 42.5 kg']);
  });

  itInWindow('draws the loads in the text', async () => {
    await open(winter);
    const row = /back squat:\s+3x6 r2 warm rest 3min\s*= 45 kg\s*\| 4x\s*= 45 kg\s*\| x5\s*= 47\.5 kg/;
    await until('drawn loads', async () => (await drawnLines()).some((line) => row.test(line)));
    await picture('hints');
  });

  itInWindow(
    'underlines a mistake while it is typed, and takes the line back when it is mended',
    async () => {
      const editor = await open(winter);
      await goTo(editor, placeOf(editor.document, 'back squat:     3x6', 'back s'.length));
      await workbench.type('s');
      const found = await until('the finding', () =>
        vscode.languages
          .getDiagnostics(editor.document.uri)
          .find(({ code }) => code?.value === 'unknown-name'),
      );
      assert.match(found.message, /back ssquat/);
      await until(
        'the underline',
        async () => (await workbench.text('.editor-instance .squiggly-error')).length > 0,
      );
      await workbench.press('Backspace');
      await until(
        'no underline',
        async () => (await workbench.text('.editor-instance .squiggly-error')).length === 0,
      );
    },
  );

  itInWindow('underlines a warning: heavy work before the sign-off', async () => {
    const editor = await open(winter);
    const text = editor.document.getText().replace('ready: heavy squat 2026-10-05, ', 'ready: ');
    await replaceAll(editor, text);
    const found = await until('the finding', () =>
      vscode.languages.getDiagnostics(editor.document.uri).find(({ code }) => code?.value === 'heavy-early'),
    );
    assert.match(found.message, /Heron/);
    assert.equal(found.range.start.line, placeOf(editor.document, 'back squat:     3x6').line);
    const kind = found.severity === vscode.DiagnosticSeverity.Error ? 'error' : 'warning';
    await until(
      'the underline',
      async () => (await workbench.text(`.editor-instance .squiggly-${kind}`)).length > 0,
    );
    await picture('warning');
  });

  itInWindow('explains a load under the mouse', async () => {
    const editor = await open(winter);
    await goTo(editor, placeOf(editor.document, '3x6 r2', 1));
    await run('editor.action.showHover');
    const text = await until('the hover', async () => {
      const shown = (await workbench.text('.monaco-hover .hover-contents'))
        .join('\n')
        .replaceAll('\u00a0', ' ');
      // Not what lies under the mouse, where another suite has left it.
      return shown.includes('back squat, Keel') && shown.includes('Brzycki') && shown;
    });
    assert.match(text, /45 kg/);
    assert.match(text, /57/);
    await picture('hover');
    await workbench.press('Escape');
  });

  it('lays a file out, and leaves a file that is laid out as it is', async () => {
    const editor = await open(winter);
    const tidy = editor.document.getText();
    await replaceAll(
      editor,
      tidy.replace('  back squat:     3x6 r2 warm rest 3min | 4x', 'back squat: 3X6  r2 warm rest 3min|4x'),
    );
    await run('editor.action.formatDocument');
    await until('the layout', () =>
      /^ {2}back squat: +3x6 r2 warm rest 3min +\| 4x/m.test(editor.document.getText()),
    );
    const once = editor.document.getText();
    await run('editor.action.formatDocument');
    assert.equal(editor.document.getText(), once);
  });

  itInWindow('renames a program in every file', async () => {
    const other = await vscode.workspace.openTextDocument(inFolder('boathouse/clients/wren.stave'));
    const before = other.getText();
    const editor = await open(storm);
    const own = editor.document.getText();
    await goTo(editor, placeOf(editor.document, 'Storm cycle', 2));
    const renamed = run('editor.action.rename');
    await until(
      'the box for the name',
      async () => (await workbench.text('.rename-box input:focus')).length > 0,
    );
    await workbench.press('Control+A');
    await workbench.type('Gale cycle');
    await workbench.press('Enter');
    await renamed;
    await until('the name here', () => editor.document.getText().includes('program Gale cycle'));
    await until('the name there', () => other.getText().includes('follows: Gale cycle'));
    assert.equal(other.getText(), before.replaceAll('Storm cycle', 'Gale cycle'));
    // The editor saves what a rename touches: put both files back.
    await replaceAll(await vscode.window.showTextDocument(other), before);
    await other.save();
    await replaceAll(await vscode.window.showTextDocument(editor.document), own);
    await editor.document.save();
  });

  it('offers movements on an empty line', async () => {
    const editor = await open(storm);
    const line = placeOf(editor.document, '  box jump').line;
    await editor.edit((edit) => edit.insert(new vscode.Position(line, 0), '  \n'));
    const list = await run(
      'vscode.executeCompletionItemProvider',
      editor.document.uri,
      new vscode.Position(line, 2),
    );
    const names = list.items.map((item) => (typeof item.label === 'string' ? item.label : item.label.label));
    assert.ok(names.includes('front squat'), names.slice(0, 20).join(', '));
  });

  itInWindow('finds a movement by typing a part of its name', async () => {
    const editor = await open(storm);
    const line = placeOf(editor.document, '  box jump').line;
    await editor.edit((edit) => edit.insert(new vscode.Position(line, 0), '  \n'));
    await goTo(editor, new vscode.Position(line, 2));
    await workbench.type('goblet s');
    await until('the list', async () =>
      (await workbench.text('.suggest-widget .monaco-list-row')).some((row) => row.includes('goblet squat')),
    );
    await picture('completion');
    await workbench.press('Enter');
    await until('the name', () => editor.document.lineAt(line).text.startsWith('  goblet squat:'));
  });

  it('works in a draft that was never saved', async () => {
    await run('stave.newExample');
    const editor = vscode.window.activeTextEditor;
    assert.equal(editor.document.uri.scheme, 'untitled');
    const found = await until('hints', async () => {
      const list = await hints(editor.document);
      return list.length > 0 && list;
    });
    assert.ok(found.map(label).includes('= 47.5 kg'));
    assert.deepEqual(
      vscode.languages
        .getDiagnostics(editor.document.uri)
        .filter(({ code }) => code?.value === 'twice-named'),
      [],
    );
    await run('workbench.action.revertAndCloseActiveEditor');
  });

  // The picture of the README: STAVE_EDITOR_PICTURE names the file to write.
  itInWindow('shows text, loads, a warning and the reasons in one window', async () => {
    const settings = vscode.workspace.getConfiguration();
    const plain = {
      'editor.minimap.enabled': false,
      'breadcrumbs.enabled': false,
      'window.commandCenter': false,
      'window.title': 'stave',
    };
    for (const [name, value] of Object.entries(plain)) {
      await settings.update(name, value, vscode.ConfigurationTarget.Global);
    }
    await run('workbench.action.closeAllEditors');
    await run('workbench.action.closeSidebar');
    await run('notifications.clearAll');
    await run('workbench.actions.view.problems');
    const editor = await open(winter);
    await until('hints of Heron', async () => (await hints(editor.document)).length === 8);
    await goTo(editor, placeOf(editor.document, '| x5', 3));
    // From the client on: with the lines above programs and clients, the whole file is taller than the window.
    const client = editor.document.positionAt(editor.document.getText().indexOf('client Heron'));
    editor.revealRange(new vscode.Range(client, client), vscode.TextEditorRevealType.AtTop);
    await until('the list of problems', async () =>
      (await workbench.text('.markers-panel .monaco-list-row')).some((row) => row.includes('overhead press')),
    );
    await run('editor.action.showHover');
    await until('the reasons', async () =>
      (await workbench.text('.monaco-hover .hover-contents')).join('\n').includes('Heron'),
    );
    await until(
      'the underline',
      async () => (await workbench.text('.editor-instance .squiggly-warning')).length > 0,
    );
    await until('the lines above', async () =>
      (await workbench.text('.editor-instance .codelens-decoration')).some((text) =>
        text.includes('1 client'),
      ),
    );
    await new Promise((resolve) => setTimeout(resolve, 700)); // the reasons fade in
    const file = process.env.STAVE_EDITOR_PICTURE;
    if (file) await workbench.screenshot(file);
    else await picture('editor');
    await workbench.press('Escape');
    await run('workbench.action.closePanel');
  });

  itInWindow('shows the loads of the client that is chosen', async () => {
    const editor = await open(storm);
    await chooseClient('Wren');
    const first = await until('pounds', async () =>
      (await hints(editor.document)).find((hint) => / lb$/.test(label(hint))),
    );
    assert.match(label(first), /^[=~] \d/);
    const shown = async () => (await workbench.text('.hover-language-status')).join(' ');
    await until('the language status', async () => {
      await workbench.hover('#status\\.languageStatus');
      return (await shown()).includes('Wren');
    });
    await picture('status');
  });

  itInWindow('writes the plan of the chosen client', async () => {
    await open(storm);
    const files = await run('stave.printPlan');
    assert.deepEqual(
      files.map((file) => path.basename(file.fsPath)),
      ['Wren-plan.html', 'Wren-plan.pdf'],
    );
    const [page, pdf] = files.map((file) => fs.readFileSync(file.fsPath));
    assert.ok(page.toString('utf8').includes('Storm cycle'));
    assert.equal(pdf.subarray(0, 5).toString(), '%PDF-');
    await until('the message', async () =>
      (await workbench.text('.notification-list-item')).some((text) => text.includes('Written: ')),
    );
    await run('notifications.clearAll');
  });

  itInWindow('opens the page of a rule from the message', async () => {
    const editor = await open(winter);
    await replaceAll(editor, editor.document.getText().replace('ready: heavy squat 2026-10-05, ', 'ready: '));
    await until('the finding', () =>
      vscode.languages.getDiagnostics(editor.document.uri).some(({ code }) => code?.value === 'heavy-early'),
    );
    await goTo(editor, placeOf(editor.document, '3x6 r2', 1));
    await run('editor.action.showHover');
    await until('the link', async () =>
      (await workbench.text('.monaco-hover a.code-link')).some((text) => text.includes('heavy-early')),
    );
    await workbench.click('.monaco-hover a.code-link');
    await until('the page', () =>
      vscode.window.tabGroups.all.some(({ tabs }) => tabs.some((tab) => tab.label.includes('heavy-early'))),
    );
    await run('workbench.action.closeActiveEditor');
    await open(winter);
  });

  it('starts its server again when asked', async () => {
    const { document } = await open(storm);
    await run('stave.restartServer');
    await until('hints of the new server', async () => (await hints(document)).length > 0);
  });
});
