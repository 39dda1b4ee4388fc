// What stands beside the cells: each kind by its setting, in every theme, for those who listen, and for whom.
const assert = require('node:assert/strict');
const vscode = require('vscode');
const {
  chooseClient,
  drawnLines,
  goTo,
  itInWindow,
  labels,
  open,
  picture,
  placeOf,
  ready,
  until,
} = require('../support.cjs');

const run = (command, ...rest) => vscode.commands.executeCommand(command, ...rest);
const winter = 'winter/winter.stave';
const settings = () => vscode.workspace.getConfiguration('stave');
const set = (name, value) => settings().update(name, value, vscode.ConfigurationTarget.Global);

const KINDS = {
  'hints.reserve': [/r 2\.6/, /2\.6/],
  'hints.plates': [/10 \+ 5/, /10 \+ 5/],
  'hints.share': [/78\.9 ?%/, /78\.9 ?%/],
  'hints.deload': [/2 × 5/, /2 × 5/],
};

const THEMES = [
  ['Default Light Modern', vscode.ColorThemeKind.Light, 'light'],
  ['Default High Contrast', vscode.ColorThemeKind.HighContrast, 'contrast'],
  ['Default High Contrast Light', vscode.ColorThemeKind.HighContrastLight, 'contrast-light'],
  ['Default Dark Modern', vscode.ColorThemeKind.Dark, 'dark'],
];

async function hoverText(document, position) {
  const found = await run('vscode.executeHoverProvider', document.uri, position);
  return found.flatMap(({ contents }) => contents.map(({ value }) => value)).join('\n');
}

describe('what stands beside the cells', function () {
  this.timeout(90_000);

  before(async () => {
    await run('workbench.action.closeAllEditors');
    const { document } = await open(winter);
    await ready(document.uri);
    await until('loads', async () => (await labels(document)).includes('= 47.5 kg'));
  });

  after(async () => {
    for (const name of [...Object.keys(KINDS), 'hints.loads', 'hints.align']) await set(name, undefined);
  });

  for (const [name, [hint, hover]] of Object.entries(KINDS)) {
    it(`has ${name} by its setting, and tells it in the hover too`, async () => {
      const { document } = await open(winter);
      const row = (await labels(document)).join(' | ');
      assert.doesNotMatch(row, hint);
      await set(name, true);
      await until('the kind', async () => hint.test((await labels(document)).join(' | ')));
      // The last week is the deload; the others have their first week looked at.
      const at = name === 'hints.deload' ? placeOf(document, '|  |', 4) : placeOf(document, '3x6 r2', 1);
      assert.match(await hoverText(document, at), hover);
    });
  }

  itInWindow('is drawn with all kinds at once, in light, dark and high contrast', async () => {
    const editor = await open(winter);
    await goTo(editor, placeOf(editor.document, 'day Lower', 2));
    await until('all kinds', async () =>
      (await drawnLines()).some((line) => /45 kg/.test(line) && /78\.9/.test(line) && /10 \+ 5/.test(line)),
    );
    const theme = () => vscode.workspace.getConfiguration('workbench');
    for (const [label, kind, shot] of THEMES) {
      await theme().update('colorTheme', label, vscode.ConfigurationTarget.Global);
      await until(`the theme ${label}`, () => vscode.window.activeColorTheme.kind === kind);
      await new Promise((resolve) => setTimeout(resolve, 500));
      await picture(`hints-all-${shot}`);
    }
    for (const name of Object.keys(KINDS)) await set(name, undefined);
    await until('loads alone', async () => !/78\.9/.test((await labels(editor.document)).join()));
    for (const [label, kind, shot] of THEMES) {
      await theme().update('colorTheme', label, vscode.ConfigurationTarget.Global);
      await until(`the theme ${label}`, () => vscode.window.activeColorTheme.kind === kind);
      await new Promise((resolve) => setTimeout(resolve, 500));
      await picture(`hints-${shot}`);
    }
    await theme().update('colorTheme', undefined, vscode.ConfigurationTarget.Global);
  });

  itInWindow('is read aloud with its line on demand', async () => {
    const editor = await open(winter);
    await goTo(editor, placeOf(editor.document, 'back squat:     3x6', 2));
    await run('inlayHints.startReadingLineWithHint');
    const read = await until('the line', async () => {
      const text = (await workbench.text('.inlayhint-accessibility-element'))
        .join(' ')
        .replaceAll('\u00a0', ' ');
      return text.includes('45 kg') && text;
    });
    assert.match(read, /back squat:\s+3x6 r2 warm rest 3min\s*= 45 kg/);
    await run('inlayHints.stopReadingLineWithHint');
  });

  itInWindow('can be taken away and put back', async () => {
    const { document } = await open(winter);
    await set('hints.loads', false);
    await until('nothing', async () => (await labels(document)).length === 0);
    await set('hints.loads', undefined);
    await until('loads', async () => (await labels(document)).includes('= 47.5 kg'));
  });

  itInWindow(
    'says above the program when the chosen client does not follow it, and leads to those who do',
    async () => {
      const { document } = await open(winter);
      await chooseClient('Wren');
      await until('no loads', async () => (await labels(document)).length === 0);
      const words = /No loads here: Wren does not follow this program\./;
      await until('the reason above the program', async () =>
        (await workbench.text('.codelens-decoration')).some((text) => words.test(text)),
      );
      await until('the language status', async () => {
        await workbench.hover('#status\\.languageStatus');
        return (await workbench.text('.hover-language-status'))
          .join()
          .includes('does not follow this program');
      });
      await picture('hints-elsewhere');
      await workbench.click('.codelens-decoration a:has-text("No loads here")');
      await until('the clients', async () =>
        (await workbench.text('.quick-input-list .monaco-list-row')).some((row) => row.includes('Heron')),
      );
      await workbench.type('Heron');
      await workbench.press('Enter');
      await until('loads', async () => (await labels(document)).includes('= 47.5 kg'));
      await until('no such words', async () =>
        (await workbench.text('.codelens-decoration')).every((text) => !words.test(text)),
      );
    },
  );
});
