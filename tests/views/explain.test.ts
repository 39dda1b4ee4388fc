import fs from 'node:fs';
import { describe, expect, it } from 'vitest';
import { type Explanation, explainAt } from '../../server/src/engine/views/explain/explain.js';
import { explainHtml } from '../../server/src/engine/views/explain/explainHtml.js';
import { boathouse, SMALL, sessionOf } from './workspace.js';

const example = fs.readFileSync(new URL('../../samples/winter/winter.stave', import.meta.url), 'utf8');
const worked = () => sessionOf({ 'winter.stave': example });

function explained(
  session: ReturnType<typeof sessionOf>,
  file: string,
  piece: string,
  plus = 0,
  wish: Partial<Parameters<typeof explainAt>[3]> = {},
): Explanation {
  const at = (session.text(file) ?? '').indexOf(piece);
  expect(at).toBeGreaterThanOrEqual(0);
  const found = explainAt(session, file, at + plus, { client: null, date: null, ...wish });
  if (!found.ok) throw new Error(`${found.heading}. ${found.text}`);
  return found.explanation;
}

/** Heading, number and lines of each step. */
const chain = ({ groups }: Explanation, group = 0) =>
  groups[group]?.steps.map(({ heading, value, lines }) => [heading, value, lines.map(({ line }) => line)]);

describe('the reasons of a load', () => {
  it('go from the max to the load, each with its number and its line', () => {
    const third = explained(worked(), 'winter.stave', '| x5', 3);
    expect(third).toMatchObject({
      client: { name: 'Heron' },
      movement: 'back squat',
      block: 'Keel',
      day: 'Lower',
      week: 3,
      date: '2026-12-21',
      deload: false,
      row: { line: 21, text: 'back squat:     3x6 r2 warm rest 3min | 4x | x5        |  |' },
    });
    // 5 + 2 = 7 to failure, 47.5 × 36/30 = 57 kg; 57 × 30/36 = 47.5 kg; 15 + 2 × (10 + 5 + 1.25) = 47.5 kg.
    expect(chain(third)).toEqual([
      ['Max', '47.5 kg × 5', [12]],
      ['Formula', '57 kg', []],
      ['How sure', '± 5.2 kg', []],
      ['What is asked', '83.3 %', [21]],
      ['Target', '47.5 kg', []],
      ['Kit and load', '47.5 kg', [4, 5]],
      ['What it leaves', '2 left', []],
    ]);
    expect(third.groups[0]?.heading).toBe('4 × 5 at 47.5 kg');
    expect(third.groups[0]?.facts).toEqual(['10 + 5 + 1.25 each side', '2 in reserve', '83.3 % of the max']);
  });

  it('name the source of each formula, or say that there is none', () => {
    const steps = explained(worked(), 'winter.stave', '| x5', 3).groups[0]?.steps ?? [];
    const source = (heading: string) => steps.find((step) => step.heading === heading)?.source;
    expect(source('Formula')).toMatch(/^Brzycki M\. J Health Phys Educ Rec Dance 1993;64\(1\):88-90/);
    expect(source('How sure')).toMatch(/Halperin .*2022;52\(2\):377-390/);
    expect(source('Kit and load')).toBe('common practice, no source');
    expect(source('Max')).toBeNull();
  });

  it('of a derived deload say what was taken off, and where the deload is written', () => {
    const row = 'back squat:     3x6';
    const fifth = explained(worked(), 'winter.stave', row, 2, { date: '2027-01-04' });
    expect(fifth).toMatchObject({ week: 5, deload: true });
    // 57 × 28/36 = 44.333; the bare sum below it is 42.5.
    const deload = fifth.groups[0]?.steps.find(({ kind }) => kind === 'deload');
    expect(deload?.lines.map(({ text }) => text)).toEqual(['block Keel, 5 weeks, heavy, deload 5']);
    expect(deload?.source).toMatch(/Rogerson/);
    expect(chain(fifth)?.find(([heading]) => heading === 'Target')?.[1]).toBe('44.33 kg');
    expect(chain(fifth)?.find(([heading]) => heading === 'Kit and load')?.[1]).toBe('42.5 kg');
  });

  it('are those of the client and the day that are asked for, in her unit', () => {
    const session = sessionOf(SMALL);
    const heron = explained(session, 'winter.stave', '3x6 r2', 1);
    expect(heron.clients.map(({ name }) => name)).toEqual(['Heron', 'Wren']);
    expect(heron.client.name).toBe('Heron');
    expect(heron.days.map(({ date, week }) => [date, week])).toEqual([
      ['2026-12-07', 1],
      ['2026-12-10', 1],
      ['2026-12-14', 2],
      ['2026-12-17', 2],
      ['2026-12-21', 3],
      ['2026-12-24', 3],
    ]);
    const wren = explained(session, 'winter.stave', '3x6 r2', 1, { client: 'wren', date: '2026-12-14' });
    expect(wren).toMatchObject({ client: { name: 'Wren' }, week: 2 });
    expect(chain(wren)?.[0]).toEqual(['Max', '132.28 lb × 5', [11]]);
    expect(wren.groups).toHaveLength(2);
    // The back-off sets are 10 % below the target of the top set.
    expect(wren.groups[1]?.steps.some(({ text }) => /10 % below/.test(text))).toBe(true);
  });

  it('leave the notes of a line out', () => {
    expect(explained(sessionOf(SMALL), 'winter.stave', '3x6 r2').row.text).toBe(
      'back squat: 3x6 r2 ; 2x6 -10% | 4x |',
    );
  });

  it('say what is missing where there is no load', () => {
    const box = explained(sessionOf(SMALL), 'winter.stave', 'push-up', 2);
    expect(box.groups[0]?.steps.length).toBeGreaterThan(0);
    const session = sessionOf({
      ...SMALL,
      'clients.stave': (SMALL['clients.stave'] ?? '').replace(
        '  max: back squat, 47.5kg x5 r2, 2026-11-23\n',
        '',
      ),
    });
    const heron = explained(session, 'winter.stave', '3x6 r2');
    expect(chain(heron)).toEqual([
      ['What is missing', null, []],
      ['What is asked', null, [5]],
      ['Kit and load', null, [2, 3]],
    ]);
    expect(heron.groups[0]?.heading).toBe('3 × 6, no load');
  });

  it('are there for every cell of the samples, without a slip', () => {
    const session = boathouse();
    let count = 0;
    for (const file of session.files()) {
      for (const cell of session.cellsIn(file)) {
        const at = cell.row.node.nameSpan.start;
        const wish = { client: cell.client.key, date: cell.date };
        const found = explainAt(session, file, at, wish);
        if (!found.ok) throw new Error(`${file}: ${found.heading}`);
        const { groups, client } = found.explanation;
        expect(client.key).toBe(cell.client.key);
        expect(groups).toHaveLength(cell.groups.length);
        for (const { steps } of groups) {
          for (const { text, value, lines, heading } of steps) {
            expect(`${heading} ${text} ${value}`).not.toMatch(/NaN|undefined|Infinity/);
            for (const { line, place } of lines) {
              const lineText = (session.text(place.file) ?? '').split(/\r\n|\n/)[line - 1] ?? '';
              expect(lineText.trim()).not.toBe('');
            }
          }
        }
        count += 1;
      }
    }
    expect(count).toBeGreaterThan(200);
  });

  it('say what to do where there is no cell', () => {
    const at = (file: string, offset: number, files = SMALL) => {
      const found = explainAt(sessionOf(files), file, offset, { client: null, date: null });
      return found.ok ? null : `${found.heading}. ${found.text}`;
    };
    expect(at('kit.stave', 3)).toMatch(/^No cell here\. Put the cursor/);
    expect(at('gone.stave', 3)).toMatch(/^No cell here/);
    const alone = { 'winter.stave': SMALL['winter.stave'] ?? '' };
    const offset = alone['winter.stave'].indexOf('3x6');
    expect(at('winter.stave', offset, alone)).toMatch(/Nobody follows Winter yet/);
    const broken = { ...SMALL, 'winter.stave': alone['winter.stave'].replace('3x6', '3y6') };
    expect(at('winter.stave', offset, broken)).toMatch(/cannot be read/);
    const out = { ...SMALL, 'winter.stave': alone['winter.stave'].replace('| 4x |', '| - |') };
    expect(at('winter.stave', out['winter.stave'].indexOf('| -') + 2, out)).toMatch(
      /^Left out this week\. Heron does not do back squat/,
    );
  });
});

describe('the page of the reasons', () => {
  it('escapes what was written, and leads to every line', () => {
    const text = example.replaceAll('Heron', 'Heron <b>&');
    const explanation = explained(sessionOf({ 'a"b.stave': text }), 'a"b.stave', '| x5', 3);
    const page = explainHtml(explanation, (file) => file);
    expect(page).toContain('<h1>Back squat for Heron &lt;b&gt;&amp;</h1>');
    expect(page).not.toContain('<b>');
    expect(page.match(/data-file="a&quot;b\.stave" data-start="\d+" data-end="\d+"/g)).toHaveLength(5);
    expect(page).toContain('a&quot;b.stave, line 12');
    expect(page).toContain('<strong class="value">57 kg</strong>');
  });
});
