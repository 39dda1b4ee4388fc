// What a coach meets in an editor that runs in a browser: the same as elsewhere, from a folder that lies on no disk.
// Runs in a web worker, so there is no Node here.
const vscode = require('vscode');
require('mocha/mocha.js');

const run = (command, ...rest) => vscode.commands.executeCommand(command, ...rest);
const extension = () => vscode.extensions.getExtension('stave.stave');

/** Asks the runner, which has the window, to do something. */
async function ask(method, ...args) {
  // The suite is handed out by the runner itself.
  const address = vscode.Uri.joinPath(extension().extensionUri, '..', 'do').toString(true);
  const answer = await fetch(address, { method: 'POST', body: JSON.stringify({ method, args }) });
  return answer.json();
}

function equal(actual, expected, what = '') {
  const [a, b] = [JSON.stringify(actual), JSON.stringify(expected)];
  if (a !== b) throw new Error(`${what}\n  expected ${b}\n  found    ${a}`);
}

function ok(value, what) {
  if (!value) throw new Error(what);
}

async function until(what, probe, milliseconds = 15_000) {
  for (const end = Date.now() + milliseconds; Date.now() < end; ) {
    const value = await probe();
    if (value) return value;
    await new Promise((resolve) => setTimeout(resolve, 100));
  }
  throw new Error(`timed out: ${what}`);
}

const inFolder = (file) => vscode.Uri.joinPath(vscode.workspace.workspaceFolders[0].uri, file);
const whole = (document) => new vscode.Range(0, 0, document.lineCount, 0);
const textOf = async (uri) => new TextDecoder().decode(await vscode.workspace.fs.readFile(uri));
const write = (uri, text) => vscode.workspace.fs.writeFile(uri, new TextEncoder().encode(text));

async function open(file) {
  const document = await vscode.workspace.openTextDocument(inFolder(file));
  return vscode.window.showTextDocument(document, { preview: false });
}

const labels = async (document) =>
  (await run('vscode.executeInlayHintProvider', document.uri, whole(document)))
    .sort((a, b) => a.position.compareTo(b.position))
    .map(({ label }) => (typeof label === 'string' ? label : label.map(({ value }) => value).join('')));

const drawn = async () =>
  (await ask('text', '.editor-instance .view-line')).map((line) => line.replaceAll('\u00a0', ' '));

function suite() {
  const winter = 'winter/winter.stave';

  describe('Stave in an editor in a browser', function () {
    this.timeout(40_000);

    before(async () => {
      await open(winter);
      await until('activation', () => extension().isActive);
    });

    it('runs in a web worker, on a folder without a disk', () => {
      equal(typeof process, 'undefined', 'there is no Node');
      equal(vscode.env.remoteName, undefined, 'there is no remote machine');
      equal(vscode.env.uiKind, vscode.UIKind.Web);
      equal(vscode.workspace.workspaceFolders[0].uri.scheme, 'memory');
    });

    it('gives the loads of the worked example, drawn in the text', async () => {
      const { document } = await open(winter);
      await until('hints', async () => (await labels(document)).length > 0);
      const row = /back squat:\s+3x6 r2 warm rest 3min\s*= 45 kg\s*\| 4x\s*= 45 kg\s*\| x5\s*= 47\.5 kg/;
      await until('drawn loads', async () => (await drawn()).some((line) => row.test(line)));
      await ask('picture', 'web-hints');
    });

    it('knows names of files that are not open', async () => {
      const { document } = await open('boathouse/programs/storm-cycle.stave');
      await until('hints', async () => (await labels(document)).some((label) => / lb/.test(label)));
      const unknown = vscode.languages
        .getDiagnostics(document.uri)
        .filter(({ code }) => (code?.value ?? code) === 'unknown-name');
      equal(unknown, []);
    });

    it('underlines a mistake while it is typed, and takes it back', async () => {
      const editor = await open(winter);
      const at = editor.document.positionAt(editor.document.getText().indexOf('back squat:     3x6') + 6);
      const found = () =>
        vscode.languages
          .getDiagnostics(editor.document.uri)
          .find(({ code }) => (code?.value ?? code) === 'unknown-name');
      await editor.edit((edit) => edit.insert(at, 's'));
      ok(/ssquat/.test((await until('the finding', found)).message), 'it names what was found');
      await run('undo');
      await until('no finding', () => !found());
      await run('workbench.action.files.revert');
    });

    it('explains a load and lays a file out', async () => {
      const editor = await open(winter);
      const { document } = editor;
      const at = document.positionAt(document.getText().indexOf('3x6 r2') + 1);
      const hovers = await run('vscode.executeHoverProvider', document.uri, at);
      const text = hovers.flatMap(({ contents }) => contents.map(({ value }) => value)).join('\n');
      ok(text.includes('Heron') && text.includes('45 kg'), `the hover says whose load it is: ${text}`);
      const tidy = document.getText();
      await editor.edit((edit) =>
        edit.replace(whole(document), tidy.replace('  back squat:     3x6', 'back squat:  3X6')),
      );
      await run('editor.action.formatDocument');
      await until('the layout', () => /^ {2}back squat: +3x6 r2 warm/m.test(document.getText()));
      await run('workbench.action.files.revert');
    });

    it('follows files that change, move and go outside the editor', async () => {
      const { document } = await open('boathouse/programs/storm-cycle.stave');
      const folder = inFolder('boathouse/clients');
      const before = await labels(document);
      ok(before.length > 0, 'there are loads at first');
      const moved = inFolder('elsewhere');
      await vscode.workspace.fs.rename(folder, moved);
      await until('the same loads from the new place', async () => {
        const now = await labels(document);
        return JSON.stringify(now) === JSON.stringify(before);
      });
      await vscode.workspace.fs.delete(moved, { recursive: true });
      await until('no loads without clients', async () => (await labels(document)).length === 0);
    });

    it('takes rules from a stave.json of the folder', async () => {
      const uri = inFolder('rules/draft.stave');
      await write(uri, 'program Reed\nblock One, 1 weeks\nday A\n  back ssquat: 3x5\n');
      await write(inFolder('rules/stave.json'), '{ "rules": { "unknown-name": "hint" } }');
      const document = await vscode.workspace.openTextDocument(uri);
      const severity = () =>
        vscode.languages.getDiagnostics(uri).find(({ code }) => (code?.value ?? code) === 'unknown-name')
          ?.severity;
      await vscode.window.showTextDocument(document);
      await until('the severity of the file', () => severity() === vscode.DiagnosticSeverity.Hint);
      await vscode.workspace.fs.delete(inFolder('rules/stave.json'));
      await until('the severity of the rule', () => severity() === vscode.DiagnosticSeverity.Error);
    });

    it('lists the findings of files that are not open, by its tasks', async () => {
      const uri = inFolder('tasks/closed.stave');
      const broken = 'program Sandpiper\n\nblock One, 1 weeks\nday A\n  back ssquat: 3x5\n';
      await write(uri, broken);
      const problems = () =>
        vscode.languages.getDiagnostics(uri).filter(({ message }) => message.includes('back ssquat'));
      const task = async (name) =>
        (await vscode.tasks.fetchTasks({ type: 'stave' })).find(({ definition }) => definition.task === name);
      await until('the server has seen the file', async () =>
        (await extension().exports.server.check(inFolder(''))).lines.some((line) =>
          /closed\.stave:.*ssquat/.test(line),
        ),
      );
      const ended = new Promise((resolve) => {
        const listening = vscode.tasks.onDidEndTaskProcess(({ exitCode }) => {
          listening.dispose();
          resolve(exitCode);
        });
      });
      await vscode.tasks.executeTask(await task('check'));
      const [problem] = await until('the problem', () => problems().length > 0 && problems());
      equal(problem.severity, vscode.DiagnosticSeverity.Error);
      equal([problem.source, problem.code, problem.range.start.line], ['stave', 'unknown-name', 4]);
      equal(await ended, 1);
      await ask('picture', 'web-task');
      const watching = await vscode.tasks.executeTask(await task('watch'));
      await write(uri, broken.replace('ssquat', 'squat'));
      await until('no problem', () => problems().length === 0);
      await write(uri, broken);
      await until('the problem again', () => problems().length > 0);
      // An open file has its findings from the server alone.
      await vscode.window.showTextDocument(await vscode.workspace.openTextDocument(uri));
      await until('each finding once', () => problems().length === 1);
      watching.terminate();
      await run('workbench.action.closeActiveEditor');
      await run('workbench.action.closePanel');
      await vscode.workspace.fs.delete(inFolder('tasks'), { recursive: true });
    });

    it('prints a plan as HTML and PDF into the folder', async () => {
      await open(winter);
      const written = run('stave.printPlan');
      const folder = inFolder('plans');
      const names = await until(
        'both files',
        async () => {
          const found = await vscode.workspace.fs.readDirectory(folder).then(
            (entries) => entries.map(([name]) => name),
            () => [],
          );
          return found.some((name) => name.endsWith('.pdf')) && found.length > 1 && found;
        },
        30_000,
      );
      const html = names.find((name) => name.endsWith('.html'));
      ok((await textOf(vscode.Uri.joinPath(folder, html))).includes('Heron'), 'the page is hers');
      const pdf = await vscode.workspace.fs.readFile(
        vscode.Uri.joinPath(
          folder,
          names.find((name) => name.endsWith('.pdf')),
        ),
      );
      const text = new TextDecoder('latin1').decode(pdf);
      ok(text.startsWith('%PDF-1.'), 'it is a PDF');
      ok(/%%EOF\s*$/.test(text), 'it is whole');
      ok(/\/BaseFont \/\w+\+DejaVuSansCondensed/.test(text), 'it carries its font');
      await ask('print', `      (PDF of ${pdf.length} bytes)`);
      void written;
    });

    it('shows the plan beside the text', async () => {
      const editor = await open(winter);
      await run('stave.openPreview');
      const rows = async () => (await ask('panelText', '#sheet tr')).join('\n');
      await until('the plan', async () => /Back squat/.test(await rows()) && /47\.5 kg/.test(await rows()));
      const at = editor.document.positionAt(editor.document.getText().indexOf('3x6 r2'));
      await editor.edit((edit) => edit.replace(new vscode.Range(at, at.translate(0, 3)), '3x4'));
      await until('the change', async () => /3 × 4/.test(await rows()));
      await ask('picture', 'web-preview');
      await vscode.window.showTextDocument(editor.document, editor.viewColumn);
      await run('workbench.action.files.revert');
      await run('workbench.action.closeEditorsInOtherGroups');
    });

    it('tells the reasons of a load, and what would be', async () => {
      const editor = await open(winter);
      const at = editor.document.positionAt(editor.document.getText().indexOf('| x5') + 3);
      editor.selection = new vscode.Selection(at, at);
      await run('stave.explain');
      const page = async () => (await ask('panelText', '#page')).join('\n');
      await until('the reasons', async () => /4 × 5 at 47\.5 kg/.test(await page()));
      ok(/Source: Brzycki M\./.test(await page()), 'with the source of the formula');
      await ask('picture', 'web-explain');
      await run('stave.whatIf');
      await until('what was compared', async () => /Compared: all 10 sessions of Heron/.test(await page()));
      await ask('picture', 'web-what-if');
      await run('workbench.action.closeEditorsInOtherGroups');
      await run('workbench.action.closeAllEditors');
    });

    it('makes a client and her program in the folder, by keys alone', async () => {
      const asked = async (title) => {
        await until(`the question ${title}`, async () =>
          (await ask('text', '.quick-input-widget:not([style*="display: none"]) .quick-input-title'))
            .join()
            .includes(title),
        );
        // Its list is drawn a moment later.
        await new Promise((resolve) => setTimeout(resolve, 400));
      };
      const answer = async (title, text = '') => {
        await asked(title);
        if (text) await ask('type', text);
        await ask('press', 'Enter');
      };
      const made = run('stave.newClient');
      await asked('where to keep the files?');
      const places = (await ask('text', '.quick-input-list .monaco-list-row')).join('\n');
      ok(/samples/.test(places), `the open folder is offered: ${places}`);
      ok(!/home folder/.test(places), 'there is no home folder here');
      await ask('press', 'Enter');
      await answer('what do you call her here?', 'Redstart');
      await answer('year of birth');
      await asked('what is there to lift?');
      await ask('type', 'Home corner');
      await ask('press', 'ArrowDown');
      await ask('press', 'Space');
      await ask('picture', 'web-new-client');
      await ask('press', 'Enter');
      await answer('(1 of 3)', 'goblet squat 8kg 10 r3');
      await answer('(2 of 3)');
      const file = await made;
      equal(file.path, inFolder('clients/redstart.stave').path);
      const text = await textOf(file);
      ok(
        /client Redstart\n[\s\S]*trains at: Home corner\n {2}max: goblet squat, 8kg x10 r3, /.test(text),
        text,
      );
      const program = run('stave.starterProgram');
      await answer('Starter program: for whom?', 'Redstart');
      await answer('Redstart: which program to start from?');
      await answer('Redstart: on which days?');
      await program;
      const editor = await until(
        'her program',
        () =>
          vscode.window.activeTextEditor?.document.uri.path.endsWith('/programs/first-weeks.stave') &&
          vscode.window.activeTextEditor,
      );
      await until('her loads', async () => (await labels(editor.document)).join().includes('~ 6 kg'));
      await ask('picture', 'web-starter');
      await run('workbench.action.closeAllEditors');
      for (const name of ['clients', 'programs', 'kits.stave'])
        await vscode.workspace.fs.delete(inFolder(name), { recursive: true });
      // A new client is the chosen one; what follows looks at the loads of Heron.
      const { document } = await open(winter);
      const chosen = run('stave.chooseClient');
      await answer('Whose loads to show', 'Heron');
      await chosen;
      await until('her loads', async () => (await labels(document)).includes('= 47.5 kg'));
    });

    it('opens the page of a rule', async () => {
      // The preview of Markdown is no part of this window, so the page opens as text.
      await run('stave.showRule', 'heavy-early');
      await until('the page', () =>
        vscode.window.activeTextEditor?.document.uri.path.endsWith('/heavy-early.md'),
      );
    });

    it('starts its server again when asked', async () => {
      await run('stave.restartServer');
      const { document } = await open(winter);
      await until('hints', async () => (await labels(document)).includes('= 47.5 kg'));
    });

    it('has asked for nothing beyond the pages of the editor and its own', async () => {
      equal(await ask('outside'), []);
    });
  });
}

exports.run = async () => {
  mocha.setup({ ui: 'bdd', reporter: undefined });
  suite();
  const counts = { passes: 0, failures: 0 };
  const failed = await new Promise((resolve) => {
    const runner = mocha.run(resolve);
    runner.on('pass', (test) => {
      counts.passes += 1;
      ask('print', `    ✔ ${test.title}`);
    });
    runner.on('fail', (test, error) => {
      counts.failures += 1;
      ask('print', `    ✗ ${test.title}\n${error.stack ?? error.message}`);
    });
  });
  await ask('done', counts);
  if (failed > 0) throw new Error(`${failed} test(s) failed`);
};
