import fs from 'node:fs';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import {
  CancellationTokenSource,
  type CodeLens,
  type CompletionList,
  type DocumentLink,
  type InlayHint,
  LSPErrorCodes,
  type SemanticTokens,
  type SignatureHelp,
} from 'vscode-languageserver/node';
import { Editor, folderWith, fullAbilities, positionOf, until } from './editor.js';
import { example } from './example.js';

// Every request that the server announces is asked here, about every kind of document. A capability without a test
// fails, so that a new one cannot be forgotten.

const whole = { start: { line: 0, character: 0 }, end: { line: 9999, character: 0 } };
const options = { tabSize: 2, insertSpaces: true };

type Position = ReturnType<typeof positionOf>;
/** Asks one request about a document. */
type Ask = (editor: Editor, uri: string, position: Position) => Promise<unknown>;

const at =
  (method: string, more: object = {}): Ask =>
  (editor, uri, position) =>
    editor.ask(method, uri, { position, ...more });
const about =
  (method: string, more: object = {}): Ask =>
  (editor, uri) =>
    editor.ask(method, uri, more);

/** Asks for a list and then for the rest of its first item. */
async function resolved<Item>(items: readonly Item[] | null | undefined, editor: Editor, method: string) {
  const [first] = items ?? [];
  return first === undefined ? null : editor.connection.sendRequest(method, first);
}

/** By the name of the capability: the requests that it stands for. */
const requests: Record<string, readonly Ask[]> = {
  diagnosticProvider: [about('textDocument/diagnostic')],
  hoverProvider: [at('textDocument/hover')],
  completionProvider: [
    async (editor, uri, position) => {
      const list = await editor.ask<CompletionList | null>('textDocument/completion', uri, { position });
      return resolved(list?.items, editor, 'completionItem/resolve');
    },
  ],
  signatureHelpProvider: [at('textDocument/signatureHelp')],
  inlayHintProvider: [
    async (editor, uri) => {
      const hints = await editor.ask<InlayHint[] | null>('textDocument/inlayHint', uri, { range: whole });
      return resolved(hints, editor, 'inlayHint/resolve');
    },
  ],
  codeLensProvider: [
    async (editor, uri) => {
      const lenses = await editor.ask<CodeLens[] | null>('textDocument/codeLens', uri);
      return resolved(lenses, editor, 'codeLens/resolve');
    },
  ],
  documentLinkProvider: [
    async (editor, uri) => {
      const links = await editor.ask<DocumentLink[] | null>('textDocument/documentLink', uri);
      return resolved(links, editor, 'documentLink/resolve');
    },
  ],
  definitionProvider: [at('textDocument/definition')],
  referencesProvider: [at('textDocument/references', { context: { includeDeclaration: true } })],
  renameProvider: [
    at('textDocument/prepareRename'),
    // No name here may be renamed: that is an answer too, in words.
    (editor, uri, position) =>
      editor.ask('textDocument/rename', uri, { position, newName: 'Sandpiper' }).catch((error: Error) => {
        expect(error.message).toMatch(/[a-z]/);
        return null;
      }),
  ],
  documentHighlightProvider: [at('textDocument/documentHighlight')],
  documentSymbolProvider: [about('textDocument/documentSymbol')],
  workspaceSymbolProvider: [(editor) => editor.connection.sendRequest('workspace/symbol', { query: 'har' })],
  foldingRangeProvider: [about('textDocument/foldingRange')],
  selectionRangeProvider: [
    (editor, uri, position) => editor.ask('textDocument/selectionRange', uri, { positions: [position] }),
  ],
  semanticTokensProvider: [about('textDocument/semanticTokens/full')],
  documentFormattingProvider: [about('textDocument/formatting', { options })],
  documentRangeFormattingProvider: [about('textDocument/rangeFormatting', { options, range: whole })],
  documentOnTypeFormattingProvider: [at('textDocument/onTypeFormatting', { ch: '\n', options })],
  codeActionProvider: [
    (editor, uri) =>
      editor.ask('textDocument/codeAction', uri, { range: whole, context: { diagnostics: [] } }),
  ],
  executeCommandProvider: [
    async (editor) => {
      for (const command of editor.greeting.capabilities.executeCommandProvider?.commands ?? []) {
        // Nothing is written without being told what: refused, in words.
        const asked = editor.connection.sendRequest('workspace/executeCommand', { command, arguments: [] });
        await expect(asked, command).rejects.toThrow(/[a-z]/);
      }
      return null;
    },
  ],
};
/** The methods behind each capability, with what is asked besides the document. */
const methods: Record<string, readonly [method: string, more: object][]> = {
  diagnosticProvider: [['textDocument/diagnostic', {}]],
  hoverProvider: [['textDocument/hover', {}]],
  completionProvider: [
    ['textDocument/completion', {}],
    ['completionItem/resolve', { label: 'back squat' }],
  ],
  signatureHelpProvider: [['textDocument/signatureHelp', {}]],
  inlayHintProvider: [
    ['textDocument/inlayHint', { range: whole }],
    ['inlayHint/resolve', { label: '= 45 kg' }],
  ],
  codeLensProvider: [
    ['textDocument/codeLens', {}],
    ['codeLens/resolve', { range: whole }],
  ],
  documentLinkProvider: [
    ['textDocument/documentLink', {}],
    ['documentLink/resolve', { range: whole }],
  ],
  definitionProvider: [['textDocument/definition', {}]],
  referencesProvider: [['textDocument/references', { context: { includeDeclaration: true } }]],
  renameProvider: [
    ['textDocument/prepareRename', {}],
    ['textDocument/rename', { newName: 'Sandpiper' }],
  ],
  documentHighlightProvider: [['textDocument/documentHighlight', {}]],
  documentSymbolProvider: [['textDocument/documentSymbol', {}]],
  workspaceSymbolProvider: [['workspace/symbol', { query: 'har' }]],
  foldingRangeProvider: [['textDocument/foldingRange', {}]],
  selectionRangeProvider: [['textDocument/selectionRange', { positions: [{ line: 0, character: 0 }] }]],
  semanticTokensProvider: [['textDocument/semanticTokens/full', {}]],
  documentFormattingProvider: [['textDocument/formatting', { options }]],
  documentRangeFormattingProvider: [['textDocument/rangeFormatting', { options, range: whole }]],
  documentOnTypeFormattingProvider: [['textDocument/onTypeFormatting', { ch: '\n', options }]],
  codeActionProvider: [['textDocument/codeAction', { range: whole, context: { diagnostics: [] } }]],
  executeCommandProvider: [['workspace/executeCommand', { command: 'stave.server.export', arguments: [] }]],
};
/** Said, but no request. */
const notAsked = new Set(['textDocumentSync', 'workspace', 'positionEncoding']);

const emoji = example.replaceAll('Heron', 'Heron 🦢');
const documents: Record<string, { readonly text: string; readonly uri?: string }> = {
  'a usual file': { text: example },
  'an empty file': { text: '' },
  'line breaks of Windows': { text: example.replaceAll('\n', '\r\n') },
  'characters of two units': { text: emoji },
  'half a character': { text: example.replace('Heron', 'He\ud83dron') },
  'nothing but mistakes': { text: '|| ;; : = client\n  max: ,,,\n\u0000\u0007 block block 3x3x3\n"' },
  'one line of 200,000 characters': { text: `day A\n  back squat: ${'3x5 | '.repeat(33_000)}` },
  '5,000 lines': {
    text: `${example}\n${'  front squat: 3x5 r2 | 4x | x5\n'.repeat(5000)}`,
  },
  'a draft': { text: example, uri: 'untitled:Untitled-1' },
};

let folder: ReturnType<typeof folderWith>;
let editor: Editor;

beforeAll(async () => {
  folder = folderWith({});
  const abilities = structuredClone(fullAbilities);
  editor = await Editor.start({ folders: [folder.path], abilities });
});
afterAll(async () => {
  expect(await editor.stop()).toBe(0);
  folder.remove();
});

describe('every request that the server announces', () => {
  it('is asked here', () => {
    const announced = Object.keys(editor.greeting.capabilities).filter((name) => !notAsked.has(name));
    expect(announced.sort()).toEqual(Object.keys(requests).sort());
    expect(announced.sort()).toEqual(Object.keys(methods).sort());
  });

  describe.each(Object.entries(documents))('about %s', (name, { text, uri: own }) => {
    const uri = () => own ?? folder.uri(`${name.replaceAll(/\W/g, '-')}.stave`);

    beforeAll(() => editor.open(uri(), text));
    afterAll(() => editor.close(uri()));

    it.each(Object.entries(requests))(
      '%s',
      async (_, asks) => {
        const last = text.split(/\r\n|\n/).length - 1;
        const places = [
          { line: 0, character: 0 },
          text.includes('3x6') ? positionOf(text, '3x6', 1) : { line: last, character: 0 },
          { line: last + 100, character: 100_000 },
        ];
        for (const ask of asks) {
          for (const position of places) expect(await ask(editor, uri(), position)).toBeDefined();
        }
        expect(editor.logged).toEqual([]);
      },
      30_000,
    );
  });

  it.each(Object.entries(requests))('%s about a file that nobody knows', async (_, asks) => {
    for (const uri of [folder.uri('nowhere.stave'), 'git:/x.stave?ref', 'untitled:never', 'what is this']) {
      for (const ask of asks) expect(await ask(editor, uri, { line: 0, character: 0 })).toBeDefined();
    }
    expect(editor.logged).toEqual([]);
  });
});

describe('what is asked while the text changes', () => {
  const labels = async (uri: string) =>
    (await editor.ask<InlayHint[]>('textDocument/inlayHint', uri, { range: whole })).map(
      ({ label }) => label,
    );

  it('has the newest text, however many changes came before', async () => {
    const uri = folder.uri('typing.stave');
    await editor.open(uri, example);
    for (let weight = 40; weight < 100; weight += 1) {
      void editor.change(uri, example.replace('47.5kg x5', `${weight}kg x5`));
      void editor.ask('textDocument/hover', uri, { position: positionOf(example, '3x6', 1) });
    }
    await editor.change(uri, example);
    expect(await labels(uri)).toContain('= 47.5 kg');
    await editor.close(uri);
  });

  it('survives versions that go backwards, and changes outside the text', async () => {
    const uri = folder.uri('versions.stave');
    const change = (version: number, contentChanges: object[]) =>
      editor.connection.sendNotification('textDocument/didChange', {
        textDocument: { uri, version },
        contentChanges,
      });
    await editor.open(uri, '');
    await change(9, [{ text: example }]);
    await change(3, [{ text: '' }]);
    await change(3, [
      { range: { start: { line: 900, character: 9 }, end: { line: 901, character: 0 } }, text: 'x' },
    ]);
    await change(4, [{ text: example.replace('47.5kg x5', '57.5kg x5') }]);
    const late = await labels(uri);
    await change(5, [{ text: example }]);
    const now = await labels(uri);
    expect(now).toContain('= 47.5 kg');
    expect(late).not.toEqual(now);
    await editor.close(uri);
  });

  it('forgets a draft that was closed while it was worked on, and takes one that comes back', async () => {
    const uri = 'untitled:busy';
    for (let round = 0; round < 20; round += 1) {
      await editor.open(uri, example);
      void labels(uri).catch(() => {});
      void editor.ask<SemanticTokens>('textDocument/semanticTokens/full', uri).catch(() => {});
      await editor.close(uri);
    }
    expect(await labels(uri)).toEqual([]);
    await editor.open(uri, example);
    expect(await labels(uri)).toContain('= 47.5 kg');
    await editor.close(uri);
  });

  describe.each(Object.entries(methods))('%s', (_, list) => {
    it.each(list)('%s is given up when it is no longer wanted', async (method, more) => {
      const uri = folder.uri('given-up.stave');
      await editor.open(uri, example);
      const params = { textDocument: { uri }, position: positionOf(example, '3x6', 1), ...more };
      expect(await editor.cancelledAtOnce(method, params)).toBe(LSPErrorCodes.RequestCancelled);
      // What is asked next is answered as ever.
      expect(await labels(uri)).toContain('= 47.5 kg');
      await editor.close(uri);
    });
  });

  it('cancels what is no longer wanted, and answers the rest', async () => {
    const uri = folder.uri('cancelled.stave');
    await editor.open(uri, example);
    const asked = Array.from({ length: 40 }, (_, index) => {
      const source = new CancellationTokenSource();
      const params = { textDocument: { uri }, position: positionOf(example, '3x6', 1) };
      const answer = editor.connection.sendRequest('textDocument/hover', params, source.token).then(
        (hover) => (hover === null ? 'nothing' : 'answered'),
        (error: { code?: number }) =>
          error.code === -32800 || error.code === -32802 ? 'cancelled' : 'failed',
      );
      if (index % 2 === 0) source.cancel();
      return answer;
    });
    const answers = await Promise.all(asked);
    expect(answers.filter((answer) => answer === 'failed' || answer === 'nothing')).toEqual([]);
    expect(answers.filter((_, index) => index % 2 === 1)).toEqual(Array(20).fill('answered'));
    await editor.close(uri);
  });

  it('does not keep what a file said that was closed and is not on the disk', async () => {
    const uri = folder.uri('gone.stave');
    await editor.open(uri, example.replaceAll('Harbour winter', 'Only here'));
    const found = () => editor.connection.sendRequest<unknown[]>('workspace/symbol', { query: 'Only here' });
    expect(await found()).toHaveLength(1);
    await editor.close(uri);
    await until('the name is gone', async () => (await found()).length === 0);
  });

  it('has logged no failure of its own', () => {
    expect(editor.logged).toEqual([]);
    expect(fs.existsSync(folder.path)).toBe(true);
  });
});

it('help in a cell is announced and given', async () => {
  const uri = folder.uri('cell.stave');
  await editor.open(uri, example);
  const help = await editor.ask<SignatureHelp | null>('textDocument/signatureHelp', uri, {
    position: positionOf(example, '3x6 r2', 4),
  });
  expect(help?.signatures.length).toBeGreaterThan(0);
  await editor.close(uri);
});
