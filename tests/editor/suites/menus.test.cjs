// What is offered where: commands that make sense here, and no others; menus of the text and of the list of files.
const assert = require('node:assert/strict');
const path = require('node:path');
const vscode = require('vscode');
const { folder, goTo, itInWindow, open, palette, picture, placeOf, ready, until } = require('../support.cjs');

const run = (command, ...rest) => vscode.commands.executeCommand(command, ...rest);
const winter = 'winter/winter.stave';
const own = async (words = 'Stave: ') => (await palette(words)).filter((row) => row.startsWith('Stave: '));
const menu = () =>
  workbench.text('.monaco-menu .action-label').then((texts) => texts.filter((text) => text !== ''));

describe('what is offered', function () {
  this.timeout(60_000);

  before(async () => {
    await run('workbench.action.closeAllEditors');
    const { document } = await open(winter);
    await ready(document.uri);
  });

  afterEach(async () => {
    if (globalThis.workbench) await workbench.press('Escape');
  });

  itInWindow('in the palette is what makes sense at the cursor', async () => {
    const editor = await open(winter);
    await goTo(editor, placeOf(editor.document, '3x6 r2', 1));
    await new Promise((resolve) => setTimeout(resolve, 300));
    const inRow = await own('Stave: week');
    await picture('menus-palette');
    assert.ok(
      inRow.some((row) => row.includes('Go to Next Week of the Row')),
      inRow.join('\n'),
    );
    assert.ok(
      inRow.some((row) => row.includes('Insert a Week into the Block')),
      inRow.join('\n'),
    );
    await workbench.press('Escape');
    await goTo(editor, placeOf(editor.document, 'client Heron', 3));
    await new Promise((resolve) => setTimeout(resolve, 300));
    const elsewhere = await own('Stave: week');
    assert.ok(
      elsewhere.every((row) => !row.includes('Go to Next Week of the Row')),
      elsewhere.join('\n'),
    );
  });

  itInWindow('beside another kind of file is what the folder can do', async () => {
    const document = await vscode.workspace.openTextDocument({ language: 'plaintext', content: 'x' });
    await vscode.window.showTextDocument(document, { preview: false });
    const rows = (await own()).join('\n');
    for (const title of ['Show the Roster', 'Export…', 'Print Plan', 'New Client…', 'Get Started'])
      assert.ok(rows.includes(title), `${title} in\n${rows}`);
    for (const title of ['Explain This Load', 'What If…', 'Insert a Week', 'Open Preview Beside'])
      assert.ok(!rows.includes(title), `${title} in\n${rows}`);
    await workbench.press('Escape');
    await run('workbench.action.revertAndCloseActiveEditor');
  });

  itInWindow('by the right button in the text is the reasons, and the rest in one place', async () => {
    const editor = await open(winter);
    await goTo(editor, placeOf(editor.document, '3x6 r2', 1));
    await run('editor.action.showContextMenu');
    const shown = await until('the menu', async () => {
      const labels = await menu();
      return labels.includes('Explain This Load') && labels;
    });
    assert.ok(shown.includes('Stave'), shown.join());
    await workbench.hover('.monaco-menu .action-label[aria-label="Stave"]');
    const inner = await until('the submenu', async () => {
      const labels = await menu();
      return labels.includes('Print Plan') && labels;
    });
    for (const title of ['What If…', 'Choose Client…', 'Insert a Week into the Block', 'Export…'])
      assert.ok(inner.includes(title), `${title} in ${inner.join()}`);
    await picture('menus-text');
    await workbench.press('Escape');
    await workbench.press('Escape');
  });

  itInWindow('in the list of files is what goes on paper, for the file that it is opened on', async () => {
    await run('workbench.action.closeAllEditors');
    const uri = vscode.Uri.joinPath(folder(), 'boathouse/programs/storm-cycle.stave');
    await run('workbench.view.explorer');
    await run('revealInExplorer', uri);
    const row = '.explorer-folders-view .monaco-list-row[aria-label^="storm-cycle.stave"]';
    await until('the file', async () => (await workbench.text(row)).length > 0);
    await workbench.click(row);
    await workbench.press('Shift+F10');
    await until('the menu', async () => (await menu()).includes('Stave'));
    await workbench.hover('.monaco-menu .action-label[aria-label="Stave"]');
    await until('the submenu', async () => (await menu()).includes('Open Preview Beside the Text'));
    await picture('menus-files');
    await workbench.click('.monaco-menu .action-label[aria-label="Open Preview Beside the Text"]');
    await until('the text and the panel', () => {
      const names = vscode.window.visibleTextEditors.map(({ document }) =>
        path.basename(document.uri.fsPath),
      );
      const panel = vscode.window.tabGroups.all
        .flatMap(({ tabs }) => tabs)
        .some(({ input }) => input instanceof vscode.TabInputWebview);
      return names.includes('storm-cycle.stave') && panel;
    });
    await run('workbench.action.closeSidebar');
    await run('workbench.action.closeEditorsInOtherGroups');
  });
});
