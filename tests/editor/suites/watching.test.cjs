// Files that change, come and go behind the editor's back: another program, a synchronised folder, a shared disk.
const assert = require('node:assert/strict');
const fs = require('node:fs');
const path = require('node:path');
const vscode = require('vscode');
const { EXTENSION, folder, open, ready, until } = require('../support.cjs');

const at = (...names) => path.join(folder().fsPath, 'watching', ...names);
const server = () => vscode.extensions.getExtension(EXTENSION).exports.server;
const names = async () => (await server().status(folder())).clients.map(({ name }) => name);
const client = (name) => `client ${name}\n  born: 1980\n`;

describe('files that another program writes', function () {
  this.timeout(60_000);

  before(async () => {
    const { document } = await open('winter/winter.stave');
    await ready(document.uri);
    fs.mkdirSync(at(), { recursive: true });
  });

  after(() => fs.rmSync(at(), { recursive: true, force: true }));

  it('are known when they come, change and get another name', async () => {
    fs.writeFileSync(at('one.stave'), client('Pipit'));
    await until('the new client', async () => (await names()).includes('Pipit'));
    fs.writeFileSync(at('one.stave'), client('Linnet'));
    await until(
      'her new name',
      async () => (await names()).includes('Linnet') && !(await names()).includes('Pipit'),
    );
    fs.renameSync(at('one.stave'), at('two.stave'));
    await until('her new file', async () => {
      const found = await vscode.commands.executeCommand('vscode.executeWorkspaceSymbolProvider', 'Linnet');
      const files = found.map(({ location }) => path.basename(location.uri.fsPath));
      return JSON.stringify(files) === '["two.stave"]';
    });
    fs.rmSync(at('two.stave'));
    await until('nobody', async () => !(await names()).includes('Linnet'));
  });

  it('are known when a folder of them comes, moves and goes as a whole', async () => {
    // Made elsewhere and moved here in one piece, as a download that is unpacked.
    const aside = fs.mkdtempSync(path.join(path.dirname(folder().fsPath), 'aside-'));
    fs.mkdirSync(path.join(aside, 'clients', 'deep'), { recursive: true });
    fs.writeFileSync(path.join(aside, 'clients', 'a.stave'), client('Siskin'));
    fs.writeFileSync(path.join(aside, 'clients', 'deep', 'b.stave'), client('Twite'));
    fs.renameSync(path.join(aside, 'clients'), at('clients'));
    fs.rmSync(aside, { recursive: true });
    const both = async () => (await names()).filter((name) => /Siskin|Twite/.test(name));
    await until('both clients', async () => (await both()).length === 2);
    fs.renameSync(at('clients'), at('people'));
    await until('both in their new place', async () => {
      const found = await vscode.commands.executeCommand('vscode.executeWorkspaceSymbolProvider', 'Twite');
      return found.length === 1 && found[0].location.uri.path.includes('/people/deep/');
    });
    assert.equal((await both()).length, 2);
    fs.rmSync(at('people'), { recursive: true });
    await until('nobody', async () => (await both()).length === 0);
  });

  it('go with a folder that is deleted in the editor', async () => {
    fs.mkdirSync(at('more'), { recursive: true });
    fs.writeFileSync(at('more', 'a.stave'), client('Brambling'));
    await until('the client', async () => (await names()).includes('Brambling'));
    await vscode.workspace.fs.delete(vscode.Uri.file(at('more')), { recursive: true });
    await until('nobody', async () => !(await names()).includes('Brambling'));
  });
});
