import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { InlayHint, TextEdit } from 'vscode-languageserver/node';
import { TextDocument } from 'vscode-languageserver-textdocument';
import { Editor, positionOf } from './editor.js';
import { example } from './example.js';

// The protocol counts lines, and UTF-16 units in a line: a picture counts as two, a line break of two characters as one.

const whole = { range: { start: { line: 0, character: 0 }, end: { line: 99, character: 0 } } };
const options = { tabSize: 2, insertSpaces: true };
let editor: Editor;
beforeAll(async () => {
  editor = await Editor.start();
});
afterAll(() => editor.stop());

async function squatHints(uri: string): Promise<{ line: number; characters: number[] }> {
  const hints = await editor.ask<InlayHint[]>('textDocument/inlayHint', uri, whole);
  const first = hints.find(({ label }) => label === '= 45 kg');
  const line = first?.position.line ?? -1;
  const characters = hints
    .filter(({ position }) => position.line === line)
    .map(({ position }) => position.character);
  return { line, characters };
}

describe('positions', () => {
  it('are the same with either kind of line break', async () => {
    await editor.open('untitled:lf', example);
    await editor.open('untitled:crlf', example.replaceAll('\n', '\r\n'));
    const expected = await squatHints('untitled:lf');
    expect(expected.characters.length).toBe(5);
    expect(await squatHints('untitled:crlf')).toEqual(expected);
  });

  it('count a picture in a name as two', async () => {
    const text = example
      .replaceAll('back squat', '🚣🚣 squat')
      .replace('client Heron', 'movement 🚣🚣 squat\n  pattern: squat\n  with: barbell\n\nclient Heron');
    await editor.open('untitled:wide', text);
    const { line, characters } = await squatHints('untitled:wide');
    expect(line).toBe(positionOf(text, '  🚣🚣 squat:  ').line);
    const row = text.split('\n')[line] ?? '';
    expect(row.slice(0, characters[0])).toMatch(/rest 3min$/);
    const position = { line, character: row.indexOf('squat') };
    expect(await editor.ask('textDocument/prepareRename', 'untitled:wide', { position })).toMatchObject({
      placeholder: '🚣🚣 squat',
      range: { start: { line, character: 2 }, end: { line, character: 2 + '🚣🚣 squat'.length } },
    });
  });
});

describe('formatting', () => {
  const messy = example.replace(
    '  back squat:     3x6 r2 warm rest 3min | 4x |',
    'back squat: 3X6  R2 warm rest 3min|4x|',
  );

  async function formatted(uri: string, text: string, method: string, more: object): Promise<string> {
    const edits = await editor.ask<TextEdit[]>(method, uri, { options, ...more });
    return TextDocument.applyEdits(TextDocument.create(uri, 'stave', 1, text), edits);
  }

  it.each(['\n', '\r\n'])('lays a file out, once and for all (%j)', async (lineBreak) => {
    const uri = `untitled:format${lineBreak.length}`;
    const text = messy.replaceAll('\n', lineBreak);
    await editor.open(uri, text);
    const once = await formatted(uri, text, 'textDocument/formatting', {});
    expect(once).toContain('3x6 r2 warm rest 3min');
    expect(once.replaceAll(lineBreak, '')).not.toMatch(/[\r\n]/);
    await editor.change(uri, once);
    expect(await editor.ask('textDocument/formatting', uri, { options })).toEqual([]);
  });

  it('leaves other lines alone when only some are asked for', async () => {
    const text = messy.replace('  aim: strength', '      aim:   strength');
    await editor.open('untitled:range', text);
    const start = positionOf(text, 'back squat: 3X6');
    const range = { start, end: { ...start, character: 5 } };
    const result = await formatted('untitled:range', text, 'textDocument/rangeFormatting', { range });
    expect(result).toContain('      aim:   strength');
    expect(result).toContain('3x6 r2');
  });
});
