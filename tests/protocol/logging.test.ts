/** Logging as a coach does it: from the first letters of `log` to a whole session, over the protocol. */
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { CodeAction, CompletionItem, CompletionList } from 'vscode-languageserver/node';
import { addDays } from '../../server/src/engine/dates.js';
import { Editor, positionOf } from './editor.js';

const uri = 'untitled:Untitled-1';
const today = new Date().toISOString().slice(0, 10);
/** The Monday so many weeks before or after this one; the server takes its day from the clock. */
function monday(weeks: number): string {
  return addDays(today, -((new Date(`${today}T00:00:00Z`).getUTCDay() + 6) % 7) + 7 * weeks);
}

const base = `kit Boathouse
  bar: 15kg
  plates: 1.25kg x2, 2.5kg x2, 5kg x4, 10kg x4

client Heron
  trains at: Boathouse
  max: back squat, 47.5kg x5 r2, ${monday(-4)}
  follows: Winter, from ${monday(-3)}, on mon thu
client Wren
  trains at: Boathouse
  follows: Winter, from ${monday(-3)}, on mon thu

program Winter
block Keel, 8 weeks
day Lower
  back squat: 3x6 r2
  back squat (pause): 2x3 r3
  lunge: 3x8 /side
day Upper
  overhead press: 3x8 20kg
  push-up: 3x10

log Heron, ${monday(-3)}, Lower
  as planned
  pain: left knee 2/10

`;

describe('logging a session', () => {
  let editor: Editor;
  beforeAll(async () => {
    editor = await Editor.start({ initializationOptions: { suggestCommand: 'suggest' } });
    await editor.open(uri, base);
  });
  afterAll(() => editor.stop());

  /** What is offered at the end of what is written behind the base. */
  async function offered(written: string): Promise<CompletionItem[]> {
    const text = base + written;
    await editor.change(uri, text);
    const lines = text.split('\n');
    const position = { line: lines.length - 1, character: lines[lines.length - 1]?.length ?? 0 };
    const answer = await editor.ask<CompletionList>('textDocument/completion', uri, { position });
    return [...answer.items].sort((a, b) => ((a.sortText ?? '') < (b.sortText ?? '') ? -1 : 1));
  }
  const inserted = (item: CompletionItem | undefined): string => item?.textEdit?.newText ?? '';
  const labels = (items: readonly CompletionItem[]) => items.map(({ label }) => label);

  it('begins with the clients, and shows what comes next by itself', async () => {
    const found = (await offered('lo')).filter(({ label }) => label.startsWith('log'));
    expect(labels(found)).toEqual(['log', 'log Heron', 'log Wren']);
    expect(inserted(found[1])).toBe('log Heron, ');
    expect(found[1]?.command?.command).toBe('suggest');
    const names = await offered('log ');
    expect(labels(names)).toEqual(['Heron', 'Wren']);
    expect(names[0]?.command?.command).toBe('suggest');
  });

  it('fills in the movements of the chosen day with what was planned, and reads without a slip', async () => {
    const days = await offered('log Heron, ');
    expect(days[0]?.label).toMatch(/, (Lower|Upper)$/);
    expect(labels(days)).not.toContain(`${monday(-3)}, Lower`);
    const lower = days.find(({ label }) => label === `${monday(-2)}, Lower`);
    expect(inserted(lower)).toBe(
      `${monday(-2)}, Lower\n  back squat: 45kg 6 6 6\n  back squat (pause): 47.5kg 3 3\n  lunge: 8/8 8/8 8/8`,
    );
    await editor.change(uri, `${base}log Heron, ${inserted(lower)}\n`);
    const line = base.split('\n').length - 1;
    expect((await editor.diagnostics(uri)).filter(({ range }) => range.start.line >= line)).toEqual([]);
  });

  it('fills in a date that was typed by hand too', async () => {
    const typed = await offered(`log Heron, ${monday(-2)}`);
    expect(labels(typed)).toContain(`${monday(-2)}, Lower`);
    const [day] = await offered(`log Heron, ${monday(-2)}, `);
    expect(inserted(day)).toMatch(/^Lower\n {2}back squat: 45kg 6 6 6\n/);
  });

  it('takes several clients at once, as planned', async () => {
    const found = await offered('log Heron, Wren, ');
    expect(labels(found)).not.toContain('Heron');
    // Heron has a log of the first Lower already.
    expect(labels(found)).not.toContain(`${monday(-3)}, Lower`);
    expect(inserted(found.find(({ label }) => label === `${monday(-2)}, Lower`))).toBe(
      `${monday(-2)}, Lower\n  as planned`,
    );
  });

  it('offers what is not written yet, then effort, minutes and pain', async () => {
    const head = `log Heron, ${monday(-2)}, Lower\n  back squat: 45kg 6 6 5 r1\n  `;
    const found = await offered(head);
    expect(inserted(found[0])).toBe('back squat (pause): 47.5kg 3 3\n  lunge: 8/8 8/8 8/8');
    expect(labels(found).slice(1, 8)).toEqual([
      'back squat (pause): 47.5kg 3 3',
      'lunge: 8/8 8/8 8/8',
      'as planned',
      'swap',
      'session',
      'pain',
      'note',
    ]);
    const values = labels(await offered(`${head}lunge: `));
    expect(values.slice(0, 3)).toEqual(['8/8 8/8 8/8', 'as planned', 'skipped']);
    const [effort] = await offered(`${head}session: `);
    expect(inserted(effort)).toMatch(/^rpe .*, \$\{2:\d+\}min$/);
    const [pain] = await offered(`${head}pain: `);
    expect(pain?.label).toBe('left knee');
  });

  it('keeps a row with a label apart from the one without', async () => {
    const head = `log Heron, ${monday(-2)}, Lower\n  `;
    expect(labels(await offered(`${head}back squat (pause): `))[0]).toBe('47.5kg 3 3');
    expect(labels(await offered(`${head}back squat: `)).slice(0, 2)).toEqual(['45kg 6 6 6', 'as planned']);
  });

  it('questions 450 for 45, with the repair', async () => {
    const text = `${base}log Heron, ${monday(-2)}, Lower\n  back squat: 450kg 6 6 6\n`;
    await editor.change(uri, text);
    const found = (await editor.diagnostics(uri)).find(({ code }) => code === 'log-far-off');
    expect(found?.range.start).toEqual(positionOf(text, '450kg'));
    expect(found?.message).toMatch(/Did you mean 45kg\?/);
    const actions = await editor.ask<CodeAction[]>('textDocument/codeAction', uri, {
      range: found?.range,
      context: { diagnostics: [found] },
    });
    expect(actions.map(({ title }) => title)).toContain('Change to "45kg"');
  });
});
