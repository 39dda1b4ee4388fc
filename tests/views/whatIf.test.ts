import fs from 'node:fs';
import { describe, expect, it } from 'vitest';
import { normaliseName } from '../../grammar/index.js';
import type { EngineSession } from '../../server/src/engine/session.js';
import { whatIf } from '../../server/src/engine/views/explain/whatIf.js';
import { type Changes, whatIfFields } from '../../server/src/engine/views/explain/whatIfFields.js';
import { whatIfHtml, whatIfSummary } from '../../server/src/engine/views/explain/whatIfHtml.js';
import { boathouse, SMALL, sessionOf } from './workspace.js';

const example = fs.readFileSync(new URL('../../samples/winter/winter.stave', import.meta.url), 'utf8');
const worked = () => sessionOf({ 'winter.stave': example });

function clientOf(session: EngineSession, name: string) {
  const client = session.world().clients.get(normaliseName(name));
  if (!client) throw new Error(`no ${name}`);
  return client;
}

const compared = (session: EngineSession, name: string, changes: Changes) =>
  whatIf(session, clientOf(session, name), changes);

/** `45 kg → 47.5 kg` for each week of a row. */
const weeks = (result: ReturnType<typeof whatIf>, row = 0) =>
  result.blocks[0]?.rows[row]?.weeks.map((cells) =>
    cells.map(({ before, after }) => (before === after ? before : `${before} → ${after}`)).join(' '),
  );

describe('what can be written differently', () => {
  it('are the newest maxes, the kits where she trains, and further lines', () => {
    const session = worked();
    expect(whatIfFields(session, clientOf(session, 'Heron'))).toEqual([
      { id: 'max back squat', group: 'max', label: 'back squat', written: '47.5kg x5 r2, 2026-11-23' },
      {
        id: 'max overhead press',
        group: 'max',
        label: 'overhead press',
        written: '22.5kg x6 r2, 2026-11-23',
      },
      {
        id: 'kit boathouse',
        group: 'kit',
        label: 'Boathouse',
        written: 'bar: 15kg\nplates: 1.25kg x2, 2.5kg x2, 5kg x4, 10kg x4\ndumbbells: 2kg to 20kg by 2kg',
      },
      { id: 'more', group: 'more', label: 'Under client Heron', written: '' },
    ]);
  });

  it('written back as it stands changes nothing, for every client of the samples', () => {
    const session = boathouse();
    const before = new Map(session.files().map((file) => [file, session.text(file)]));
    for (const client of session.world().clients.values()) {
      const fields = whatIfFields(session, client);
      expect(fields.length).toBeGreaterThan(0);
      const same = Object.fromEntries(fields.map(({ id, written }) => [id, written]));
      expect(whatIf(session, client, same)).toMatchObject({ changed: false, blocks: [], come: [], go: [] });
      // With a space more it is a change of the text that means the same.
      const spaced = Object.fromEntries(fields.map(({ id, written }) => [id, written.replace(' ', '  ')]));
      const result = whatIf(session, client, spaced);
      expect(result.problems).toEqual(new Map());
      expect({ ...result.counts, come: result.come, go: result.go }).toEqual({
        ...{ up: 0, down: 0, other: 0, effort: 0, new: 0, gone: 0 },
        ...{ come: [], go: [] },
      });
    }
    for (const [file, text] of before) expect(session.text(file)).toBe(text);
  });
});

describe('another max', () => {
  it('moves the cells that rest on it, week by week', () => {
    // 50 × 36/30 = 60 kg. 60 × 29/36 = 48.33, 60 × 30/36 = 50, deload 60 × 28/36 = 46.67: 47.5, 50 and 45 kg.
    const result = compared(worked(), 'Heron', { 'max back squat': '50kg x5 r2, 2026-11-23' });
    expect(weeks(result)).toEqual([
      '45 kg → 47.5 kg',
      '45 kg → 47.5 kg',
      '47.5 kg → 50 kg',
      '47.5 kg → 50 kg',
      '42.5 kg → 45 kg',
    ]);
    expect(result.counts).toEqual({ up: 5, down: 0, other: 0, effort: 0, new: 0, gone: 0 });
    expect(result.blocks.map(({ rows }) => rows.map(({ name }) => name))).toEqual([['back squat']]);
    expect(result).toMatchObject({ sessions: 10, cells: 10, from: '2026-12-07', until: '2027-01-07' });
    expect(whatIfSummary(result)).toBe('5 of 10 cells move: 5 heavier. The findings stay the same.');
  });

  it('that makes no other load tells the reserve that it leaves', () => {
    // 48 × 36/30 = 57.6 kg: 46.4 and 48 kg are asked, 45 and 47.5 kg are made; deload 44.8: 45 kg, 1 % is enough.
    const result = compared(worked(), 'Heron', { 'max back squat': '48kg x5 r2, 2026-11-23' });
    expect(result.counts).toMatchObject({ up: 1, effort: 4 });
    const first = result.blocks[0]?.rows[0]?.weeks[0]?.[0];
    // 37 − 36 × 45/57 − 6 and the same of 57.6 kg.
    expect(first).toMatchObject({ before: '45 kg', after: '45 kg', leftBefore: '2.6', leftAfter: '2.9' });
    expect(first?.move).toBe('effort');
  });

  it('taken away leaves the loads blank, and brings the finding for that', () => {
    const result = compared(worked(), 'Heron', { 'max back squat': '' });
    expect(weeks(result)?.[0]).toBe('45 kg → –');
    expect(result.counts).toMatchObject({ other: 5 });
    expect(result.come.map(({ code }) => code)).toContain('max-unknown');
  });

  it('that cannot be read is left out, and told of', () => {
    const result = compared(worked(), 'Heron', {
      'max back squat': '50kg x',
      'max overhead press': '25kg x6 r2, 2026-11-23',
    });
    expect([...result.problems.keys()]).toEqual(['max back squat']);
    expect(result.blocks.flatMap(({ rows }) => rows.map(({ name }) => name))).toEqual(['overhead press']);
    expect(whatIfSummary(result)).toMatch(/What cannot be read is left out\.$/);
    const alone = compared(worked(), 'Heron', { 'max back squat': '50kg x' });
    expect(alone.changed).toBe(false);
    expect(whatIfSummary(alone)).toMatch(/cannot be read yet/);
  });
});

describe('another kit', () => {
  const without = { 'kit boathouse': 'bar: 15kg\nplates: 5kg x4, 10kg x4\ndumbbells: 2kg to 20kg by 2kg' };

  it('moves the cells of everybody who trains with it', () => {
    // Without small plates: 15 + 2 × (10 + 5) = 45 stays; 47.5 and 42.5 become 45 and 35 kg.
    const result = compared(worked(), 'Heron', without);
    expect(weeks(result)).toEqual([
      '45 kg',
      '45 kg',
      '47.5 kg → 45 kg',
      '47.5 kg → 45 kg',
      '42.5 kg → 35 kg',
    ]);
    expect(result.counts).toMatchObject({ up: 0 });
    const session = sessionOf(SMALL);
    const shared = compared(session, 'Heron', without);
    expect(shared.others.map(({ name }) => name)).toEqual(['Wren']);
    expect(shared.others[0]?.moved).toBeGreaterThan(0);
    expect(whatIfHtml(shared, (file) => file)).toMatch(
      /Others with the changed kit: Wren: \d+ cells? moves?\./,
    );
  });

  it('compares the first others by name where there are too many, and says how many it left out', () => {
    const wren = (SMALL['clients.stave'] ?? '').split('\n\n')[1] ?? '';
    const crowd = Array.from({ length: 31 }, (_, index) => wren.replace('Wren', `Wren ${index}`)).join(
      '\n\n',
    );
    const session = sessionOf({ ...SMALL, 'crowd.stave': crowd });
    const result = compared(session, 'Heron', without);
    expect(result.others.map(({ name }) => name).slice(0, 3)).toEqual(['Wren', 'Wren 0', 'Wren 1']);
    expect(result).toMatchObject({ othersLeft: 2 });
    expect(result.others).toHaveLength(30);
    expect(whatIfHtml(result, (file) => file)).toContain(
      '2 further others train with the changed kit; their plans were not compared.',
    );
  });

  it('brings and takes findings, each with its line in the file as it is', () => {
    const result = compared(worked(), 'Heron', {
      'kit boathouse':
        'bar: 15kg\nplates: 0.5kg x2, 1.25kg x2, 2.5kg x2, 5kg x4, 10kg x4\ndumbbells: 2kg to 20kg by 2kg',
    });
    const stuck = result.go.find(({ code }) => code === 'stuck');
    expect(stuck?.line).toMatchObject({ line: 23 });
    expect(stuck?.line.text).toMatch(/^overhead press: 3x8 r3/);
  });
});

describe('a finding that says something else', () => {
  it('is one that changes, not one that comes and one that goes', () => {
    // A max from sixteen weeks ago in place of one from twelve: as stale as before, and told with another date.
    const old = example.replaceAll('2026-11-23', '2026-09-14');
    const session = sessionOf({ 'winter.stave': old });
    const result = compared(session, 'Heron', { 'max back squat': '47.5kg x5 r2, 2026-08-17' });
    const codes = (found: readonly { code: string }[]) => found.map(({ code }) => code);
    expect(codes(result.change.map(({ after }) => after))).toContain('max-stale');
    expect(codes(result.come)).not.toContain('max-stale');
    expect(codes(result.go)).not.toContain('max-stale');
    const [first] = result.change;
    expect(first?.before.message).not.toBe(first?.after.message);
    expect(first?.before.line.line).toBe(first?.after.line.line);
    const page = whatIfHtml(result, (file) => file);
    expect(page).toContain('Findings that say something else');
    expect(page).toMatch(/<strong>Warning\.<\/strong> Now: .*<p>Then: /);
    expect(whatIfSummary(result)).toMatch(/Findings: .*\d with other words\./);
  });
});

describe('further lines', () => {
  it('are read as if they stood in her section', () => {
    const result = compared(worked(), 'Heron', {
      more: 'swap: back squat, to box squat, from 2026-12-14, "knee"\nmax: box squat, 40kg x5 r2, 2026-11-23',
    });
    // 40 × 36/30 = 48 kg; 48 × 29/36 = 38.67: 37.5 kg.
    expect(weeks(result)?.slice(0, 2)).toEqual(['45 kg', '4 × 6 · 45 kg → box squat: 4 × 6 · 37.5 kg']);
    expect(result.problems.size).toBe(0);
  });

  it('may give her sessions, and take them', () => {
    const away = compared(worked(), 'Heron', { more: 'away: 2026-12-14 to 2026-12-20, keep dates' });
    expect(away.counts).toMatchObject({ gone: 2 });
    expect(away.blocks[0]?.rows[0]?.weeks[1]?.[0]).toMatchObject({ before: '4 × 6 · 45 kg', after: null });
    const unread = compared(worked(), 'Heron', { more: 'maxx: back squat, 50kg' });
    expect([...unread.problems.keys()]).toEqual(['more']);
  });
});

describe('the page of what would be', () => {
  it('says what was compared, and escapes what was written', () => {
    const text = example.replaceAll('Heron', 'Heron <b>&').replaceAll('Keel', 'Keel <i>');
    const session = sessionOf({ 'winter.stave': text });
    const client = [...session.world().clients.values()][0];
    if (!client) throw new Error('no client');
    const page = whatIfHtml(
      whatIf(session, client, { 'max back squat': '50kg x5 r2, 2026-11-23' }),
      (file) => file,
    );
    expect(page).not.toMatch(/<b>|<i>/);
    expect(page).toContain('45 kg → 47.5 kg');
    expect(page).toContain(
      'Compared: all 10 sessions of Heron &lt;b&gt;&amp;, 7 December 2026 to 7 January 2027, 10 cells; and the findings in winter.stave. No file was changed.',
    );
    expect(page).toMatch(/<th scope="col">Week 5 \(deload\)/);
  });
});
