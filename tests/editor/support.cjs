// What the suites share.
const path = require('node:path');
const vscode = require('vscode');

/** The extension's identifier: publisher and name of the manifest. */
const EXTENSION = 'stave.stave';

/** Asks again until the probe gives a true value, and returns it; fails with `what` after the time given. */
async function until(what, probe, milliseconds = 15_000) {
  let last;
  for (const end = Date.now() + milliseconds; Date.now() < end; ) {
    last = await probe();
    if (last) return last;
    await new Promise((resolve) => setTimeout(resolve, 100));
  }
  throw new Error(`timed out after ${milliseconds} ms: ${what}`);
}

/** The folder that the run has opened: a copy of the samples that a test may change. */
const folder = () => vscode.workspace.workspaceFolders[0].uri;

/** Opens a file of the folder, by its path in it, and shows it. */
async function open(file) {
  const document = await vscode.workspace.openTextDocument(vscode.Uri.joinPath(folder(), file));
  return vscode.window.showTextDocument(document, { preview: false });
}

/** Opens a new, unsaved document in the language and shows it. */
async function openUntitled(content) {
  const document = await vscode.workspace.openTextDocument({ language: 'stave', content });
  return vscode.window.showTextDocument(document, { preview: false });
}

/** The lines of text drawn in the window, hints included. The editor draws spaces as no-break spaces. */
async function drawnLines() {
  const lines = await globalThis.workbench.text('.editor-instance .view-line');
  return lines.map((line) => line.replaceAll('\u00a0', ' '));
}

/** Saves a picture of the window under that name, where the run keeps pictures. */
async function picture(name) {
  const shots = process.env.STAVE_EDITOR_SHOTS;
  if (globalThis.workbench && shots) await globalThis.workbench.screenshot(path.join(shots, `${name}.png`));
}

/** Chooses whose loads are shown in the folder, in the list of clients. */
async function chooseClient(name) {
  const asked = vscode.commands.executeCommand('stave.chooseClient');
  await until('the list', async () =>
    (await globalThis.workbench.text('.quick-input-widget .monaco-list-row')).some((row) =>
      row.includes(name),
    ),
  );
  await globalThis.workbench.type(name);
  await globalThis.workbench.press('Enter');
  await asked;
}

/** The first place of a piece of text in a document, plus some characters. */
function placeOf(document, piece, plus = 0) {
  const at = document.getText().indexOf(piece);
  if (at < 0) throw new Error(`the file does not hold ${piece}`);
  return document.positionAt(at + plus);
}

/** Puts the cursor there and shows it, with the keyboard in the editor. */
async function goTo(editor, position) {
  editor.selection = new vscode.Selection(position, position);
  editor.revealRange(editor.selection, vscode.TextEditorRevealType.InCenter);
  await vscode.commands.executeCommand('workbench.action.focusActiveEditorGroup');
}

/** The loads beside the cells of a document, in order of place. */
async function labels(document) {
  const whole = new vscode.Range(0, 0, document.lineCount, 0);
  const found = await vscode.commands.executeCommand('vscode.executeInlayHintProvider', document.uri, whole);
  return (found ?? [])
    .sort((a, b) => a.position.compareTo(b.position))
    .map(({ label }) => (typeof label === 'string' ? label : label.map(({ value }) => value).join('')));
}

/** Waits until the extension runs and its server answers about the file. */
async function ready(uri) {
  const extension = vscode.extensions.getExtension(EXTENSION);
  await until('activation', () => extension.isActive);
  await until('the server', async () => (await extension.exports.server.status(uri)) !== undefined);
}

/** What the palette offers for these words. Closes it again. */
async function palette(words) {
  await vscode.commands.executeCommand('workbench.action.quickOpen', `>${words}`);
  const rows = await until('the palette', async () => {
    const found = await globalThis.workbench.text('.quick-input-list .monaco-list-row');
    return found.length > 0 && found;
  });
  // Its list is drawn again once everything is filtered.
  await new Promise((resolve) => setTimeout(resolve, 600));
  const settled = await globalThis.workbench.text('.quick-input-list .monaco-list-row');
  return (settled.length > 0 ? settled : rows).map((row) => row.replaceAll('\u00a0', ' '));
}

/** `it` for tests that look at or type into the window, which a desktop run cannot do. */
const itInWindow = globalThis.workbench ? it : it.skip;

module.exports = {
  EXTENSION,
  chooseClient,
  drawnLines,
  folder,
  goTo,
  itInWindow,
  labels,
  open,
  openUntitled,
  palette,
  picture,
  placeOf,
  ready,
  until,
};
