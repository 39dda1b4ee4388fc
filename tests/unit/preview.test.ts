import { describe, expect, it } from 'vitest';
import { readExportAnswers, readExportWish } from '../../client/src/exportAnswers.js';
import {
  type Mark,
  readFromPanel,
  readMark,
  readPreview,
  readState,
  readToPanel,
} from '../../client/src/previewMessages.js';
import { marksAt } from '../../client/src/webview/marks.js';
import { sheetStyles } from '../../server/src/engine/documents/draw.js';
import { DOCUMENT_KINDS, documentKind } from '../../server/src/engine/documents/kinds.js';
import { PAPER_STYLES } from '../../server/src/engine/print/paper/styles.js';
import { PLAN_STYLES } from '../../server/src/engine/print/styles.js';

const preview = {
  kinds: [{ id: 'plan', title: 'Plan', aboutClient: true, hasDates: false, formats: ['html'] }],
  clients: [{ key: 'heron', name: 'Heron', inFile: true, follows: ['Harbour winter'] }],
  kind: 'plan',
  client: 'heron',
  dates: [],
  date: null,
  notice: null,
  empty: null,
  page: { title: 'Plan', css: '', body: '<main></main>', sources: ['file:///a.stave'] },
};

describe('messages of the preview', () => {
  it('from the server are taken when whole', () => {
    expect(readPreview(preview)?.page?.sources).toEqual(['file:///a.stave']);
    expect(readPreview({ ...preview, page: null, empty: { heading: 'a', text: 'b' } })?.page).toBeNull();
  });

  it.each([
    null,
    'plan',
    [],
    { ...preview, kinds: 'plan' },
    { ...preview, page: { title: 'Plan', css: '', body: 4, sources: [] } },
    { ...preview, page: { title: 'Plan', css: '', body: '' } },
    { ...preview, clients: [{ key: 'heron' }] },
  ])('from the server are refused when not: %j', (value) => {
    expect(readPreview(value)).toBeUndefined();
  });

  it('to the panel are taken apart, and never carry addresses of files', () => {
    const shown = readToPanel({ type: 'show', uri: null, large: false, preview });
    expect(shown).toMatchObject({ type: 'show' });
    expect(JSON.stringify(shown)).not.toContain('a.stave');
    expect(readToPanel({ type: 'cursor', at: { source: 0, line: 4, character: 2 } })).toBeDefined();
    expect(readToPanel({ type: 'cursor', at: '0:4' })).toBeUndefined();
    expect(readToPanel({ type: 'eval', script: 'alert(1)' })).toBeUndefined();
  });

  it.each([
    [{ type: 'ready' }, true],
    [{ type: 'export' }, true],
    [{ type: 'choose', client: 'wren', date: null }, true],
    [{ type: 'choose', large: 'yes' }, false],
    [{ type: 'jump', at: '0:4:2:4:9' }, true],
    [{ type: 'jump', at: 'file:///etc/passwd' }, false],
    [{ type: 'jump', at: '0:4:2:4:-9' }, false],
    [{ type: 'jump', at: '0:4:2:4:9999999999' }, false],
    [{ type: 'run', command: 'x' }, false],
    [undefined, false],
  ])('from the panel: %j', (value, taken) => {
    expect(readFromPanel(value) !== undefined).toBe(taken);
  });

  it('what was kept over a reload is taken as far as it makes sense', () => {
    const nothing = { uri: null, kind: null, date: null, large: false, zoom: 0, scroll: 0 };
    expect(readState(undefined)).toEqual(nothing);
    expect(readState('x')).toEqual(nothing);
    expect(readState({ uri: 'file:///a', kind: 7, zoom: 'big', large: true })).toEqual({
      ...nothing,
      uri: 'file:///a',
      large: true,
    });
  });

  it('answers of an export are remembered only when whole', () => {
    const answers = { kind: 'plan', client: null, date: null, large: false, formats: ['pdf'], folder: null };
    expect(readExportAnswers(answers)).toEqual(answers);
    expect(readExportAnswers({ ...answers, formats: [] })).toBeUndefined();
    expect(readExportAnswers(undefined)).toBeUndefined();
    expect(readExportWish({ kind: 'card', client: null })).toEqual({ kind: 'card', client: null });
    expect(readExportWish(7)).toEqual({});
  });
});

describe('the cell of the cursor', () => {
  const mark = (line: number, from: number, to: number, source = 0): Mark => ({
    ...{ source, line, character: from, endLine: line, endCharacter: to },
  });
  // `  squat: 3x6 r2 | 4x | ` twice, as a block that is like another one prints it.
  const cells = [mark(4, 9, 15), mark(4, 18, 20), mark(4, 23, 23), mark(4, 9, 15), mark(5, 9, 12)];
  const at = (line: number, character: number, source = 0) =>
    marksAt(cells, { source, line, character }).map((each) => each.character);

  it.each([
    ['in the first cell, every time that it is printed', 12, [9, 9]],
    ['at its very end', 15, [9, 9]],
    ['before the bar', 16, [9, 9]],
    ['in the second', 19, [18]],
    ['in an empty one', 23, [23]],
    ['on the name of the movement', 3, [9, 9]],
  ])('%s', (_what, character, found) => {
    expect(at(4, character)).toEqual(found);
  });

  it('is none on a line that is not printed, and in another file', () => {
    expect(at(3, 10)).toEqual([]);
    expect(at(4, 10, 1)).toEqual([]);
  });

  it('is read from its mark', () => {
    expect(readMark('2:4:9:4:15')).toEqual({ ...mark(4, 9, 15), source: 2 });
    for (const wrong of [null, undefined, '', '1:2', '1:2:3:4:x', '1:2:3:4:5:6', '1:2:3:4:1.5'])
      expect(readMark(wrong)).toBeUndefined();
  });
});

describe('the styles of the sheet', () => {
  it.each([
    ['plan', PLAN_STYLES],
    ['paper', PAPER_STYLES],
  ])('keep the paper of a %s white, and do not leave it', (_name, css) => {
    const made = sheetStyles(css);
    expect(css).toMatch(/:root/);
    expect(made).not.toMatch(/:root|prefers-color-scheme|light dark|(^|[\s}])body\s*\{/);
    expect(made).toContain(':host {');
    expect(made.split('{')).toHaveLength(css.split('{').length);
  });
});

describe('the kinds of documents', () => {
  it('have ids of their own', () => {
    const ids = DOCUMENT_KINDS.map(({ id }) => id);
    expect(new Set(ids).size).toBe(ids.length);
    expect(documentKind('card').id).toBe('card');
    expect(documentKind('poster').id).toBe('plan');
    expect(documentKind(null).id).toBe('plan');
  });
});
