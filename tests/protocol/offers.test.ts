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

describe('what the logs suggest, where the editor can list places', () => {
  const monday = (weeks: number) => {
    const day = new Date(`${today}T00:00:00Z`).getUTCDay();
    return addDays(today, -((day + 6) % 7) + 7 * weeks);
  };
  const fixed = `movement lift
  pattern: squat
  with: barbell

kit Boathouse
  bar: 15kg
  plates: 1.25kg x2, 2.5kg x2, 5kg x4, 10kg x4

client Heron
  trains at: Boathouse
  follows: Winter, from ${monday(-3)}, on mon

program Winter
block Keel, 8 weeks
day A
  lift: 3x8 40kg

log Heron, ${monday(-3)}, A
  lift: 40kg 8 8 10

log Heron, ${monday(-2)}, A
  lift: 40kg 8 8 10
`;
  let editor: Editor;
  beforeAll(async () => {
    editor = await Editor.start({ initializationOptions: { listCommand: 'stave.showPlaces' } });
    await editor.open(uri, fixed);
  });
  afterAll(() => editor.stop());

  const actionsAt = (text: string) => {
    const at = positionOf(fixed, text);
    return editor.ask<CodeAction[]>('textDocument/codeAction', uri, {
      range: { start: at, end: at },
      context: { diagnostics: [], only: ['refactor.rewrite'] },
    });
  };

  it('writes a load into the row where the load is fixed, and lists what it rests on', async () => {
    const actions = await actionsAt('Heron');
    const [take, list] = actions.filter(({ title }) => title.startsWith('Heron: '));
    expect(take?.title).toMatch(/^Heron: lift is ready for 42\.5 kg: lift, week [45]: 42.5kg$/);
    const changes = take?.edit?.documentChanges as TextDocumentEdit[];
    expect(changes[0]?.edits.map(({ newText }) => newText.trim())[0]).toMatch(/42\.5kg$/);
    expect(list?.title).toBe('Heron: see what the offers rest on');
    expect(list?.command?.command).toBe('stave.showPlaces');
    const entries = list?.command?.arguments?.[1] as { label: string; detail: string; uri: string }[];
    expect(entries).toHaveLength(3);
    expect(entries[0]?.label).toMatch(/2 or more reps over the goal/);
    expect(entries[0]?.detail).toMatch(/2-for-2/);
    expect(entries[1]?.label).toMatch(/8 8 10 done; planned 3 × 8/);
    expect(entries.every((each) => each.uri === uri)).toBe(true);
  });
});
