// The panel beside the text: it follows the text, leads back to it, and looks right in every theme.
const assert = require('node:assert/strict');
const fs = require('node:fs');
const vscode = require('vscode');
const { EXTENSION, folder, itInWindow, picture, until } = require('../support.cjs');

const run = (command, ...rest) => vscode.commands.executeCommand(command, ...rest);
const winter = 'winter/winter.stave';
const axe = fs.readFileSync(require.resolve('axe-core/axe.min.js'), 'utf8');

/** Opens a file of the folder in the first column, where the panel is not. */
async function open(file) {
  const document = await vscode.workspace.openTextDocument(vscode.Uri.joinPath(folder(), file));
  return vscode.window.showTextDocument(document, { viewColumn: vscode.ViewColumn.One, preview: false });
}

const panelTab = () =>
  vscode.window.tabGroups.all
    .flatMap(({ tabs }) => tabs)
    .find(({ input }) => input instanceof vscode.TabInputWebview && input.viewType.includes('stave.preview'));

/** The text of the rows of the document, as a person sees it. */
const rows = () => workbench.panelText('#sheet tr').catch(() => []);
const shows = (what, test) => until(what, async () => test((await rows()).join('\n')) || null);

function placeOf(document, piece) {
  const at = document.getText().indexOf(piece);
  assert.notEqual(at, -1, `the file holds ${piece}`);
  return document.positionAt(at);
}

async function put(editor, position) {
  editor.selection = new vscode.Selection(position, position);
}

async function replace(editor, from, to) {
  const start = placeOf(editor.document, from);
  const range = new vscode.Range(start, start.translate(0, from.length));
  await editor.edit((edit) => edit.replace(range, to));
}

async function openPreview() {
  const editor = await open(winter);
  await run('stave.openPreview');
  await until('the panel', async () => (await workbench.panelText('#kind').catch(() => [])).join() !== '');
  await workbench.panelSelect('#kind', 'plan');
  await workbench.panelSelect('#client', 'heron');
  await until('her plan', () => panelTab()?.label === 'Heron · Plan');
  await shows('the plan', (text) => text.includes('Back squat'));
  return editor;
}

async function setTheme(name, kind) {
  await vscode.workspace
    .getConfiguration('workbench')
    .update('colorTheme', name, vscode.ConfigurationTarget.Global);
  await until(`the theme ${name}`, () => vscode.window.activeColorTheme.kind === kind);
  await until(
    'its colours in the panel',
    async () => (await workbench.panelRun('document.body.dataset.vscodeThemeKind ?? ""')) !== '',
  );
  await new Promise((resolve) => setTimeout(resolve, 500));
}

describe('the preview', function () {
  this.timeout(90_000);

  before(async function () {
    if (!globalThis.workbench) this.skip();
    await run('workbench.action.closeAllEditors');
    await run('workbench.action.closeSidebar');
    await open(winter);
    await until('activation', () => vscode.extensions.getExtension(EXTENSION).isActive);
  });

  afterEach(async () => {
    const editor = vscode.window.visibleTextEditors.find(({ document }) => document.isDirty);
    if (!editor) return;
    await vscode.window.showTextDocument(editor.document, editor.viewColumn);
    await run('workbench.action.files.revert');
  });

  itInWindow('opens beside the text by its key, and leaves the keyboard in the text', async () => {
    const editor = await open(winter);
    await run('workbench.action.focusActiveEditorGroup');
    await workbench.press('Control+K');
    await workbench.press('V');
    await shows('the plan', (text) => text.includes('Back squat') && text.includes('47.5 kg'));
    assert.equal(panelTab()?.label, 'Heron · Plan');
    assert.equal(vscode.window.activeTextEditor?.document.uri.toString(), editor.document.uri.toString());
    const icons = await workbench.text('.editor-actions .action-label[aria-label*="Preview Beside"]');
    assert.equal(icons.length, 1);
    await picture('preview');
  });

  itInWindow('opens once only', async () => {
    await openPreview();
    await run('stave.openPreview');
    const tabs = vscode.window.tabGroups.all.flatMap((group) => group.tabs);
    assert.equal(tabs.filter(({ input }) => input instanceof vscode.TabInputWebview).length, 1);
  });

  itInWindow('changes while somebody types, in place, and stays where it was', async () => {
    const editor = await openPreview();
    await put(editor, new vscode.Position(0, 0));
    await workbench.panelRun(`document.getElementById('desk').scrollTop = 700`);
    await until(
      'the scroll',
      async () => (await workbench.panelRun(`document.getElementById('desk').scrollTop`)) > 600,
    );
    const top = await workbench.panelRun(`document.getElementById('desk').scrollTop`);
    // The same element stays, only its words change.
    await workbench.panelRun(
      `window.kept = document.getElementById('sheet').shadowRoot.querySelectorAll('tr[data-at]')[0]`,
    );
    await replace(editor, '3x6 r2', '3x4 r2');
    await shows('the new cell', (text) => /3 × 4/.test(text));
    assert.match(
      await workbench.panelRun('window.kept.isConnected ? window.kept.textContent : "gone"'),
      /3 × 4/,
    );
    const after = await workbench.panelRun(`document.getElementById('desk').scrollTop`);
    assert.ok(Math.abs(after - top) < 40, `scrolled from ${top} to ${after}`);
  });

  itInWindow('leads from a cell to its text by a click', async () => {
    const editor = await openPreview();
    await put(editor, new vscode.Position(0, 0));
    const third = placeOf(editor.document, '| x5').translate(0, 2);
    await workbench.panelClick(`#sheet tr[data-at*=":${third.line}:${third.character}:"]`);
    await until('the cursor there', () => editor.selection.active.isEqual(third));
    assert.ok(editor.selection.isEmpty);
    assert.equal(vscode.window.activeTextEditor?.viewColumn, editor.viewColumn);
  });

  itInWindow('leads there by the keyboard alone', async () => {
    const editor = await openPreview();
    await put(editor, new vscode.Position(0, 0));
    await workbench.panelPress('#sheet [data-at][tabindex="0"]', 'Home');
    const first = placeOf(editor.document, '3x6 r2');
    const mark = `:${first.line}:${first.character}:`;
    for (let steps = 0; steps < 5; steps += 1) {
      const here = await workbench.panelRun(
        `document.getElementById('sheet').shadowRoot.activeElement?.dataset.at ?? ''`,
      );
      if (here.includes(mark)) break;
      await workbench.panelPress('#sheet [data-at][tabindex="0"]', 'ArrowDown');
    }
    await workbench.panelPress('#sheet [data-at][tabindex="0"]', 'Enter');
    await until('the cursor there', () => editor.selection.active.isEqual(first));
  });

  itInWindow('marks the cell of the cursor, and brings it into view', async () => {
    const editor = await openPreview();
    await workbench.panelRun(`document.getElementById('desk').scrollTop = 0`);
    // Somebody who scrolls or presses keys in the panel is left alone for a moment.
    await new Promise((resolve) => setTimeout(resolve, 1500));
    const cell = placeOf(editor.document, '+2% weekly').translate(0, 3);
    await put(editor, cell);
    const current = await until('the mark', async () => {
      const marked = await workbench.panelText('#sheet [aria-current="true"]');
      return marked.join().includes('Overhead press') && marked;
    });
    assert.ok(!current.join().includes('Back squat'));
    await until('the mark in view', () =>
      workbench.panelRun(`(() => {
        const marked = [...document.getElementById('sheet').shadowRoot.querySelectorAll('[aria-current]')];
        return marked.map((each) => each.getBoundingClientRect()).some(({ top, bottom }) => top > 0 && bottom < innerHeight);
      })()`),
    );
    await picture('preview-cursor');
  });

  itInWindow('shows what is chosen in it', async () => {
    await openPreview();
    const kinds = await workbench.panelText('#kind option');
    assert.ok(kinds.length >= 4, kinds.join());
    for (const kind of ['card', 'floor', 'overview']) {
      await workbench.panelSelect('#kind', kind);
      await until(
        `the ${kind}`,
        async () =>
          (await workbench.panelRun(`document.getElementById('kind').value`)) === kind &&
          (await rows()).length > 1,
      );
      await new Promise((resolve) => setTimeout(resolve, 400));
      await picture(`preview-${kind}`);
    }
    await workbench.panelSelect('#kind', 'plan');
    await workbench.panelClick('#large');
    await until('large print', () =>
      workbench
        .panelRun(
          `parseFloat(getComputedStyle(document.getElementById('sheet').shadowRoot.querySelector('td')).fontSize) > 17`,
        )
        .catch(() => false),
    );
    await picture('preview-large');
    await workbench.panelClick('#large');
    await workbench.panelSelect('#zoom', '150');
    await until(
      'the size',
      async () =>
        (await workbench.panelRun(
          `document.getElementById('sheet').shadowRoot.querySelector('.sheet').style.zoom`,
        )) === '1.5',
    );
    await workbench.panelSelect('#zoom', '0');
  });

  itInWindow('shows the other client of a folder, in the panel and in the text', async () => {
    await open('boathouse/programs/storm-cycle.stave');
    const clients = await until('the clients', async () => {
      const names = await workbench.panelText('#client option');
      return names.length > 1 && names;
    });
    assert.ok(clients.includes('Wren'), clients.join());
    await workbench.panelSelect('#client', { label: 'Wren' });
    await until('her plan', () => panelTab()?.label === 'Wren · Plan');
    const status = await vscode.extensions
      .getExtension(EXTENSION)
      .exports.server.status(vscode.Uri.joinPath(folder(), 'boathouse/programs/storm-cycle.stave'));
    assert.equal(status.shown, 'wren');
  });

  itInWindow(
    'asks the server nothing while nobody sees it, and is up to date when it is seen again',
    async () => {
      const editor = await openPreview();
      const { server } = vscode.extensions.getExtension(EXTENSION).exports;
      const ask = server.request;
      let asked = 0;
      server.request = function request(method, params) {
        if (method === 'stave/preview') asked += 1;
        return ask.call(server, method, params);
      };
      try {
        const other = await vscode.workspace.openTextDocument({ content: 'over the panel' });
        await vscode.window.showTextDocument(other, {
          viewColumn: panelTab().group.viewColumn,
          preserveFocus: true,
        });
        await new Promise((resolve) => setTimeout(resolve, 500));
        asked = 0;
        await replace(editor, '3x6 r2', '3x4 r2');
        await new Promise((resolve) => setTimeout(resolve, 1000));
        assert.equal(asked, 0);
        await run('stave.openPreview');
        await shows('the new cell', (text) => /3 × 4/.test(text));
        assert.ok(asked > 0);
      } finally {
        server.request = ask;
      }
    },
  );

  itInWindow('keeps its place and choices when the page is made anew', async () => {
    const editor = await openPreview();
    await put(editor, new vscode.Position(0, 0));
    await workbench.panelSelect('#zoom', '125');
    await workbench.panelRun(`document.getElementById('desk').scrollTop = 500`);
    await new Promise((resolve) => setTimeout(resolve, 400));
    const before = await workbench.panelRun(`document.getElementById('desk').scrollTop`);
    // The old page is there for a moment longer, and must not answer for the new one.
    await workbench.panelRun(`document.body.dataset.old = 'yes'`);
    await run('workbench.action.webview.reloadWebviewAction');
    const isNew = () => workbench.panelRun(`document.body.dataset.old === undefined`).catch(() => false);
    await until('a new page', isNew);
    await shows('the plan again', (text) => text.includes('Back squat'));
    assert.equal(await workbench.panelRun(`document.getElementById('zoom').value`), '125');
    await until(
      'the place',
      async () =>
        Math.abs((await workbench.panelRun(`document.getElementById('desk').scrollTop`)) - before) < 4,
    );
    await workbench.panelSelect('#zoom', '0');
  });

  itInWindow('comes back from what the editor kept over a reload of the window', async () => {
    const editor = await openPreview();
    const { previews } = vscode.extensions.getExtension(EXTENSION).exports;
    // What the editor does after a reload: an empty panel of the type, and the state that the page left.
    const panel = vscode.window.createWebviewPanel('stave.preview', '', vscode.ViewColumn.Two, {});
    await previews.deserializeWebviewPanel(panel, {
      uri: editor.document.uri.toString(),
      kind: 'card',
      date: '2026-12-10',
      large: false,
      zoom: 0,
      scroll: 0,
    });
    await shows('the card', (text) => /Overhead press/.test(text) && !/Back squat/.test(text));
    assert.match(panel.title, /Heron/);
    const broken = vscode.window.createWebviewPanel('stave.preview', '', vscode.ViewColumn.Two, {});
    await previews.deserializeWebviewPanel(broken, { uri: 7, zoom: 'x' });
    await until('words in place of a page', async () =>
      (await workbench.panelText('#empty').catch(() => [])).join().includes('Open a Stave file'),
    );
    broken.dispose();
  });

  itInWindow('says what to do where there is nothing to show', async () => {
    const editor = await openPreview();
    await replace(editor, 'follows: Harbour winter, from 2026-12-07, on mon thu', '');
    const words = await until('the words', async () => {
      const text = (await workbench.panelText('#empty')).join();
      return text.includes('no sessions') && text;
    });
    assert.match(words, /follows:/);
    assert.match(
      await workbench.panelRun(`document.getElementById('spoken').textContent`),
      /Heron has no sessions/,
    );
    await picture('preview-empty');
  });

  itInWindow('can be read by everyone in light, dark and high contrast', async () => {
    await openPreview();
    const themes = [
      ['Default Dark Modern', vscode.ColorThemeKind.Dark, 'dark'],
      ['Default High Contrast', vscode.ColorThemeKind.HighContrast, 'contrast'],
      ['Default High Contrast Light', vscode.ColorThemeKind.HighContrastLight, 'contrast-light'],
      ['Default Light Modern', vscode.ColorThemeKind.Light, 'light'],
    ];
    const violations = `axe.run(document, { runOnly: ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa'] }).then(({ violations, passes }) =>
          passes.length < 8 ? ['too little was looked at'] : violations.map(({ id, nodes }) => id + ': ' + nodes[0].html.slice(0, 200)))`;
    const found = {};
    for (const [theme, kind, name] of themes) {
      await setTheme(theme, kind);
      // The page allows no script but its own: axe is brought in by the driver, past the policy.
      await workbench.panelRun(axe);
      found[name] = await workbench.panelRun(violations);
      await picture(`preview-${name}`);
    }
    for (const kind of (await workbench.panelText('#kind option')).keys()) {
      await workbench.panelSelect('#kind', { index: kind });
      const title = (await workbench.panelText('#kind option'))[kind];
      await until(`the ${title}`, () => panelTab()?.label.endsWith(title));
      await new Promise((resolve) => setTimeout(resolve, 500));
      await workbench.panelRun(`document.getElementById('desk').scrollTop = 0`);
      found[title] = await workbench.panelRun(violations);
      await picture(`preview-kind-${kind}`);
    }
    await vscode.workspace
      .getConfiguration('workbench')
      .update('colorTheme', undefined, vscode.ConfigurationTarget.Global);
    assert.ok(Object.keys(found).length > 7);
    assert.deepEqual(found, Object.fromEntries(Object.keys(found).map((name) => [name, []])));
  });

  itInWindow('breaks no rule of its own page', async () => {
    await openPreview();
    const policy = await workbench.panelRun(
      `document.querySelector('meta[http-equiv="Content-Security-Policy"]').content`,
    );
    assert.match(
      policy,
      /^default-src 'none'; script-src 'nonce-[0-9a-f]{32}'; style-src 'nonce-[0-9a-f]{32}'$/,
    );
    assert.deepEqual(
      await workbench.panelRun(
        `[...document.getElementById('sheet').shadowRoot.querySelectorAll('script, style, link, [onclick]')].length`,
      ),
      0,
    );
    const complaints = (await workbench.consoleErrors()).filter((text) =>
      /Content Security Policy|unsafe-eval|unsafe-inline|preview\.js|preview\.css/i.test(text),
    );
    assert.deepEqual(complaints, []);
  });
});
