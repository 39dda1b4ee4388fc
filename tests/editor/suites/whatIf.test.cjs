// What would be if a max or a kit were written differently, beside what is; the files stay as they are.
const assert = require('node:assert/strict');
const fs = require('node:fs');
const vscode = require('vscode');
const { EXTENSION, folder, itInWindow, picture, until } = require('../support.cjs');

const run = (command, ...rest) => vscode.commands.executeCommand(command, ...rest);
const axe = fs.readFileSync(require.resolve('axe-core/axe.min.js'), 'utf8');
const violations = `axe.run(document, { runOnly: ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa'] }).then(({ violations, passes }) =>
  passes.length < 8 ? ['too little was looked at'] : violations.map(({ id, nodes }) => id + ': ' + nodes[0].html.slice(0, 200)))`;

async function open(file) {
  const document = await vscode.workspace.openTextDocument(vscode.Uri.joinPath(folder(), file));
  return vscode.window.showTextDocument(document, { viewColumn: vscode.ViewColumn.One, preview: false });
}

/** What comes of the changes, in a sentence. */
const outcome = async () => (await workbench.panelText('#spoken').catch(() => [])).join();
const says = (what, test) => until(what, async () => test(await outcome()) || null);
const page = async () => (await workbench.panelText('#page')).join('\n');
const field = (id) => `[data-field="${id}"]`;

/**
 * Writes into a field as a person does: selects what stands there and types over it. The editor answers the key for
 * selecting everything only a moment later, when a fast hand has typed already.
 */
async function write(id, text) {
  await workbench.panelClick(field(id));
  await workbench.panelRun(`document.querySelector('${field(id)}').select()`);
  await workbench.type(text);
}

async function openWhatIf() {
  const editor = await open('winter/winter.stave');
  await run('stave.whatIf');
  await until('the fields', async () =>
    (await workbench.panelText('#fields legend').catch(() => [])).includes('Newest maxes'),
  );
  if ((await outcome()) !== 'Nothing is written differently yet.') {
    await workbench.panelClick('#reset');
    await says('a fresh start', (text) => text === 'Nothing is written differently yet.');
  }
  return editor;
}

describe('what would be', function () {
  this.timeout(90_000);

  before(async function () {
    if (!globalThis.workbench) this.skip();
    await run('workbench.action.closeAllEditors');
    await run('workbench.action.closeSidebar');
    await open('winter/winter.stave');
    await until('activation', () => vscode.extensions.getExtension(EXTENSION).isActive);
  });

  afterEach(async function () {
    if (this.currentTest.state === 'failed') await picture('what-if-failed');
  });

  itInWindow(
    'if her max were another: which cells move, week by week, without touching the file',
    async () => {
      const editor = await openWhatIf();
      const before = editor.document.getText();
      assert.equal(
        await workbench.panelRun(`document.querySelector('[data-field="max back squat"]').value`),
        '47.5kg x5 r2, 2026-11-23',
      );
      await picture('what-if');
      await write('max back squat', '50kg x5 r2, 2026-11-23');
      // 50 × 36/30 = 60 kg: 60 × 29/36 = 48.33, 60 × 30/36 = 50, deload 60 × 28/36 = 46.67 kg.
      await says('the outcome', (text) => /^5 of 10 cells move: 5 heavier\./.test(text));
      const table = (await workbench.panelText('.moves')).join('\n');
      assert.match(table, /45 kg → 47\.5 kg/);
      assert.match(table, /47\.5 kg → 50 kg/);
      assert.match(table, /42\.5 kg → 45 kg/);
      assert.doesNotMatch(table, /Overhead press/);
      assert.match(await page(), /Compared: all 10 sessions of Heron, .*No file was changed\./);
      await picture('what-if-max');
      assert.equal(editor.document.getText(), before);
      assert.equal(editor.document.isDirty, false);
    },
  );

  itInWindow('if the kit had other plates', async () => {
    await openWhatIf();
    await write(
      'kit boathouse',
      'bar: 15kg\nplates: 0.5kg x2, 1.25kg x2, 2.5kg x2, 5kg x4, 10kg x4\ndumbbells: 2kg to 20kg by 2kg',
    );
    const words = await says('the outcome', (text) => /heavier/.test(text) && text);
    assert.match(words, /Findings: \d+ more, [1-9]\d* gone\./);
    // Small plates let the press grow, so that it is no longer stuck.
    assert.match(await page(), /Findings that go[\s\S]*stuck/);
    await picture('what-if-kit');
  });

  itInWindow('says what cannot be read, and leaves it out', async () => {
    await openWhatIf();
    await write('max back squat', '50kg x');
    await until('the reason', async () =>
      (await workbench.panelText('.problem')).some((text) => text !== ''),
    );
    assert.match(await outcome(), /cannot be read yet/);
    assert.equal(
      await workbench.panelRun(
        `document.querySelector('[data-field="max back squat"]').getAttribute('aria-invalid')`,
      ),
      'true',
    );
    await picture('what-if-problem');
  });

  itInWindow('goes back to what is written, and to the reasons of a load', async () => {
    await openWhatIf();
    await write('max overhead press', '25kg x6 r2, 2026-11-23');
    await says('the outcome', (text) => /cells move/.test(text));
    await workbench.panelClick('#reset');
    await says('nothing', (text) => text === 'Nothing is written differently yet.');
    assert.equal(
      await workbench.panelRun(`document.querySelector('[data-field="max overhead press"]').value`),
      '22.5kg x6 r2, 2026-11-23',
    );
    await workbench.panelClick('#view-why');
    await until('the reasons', async () => /No cell here|What is asked/.test(await page()));
    assert.equal(await workbench.panelRun(`document.getElementById('fields').hidden`), true);
  });

  itInWindow('keeps what was tried when the page is made anew', async () => {
    await openWhatIf();
    await write('max back squat', '55kg x5 r2, 2026-11-23');
    const words = await says('the outcome', (text) => /heavier/.test(text) && text);
    await run('workbench.action.webview.reloadWebviewAction');
    await new Promise((resolve) => setTimeout(resolve, 500));
    // The old page is still there for a moment.
    const value = `document.querySelector('[data-field="max back squat"]').value`;
    await until('what was typed', async () => {
      const typed = await workbench.panelRun(value).catch(() => '');
      return typed === '55kg x5 r2, 2026-11-23' && (await outcome()) === words;
    });
  });

  itInWindow('can be used by everyone in light, dark and high contrast', async () => {
    await openWhatIf();
    await write('max back squat', '50kg x5 r2, 2026-11-23');
    await says('the outcome', (text) => /heavier/.test(text));
    const themes = [
      ['Default Dark Modern', vscode.ColorThemeKind.Dark, 'dark'],
      ['Default High Contrast', vscode.ColorThemeKind.HighContrast, 'contrast'],
      ['Default Light Modern', vscode.ColorThemeKind.Light, 'light'],
    ];
    const settings = () => vscode.workspace.getConfiguration('workbench');
    const found = {};
    for (const [theme, kind, name] of themes) {
      await settings().update('colorTheme', theme, vscode.ConfigurationTarget.Global);
      await until(`the theme ${name}`, () => vscode.window.activeColorTheme.kind === kind);
      await new Promise((resolve) => setTimeout(resolve, 500));
      await workbench.panelRun(axe);
      found[name] = await workbench.panelRun(violations);
      await picture(`what-if-${name}`);
    }
    await settings().update('colorTheme', undefined, vscode.ConfigurationTarget.Global);
    assert.deepEqual(found, { dark: [], contrast: [], light: [] });
  });
});
