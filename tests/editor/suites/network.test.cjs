// Nothing that a coach does makes the extension or its server reach for another machine.
const assert = require('node:assert/strict');
const fs = require('node:fs');
const http = require('node:http');
const os = require('node:os');
const path = require('node:path');
const vscode = require('vscode');
const { EXTENSION, folder, open, until } = require('../support.cjs');

const run = (command, ...rest) => vscode.commands.executeCommand(command, ...rest);
const guard = path.join(__dirname, '..', 'network.cjs');

describe('the network', function () {
  this.timeout(60_000);
  const log = path.join(fs.mkdtempSync(path.join(os.tmpdir(), 'stave-network-')), 'log');
  const attempts = () => fs.readFileSync(log, 'utf8').split('\n').filter(Boolean);
  const options = process.env.NODE_OPTIONS;

  before(async () => {
    fs.writeFileSync(log, '');
    require(guard).watch(log);
    // The language server is started again with the same watch in its process.
    process.env.NODE_OPTIONS = `${options ?? ''} --require ${guard}`;
    process.env.STAVE_NETWORK_LOG = log;
    await open('winter/winter.stave');
    await run('stave.restartServer');
  });

  after(async () => {
    delete process.env.STAVE_NETWORK_LOG;
    if (options === undefined) delete process.env.NODE_OPTIONS;
    else process.env.NODE_OPTIONS = options;
  });

  it('is not asked for while loads, reasons, checks and plans are made', async () => {
    const { document } = await open('winter/winter.stave');
    const whole = new vscode.Range(0, 0, document.lineCount, 0);
    await until(
      'hints',
      async () => (await run('vscode.executeInlayHintProvider', document.uri, whole)).length > 0,
    );
    const at = document.positionAt(document.getText().indexOf('3x6 r2') + 1);
    assert.ok((await run('vscode.executeHoverProvider', document.uri, at)).length > 0);
    await run('vscode.executeCompletionItemProvider', document.uri, at);
    await run('vscode.executeFormatDocumentProvider', document.uri, { tabSize: 2, insertSpaces: true });
    const [check] = await vscode.tasks.fetchTasks({ type: 'stave' });
    await vscode.tasks.executeTask(check);
    // What the command for the printed plan asks the server for, without the question whose it is.
    const { server } = vscode.extensions.getExtension(EXTENSION).exports;
    const request = { uri: document.uri.toString(), client: 'heron', folder: null };
    await server.execute('stave.server.writePlan', request);
    const plans = path.join(folder().fsPath, 'plans');
    await until(
      'the plan',
      () => fs.existsSync(plans) && fs.readdirSync(plans).some((name) => /pdf$/.test(name)),
    );
    fs.rmSync(plans, { recursive: true });
    assert.deepEqual(attempts(), []);
  });

  it('would be noticed', async () => {
    await new Promise((resolve) => http.get('http://127.0.0.1:1/').on('error', resolve));
    assert.ok(attempts().length > 0);
  });
});
