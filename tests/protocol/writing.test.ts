// biome-ignore-all lint/suspicious/noTemplateCurlyInString: these are tab stops of snippets.
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import {
  type CodeAction,
  type CodeLens,
  type CompletionItem,
  type CompletionList,
  type DocumentLink,
  type InlayHint,
  LSPErrorCodes,
  type SignatureHelp,
  type TextDocumentEdit,
  type TextEdit,
  type WorkspaceEdit,
} from 'vscode-languageserver/node';
import { TextDocument } from 'vscode-languageserver-textdocument';
import { bundle, Editor, folderWith, fullAbilities, positionOf, until } from './editor.js';
import { people, program } from './example.js';

const whole = { range: { start: { line: 0, character: 0 }, end: { line: 999, character: 0 } } };
const log = 'log Heron, 2026-12-07, Lower\n  back squat: 45kg 6 6 6 r2\n';
const abilities = {
  ...fullAbilities,
  window: { workDoneProgress: true },
  workspace: {
    ...fullAbilities.workspace,
    codeLens: { refreshSupport: true },
    workspaceEdit: { documentChanges: true, resourceOperations: ['create' as const] },
  },
  textDocument: {
    ...fullAbilities.textDocument,
    codeAction: { disabledSupport: true },
    signatureHelp: { signatureInformation: { documentationFormat: ['markdown' as const] } },
    completion: {
      completionItem: {
        snippetSupport: true,
        insertReplaceSupport: true,
        documentationFormat: ['markdown' as const],
      },
    },
  },
};

describe(`help while writing (${bundle.split('/').pop()})`, () => {
  let folder: ReturnType<typeof folderWith>;
  let editor: Editor;
  let uri: string;
  beforeEach(async () => {
    folder = folderWith({ 'people.stave': people, 'winter.stave': program, 'logs.stave': log });
    editor = await Editor.start({
      folders: [folder.path],
      abilities,
      initializationOptions: {
        selectCommand: 'pick',
        listCommand: 'list',
        snippetCommand: 'fill',
        rulePageUri: 'rule:{code}',
      },
    });
    uri = folder.uri('winter.stave');
    await editor.open(uri, program);
  });
  afterEach(async () => {
    await editor.stop();
    folder.remove();
  });

  const edited = (text: string, edits: TextEdit[]): string =>
    TextDocument.applyEdits(TextDocument.create('x', 'stave', 0, text), edits);

  it('says what may come next in a cell, and marks the kind at the cursor', async () => {
    const position = positionOf(program, 'r2 warm', 1);
    const help = await editor.ask<SignatureHelp>('textDocument/signatureHelp', uri, { position });
    const [signature] = help.signatures;
    const active = signature?.parameters?.[help.activeParameter ?? -1];
    const [start, end] = (active?.label ?? [0, 0]) as [number, number];
    expect(signature?.label.slice(start, end)).toBe('r2');
    expect(active?.documentation).toMatchObject({
      kind: 'markdown',
      value: expect.stringContaining('reserve'),
    });
    const inNote = await editor.ask('textDocument/signatureHelp', uri, {
      position: { line: 0, character: 3 },
    });
    expect(inNote).toBeNull();
  });

  it('gives lenses without words, and the words with the list behind them when they are looked at', async () => {
    const lenses = await editor.ask<CodeLens[]>('textDocument/codeLens', uri);
    expect(lenses.map(({ range }) => range.start.line)).toEqual([0, 3]);
    expect(lenses.every(({ command }) => command === undefined)).toBe(true);
    const resolved = await editor.connection.sendRequest<CodeLens>('codeLens/resolve', lenses[0]);
    expect(resolved.command?.title).toMatch(/^1 client/);
    expect(resolved.command?.command).toBe('list');
    const entries = resolved.command?.arguments?.[1] as { heading: string; label: string; uri: string }[];
    expect(entries[0]).toMatchObject({ heading: 'clients', label: 'Heron', uri: folder.uri('people.stave') });
  });

  it('says above a program that the chosen client does not follow it, and asks whose loads to show', async () => {
    const other = folderWith({
      'people.stave': `${people}\nclient Tern\n  born: 1990\n`,
      'winter.stave': program,
    });
    const chosen = { client: 'tern' };
    const second = await Editor.start({
      folders: [other.path],
      abilities,
      settings: () => ({ client: chosen.client }),
      initializationOptions: { listCommand: 'list', chooseCommand: 'choose' },
    });
    await second.open(other.uri('winter.stave'), program);
    const titles = async () => {
      const lenses = await second.ask<CodeLens[]>('textDocument/codeLens', other.uri('winter.stave'));
      const all = await Promise.all(
        lenses.map((lens) => second.connection.sendRequest<CodeLens>('codeLens/resolve', lens)),
      );
      return all.map(({ command }) => [command?.title, command?.command]);
    };
    expect(await titles()).toContainEqual([
      'No loads here: Tern does not follow this program. Choose another client…',
      'choose',
    ]);
    chosen.client = 'heron';
    await second.connection.sendNotification('workspace/didChangeConfiguration', { settings: null });
    await until('it is gone', async () =>
      (await titles()).every(([title]) => !String(title).startsWith('No loads here')),
    );
    await second.stop();
    other.remove();
  });

  it('answers a lens, link, hint and item that it never made as it came', async () => {
    const range = whole.range;
    const ask = (method: string, what: object) => editor.connection.sendRequest<object>(method, what);
    expect(await ask('codeLens/resolve', { range, data: { uri: 7 } })).toMatchObject({
      command: { title: '' },
    });
    expect(await ask('documentLink/resolve', { range, data: 'x' })).toEqual({ range, data: 'x' });
    expect(await ask('completionItem/resolve', { label: 'x', data: [] })).toEqual({ label: 'x', data: [] });
    expect(await ask('inlayHint/resolve', { position: range.start, label: 'x' })).toMatchObject({
      label: 'x',
    });
  });

  it('links a rule to its page and a like to its block, each address only when it is asked for', async () => {
    const text = `${program}  allow: stuck "small plates in March"\n\nblock Mast, like Keel\n`;
    await editor.change(uri, text);
    const links = await editor.ask<DocumentLink[]>('textDocument/documentLink', uri);
    expect(links.map(({ target }) => target)).toEqual([undefined, undefined]);
    const targets = await Promise.all(
      links.map((link) => editor.connection.sendRequest<DocumentLink>('documentLink/resolve', link)),
    );
    expect(targets.map(({ target }) => target)).toEqual(['rule:stuck', `${uri}#4,7`]);
  });

  it('indents the new line after Enter and aligns the finished row of an aligned table', async () => {
    const text =
      'program P\nblock B, 3 weeks, load\nday D\n  back squat: 3x6 r3 | 4x\n  box squat:  3x8 r3 | 4x\n  push-up: 3x8 bw|x10\n\n';
    await editor.change(uri, text);
    const edits = await editor.ask<TextEdit[]>('textDocument/onTypeFormatting', uri, {
      position: { line: 6, character: 0 },
      ch: '\n',
      options: { tabSize: 2, insertSpaces: true },
    });
    expect(edited(text, edits)).toBe(
      text.replace('push-up: 3x8 bw|x10\n\n', 'push-up:    3x8 bw | x10\n  \n'),
    );
  });

  it('goes through the columns of a row, and begins the next week where the block has one', async () => {
    const step = (text: string, piece: string, plus: number, way: string) =>
      editor.connection.sendRequest<{
        edit: TextEdit | null;
        select: { start: { character: number } };
      } | null>('stave/tableStep', { uri, position: positionOf(text, piece, plus), step: way });
    expect(await step(program, '3x6 r2', 2, 'next')).toMatchObject({
      edit: null,
      select: { start: positionOf(program, '4x |'), end: positionOf(program, '4x |', 2) },
    });
    expect(await step(program, '4x |', 1, 'previous')).toMatchObject({
      select: { start: positionOf(program, '3x6 r2'), end: positionOf(program, ' | 4x') },
    });
    expect(await step(program, 'weekly', 6, 'next')).toMatchObject({ edit: { newText: ' | ' } });
    expect(await step(program, 'strength', 2, 'next')).toBeNull();
    expect(await step(program, 'weekly', 6, 'newRow')).toMatchObject({
      edit: { newText: '\n  $1: $2 | $3 | $4$0', snippet: true },
    });
  });

  it('puts a week in, and says why it takes none out where later weeks rest on it', async () => {
    const change = (piece: string, what: string) =>
      editor.connection.sendRequest<TextEdit[]>('stave/changeWeeks', {
        uri,
        position: positionOf(program, piece),
        change: what,
      });
    await editor.close(uri);
    await editor.open(folder.uri('logs.stave'), '');
    await editor.open(uri, program);
    expect(edited(program, await change('3x6 r2', 'insert'))).toContain(
      'block Keel, 6 weeks, heavy, deload 6\n',
    );
    await expect(change('+2% weekly', 'remove')).rejects.toThrow(/would come to other work/);
  });

  it('offers refactorings when asked, with the reason where one cannot be done', async () => {
    const at = positionOf(program, 'back squat:', 2);
    const ask = (more: object) =>
      editor.ask<CodeAction[]>('textDocument/codeAction', uri, {
        range: { start: at, end: at },
        context: { diagnostics: [], ...more },
      });
    const actions = await ask({ triggerKind: 1 });
    const fixed = actions.find(({ title }) => title === 'Write back squat as fixed loads of Heron');
    const [change] = (fixed?.edit?.documentChanges ?? []) as TextDocumentEdit[];
    expect(change?.textDocument).toEqual({
      uri,
      version: 1,
    });
    const swap = actions.find(({ title }) => title === 'Swap back squat for Heron…');
    expect(swap?.command).toMatchObject({ command: 'fill' });
    expect(actions.filter(({ disabled }) => disabled).every(({ disabled }) => disabled?.reason !== '')).toBe(
      true,
    );
    // Asked with every move of the cursor: nothing is tried.
    expect((await ask({ triggerKind: 2 })).filter(({ kind }) => kind?.startsWith('refactor'))).toEqual([]);
    expect((await ask({ only: ['refactor.extract'] })).map(({ kind }) => kind)).toEqual([]);
  });

  it('makes an offered name explain itself when it is looked at, and fills snippets with her own names', async () => {
    const list = await editor.ask<CompletionList>('textDocument/completion', uri, {
      position: positionOf(program, 'back squat:', 3),
    });
    const item = list.items.find(({ label }) => label === 'box squat');
    expect(item?.documentation).toBeUndefined();
    const full = await editor.connection.sendRequest<CompletionItem>('completionItem/resolve', item);
    expect(full.documentation).toMatchObject({ value: expect.stringContaining('Pattern: squat') });
    const own = `${people}  \n`;
    const peopleUri = folder.uri('people.stave');
    await editor.open(peopleUri, own);
    const lines = await editor.ask<CompletionList>('textDocument/completion', peopleUri, {
      position: { line: own.split('\n').length - 2, character: 2 },
    });
    const text = (label: string) =>
      (lines.items.find((each) => each.label === label)?.textEdit as TextEdit | undefined)?.newText;
    expect(text('max')).toBe(
      'max: ${1|back squat,overhead press|}, ${2:load}kg x${3:reps} r${4:reserve}, ${5:date}$0',
    );
    expect(text('follows')).toBe('follows: ${1:Harbour winter}, from ${2:date}, on ${3:mon thu}$0');
    expect(text('trains at')).toBe('trains at: ${1:Boathouse}$0');
  });

  it('lets a load be written into its cell only where that means the same', async () => {
    const text =
      'program Harbour winter\nblock Keel, 3 weeks, heavy\nday Lower\n  back squat: 3x6 40kg | +5kg | x5\n  overhead press: 3x8 r3\n';
    await editor.change(uri, text);
    // Blank ones only keep the columns of the two rows under each other.
    const seen = async (): Promise<InlayHint[]> =>
      (await editor.ask<InlayHint[]>('textDocument/inlayHint', uri, whole)).filter(
        ({ label }) => String(label).trim() !== '',
      );
    const hints = await seen();
    const resolved = await Promise.all(
      hints.map((hint) => editor.connection.sendRequest<InlayHint>('inlayHint/resolve', hint)),
    );
    const inserts = resolved.map(({ label, textEdits }) => [label, textEdits?.length ?? 0]);
    expect(inserts).toEqual([
      ['= 45 kg', 1],
      ['= 45 kg', 1],
      ['= 20 kg', 0],
    ]);
    const after = edited(text, resolved[0]?.textEdits ?? []);
    expect(after).toContain('3x6 40kg | 45kg | x5');
    await editor.change(uri, after);
    const now = await seen();
    expect(now.map(({ label }) => label)).toEqual(['= 45 kg', '= 20 kg']);
  });

  it('renames a movement in the logs of other files', async () => {
    const own = `movement step-down\n  pattern: lunge\n  with: bodyweight\n\n${program}`;
    await editor.change(uri, own.replace('back squat:', 'step-down:'));
    await editor.open(folder.uri('logs.stave'), log.replace('back squat: 45kg', 'step-down: 45kg'));
    const edit = await editor.ask<WorkspaceEdit>('textDocument/rename', uri, {
      position: { line: 0, character: 12 },
      newName: 'slow step-down',
    });
    const changes = edit.documentChanges as TextDocumentEdit[];
    expect(changes.map(({ textDocument, edits }) => [textDocument.uri, edits.length]).sort()).toEqual(
      [
        [uri, 2],
        [folder.uri('logs.stave'), 1],
      ].sort(),
    );
  });

  it('gives up what is cancelled, for each of the new requests', async () => {
    const params = {
      textDocument: { uri },
      position: positionOf(program, 'r2 warm', 1),
      ch: '\n',
      options: { tabSize: 2, insertSpaces: true },
    };
    for (const method of [
      'textDocument/signatureHelp',
      'textDocument/codeLens',
      'textDocument/documentLink',
      'textDocument/onTypeFormatting',
    ]) {
      expect(await editor.cancelledAtOnce(method, params), method).toBe(LSPErrorCodes.RequestCancelled);
    }
    // The next one is answered as ever.
    expect(await editor.ask('textDocument/codeLens', uri)).toHaveLength(2);
  });

  it('asks for the lenses again when another file has changed them', async () => {
    let asked = 0;
    editor.connection.onRequest('workspace/codeLens/refresh', () => {
      asked++;
      return null;
    });
    await editor.open(folder.uri('people.stave'), people.replace('client Heron', 'client Tern'));
    await until('a refresh of the lenses', () => asked > 0);
  });
});
