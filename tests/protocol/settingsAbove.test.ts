/** A `stave.json` above the open folder: it counts, is watched, and a mistake in it is told where the coach sees it. */

import fs from 'node:fs';
import path from 'node:path';
import { afterEach, beforeEach, expect, it } from 'vitest';
import { Editor, folderWith, fullAbilities, until } from './editor.js';

const program = 'program Winter\n\nblock Keel, 1 week\nday Lower\n  bakc squat: 3x6 r2\n';
const NAME = 'open folder/winter.stave';

let above: ReturnType<typeof folderWith>;
let editor: Editor;
let asked: { globPattern: { baseUri: string; pattern: string } | string }[];
let shown: string[];

async function start(relativePatternSupport: boolean): Promise<void> {
  const workspace = { ...fullAbilities.workspace };
  workspace.didChangeWatchedFiles = { dynamicRegistration: true, relativePatternSupport };
  editor = await Editor.start({
    folders: [path.join(above.path, 'open folder')],
    abilities: { ...fullAbilities, workspace },
  });
  asked = [];
  shown = [];
  editor.connection.onRequest('client/registerCapability', ({ registrations }) => {
    for (const { registerOptions } of registrations) asked.push(...(registerOptions.watchers ?? []));
    return null;
  });
  editor.connection.onNotification('window/showMessage', ({ message }) => shown.push(message));
  await editor.open(above.uri(NAME), program);
}

const severity = async () =>
  (await editor.diagnostics(above.uri(NAME))).find(({ code }) => code === 'unknown-name')?.severity;
const write = (text: string) => fs.writeFileSync(path.join(above.path, 'stave.json'), text);

beforeEach(() => {
  above = folderWith({ [NAME]: program, 'stave.json': '{ "rules": { "unknown-name": "hint" } }' });
});
afterEach(async () => {
  await editor.stop();
  above.remove();
});

it('is asked to be watched, and followed when the editor tells of a change', async () => {
  await start(true);
  await until('it counts', async () => (await severity()) === 4);
  const isHere = ({ globPattern }: (typeof asked)[number]) =>
    typeof globPattern !== 'string' &&
    globPattern.pattern === 'stave.json' &&
    above.uri('stave.json') === `${globPattern.baseUri}/stave.json`;
  await until('it is watched', () => asked.some(isHere));
  const inside = asked.filter(
    ({ globPattern }) => typeof globPattern !== 'string' && globPattern.baseUri.includes('open'),
  );
  expect(inside).toEqual([]);

  write('{ "rules": { "unknown-name": "off" } }');
  await editor.connection.sendNotification('workspace/didChangeWatchedFiles', {
    changes: [{ uri: above.uri('stave.json'), type: 2 }],
  });
  await until('the change counts', async () => (await severity()) === undefined);
});

it('is read again when a document is opened, where the editor watches no such folder', async () => {
  await start(false);
  await until('it counts', async () => (await severity()) === 4);
  expect(asked.every(({ globPattern }) => typeof globPattern === 'string')).toBe(true);
  write('{ "rules": { "unknown-name": "info" } }');
  await editor.close(above.uri(NAME));
  await editor.open(above.uri(NAME), program);
  await until('the change counts', async () => (await severity()) === 3);
});

it('shows a mistake in it once, in words, and keeps the rules of the rest', async () => {
  write('{ "rules": { "unknown-name": "hint", } }');
  await start(false);
  await until('the mistake is shown', () => shown.length > 0);
  expect(shown).toEqual([
    'stave.json: This is not JSON: a comma, a bracket or a quotation mark is missing or too many.',
  ]);
  expect(await severity()).toBe(1);
  await editor.close(above.uri(NAME));
  await editor.open(above.uri(NAME), program);
  await editor.diagnostics(above.uri(NAME));
  await new Promise((resolve) => setTimeout(resolve, 200));
  expect(shown).toHaveLength(1);
  write('{ "rules": { "unknown-name": "hint" } }');
  await editor.close(above.uri(NAME));
  await editor.open(above.uri(NAME), program);
  await until('it is mended', async () => (await severity()) === 4);
});
