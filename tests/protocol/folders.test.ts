import fs from 'node:fs';
import path from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import {
  type CompletionList,
  type InlayHint,
  type Location,
  LSPErrorCodes,
  ProgressType,
  type TextDocumentEdit,
  type WorkspaceSymbol,
} from 'vscode-languageserver/node';
import { Editor, folderWith, fullAbilities, positionOf, until, uriOf } from './editor.js';
import { people, program } from './example.js';

const whole = { range: { start: { line: 0, character: 0 }, end: { line: 99, character: 0 } } };
let folder: ReturnType<typeof folderWith>;
let editor: Editor;

beforeEach(() => {
  folder = folderWith({
    'people.stave': people,
    'programs/winter (1).stave': program,
    'node_modules/x.stave': people,
  });
});
afterEach(async () => {
  await editor.stop();
  folder.remove();
});

const codes = async (uri: string) => (await editor.diagnostics(uri)).map(({ code }) => code);

describe('a folder', () => {
  it('knows names of files that are not open', async () => {
    editor = await Editor.start({ folders: [folder.path] });
    const uri = folder.uri('programs/winter (1).stave');
    await editor.open(uri, program);
    const hints = await editor.ask<InlayHint[]>('textDocument/inlayHint', uri, whole);
    expect(hints.map(({ label }) => label)).toContain('= 47.5 kg');
    const [definition] = await editor.ask<Location[]>('textDocument/definition', folder.uri('people.stave'), {
      position: positionOf(people, 'Harbour winter', 3),
    });
    expect(definition?.range.start).toEqual(positionOf(program, 'Harbour winter'));
    expect(decodeURIComponent(definition?.uri ?? '')).toBe(decodeURIComponent(uri));
  });

  it('takes an address however the client writes it', async () => {
    editor = await Editor.start({ folders: [folder.path] });
    const uri = folder.uri('programs/winter (1).stave').replace('(', '%28').replace(')', '%29');
    await editor.open(uri, program);
    expect(await codes(uri)).not.toContain('twice-named');
  });

  it('renames in every file, open or not', async () => {
    editor = await Editor.start({ folders: [folder.path] });
    const uri = folder.uri('people.stave');
    await editor.open(uri, people);
    const position = positionOf(people, 'Harbour winter', 2);
    expect(await editor.ask('textDocument/prepareRename', uri, { position })).toMatchObject({
      placeholder: 'Harbour winter',
    });
    const edit = await editor.ask<{ documentChanges: TextDocumentEdit[] }>('textDocument/rename', uri, {
      position,
      newName: 'Harbour spring',
    });
    const changed = edit.documentChanges.map(({ textDocument, edits }) => [
      path.posix.basename(decodeURIComponent(textDocument.uri)),
      textDocument.version,
      edits.length,
    ]);
    expect(changed.sort()).toEqual([
      ['people.stave', 1, 1],
      ['winter (1).stave', null, 1],
    ]);
    const refused = editor.ask('textDocument/rename', uri, { position, newName: 'Harbour: spring' });
    await expect(refused).rejects.toThrow(/:/);
  });

  it('finds names by a part of them', async () => {
    editor = await Editor.start({ folders: [folder.path] });
    const found = await editor.connection.sendRequest<WorkspaceSymbol[]>('workspace/symbol', {
      query: 'harb',
    });
    expect(found.map(({ name }) => name)).toEqual(['Harbour winter']);
  });

  it('sees changes on the disk, but an open text comes before the disk', async () => {
    editor = await Editor.start({ folders: [folder.path] });
    const uri = folder.uri('programs/winter (1).stave');
    await editor.open(uri, program);
    await until('the server watches files', () =>
      editor.registered.includes('workspace/didChangeWatchedFiles'),
    );
    const labels = async () =>
      (await editor.ask<InlayHint[]>('textDocument/inlayHint', uri, whole)).map(({ label }) => label);
    expect(await labels()).toContain('= 47.5 kg');
    const changed = async (name: string, type: number) =>
      editor.connection.sendNotification('workspace/didChangeWatchedFiles', {
        changes: [{ uri: folder.uri(name), type }],
      });
    fs.writeFileSync(path.join(folder.path, 'people.stave'), people.replaceAll('47.5kg', '57.5kg'));
    await changed('people.stave', 2);
    await until('hints follow the disk', async () => !(await labels()).includes('= 47.5 kg'));
    fs.writeFileSync(path.join(folder.path, 'programs', 'winter (1).stave'), '');
    await changed('programs/winter (1).stave', 2);
    fs.rmSync(path.join(folder.path, 'people.stave'));
    await changed('people.stave', 3);
    await until('no hints without a client', async () => (await labels()).length === 0);
    expect(await codes(uri)).toEqual([]);
  });

  describe('that another program moves', () => {
    const at = (name: string) => path.join(folder.path, name);
    /** Tells of paths as an editor does: a folder that comes or goes is one event, without a word of its files. */
    const tell = (...changes: [name: string, type: 1 | 2 | 3][]) =>
      editor.connection.sendNotification('workspace/didChangeWatchedFiles', {
        changes: changes.map(([name, type]) => ({ uri: folder.uri(name), type })),
      });
    const names = async () => {
      const found = await editor.connection.sendRequest<WorkspaceSymbol[]>('workspace/symbol', { query: '' });
      return found.map(({ name }) => name);
    };

    it('is forgotten with everything in it when it is deleted, and found again when it comes back', async () => {
      editor = await Editor.start({ folders: [folder.path] });
      expect(await names()).toContain('Harbour winter');
      fs.renameSync(at('programs'), `${folder.path}-aside`);
      await tell(['programs', 3]);
      await until('the program is gone', async () => !(await names()).includes('Harbour winter'));
      expect(await codes(folder.uri('people.stave'))).toContain('unknown-name');
      fs.renameSync(`${folder.path}-aside`, at('programs'));
      await tell(['programs', 1]);
      await until('the program is back', async () => (await names()).includes('Harbour winter'));
      expect(await codes(folder.uri('people.stave'))).not.toContain('unknown-name');
      expect(editor.logged).toEqual([]);
    });

    it('is known under its new name once, and keeps the rules that lie in it', async () => {
      fs.writeFileSync(at('programs/stave.json'), '{ "rules": { "unknown-name": "hint" } }');
      fs.writeFileSync(at('programs/winter (1).stave'), program.replace('back squat', 'bakc squat'));
      editor = await Editor.start({ folders: [folder.path] });
      const severity = async (name: string) =>
        (await editor.diagnostics(folder.uri(name))).find(({ code }) => code === 'unknown-name')?.severity;
      expect(await severity('programs/winter (1).stave')).toBe(4);
      fs.mkdirSync(at('2026'));
      fs.renameSync(at('programs'), at('2026/winter'));
      await tell(['programs', 3], ['2026', 1], ['2026/winter', 1]);
      await until('the new place', async () => (await severity('2026/winter/winter (1).stave')) === 4);
      expect((await names()).filter((name) => name === 'Harbour winter')).toHaveLength(1);
      // The rules go; what they were about stays.
      fs.rmSync(at('2026/winter/stave.json'));
      await tell(['2026/winter/stave.json', 3]);
      await until('the usual rules', async () => (await severity('2026/winter/winter (1).stave')) === 1);
    });

    it('stays as it is where the files are open: what the editor shows counts', async () => {
      editor = await Editor.start({ folders: [folder.path] });
      const uri = folder.uri('programs/winter (1).stave');
      await editor.open(uri, program);
      fs.rmSync(at('programs'), { recursive: true });
      await tell(['programs', 3]);
      expect(await names()).toContain('Harbour winter');
      await editor.close(uri);
      await until('gone with the last window on it', async () => !(await names()).includes('Harbour winter'));
    });

    it('does not lead into folders that hold no files of hers', async () => {
      editor = await Editor.start({ folders: [folder.path] });
      const before = await names();
      fs.mkdirSync(at('node_modules/deep'), { recursive: true });
      fs.writeFileSync(at('node_modules/deep/y.stave'), program);
      await tell(['node_modules', 1], ['node_modules/deep', 1], ['node_modules/deep/y.stave', 1]);
      // Something that is read after it, so that there is an end to wait for.
      fs.writeFileSync(at('late.stave'), 'client Late Tern\n  born: 1990\n');
      await tell(['late.stave', 1]);
      await until('the later file', async () => (await names()).includes('Late Tern'));
      expect((await names()).filter((name) => name !== 'Late Tern').sort()).toEqual(before.sort());
    });

    it('with a file that gets another name leaves nothing said twice', async () => {
      editor = await Editor.start({ folders: [folder.path] });
      await names();
      fs.renameSync(at('people.stave'), at('clients.stave'));
      await tell(['people.stave', 3], ['clients.stave', 1]);
      await until('the finding of a name said twice to be absent', async () => {
        const found = await editor.connection.sendRequest<WorkspaceSymbol[]>('workspace/symbol', {
          query: 'Heron',
        });
        return found.length === 1 && JSON.stringify(found[0]).includes('clients.stave');
      });
      expect(await codes(folder.uri('clients.stave'))).not.toContain('twice-named');
    });
  });

  it('asks the client to look again when another open file changes', async () => {
    editor = await Editor.start({ folders: [folder.path] });
    const uri = folder.uri('programs/winter (1).stave');
    await editor.open(uri, program);
    await editor.open(folder.uri('people.stave'), people);
    await editor.diagnostics(uri);
    await until('the first news', () => editor.refreshes.length > 0);
    await new Promise((resolve) => setTimeout(resolve, 300));
    editor.refreshes.length = 0;
    await editor.change(folder.uri('people.stave'), people.replaceAll('47.5kg', '57.5kg'));
    await until('both refreshes', () => new Set(editor.refreshes).size === 2);
  });
});

describe('a folder that takes long to read', () => {
  it('is told of while it is read, and the word is taken back', async () => {
    let release = (_: object): void => {};
    const held = new Promise<object>((resolve) => {
      release = resolve;
    });
    editor = await Editor.start({
      folders: [folder.path],
      abilities: { ...fullAbilities, window: { workDoneProgress: true } },
      settings: () => held,
    });
    const told: string[] = [];
    editor.connection.onRequest('window/workDoneProgress/create', ({ token }: { token: string }) => {
      editor.connection.onProgress(new ProgressType<{ kind: string; title?: string }>(), token, (value) =>
        told.push([value.kind, value.title].filter(Boolean).join(' ')),
      );
      return null;
    });
    await until('the word', () => told.includes('begin Reading the folder'));
    // What is asked meanwhile is answered when everything is there.
    const asked = editor.connection.sendRequest<WorkspaceSymbol[]>('workspace/symbol', { query: 'harb' });
    release({});
    expect((await asked).map(({ name }) => name)).toEqual(['Harbour winter']);
    await until('its end', () => told.includes('end'));
  });
});

describe('several folders', () => {
  it('do not see each other, and have settings of their own', async () => {
    const other = folderWith({ 'program.stave': program });
    const plates = uriOf(folder.path);
    editor = await Editor.start({
      folders: [folder.path, other.path],
      settings: (scope) => ({ hints: { loads: true, plates: scope === plates } }),
    });
    const own = folder.uri('programs/winter (1).stave');
    await editor.open(own, program);
    await editor.open(other.uri('program.stave'), program);
    const hints = await editor.ask<InlayHint[]>('textDocument/inlayHint', own, whole);
    expect(hints.length).toBeGreaterThan(10);
    expect(await editor.ask('textDocument/inlayHint', other.uri('program.stave'), whole)).toEqual([]);
    expect(await codes(other.uri('program.stave'))).toEqual([]);
    expect(await codes(own)).not.toContain('twice-named');
    other.remove();
  });

  it('come and go while the editor runs', async () => {
    editor = await Editor.start({ folders: [] });
    const uri = folder.uri('programs/winter (1).stave');
    await editor.open(uri, program);
    expect(await editor.ask('textDocument/inlayHint', uri, whole)).toEqual([]);
    const event = { uri: uriOf(folder.path), name: 'boathouse' };
    await editor.connection.sendNotification('workspace/didChangeWorkspaceFolders', {
      event: { added: [event], removed: [] },
    });
    const count = async () => (await editor.ask<InlayHint[]>('textDocument/inlayHint', uri, whole)).length;
    await until('hints with the folder', async () => (await count()) > 5);
    await editor.connection.sendNotification('workspace/didChangeWorkspaceFolders', {
      event: { added: [], removed: [event] },
    });
    await until('none without it', async () => (await count()) === 0);
  });
});

describe('the plan', () => {
  it('is written for the client that is asked for, beside the settings of the folder', async () => {
    editor = await Editor.start({
      folders: [folder.path],
      settings: () => ({ plan: { folder: '../out/./plans' } }),
    });
    const answer = await editor.connection.sendRequest<{ files: string[] }>('workspace/executeCommand', {
      command: 'stave.server.writePlan',
      arguments: [{ uri: folder.uri('people.stave'), client: 'heron' }],
    });
    expect(answer.files.map(decodeURIComponent)).toEqual([
      folder.uri('out/plans/Heron-plan.html'),
      folder.uri('out/plans/Heron-plan.pdf'),
    ]);
    const made = path.join(folder.path, 'out', 'plans');
    expect(fs.readdirSync(made).sort()).toEqual(['Heron-plan.html', 'Heron-plan.pdf']);
    expect(fs.readFileSync(path.join(made, 'Heron-plan.html'), 'utf8')).toContain('47.5 kg');
    expect(fs.readFileSync(path.join(made, 'Heron-plan.pdf')).subarray(0, 5).toString()).toBe('%PDF-');
  });

  it('is refused in plain words for a client who does not exist', async () => {
    editor = await Editor.start({ folders: [folder.path] });
    const request = editor.connection.sendRequest('workspace/executeCommand', {
      command: 'stave.server.writePlan',
      arguments: [{ uri: folder.uri('people.stave'), client: 'puffin' }],
    });
    await expect(request).rejects.toThrow('There is no client "puffin" here. There are: Heron.');
  });
});

describe('a busy editor', () => {
  it('is told when a request was cancelled before its turn', async () => {
    editor = await Editor.start({ folders: [folder.path] });
    const params = { textDocument: { uri: folder.uri('people.stave') }, ...whole };
    const code = await editor.cancelledAtOnce('textDocument/inlayHint', params);
    expect(code).toBe(LSPErrorCodes.RequestCancelled);
  });

  it('survives files that are closed and requests that are cancelled while it works', async () => {
    editor = await Editor.start({ folders: [folder.path] });
    const uri = folder.uri('programs/winter (1).stave');
    const asked: Promise<unknown>[] = [];
    for (let turn = 0; turn < 20; turn += 1) {
      await editor.open(uri, program);
      await editor.change(uri, program.slice(0, 20 + turn * 12));
      asked.push(
        editor.ask('textDocument/inlayHint', uri, whole),
        editor.ask('textDocument/documentSymbol', uri),
      );
      asked.push(
        editor.ask('textDocument/hover', uri, { position: { line: 5, character: 20 } }),
        editor.diagnostics(uri),
      );
      await editor.close(uri);
    }
    const settled = await Promise.allSettled(asked);
    expect(settled.filter(({ status }) => status === 'rejected')).toEqual([]);
    await editor.open(uri, program);
    const list = await editor.ask<CompletionList>('textDocument/completion', uri, {
      position: { line: 7, character: 2 },
    });
    expect(list).toBeDefined();
    expect((await editor.ask<InlayHint[]>('textDocument/inlayHint', uri, whole)).length).toBeGreaterThan(5);
    expect(editor.logged).toEqual([]);
  });

  it('works for a client that can do next to nothing', async () => {
    editor = await Editor.start({ folders: [folder.path], abilities: { textDocument: {}, workspace: {} } });
    const uri = folder.uri('people.stave');
    await editor.open(uri, `${people}  trains at: Boathose\n`);
    await until('findings are sent', () =>
      editor.pushed.get(uri)?.some(({ code }) => code === 'unknown-name'),
    );
    const symbols = await editor.ask<{ location: unknown }[]>('textDocument/documentSymbol', uri);
    expect(symbols[0]?.location).toBeDefined();
    expect(editor.registered).toEqual([]);
    expect(fullAbilities.textDocument).toBeDefined();
  });
});

describe('a stave.json beside the files', () => {
  const severityOf = async (uri: string) =>
    (await editor.diagnostics(uri)).find(({ code }) => code === 'unknown-name')?.severity;
  const tell = (uri: string, type: number) =>
    editor.connection.sendNotification('workspace/didChangeWatchedFiles', { changes: [{ uri, type }] });

  it('sets the rules of its folder and below, goes before the settings, and is followed when it changes', async () => {
    const misspelt = program.replace('back squat', 'bakc squat');
    fs.writeFileSync(path.join(folder.path, 'programs/winter (1).stave'), misspelt);
    const file = path.join(folder.path, 'stave.json');
    fs.writeFileSync(file, '{ "rules": { "unknown-name": "hint" } }');
    editor = await Editor.start({
      folders: [folder.path],
      settings: () => ({ rules: { 'unknown-name': 'warning' } }),
    });
    const uri = folder.uri('programs/winter (1).stave');
    await editor.open(uri, misspelt);
    expect(await severityOf(uri)).toBe(4);

    fs.writeFileSync(file, '{ "rules": { "unknown-name": "loud", "unknown-nam": "off" } }');
    await tell(folder.uri('stave.json'), 2);
    // A file that is read while it is written is told too; what counts is what is told of the whole one.
    await until('the slip is told', () => editor.logged.some((text) => text.includes('"loud"')));
    await until('the slip changes nothing', async () => (await severityOf(uri)) === 2);
    const warned = editor.logged.join('\n');
    expect(warned).toContain('"unknown-name" cannot have the severity "loud".');
    expect(warned).toContain('Did you mean "unknown-name"?');

    fs.writeFileSync(path.join(folder.path, 'programs/stave.json'), '{ "rules": { "unknown-name": "off" } }');
    await tell(folder.uri('programs/stave.json'), 1);
    await until('the nearest one counts', async () => (await severityOf(uri)) === undefined);

    fs.rmSync(path.join(folder.path, 'programs/stave.json'));
    fs.rmSync(file);
    await tell(folder.uri('programs/stave.json'), 3);
    await tell(folder.uri('stave.json'), 3);
    await until('the settings count again', async () => (await severityOf(uri)) === 2);
  });

  it('sets the numbers by which loads are worked out, and is followed when it changes', async () => {
    const many = people.replace(/max: back squat, .*/, 'max: back squat, 40kg x12 r1, 2026-11-23');
    expect(many).not.toBe(people);
    fs.writeFileSync(path.join(folder.path, 'people.stave'), many);
    editor = await Editor.start({ folders: [folder.path] });
    const uri = folder.uri('programs/winter (1).stave');
    await editor.open(uri, program);
    const hint = async () =>
      String((await editor.ask<InlayHint[]>('textDocument/inlayHint', uri, whole))[0]?.label);
    const careful = await hint();
    const file = path.join(folder.path, 'stave.json');
    fs.writeFileSync(file, '{ "rules": { "max-imprecise": { "fewReps": 0 } } }');
    await tell(folder.uri('stave.json'), 1);
    await until('her own curve counts', async () => (await hint()) !== careful);
    expect(Number.parseFloat((await hint()).slice(2))).toBeGreaterThan(Number.parseFloat(careful.slice(2)));
    fs.rmSync(file);
    await tell(folder.uri('stave.json'), 3);
    await until('the lowest counts again', async () => (await hint()) === careful);
  });
});

describe('fix all', () => {
  it('takes the safe repairs of the file, and only when asked for by name', async () => {
    editor = await Editor.start({ folders: [folder.path] });
    const uri = folder.uri('people.stave');
    const dated = people.replace(/(\d{4})-(\d{2})-(\d{2})/, '$1/$2/$3');
    expect(dated).not.toBe(people);
    await editor.open(uri, dated);
    const ask = (only?: string[]) =>
      editor.ask<{ kind: string; edit: { documentChanges: TextDocumentEdit[] } }[]>(
        'textDocument/codeAction',
        uri,
        {
          ...whole,
          context: { diagnostics: [], ...(only && { only }) },
        },
      );
    const [all, ...others] = await ask(['source.fixAll']);
    expect(others).toEqual([]);
    expect(all?.kind).toBe('source.fixAll.stave');
    const edits = all?.edit.documentChanges.flatMap((change) => change.edits) ?? [];
    expect(edits.map(({ newText }) => newText)).toEqual([people.match(/\d{4}-\d{2}-\d{2}/)?.[0]]);
    expect((await ask()).map(({ kind }) => kind)).not.toContain('source.fixAll.stave');
    await editor.change(uri, people);
    expect(await ask(['source.fixAll'])).toEqual([]);
  });
});
