// Why a load is what it is: the page of reasons, by command, by the link in the hover, and while the cursor moves.
const assert = require('node:assert/strict');
const fs = require('node:fs');
const vscode = require('vscode');
const { EXTENSION, folder, itInWindow, picture, until } = require('../support.cjs');

const run = (command, ...rest) => vscode.commands.executeCommand(command, ...rest);
const winter = 'winter/winter.stave';
const axe = fs.readFileSync(require.resolve('axe-core/axe.min.js'), 'utf8');

async function open(file) {
  const document = await vscode.workspace.openTextDocument(vscode.Uri.joinPath(folder(), file));
  return vscode.window.showTextDocument(document, { viewColumn: vscode.ViewColumn.One, preview: false });
}

function placeOf(document, piece, plus = 0) {
  const at = document.getText().indexOf(piece);
  assert.notEqual(at, -1, `the file holds ${piece}`);
  return document.positionAt(at + plus);
}

async function goTo(editor, position) {
  editor.selection = new vscode.Selection(position, position);
  editor.revealRange(editor.selection, vscode.TextEditorRevealType.InCenter);
  // The panel has taken the keyboard.
  await vscode.window.showTextDocument(editor.document, editor.viewColumn);
  await run('workbench.action.focusActiveEditorGroup');
}

const panelTab = () =>
  vscode.window.tabGroups.all
    .flatMap(({ tabs }) => tabs)
    .find(({ input }) => input instanceof vscode.TabInputWebview && input.viewType.includes('stave.why'));

const THEMES = [
  ['Default Dark Modern', vscode.ColorThemeKind.Dark, 'dark'],
  ['Default High Contrast', vscode.ColorThemeKind.HighContrast, 'contrast'],
  ['Default High Contrast Light', vscode.ColorThemeKind.HighContrastLight, 'contrast-light'],
  ['Default Light Modern', vscode.ColorThemeKind.Light, 'light'],
];

async function setTheme(name, kind) {
  const settings = vscode.workspace.getConfiguration('workbench');
  await settings.update('colorTheme', name, vscode.ConfigurationTarget.Global);
  await until(`the theme ${name}`, () => vscode.window.activeColorTheme.kind === kind);
  await new Promise((resolve) => setTimeout(resolve, 500));
}

const resetTheme = () =>
  vscode.workspace
    .getConfiguration('workbench')
    .update('colorTheme', undefined, vscode.ConfigurationTarget.Global);

const VIOLATIONS = `axe.run(document, { runOnly: ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa'] }).then(({ violations, passes }) =>
  passes.length < 8 ? ['too little was looked at'] : violations.map(({ id, nodes }) => id + ': ' + nodes[0].html.slice(0, 200)))`;

/** The page as a person reads it. */
const page = async () => (await workbench.panelText('#page').catch(() => [])).join('\n');
const shows = (what, test) => until(what, async () => test(await page()) || null);
const steps = () => workbench.panelText('.step');

/** Asks for the reasons of the third week of the worked example. */
async function explainThird() {
  const editor = await open(winter);
  await goTo(editor, placeOf(editor.document, '| x5', 3));
  await run('stave.explain');
  await shows('the third week', (text) => text.includes('week 3') && text.includes('4 × 5 at 47.5 kg'));
  return editor;
}

describe('the reasons of a load', function () {
  this.timeout(90_000);

  before(async function () {
    if (!globalThis.workbench) this.skip();
    await run('workbench.action.closeAllEditors');
    await run('workbench.action.closeSidebar');
    await open(winter);
    await until('activation', () => vscode.extensions.getExtension(EXTENSION).isActive);
    await vscode.extensions
      .getExtension(EXTENSION)
      .exports.server.status(vscode.Uri.joinPath(folder(), winter));
  });

  afterEach(async () => {
    const editor = vscode.window.visibleTextEditors.find(({ document }) => document.isDirty);
    if (!editor) return;
    await vscode.window.showTextDocument(editor.document, editor.viewColumn);
    await run('workbench.action.files.revert');
  });

  itInWindow('are told step by step, each with its number, its line and its source', async () => {
    await explainThird();
    assert.equal(panelTab()?.label, 'Back squat · Heron');
    const found = await steps();
    const has = (heading, ...pieces) =>
      assert.ok(
        found.some((text) => text.startsWith(heading) && pieces.every((piece) => text.includes(piece))),
        `${heading}: ${pieces.join(', ')} in\n${found.join('\n---\n')}`,
      );
    has('Max', '47.5 kg × 5', 'winter.stave, line 12', 'max: back squat, 47.5kg x5 r2, 2026-11-23');
    has('Formula', '57 kg', 'Brzycki M. J Health Phys Educ Rec Dance 1993');
    has('What is asked', '83.3 %');
    has('Target', '47.5 kg');
    has('Kit and load', '47.5 kg', 'winter.stave, line 5', 'plates: 1.25kg x2');
    has('What it leaves', '2 left');
    await picture('explain');
  });

  itInWindow('lead to the line they rest on, by a click and by the keyboard', async () => {
    const editor = await explainThird();
    await workbench.panelClick('.step-max .line button');
    const max = placeOf(editor.document, 'max: back squat');
    await until('the cursor at the max', () => editor.selection.active.line === max.line);
    // The page stays: there is nothing to explain where the cursor went.
    await new Promise((resolve) => setTimeout(resolve, 500));
    assert.match(await page(), /4 × 5 at 47\.5 kg/);
    await workbench.panelPress('.step-load .line button', 'Enter');
    const kit = placeOf(editor.document, 'bar: 15kg');
    await until('the cursor at the kit', () => editor.selection.active.line === kit.line);
  });

  itInWindow('are a click away in the hover of a cell', async () => {
    const editor = await explainThird();
    const press = placeOf(editor.document, '3x8 r3', 2);
    await goTo(editor, press);
    await run('editor.action.showHover');
    await until('the link', async () =>
      (await workbench.text('.monaco-hover a')).some((text) => text === 'Explain this load'),
    );
    await picture('explain-hover');
    await workbench.click('.monaco-hover a:has-text("Explain this load")');
    await shows('the press', (text) => text.includes('Overhead press for Heron') && text.includes('20 kg'));
    assert.equal(panelTab()?.isActive, true);
  });

  itInWindow('follow the cursor and the text, and are asked for another day in the panel', async () => {
    const editor = await explainThird();
    await goTo(editor, placeOf(editor.document, '3x6 r2', 2));
    await shows('the first week', (text) => text.includes('week 1') && text.includes('3 × 6 at 45 kg'));
    await editor.edit((edit) => edit.insert(new vscode.Position(0, 0), '-- a line above\n-- and one more\n'));
    const start = placeOf(editor.document, '3x6 r2');
    await editor.edit((edit) => edit.replace(new vscode.Range(start, start.translate(0, 3)), '3x4'));
    await shows('what was typed', (text) => text.includes('3 × 4 at') && text.includes('line 23'));
    await workbench.panelSelect('#day', '2027-01-04');
    await shows('the deload', (text) => text.includes('week 5 (deload)'));
    assert.match((await steps()).join('\n'), /Deload\n+Deload week: 40 % fewer sets/);
    await picture('explain-deload');
  });

  itInWindow('say what to do where there is no cell', async () => {
    const editor = await open(winter);
    await goTo(editor, new vscode.Position(0, 0));
    await run('stave.explain');
    await shows('the words', (text) => text.includes('No cell here') && text.includes('Put the cursor'));
    assert.match(await workbench.panelRun(`document.getElementById('spoken').textContent`), /No cell here/);
  });

  itInWindow('come back from what the editor kept over a reload of the window', async () => {
    const editor = await explainThird();
    const { whys } = vscode.extensions.getExtension(EXTENSION).exports;
    const { line, character } = placeOf(editor.document, '3x8 r3', 1);
    const panel = vscode.window.createWebviewPanel('stave.why', '', vscode.ViewColumn.Two, {});
    const uri = editor.document.uri.toString();
    await whys.deserializeWebviewPanel(panel, { uri, view: 'why', line, character, day: '2026-12-17' });
    await shows('the second week', (text) => /Overhead press for Heron/.test(text) && /week 2/.test(text));
    const broken = vscode.window.createWebviewPanel('stave.why', '', vscode.ViewColumn.Two, {});
    await whys.deserializeWebviewPanel(broken, { uri: 7, view: 'x', line: 'y' });
    await shows('words in place of a page', (text) => /Put the cursor into a cell/.test(text));
    broken.dispose();
  });

  itInWindow('can be read by everyone in light, dark and high contrast', async () => {
    await explainThird();
    const found = {};
    for (const [theme, kind, name] of THEMES) {
      await setTheme(theme, kind);
      await workbench.panelRun(axe);
      found[name] = await workbench.panelRun(VIOLATIONS);
      await picture(`explain-${name}`);
    }
    await resetTheme();
    assert.deepEqual(found, Object.fromEntries(THEMES.map(([, , name]) => [name, []])));
  });

  itInWindow('break no rule of their own page', async () => {
    await explainThird();
    const policy = `document.querySelector('meta[http-equiv="Content-Security-Policy"]').content`;
    assert.match(
      await workbench.panelRun(policy),
      /^default-src 'none'; script-src 'nonce-[0-9a-f]{32}'; style-src 'nonce-[0-9a-f]{32}'$/,
    );
    const inline = `document.body.querySelectorAll('[style], [onclick], style').length`;
    assert.equal(await workbench.panelRun(inline), 0);
    const complaints = (await workbench.consoleErrors()).filter((text) =>
      /Content Security Policy|unsafe-eval|unsafe-inline|preview\.js|preview\.css/i.test(text),
    );
    assert.deepEqual(complaints, []);
  });
});
