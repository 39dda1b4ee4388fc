import fs from 'node:fs';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { CodeAction, TextDocumentEdit } from 'vscode-languageserver/node';
import { Editor, fullAbilities, positionOf, until } from './editor.js';
import { example } from './example.js';

const uri = 'untitled:Untitled-1';
const misspelt = example.replace('  back squat:     3x6', '  back sqat:      3x6');

describe('findings that a client pulls', () => {
  let editor: Editor;
  beforeAll(async () => {
    editor = await Editor.start();
    await editor.open(uri, misspelt);
  });
  afterAll(() => editor.stop());

  it('come from the unsaved text, with a code, a place and a page', async () => {
    const found = (await editor.diagnostics(uri)).find(({ code }) => code === 'unknown-name');
    expect(found?.message).toContain('back sqat');
    expect(found?.range.start).toEqual(positionOf(misspelt, 'back sqat'));
    const page = fileURLToPath(found?.codeDescription?.href ?? '');
    expect(fs.readFileSync(page, 'utf8')).toContain('unknown-name');
  });

  it('are fresh after every change, and unchanged is said where nothing changed', async () => {
    await editor.change(uri, example);
    expect((await editor.diagnostics(uri)).filter(({ code }) => code === 'unknown-name')).toEqual([]);
    const first = await editor.ask<{ kind: string; resultId: string }>('textDocument/diagnostic', uri);
    const again = await editor.ask<{ kind: string }>('textDocument/diagnostic', uri, {
      previousResultId: first.resultId,
    });
    expect(first.kind).toBe('full');
    expect(again.kind).toBe('unchanged');
    await editor.change(uri, misspelt);
    const fresh = await editor.ask<{ kind: string }>('textDocument/diagnostic', uri, {
      previousResultId: first.resultId,
    });
    expect(fresh.kind).toBe('full');
  });

  it('offer the repair that was meant', async () => {
    await editor.change(uri, misspelt);
    const [diagnostic] = (await editor.diagnostics(uri)).filter(({ code }) => code === 'unknown-name');
    const actions = await editor.ask<CodeAction[]>('textDocument/codeAction', uri, {
      range: diagnostic?.range,
      context: { diagnostics: [diagnostic] },
    });
    const fix = actions.find(({ title }) => title.includes('back squat'));
    expect(fix?.diagnostics).toHaveLength(1);
    const [change] = (fix?.edit?.documentChanges ?? []) as TextDocumentEdit[];
    expect(change?.textDocument).toEqual({ uri, version: expect.any(Number) });
    expect(change?.edits[0]).toEqual({ range: diagnostic?.range, newText: 'back squat' });
  });
});

describe('findings for a client that does not pull', () => {
  it('are sent after a change, and taken back when the file is closed', async () => {
    const { diagnostic: _, ...textDocument } = fullAbilities.textDocument ?? {};
    const editor = await Editor.start({ abilities: { ...fullAbilities, textDocument } });
    expect(editor.greeting.capabilities.diagnosticProvider).toBeUndefined();
    await editor.open(uri, misspelt);
    const codes = () => editor.pushed.get(uri)?.map(({ code }) => code);
    await until('the finding is sent', () => codes()?.includes('unknown-name'));
    await editor.change(uri, example);
    await until('it is gone', () => codes()?.includes('unknown-name') === false);
    await editor.change(uri, misspelt);
    await until('it is back', () => codes()?.includes('unknown-name'));
    await editor.close(uri);
    await until('nothing is shown', () => codes()?.length === 0);
    await editor.stop();
  });
});

describe('severities', () => {
  it('follow the settings, and a setting that makes no sense changes nothing', async () => {
    let rules: Record<string, unknown> = { 'unknown-name': 'hint' };
    const editor = await Editor.start({ settings: () => ({ rules, hints: 'all of them' }) });
    await editor.open(uri, misspelt);
    const severity = async () =>
      (await editor.diagnostics(uri)).find(({ code }) => code === 'unknown-name')?.severity;
    expect(await severity()).toBe(4);
    for (const [value, expected] of [
      ['off', undefined],
      ['loud', 1],
      ['warning', 2],
    ] as const) {
      rules = { 'unknown-name': value };
      await editor.connection.sendNotification('workspace/didChangeConfiguration', { settings: null });
      await until(`severity ${expected}`, async () => (await severity()) === expected);
    }
    await editor.stop();
  });
});
