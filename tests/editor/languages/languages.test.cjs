// A window in another language: everything that the extension and its server say is in it, and nothing is English.
const assert = require('node:assert/strict');
const fs = require('node:fs');
const path = require('node:path');
const vscode = require('vscode');
const { EXTENSION, folder, goTo, open, palette, picture, placeOf, ready, until } = require('../support.cjs');

const run = (command, ...rest) => vscode.commands.executeCommand(command, ...rest);
const winter = 'winter/winter.stave';
const language = vscode.env.language;
const root = vscode.extensions.getExtension(EXTENSION).extensionPath;
const json = (file) => JSON.parse(fs.readFileSync(path.join(root, file), 'utf8'));
const english = json('package.nls.json');
const own = json(`package.nls.${language}.json`);
const server = json(`server/l10n/${language}.json`);
const client = json(`client/l10n/bundle.l10n.${language}.json`);

/** English phrases that mean nothing in the other language, so that they can be looked for in a whole page. */
const phrases = [
  ...new Set(
    [
      ...Object.entries({ ...server, ...client }),
      ...Object.keys(english).map((key) => [english[key], own[key]]),
    ]
      .filter(([text, other]) => text !== other && !/[{`*]/.test(text) && /[a-z]{3,} [a-z]{2,}/i.test(text))
      .map(([text]) => text.trim()),
  ),
];

const seen = (selector) =>
  workbench.text(selector).then((texts) => texts.join('\n').replaceAll('\u00a0', ' '));
/** The document in the panel, which is a tree of its own. */
const sheetSays = () =>
  workbench.panelText('#sheet .sheet').then(
    (texts) => texts.join('\n'),
    () => '',
  );
const panelSays = () => workbench.panelText('body').then((texts) => texts.join('\n'));

/** Fails where a page holds a phrase of ours in English. */
function inLanguage(where, text) {
  const left = phrases.filter((phrase) => text.includes(phrase));
  assert.deepEqual(left, [], `${where} says in English:\n${text.slice(0, 2000)}`);
}

describe(`a window in ${language}`, function () {
  this.timeout(90_000);

  before(async () => {
    assert.ok(['de', 'es'].includes(language), language);
    assert.ok(phrases.length > 500);
    const { document } = await open(winter);
    await ready(document.uri);
    await run('workbench.action.closeSidebar');
  });

  afterEach(async () => {
    for (const document of vscode.workspace.textDocuments.filter(({ isDirty }) => isDirty)) {
      await vscode.window.showTextDocument(document);
      await run('workbench.action.files.revert');
    }
  });

  it('names its commands', async () => {
    const editor = await open(winter);
    await goTo(editor, placeOf(editor.document, '3x6 r2', 1));
    const rows = (await palette('Stave: ')).filter((row) => row.startsWith('Stave'));
    await picture(`${language}-palette`);
    await workbench.press('Escape');
    assert.ok(rows.length > 5, rows.join('\n'));
    // The editor puts the English title under each, for people who know that one.
    const titles = rows.map((row) => row.split('\n')[0].replace(/^Stave: /, ''));
    const known = Object.keys(own).filter((key) => key.startsWith('command.'));
    const strange = titles.filter((title) => !known.some((key) => own[key] === title));
    assert.deepEqual(strange, []);
  });

  it('says what it shows beside and above the text, and why', async () => {
    const editor = await open(winter);
    await goTo(editor, placeOf(editor.document, '3x6 r2', 1));
    const lens = await until('a lens', async () => {
      const text = await seen('.codelens-decoration');
      return /Heron|1 \w+ ·/.test(text) && text;
    });
    inLanguage('the lenses', lens);
    await run('editor.action.showHover');
    const hover = await until('the hover', async () => {
      const text = await seen('.monaco-hover .hover-contents');
      return text.includes('Brzycki') && text;
    });
    await picture(`${language}-hover`);
    inLanguage('the hover', hover);
    assert.match(hover, /45 kg/);
    await workbench.press('Escape');
    await run('editor.action.triggerParameterHints');
    const help = await until('the help', async () => {
      const text = await seen('.parameter-hints-widget');
      return text.includes('3x6') && text;
    });
    inLanguage('the help', help);
    await run('closeParameterHints');
  });

  it('says what is wrong, and offers repairs', async () => {
    const editor = await open(winter);
    const at = placeOf(editor.document, 'back squat:     3x6', 6);
    await editor.edit((edit) => edit.insert(at, 's'));
    await until('the finding', () =>
      vscode.languages
        .getDiagnostics(editor.document.uri)
        .some(({ message }) => message.includes('back ssquat')),
    );
    await goTo(editor, at);
    await run('workbench.actions.view.problems');
    const problems = await until('the list', async () => {
      const text = await seen('.markers-panel .monaco-list-row');
      return text.includes('ssquat') && text;
    });
    inLanguage('the list of problems', problems);
    await run('workbench.action.focusActiveEditorGroup');
    await run('editor.action.quickFix');
    const repairs = await until('the repairs', async () => {
      const text = await seen('.action-widget');
      return text.includes('back squat') && text;
    });
    await picture(`${language}-repairs`);
    inLanguage('the repairs', repairs);
    await workbench.press('Escape');
    await run('workbench.action.closePanel');
  });

  it('shows its documents, reasons and what would be', async () => {
    const editor = await open(winter);
    await goTo(editor, placeOf(editor.document, '3x6 r2', 1));
    await run('stave.openPreview');
    await until('the plan', async () => /Back squat/.test(await sheetSays()));
    await new Promise((resolve) => setTimeout(resolve, 500));
    inLanguage('the panel', await panelSays());
    inLanguage('the plan', await sheetSays());
    await picture(`${language}-preview`);
    await run('stave.openRoster');
    await until(
      'the roster',
      async () => (await workbench.panelRun(`document.getElementById('kind').value`)) === 'roster',
    );
    await new Promise((resolve) => setTimeout(resolve, 800));
    inLanguage('the roster', await sheetSays());
    await picture(`${language}-roster`);
    for (const kind of (await workbench.panelText('#kind option')).keys()) {
      await workbench.panelSelect('#kind', { index: kind });
      await new Promise((resolve) => setTimeout(resolve, 800));
      inLanguage(`document ${kind}`, `${await sheetSays()}\n${await panelSays()}`);
      await picture(`${language}-document-${kind}`);
    }
    const spoken = `document.documentElement.lang + ' ' + (document.getElementById('sheet').closest('[lang]').lang)`;
    assert.equal(await workbench.panelRun(spoken), `${language} ${language}`);
    await run('workbench.action.closeEditorsInOtherGroups');
    await goTo(await open(winter), placeOf(editor.document, '3x6 r2', 1));
    await run('stave.explain');
    await until('the reasons', async () => /47\.5 kg/.test(await panelSays().catch(() => '')));
    inLanguage('the reasons', await panelSays());
    await picture(`${language}-explain`);
    await run('stave.whatIf');
    await until(
      'the fields',
      async () => (await workbench.panelText('#fields legend').catch(() => [])).length > 0,
    );
    await workbench.panelClick('[data-field="max back squat"]');
    await workbench.panelRun(`document.querySelector('[data-field="max back squat"]').select()`);
    await workbench.type('50kg x5 r2, 2026-11-23');
    await until('what would be', async () => /→ 47\.5 kg/.test(await panelSays()));
    inLanguage('what would be', await panelSays());
    await picture(`${language}-what-if`);
    await run('workbench.action.closeAllEditors');
  });

  it('leads through the first ten minutes', async () => {
    await run('stave.getStarted');
    const page = await until('the walkthrough', async () => {
      const text = await seen('.gettingStartedContainer');
      return text.includes(own['walkthrough.client.title']) && text;
    });
    assert.ok(page.includes(own['walkthrough.client.title']));
    inLanguage('the walkthrough', await seen('.gettingStartedSlideDetails'));
    await picture(`${language}-walkthrough`);
    void run('stave.newClient');
    const question = await until('the question', async () => {
      const text = await seen('.quick-input-widget');
      return text.includes(client['New client: where to keep the files?']) && text;
    });
    inLanguage('the question', question);
    await picture(`${language}-new-client`);
    await workbench.press('Escape');
    await run('workbench.action.closeAllEditors');
  });

  it('describes its settings', async () => {
    await run('workbench.action.openSettings', '@ext:stave.stave');
    const text = await until('the settings', async () => {
      const shown = await seen('.settings-editor .setting-item-contents');
      return shown.includes(own['setting.hints.reserve']) && shown;
    });
    await picture(`${language}-settings`);
    inLanguage('the settings', text);
    await run('workbench.action.closeAllEditors');
  });

  it('says whose loads are shown', async () => {
    await open(winter);
    await until('the language status', async () => {
      await workbench.hover('#status\\.languageStatus');
      return (await seen('.hover-language-status')).includes('Heron');
    });
    await picture(`${language}-status`);
    inLanguage('the language status', await seen('.hover-language-status'));
    assert.ok(folder());
  });
});
