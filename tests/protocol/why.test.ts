import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import type { Why } from '../../server/src/lsp/messages.js';
import { Editor, folderWith, positionOf } from './editor.js';
import { people, program } from './example.js';

let folder: ReturnType<typeof folderWith>;
let editor: Editor;

beforeEach(async () => {
  folder = folderWith({ 'people.stave': people, 'programs/winter.stave': program });
  editor = await Editor.start({
    folders: [folder.path],
    initializationOptions: { explainCommand: 'stave.explain' },
  });
});
afterEach(async () => {
  await editor.stop();
  folder.remove();
});

const why = (more: object = {}): Promise<Why | null> =>
  editor.connection.sendRequest('stave/why', {
    uri: folder.uri('programs/winter.stave'),
    position: positionOf(program, '| x5', 3),
    ...more,
  });

describe('the page of reasons', () => {
  it('is about the cell at the position, for the client whose loads are shown', async () => {
    const answer = await why();
    expect(answer).toMatchObject({
      ...{ view: 'why', found: true, title: 'Back squat · Heron', client: 'heron', day: '2026-12-21' },
      fields: [],
      clients: [{ key: 'heron', name: 'Heron' }],
    });
    expect(answer?.days.map(({ title }) => title)[2]).toBe('week 3, Monday 21 December');
    expect(answer?.body).toContain('4 × 5 at 47.5 kg');
    expect(answer?.spoken).toBe('back squat, Heron, Monday 21 December: 4 × 5 at 47.5 kg');
  });

  it('leads to lines of several files, without an address in the page', async () => {
    const answer = await why();
    const { body = '', sources = [] } = answer ?? {};
    expect(body).not.toContain(folder.path);
    expect(body).not.toMatch(/data-file|data-start/);
    const max = /data-at="(\d+):(\d+):\d+:\d+:\d+">people\.stave, line 10</.exec(body);
    expect(sources[Number(max?.[1])]).toBe(folder.uri('people.stave'));
    expect(Number(max?.[2])).toBe(9);
  });

  it('takes a day', async () => {
    const answer = await why({ day: '2026-12-07' });
    expect(answer).toMatchObject({ day: '2026-12-07' });
    expect(answer?.body).toContain('3 × 6 at 45 kg');
    // A day on which she does not do this row, and one that is none.
    expect((await why({ day: '2026-12-08' }))?.day).toBe('2026-12-21');
    expect((await why({ day: 'never' }))?.day).toBe('2026-12-21');
  });

  it('says what to do where there is no cell', async () => {
    const answer = await why({ uri: folder.uri('people.stave'), position: { line: 0, character: 0 } });
    expect(answer).toMatchObject({ found: false, title: 'Why this load', days: [] });
    expect(answer?.body).toMatch(/<h1>No cell here<\/h1>/);
    expect(answer?.spoken).toMatch(/^No cell here\. Put the cursor/);
  });

  it('is refused where nothing is asked that makes sense', async () => {
    expect(await why({ uri: 'file:///nowhere/at-all.stave' })).toBeNull();
    expect(await why({ position: { line: -1, character: 0 } })).toBeNull();
    expect(await editor.connection.sendRequest('stave/why', null)).toBeNull();
  });
});

describe('the page of what would be', () => {
  it('has the fields of her maxes and kits, and nothing compared at first', async () => {
    const answer = await why({ view: 'if' });
    expect(answer).toMatchObject({
      view: 'if',
      found: true,
      title: 'What if · Heron',
      client: 'heron',
      days: [],
    });
    expect(answer?.fields.map(({ id, group, long }) => [id, group, long])).toEqual([
      ['max back squat', 'Newest maxes', false],
      ['max overhead press', 'Newest maxes', false],
      ['kit boathouse', 'Kits', true],
      ['more', 'Further lines of hers', true],
    ]);
    expect(answer?.spoken).toBe('Nothing is written differently yet.');
  });

  it('compares what is changed, and leaves files and findings as they are', async () => {
    const changes = { 'max back squat': '50kg x5 r2, 2026-11-23' };
    const answer = await why({ view: 'if', changes });
    expect(answer?.spoken).toBe('5 of 10 cells move: 5 heavier. The findings stay the same.');
    expect(answer?.body).toContain('47.5 kg → 50 kg');
    expect(answer?.body).not.toMatch(/data-file|data-start/);
    const reasons = await why();
    expect(reasons?.body).toContain('4 × 5 at 47.5 kg');
  });

  it('says which field cannot be read', async () => {
    const answer = await why({ view: 'if', changes: { 'kit boathouse': 'bar: heavy' } });
    const problems = answer?.fields.flatMap(({ id, problem }) => (problem === null ? [] : [id]));
    expect(problems).toEqual(['kit boathouse']);
    // What is no change at all is none.
    const strange = await why({ view: 'if', changes: { nothing: 'x', 'max back squat': 7 } });
    expect(strange?.spoken).toBe('Nothing is written differently yet.');
  });

  it('says what to do where there is no client', async () => {
    const uri = 'untitled:Untitled-1';
    await editor.connection.sendNotification('textDocument/didOpen', {
      textDocument: { uri, languageId: 'stave', version: 1, text: 'program Alone\n' },
    });
    const answer = await why({ uri, view: 'if', position: { line: 0, character: 0 } });
    expect(answer).toMatchObject({ found: false, fields: [], client: null });
    expect(answer?.spoken).toMatch(/^No client is written here yet\./);
  });
});

describe('the hover on a cell', () => {
  const hover = async (piece: string, plus = 0): Promise<string> => {
    const answer: { contents: { value: string } } | null = await editor.connection.sendRequest(
      'textDocument/hover',
      {
        textDocument: { uri: folder.uri('programs/winter.stave') },
        position: positionOf(program, piece, plus),
      },
    );
    return answer?.contents.value ?? '';
  };

  it('has a link to the page', async () => {
    const value = await hover('| x5', 3);
    const link = /^\[Explain this load\]\(command:stave\.explain\?([^)\s]+)\)/.exec(value);
    expect(JSON.parse(decodeURIComponent(link?.[1] ?? ''))).toEqual([
      folder.uri('programs/winter.stave'),
      positionOf(program, '| x5', 3),
    ]);
    expect(await hover('block Keel')).not.toContain('command:');
  });

  it('has none for an editor without the command', async () => {
    await editor.stop();
    editor = await Editor.start({ folders: [folder.path] });
    const value = await hover('| x5', 3);
    expect(value).toContain('47.5 kg');
    expect(value).not.toContain('command:');
  });
});
