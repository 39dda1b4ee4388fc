// A folder with nothing in it: whatever is asked for leads to the first client, and an empty file offers how to begin.
const assert = require('node:assert/strict');
const vscode = require('vscode');
const { goTo, picture, until } = require('../support.cjs');

const run = (command, ...rest) => vscode.commands.executeCommand(command, ...rest);
const notices = async () =>
  (await workbench.text('.notification-list-item')).map((text) => text.replaceAll(/\s+/g, ' '));
const ASKING = ['export', 'printPlan', 'chooseClient', 'showLoads', 'showWarning', 'starterProgram'];

describe('an empty folder', function () {
  this.timeout(60_000);

  for (const command of ASKING)
    it(`leads to the first client from ${command}`, async () => {
      await run('notifications.clearAll');
      // The editor shows no more than three notices in a short time.
      await new Promise((resolve) => setTimeout(resolve, 900));
      const asked = run(`stave.${command}`);
      await until('the way', async () =>
        (await notices()).some(
          (text) => text.includes('There is no client here yet') && text.includes('New client…'),
        ),
      );
      assert.equal((await notices()).length, 1);
      await run('notifications.clearAll');
      await Promise.race([asked, new Promise((resolve) => setTimeout(resolve, 2000))]);
    });

  it('leads to the first client from the panel', async () => {
    await run('stave.openRoster');
    await until('the words', async () =>
      (await workbench.panelText('#empty').catch(() => []))
        .join()
        .includes('"Stave: New Client…" (press F1)'),
    );
    await picture('empty-roster');
    await run('workbench.action.closeAllEditors');
  });

  it('asks the first question when the way is taken', async () => {
    void run('stave.printPlan');
    await until('the way', async () => (await notices()).length > 0);
    await workbench.click('.notification-list-item .monaco-button:has-text("New client…")');
    await until('the question', async () =>
      (await workbench.text('.quick-input-title')).join().includes('where to keep the files?'),
    );
    await workbench.press('Escape');
  });

  it('offers in an empty file how to begin', async () => {
    const document = await vscode.workspace.openTextDocument({ language: 'stave', content: '' });
    const editor = await vscode.window.showTextDocument(document, { preview: false });
    await goTo(editor, new vscode.Position(0, 0));
    const offered = await until('the openers', async () => {
      await workbench.press('Control+Space');
      await new Promise((resolve) => setTimeout(resolve, 700));
      const rows = await workbench.text('.suggest-widget.visible .monaco-list-row');
      return rows.length > 0 && rows.map((row) => row.split('\n')[0]);
    });
    for (const opener of ['client', 'program', 'kit']) assert.ok(offered.includes(opener), offered.join());
    await picture('empty-file');
    await workbench.press('Escape');
    await run('workbench.action.revertAndCloseActiveEditor');
  });
});
