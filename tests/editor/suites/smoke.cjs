const assert = require('node:assert/strict');
const vscode = require('vscode');
const { EXTENSION, drawnLines, folder, itInWindow, open, until } = require('../support.cjs');

describe('the extension in the editor', () => {
  let file;

  before(async () => {
    const [first] = await vscode.workspace.findFiles('**/*.stave', undefined, 1);
    assert.ok(first, 'the samples hold a .stave file');
    file = vscode.workspace.asRelativePath(first, false);
    assert.ok(first.fsPath.startsWith(folder().fsPath));
  });

  it('opens a .stave file in the language stave', async () => {
    const editor = await open(file);
    assert.equal(editor.document.languageId, 'stave');
  });

  it('is active once such a file is open', async () => {
    const extension = vscode.extensions.getExtension(EXTENSION);
    assert.ok(extension, `${EXTENSION} is installed`);
    await until('activation', () => extension.isActive);
  });

  itInWindow('draws the text of the file', async () => {
    const editor = await open(file);
    const line = editor.document
      .getText()
      .split(/\r?\n/)
      .find((text) => /^\S/.test(text));
    await until('the first line drawn', async () =>
      (await drawnLines()).some((drawn) => drawn.startsWith(line)),
    );
  });
});
