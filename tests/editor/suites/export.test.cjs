// The one command that writes documents: what it asks, what it remembers, what it writes.
const assert = require('node:assert/strict');
const fs = require('node:fs');
const path = require('node:path');
const vscode = require('vscode');
const { EXTENSION, folder, itInWindow, picture, until } = require('../support.cjs');

const run = (command, ...rest) => vscode.commands.executeCommand(command, ...rest);
const names = (files) => files.map((file) => path.basename(file.fsPath));

/** What the question that is shown says and offers. */
async function question(title) {
  await until(`the question ${title}`, async () =>
    (await workbench.text('.quick-input-widget:not([style*="display: none"]) .quick-input-title'))
      .join()
      .includes(title),
  );
  return workbench.text('.quick-input-list .monaco-list-row');
}

const answer = () => workbench.press('Enter');

describe('export', function () {
  this.timeout(60_000);

  before(async function () {
    if (!globalThis.workbench) this.skip();
    const document = await vscode.workspace.openTextDocument(
      vscode.Uri.joinPath(folder(), 'winter/winter.stave'),
    );
    await vscode.window.showTextDocument(document, { viewColumn: vscode.ViewColumn.One, preview: false });
    await until('activation', () => vscode.extensions.getExtension(EXTENSION).isActive);
    await run('notifications.clearAll');
  });

  itInWindow('asks what, for whom, as what and where, and offers to open what it wrote', async () => {
    const written = run('stave.export');
    const kinds = await question('Which document');
    assert.ok(kinds[0].includes('Plan'), kinds.join());
    await workbench.type('Session card');
    await answer();
    const people = await question('For whom');
    assert.ok(people.join().includes('Every client'));
    await workbench.type('Heron');
    await answer();
    await question('Which day');
    await answer();
    const formats = await question('Which formats');
    assert.ok(formats.join().includes('a file for the printer'), formats.join());
    await picture('export');
    await answer();
    const places = await question('Where to');
    assert.ok(places[0].includes('plans'), places.join());
    await answer();
    const files = await written;
    assert.deepEqual(names(files), ['Heron-card-2026-12-07.html', 'Heron-card-2026-12-07.pdf']);
    assert.equal(fs.readFileSync(files[1].fsPath).subarray(0, 5).toString(), '%PDF-');
    await until('the offer', async () => {
      const shown = (await workbench.text('.notification-list-item')).join();
      return shown.includes('Heron-card-2026-12-07.html') && shown.includes('Open HTML');
    });
    await run('notifications.clearAll');
  });

  itInWindow('offers the answers of last time first', async () => {
    const written = run('stave.export');
    const offers = await question('Export');
    assert.match(offers[0].replace(/\s+/g, ' '), /Session card: Heron, HTML, PDF/);
    await answer();
    assert.deepEqual(names(await written), ['Heron-card-2026-12-07.html', 'Heron-card-2026-12-07.pdf']);
    await run('notifications.clearAll');
  });

  itInWindow('writes nothing when it is left', async () => {
    const written = run('stave.export');
    await question('Export');
    await workbench.press('Escape');
    assert.deepEqual(await written, []);
  });

  itInWindow('does not ask what the panel knows', async () => {
    const uri = vscode.window.activeTextEditor.document.uri.toString();
    const written = run('stave.export', { uri, kind: 'overview', client: 'heron', date: null, large: true });
    await question('Which formats');
    await answer();
    await question('Where to');
    await answer();
    assert.deepEqual(names(await written), ['Heron-overview-large.html', 'Heron-overview-large.pdf']);
    await run('notifications.clearAll');
  });

  itInWindow('says why nothing was written', async () => {
    // The editor shows no more than a few messages within a second; nobody exports as fast as the tests before.
    await run('notifications.clearAll');
    await new Promise((resolve) => setTimeout(resolve, 1500));
    const uri = vscode.window.activeTextEditor.document.uri.toString();
    const written = run('stave.export', { uri, kind: 'card', client: 'heron', date: '2026-12-08' });
    await question('Which formats');
    await answer();
    await question('Where to');
    await answer();
    assert.deepEqual(await written, []);
    await until('the message', async () =>
      (await workbench.text('.notification-list-item'))
        .join()
        .includes('Nothing was written. Heron has no session on 2026-12-08. Choose another day.'),
    );
    await run('notifications.clearAll');
  });
});
