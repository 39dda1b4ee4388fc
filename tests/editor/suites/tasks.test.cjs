// The tasks of a folder: findings of files that are not open, in the list of problems.
const assert = require('node:assert/strict');
const vscode = require('vscode');
const { folder, open, picture, ready, until } = require('../support.cjs');

const file = () => vscode.Uri.joinPath(folder(), 'tasks', 'closed.stave');
const write = (text) => vscode.workspace.fs.writeFile(file(), new TextEncoder().encode(text));
const broken = 'program Sandpiper\n\nblock One, 1 weeks\nday A\n  back ssquat: 3x5\n';
const problems = () =>
  vscode.languages.getDiagnostics(file()).filter(({ message }) => message.includes('back ssquat'));

async function task(name) {
  const tasks = await vscode.tasks.fetchTasks({ type: 'stave' });
  const found = tasks.find(({ definition }) => definition.task === name);
  assert.ok(found, `${name} is offered; there are: ${tasks.map((one) => one.name).join(', ')}`);
  return found;
}

describe('the tasks', function () {
  this.timeout(60_000);

  before(async () => {
    const { document } = await open('winter/winter.stave');
    await ready(document.uri);
    // A file that is opened while the extension runs takes nothing from what the tasks find in others.
    await open('boathouse/kits.stave');
    await write(broken);
  });

  after(() => vscode.workspace.fs.delete(file()));

  it('check lists the findings of files that are not open, and ends with 1 where there are some', async () => {
    const ended = new Promise((resolve) => {
      const listening = vscode.tasks.onDidEndTaskProcess(({ exitCode, execution }) => {
        if (execution.task.definition.type !== 'stave') return;
        listening.dispose();
        resolve(exitCode);
      });
    });
    await until('the server has seen the file', async () => {
      await new Promise((resolve) => setTimeout(resolve, 500));
      return true;
    });
    await vscode.tasks.executeTask(await task('check'));
    assert.equal(await ended, 1);
    const [problem] = await until('the problem', () => problems().length > 0 && problems());
    assert.equal(problem.source, 'stave');
    assert.equal(problem.severity, vscode.DiagnosticSeverity.Error);
    assert.equal(problem.range.start.line, 4);
    await vscode.commands.executeCommand('workbench.actions.view.problems');
    await picture('task');
  });

  it('watch takes a problem back when its file is mended', async () => {
    const execution = await vscode.tasks.executeTask(await task('watch'));
    await until('the problem', () => problems().length > 0);
    await write(broken.replace('ssquat', 'squat'));
    await until('no problem', () => problems().length === 0);
    await write(broken);
    await until('the problem again', () => problems().length > 0);
    execution.terminate();
  });
});
