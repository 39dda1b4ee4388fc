// A window with several folders: each is a practice of its own, and they come and go while the window is open.
const assert = require('node:assert/strict');
const vscode = require('vscode');
const { EXTENSION, drawnLines, itInWindow, picture, until } = require('../support.cjs');

const run = (command, ...rest) => vscode.commands.executeCommand(command, ...rest);
const folders = () => vscode.workspace.workspaceFolders;
const named = (name) => folders().find((folder) => folder.name === name);
const east = () => vscode.Uri.joinPath(folders()[0].uri, '..', 'east');

async function open(uri) {
  const document = await vscode.workspace.openTextDocument(uri);
  return vscode.window.showTextDocument(document, { preview: false });
}

async function labels(document) {
  const whole = new vscode.Range(0, 0, document.lineCount, 0);
  const found = await run('vscode.executeInlayHintProvider', document.uri, whole);
  return (found ?? [])
    .sort((a, b) => a.position.compareTo(b.position))
    .map(({ label }) => (typeof label === 'string' ? label : label.map(({ value }) => value).join('')));
}

const server = () => vscode.extensions.getExtension(EXTENSION).exports.server;
const codes = (uri) =>
  vscode.languages.getDiagnostics(uri).map(({ code }) => (typeof code === 'object' ? code.value : code));

/** Adds or removes folders behind the first one, so that nothing has to start again. */
async function change(start, remove, ...added) {
  const changed = new Promise((resolve) => {
    const listening = vscode.workspace.onDidChangeWorkspaceFolders(() => {
      listening.dispose();
      resolve();
    });
  });
  assert.ok(vscode.workspace.updateWorkspaceFolders(start, remove, ...added));
  await changed;
}

describe('several folders', function () {
  this.timeout(60_000);

  before(async () => {
    assert.deepEqual(
      folders().map(({ name }) => name),
      ['north', 'south'],
    );
    await open(vscode.Uri.joinPath(named('north').uri, 'winter.stave'));
    await until('activation', () => vscode.extensions.getExtension(EXTENSION).isActive);
  });

  it('are practices of their own, whose names do not meet', async () => {
    const north = await open(vscode.Uri.joinPath(named('north').uri, 'winter.stave'));
    await until('loads', async () => (await labels(north.document)).includes('= 47.5 kg'));
    const south = await open(vscode.Uri.joinPath(named('south').uri, 'programs/storm-cycle.stave'));
    await until('loads', async () => (await labels(south.document)).some((label) => / (kg|lb)/.test(label)));
    const here = await server().status(north.document.uri);
    const there = await server().status(south.document.uri);
    assert.deepEqual(
      here.clients.map(({ name }) => name),
      ['Heron'],
    );
    assert.ok(there.clients.length > 2 && there.clients.every(({ name }) => name !== 'Heron'));
    assert.deepEqual(
      codes(south.document.uri).filter((code) => code === 'unknown-name' || code === 'twice-named'),
      [],
    );
  });

  itInWindow('each remember whose loads are shown', async () => {
    const south = await open(vscode.Uri.joinPath(named('south').uri, 'programs/storm-cycle.stave'));
    void run('stave.chooseClient');
    await until('the clients', async () =>
      (await workbench.text('.quick-input-list .monaco-list-row')).some((row) => row.includes('Plover')),
    );
    await workbench.type('Plover');
    await workbench.press('Enter');
    await until('her loads', async () => (await server().status(south.document.uri)).shown === 'plover');
    const north = vscode.Uri.joinPath(named('north').uri, 'winter.stave');
    assert.equal((await server().status(north)).shown, 'heron');
    assert.equal((await server().status(south.document.uri)).chosen, true);
  });

  itInWindow('are asked for where no file is open', async () => {
    await run('workbench.action.closeAllEditors');
    void run('stave.export');
    await until('the folders to choose from', async () => {
      const rows = (await workbench.text('.quick-input-list .monaco-list-row')).join('\n');
      return rows.includes('north') && rows.includes('south');
    });
    await picture('folders-pick');
    await workbench.press('Escape');
  });

  itInWindow('are read when they are added, and forgotten when they go', async () => {
    const program = vscode.Uri.joinPath(east(), 'winter.stave');
    const editor = await open(program);
    // A file of no folder stands alone: nobody follows it.
    await until('the server', async () => (await server().status(program)) !== undefined);
    assert.deepEqual((await server().status(program)).clients, []);
    assert.deepEqual(await labels(editor.document), []);
    await change(2, 0, { uri: east() });
    await until('loads', async () => (await labels(editor.document)).includes('= 47.5 kg'));
    assert.deepEqual(
      (await server().status(program)).clients.map(({ name }) => name),
      ['Godwit'],
    );
    await until('drawn loads', async () =>
      (await drawnLines()).some((line) => /back squat:\s+3x6 r2 warm rest 3min\s*= 45 kg/.test(line)),
    );
    await picture('folders-added');
    await change(2, 1);
    await until('no loads', async () => (await labels(editor.document)).length === 0);
    assert.deepEqual((await server().status(program)).clients, []);
    // The others are as they were.
    const north = await open(vscode.Uri.joinPath(named('north').uri, 'winter.stave'));
    await until('loads', async () => (await labels(north.document)).includes('= 47.5 kg'));
  });

  it('offer their tasks, each for itself', async () => {
    const tasks = await vscode.tasks.fetchTasks({ type: 'stave' });
    assert.deepEqual(tasks.map(({ name, scope }) => `${scope.name}: ${name}`).sort(), [
      'north: check',
      'north: watch',
      'south: check',
      'south: watch',
    ]);
    assert.ok((await server().check(named('south').uri)).files > 5);
    assert.equal((await server().check(named('north').uri)).files, 1);
  });

  itInWindow('leave a draft that was never saved a practice of its own', async () => {
    await run('stave.newExample');
    const { document } = vscode.window.activeTextEditor;
    assert.equal(document.uri.scheme, 'untitled');
    await until('loads', async () => (await labels(document)).includes('= 47.5 kg'));
    assert.deepEqual(
      codes(document.uri).filter((code) => code === 'twice-named'),
      [],
    );
    // Its reasons are told as those of any other file.
    const at = document.positionAt(document.getText().indexOf('3x6 r2') + 1);
    vscode.window.activeTextEditor.selection = new vscode.Selection(at, at);
    await run('stave.explain');
    await until('the reasons', async () =>
      (await workbench.panelText('#page').catch(() => [])).join().includes('3 × 6 at 45 kg'),
    );
    await picture('folders-draft');
    await run('workbench.action.closeActiveEditor');
    await vscode.window.showTextDocument(document);
    await run('workbench.action.revertAndCloseActiveEditor');
  });
});
