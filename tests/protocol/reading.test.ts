import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type {
  CompletionList,
  DocumentSymbol,
  FoldingRange,
  Hover,
  InlayHint,
  SemanticTokens,
} from 'vscode-languageserver/node';
import { Editor, fullAbilities, positionOf } from './editor.js';
import { example } from './example.js';

const uri = 'untitled:Untitled-1';
const whole = { range: { start: { line: 0, character: 0 }, end: { line: 99, character: 0 } } };
let editor: Editor;

beforeAll(async () => {
  editor = await Editor.start();
  await editor.open(uri, example);
});
afterAll(async () => {
  expect(await editor.stop()).toBe(0);
  expect(editor.logged).toEqual([]);
});

/** Labels of the hints of one line, in order of place. */
async function hintsOn(line: number): Promise<string[]> {
  const hints = await editor.ask<InlayHint[]>('textDocument/inlayHint', uri, whole);
  return hints
    .filter(({ position }) => position.line === line)
    .sort((a, b) => a.position.character - b.position.character)
    .map(({ label }) => String(label));
}

describe('an unsaved file, read', () => {
  it('shows the loads of the worked example beside the cells', async () => {
    const squat = positionOf(example, '  back squat:').line;
    expect(await hintsOn(squat)).toEqual(['= 45 kg', '= 45 kg', '= 47.5 kg', '= 47.5 kg', '= 42.5 kg']);
  });

  it('explains every hint in its tooltip, without a label that is empty', async () => {
    const hints = await editor.ask<InlayHint[]>('textDocument/inlayHint', uri, whole);
    expect(hints.length).toBeGreaterThan(5);
    for (const { label, tooltip } of hints) {
      expect(label).not.toBe('');
      expect(String(tooltip)).toContain('Heron');
    }
  });

  it('keeps the tooltips to itself until somebody points at a hint, where the editor asks then', async () => {
    const inlayHint = { refreshSupport: true, resolveSupport: { properties: ['tooltip', 'textEdits'] } };
    const { textDocument } = fullAbilities;
    const asking = await Editor.start({
      abilities: { ...fullAbilities, textDocument: { ...textDocument, inlayHint } },
    });
    try {
      await asking.open(uri, example);
      const [told, bare] = await Promise.all(
        [editor, asking].map((each) => each.ask<InlayHint[]>('textDocument/inlayHint', uri, whole)),
      );
      expect(bare?.map(({ label, tooltip }) => [label, tooltip])).toEqual(
        told?.map(({ label }) => [label, undefined]),
      );
      const resolved = await Promise.all(
        (bare ?? []).map((hint) => asking.connection.sendRequest<InlayHint>('inlayHint/resolve', hint)),
      );
      expect(resolved.map(({ tooltip }) => tooltip)).toEqual(told?.map(({ tooltip }) => tooltip));
    } finally {
      await asking.stop();
    }
  });

  it('gives no hints outside the lines that are asked for', async () => {
    const range = { start: { line: 0, character: 0 }, end: { line: 3, character: 0 } };
    expect(await editor.ask('textDocument/inlayHint', uri, { range })).toEqual([]);
  });

  it('tells who lifts what, and why, on a cell', async () => {
    const position = positionOf(example, '3x6 r2', 2);
    const hover = await editor.ask<Hover>('textDocument/hover', uri, { position });
    const text = JSON.stringify(hover.contents);
    expect(text).toContain('Heron');
    expect(text).toContain('45 kg');
    expect(text).toContain('57');
    expect(hover.range?.start.line).toBe(position.line);
  });

  it('says nothing on an empty line', async () => {
    expect(
      await editor.ask('textDocument/hover', uri, { position: positionOf(example, '\n\nclient', 1) }),
    ).toBeNull();
  });

  it('offers movements on an empty line of a day', async () => {
    const text = `${example}  \n`;
    await editor.change(uri, text);
    const line = text.split('\n').length - 2;
    const list = await editor.ask<CompletionList>('textDocument/completion', uri, {
      position: { line, character: 2 },
    });
    expect(list.items.map(({ label }) => label)).toContain('back squat');
    for (const item of list.items) expect(item.textEdit).toBeDefined();
    await editor.change(uri, example);
  });

  it('gives an outline that follows the text', async () => {
    const symbols = await editor.ask<DocumentSymbol[]>('textDocument/documentSymbol', uri);
    expect(symbols.map(({ name }) => name)).toEqual(['Boathouse', 'Heron', 'Harbour winter']);
    const days = symbols[2]?.children?.[0]?.children ?? [];
    expect(days.map(({ name }) => name)).toEqual(['Lower', 'Upper']);
  });

  it('folds sections from their first to their last line', async () => {
    const folds = await editor.ask<FoldingRange[]>('textDocument/foldingRange', uri);
    expect(folds).toContainEqual(expect.objectContaining({ startLine: 0, endLine: 3 }));
  });

  it('colours text inside the file only, with kinds that it named in the greeting', async () => {
    const { data } = await editor.ask<SemanticTokens>('textDocument/semanticTokens/full', uri);
    const kinds = editor.greeting.capabilities.semanticTokensProvider?.legend.tokenTypes.length ?? 0;
    const lines = example.split('\n');
    let line = 0;
    let character = 0;
    expect(data.length).toBeGreaterThan(100);
    for (let at = 0; at < data.length; at += 5) {
      const [down = 0, right = 0, length = 0, kind = 0] = data.slice(at, at + 4);
      line += down;
      character = down === 0 ? character + right : right;
      expect(kind).toBeLessThan(kinds);
      expect(length).toBeGreaterThan(0);
      expect(character + length).toBeLessThanOrEqual(lines[line]?.length ?? -1);
    }
  });

  it('answers about a file that nobody knows with nothing', async () => {
    const unknown = 'file:///no/such/place.stave';
    const position = { line: 0, character: 0 };
    expect(await editor.diagnostics(unknown)).toEqual([]);
    expect(await editor.ask('textDocument/hover', unknown, { position })).toBeNull();
    expect(await editor.ask('textDocument/inlayHint', unknown, whole)).toEqual([]);
    expect(await editor.ask('textDocument/formatting', unknown, { options: {} })).toEqual([]);
    expect(await editor.ask('textDocument/completion', unknown, { position })).toBeNull();
  });
});
