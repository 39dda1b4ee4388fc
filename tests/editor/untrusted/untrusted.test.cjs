// A folder that is not trusted: everything works in it, because nothing of it is run.
const assert = require('node:assert/strict');
const fs = require('node:fs');
const path = require('node:path');
const vscode = require('vscode');
const {
  EXTENSION,
  drawnLines,
  goTo,
  labels,
  open,
  picture,
  placeOf,
  ready,
  until,
} = require('../support.cjs');

const run = (command, ...rest) => vscode.commands.executeCommand(command, ...rest);
const winter = 'winter/winter.stave';

describe('a folder that is not trusted', function () {
  this.timeout(60_000);

  before(async () => {
    const { document } = await open(winter);
    await ready(document.uri);
  });

  it('is one, and the extension runs in it', () => {
    assert.equal(vscode.workspace.isTrusted, false);
    assert.equal(vscode.extensions.getExtension(EXTENSION).isActive, true);
  });

  it('has loads, findings and reasons', async () => {
    const editor = await open(winter);
    await until('loads', async () => (await labels(editor.document)).includes('= 47.5 kg'));
    await until('drawn loads', async () =>
      (await drawnLines()).some((line) => /back squat:\s+3x6 r2 warm rest 3min\s*= 45 kg/.test(line)),
    );
    await until('a finding', () => vscode.languages.getDiagnostics(editor.document.uri).length > 0);
    await goTo(editor, placeOf(editor.document, '3x6 r2', 1));
    await run('stave.explain');
    await until('the reasons', async () =>
      (await workbench.panelText('#page').catch(() => [])).join().includes('3 × 6 at 45 kg'),
    );
    await picture('untrusted');
    await run('workbench.action.closeEditorsInOtherGroups');
  });

  it('gets its plans', async () => {
    await open(winter);
    const { server } = vscode.extensions.getExtension(EXTENSION).exports;
    const uri = vscode.window.activeTextEditor.document.uri;
    const request = { uri: uri.toString(), client: 'heron', folder: null };
    const { files } = await server.execute('stave.server.writePlan', request);
    const names = files.map((file) => path.basename(vscode.Uri.parse(file).fsPath));
    assert.deepEqual(names, ['Heron-plan.html', 'Heron-plan.pdf']);
    for (const file of files) assert.ok(fs.statSync(vscode.Uri.parse(file).fsPath).size > 1000);
  });
});
