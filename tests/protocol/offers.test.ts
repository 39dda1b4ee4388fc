import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { CodeAction, TextDocumentEdit } from 'vscode-languageserver/node';
import { addDays } from '../../server/src/engine/dates.js';
import { Editor, positionOf } from './editor.js';

const uri = 'untitled:Untitled-1';
// The server takes its day from the clock; the sets are from last week, whenever this runs.
const today = new Date().toISOString().slice(0, 10);
const text = `movement lift
  pattern: squat
  with: barbell

client Heron
  max: lift, 47.5kg x5 r2, ${addDays(today, -30)}

log Heron, ${addDays(today, -9)}
  lift: 55kg 6 6 6 r2

log Heron, ${addDays(today, -6)}
  lift: 55kg 6 6 6 r2
`;

describe('what the logs suggest', () => {
  let editor: Editor;
  beforeAll(async () => {
    editor = await Editor.start();
    await editor.open(uri, text);
  });
  afterAll(() => editor.stop());

  it('is a code action on the client that adds a max line and nothing else', async () => {
    const at = positionOf(text, 'Heron');
    const actions = await editor.ask<CodeAction[]>('textDocument/codeAction', uri, {
      range: { start: at, end: at },
      context: { diagnostics: [], only: ['refactor'] },
    });
    const line = `max: lift, 55kg x6 r2, ${addDays(today, -6)}`;
    expect(actions.map(({ kind, title }) => [kind, title])).toEqual([
      ['refactor.rewrite', `Heron: new max line for lift from ${addDays(today, -6)}: ${line}`],
    ]);
    const changes = actions[0]?.edit?.documentChanges as TextDocumentEdit[];
    expect(changes[0]?.edits.map(({ newText }) => newText)).toEqual([`\n  ${line}`]);
  });
});
