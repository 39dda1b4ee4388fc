import { spawnSync } from 'node:child_process';
import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { drawPdf } from '../../server/src/cli/pdf.js';
import { buildPlanDocument } from '../../server/src/engine/print/build.js';
import { weekLayout } from '../../server/src/engine/print/density.js';
import type { PlanDocument } from '../../server/src/engine/print/document.js';
import { planFileStem } from '../../server/src/engine/print/fileName.js';
import { planToHtml } from '../../server/src/engine/print/html.js';
import { planToPdfDefinition } from '../../server/src/engine/print/pdfDefinition.js';
import { warmUpSets } from '../../server/src/engine/print/warmUp.js';
import { createSession, type EngineSession } from '../../server/src/engine/session.js';
import { root } from '../structure/repository.js';
import { day, fullWeek, mixedWeek, movement, plan, week } from './sheets.js';

// Printed plans are read back with pdftotext (poppler), a reader that shares no code with the writer.

const MADE_AT = new Date(Date.UTC(2026, 10, 25));
const HOSTILE = [
  '<script>alert(1)</script>',
  '../../etc/passwd',
  'x'.repeat(500),
  'Robin 🦆',
  'طائر الشاطئ',
  '"; } body { display: none',
  '-rf',
  'CON',
  '</style><b>',
  '\u202egnorw',
];
let scratch = '';

beforeAll(() => {
  scratch = fs.mkdtempSync(path.join(os.tmpdir(), 'stave-print-'));
});
afterAll(() => {
  fs.rmSync(scratch, { recursive: true, force: true });
});

let counter = 0;
async function pdfPages(document: PlanDocument, order: '-layout' | '-raw' = '-layout'): Promise<string[]> {
  counter += 1;
  const file = path.join(scratch, `${counter}.pdf`);
  fs.writeFileSync(file, (await drawPdf(planToPdfDefinition(document, MADE_AT))).bytes);
  const { status, stdout, stderr } = spawnSync('pdftotext', [order, file, '-'], {
    encoding: 'utf8',
    maxBuffer: 1 << 28,
  });
  expect(stderr).toBe('');
  expect(status).toBe(0);
  return stdout.split('\f').slice(0, -1);
}

// Readers judge by the width of a gap whether it is a space; around × they do not agree. Lines may end after a hyphen.
const words = (text: string): string[] =>
  text
    .normalize('NFKC')
    .replace(/\s*×\s*/g, '×')
    .replace(/-/g, '- ')
    .split(/\s+/)
    .filter((word) => word !== '')
    .sort();

/** Words that one text has more often than the other, with how much more often. */
function wordDifference(one: string, other: string): Record<string, number> {
  const counts = new Map<string, number>();
  for (const word of words(one)) counts.set(word, (counts.get(word) ?? 0) + 1);
  for (const word of words(other)) counts.set(word, (counts.get(word) ?? 0) - 1);
  return Object.fromEntries([...counts].filter(([, count]) => count !== 0));
}

function htmlText(html: string): string {
  const body = html.slice(html.indexOf('<main>'), html.indexOf('</main>'));
  const text = body.replace(/<[^>]*>/g, ' ');
  const entities: Record<string, string> = { lt: '<', gt: '>', quot: '"', '#39': "'", amp: '&' };
  return text.replace(/&(\w+|#\d+);/g, (_all, name: string) => entities[name] ?? `&${name};`);
}

function load(folder: string): EngineSession {
  const session = createSession({ today: '2026-11-25' });
  const read = (at: string): void => {
    for (const entry of fs.readdirSync(at, { withFileTypes: true })) {
      const file = path.join(at, entry.name);
      if (entry.isDirectory()) read(file);
      else if (file.endsWith('.stave'))
        session.setFile(path.relative(root, file), fs.readFileSync(file, 'utf8'));
    }
  };
  read(path.join(root, folder));
  return session;
}

function documentOf(session: EngineSession, client: string): PlanDocument {
  const resolved = session.plan(client);
  if (!resolved) throw new Error(`no ${client}`);
  return buildPlanDocument(resolved, session.world(), {
    from: null,
    until: null,
    printedOn: '2026-11-25',
    errors: 0,
  });
}

/** Every text of a document that is meant to be read, wherever it hangs. */
function textsOf(value: unknown): string[] {
  if (typeof value === 'string') return [value];
  if (value === null || typeof value !== 'object') return [];
  return Object.entries(value)
    .filter(([key]) => key !== 'kind')
    .flatMap(([, inner]) => textsOf(inner));
}

const boathouse = load('samples/boathouse');
const clients = [...boathouse.world().clients.keys()].sort();

describe('HTML and PDF have the same content', () => {
  it('word for word, in a plan with every kind of entry', async () => {
    const document = plan([mixedWeek(), fullWeek()]);
    // As drawn: in columns that are told apart by their place, equal words side by side run together.
    const pages = await pdfPages(document, '-raw');
    // The full week needs a second page for text that can be read at a bar.
    expect(document.weeks.map(({ days }) => days.filter(({ continued }) => continued).length)).toEqual([
      0, 1,
    ]);
    expect(pages).toHaveLength(4);
    // The last two lines of a page are its footer.
    const body = pages.map((page, index) => {
      const lines = page.trimEnd().split('\n');
      expect(lines.at(-1)).toMatch(
        new RegExp(`^\\s*Heron · Harbour winter · printed 25 November 2026\\s+page ${index + 1} of 4$`),
      );
      return lines.slice(0, -1).join('\n');
    });
    expect(wordDifference(body.join('\n'), htmlText(planToHtml(document)))).toEqual({});
  });

  it.each(clients)(
    'for %s of the sample',
    async (client) => {
      const document = documentOf(boathouse, client);
      const pages = await pdfPages(document, '-raw');
      for (const { fontPt } of document.weeks) expect(fontPt).toBeGreaterThanOrEqual(8);
      // A cover, and one page for each week: no week is cut in two.
      expect(pages).toHaveLength(1 + document.weeks.length);
      document.weeks.forEach((sheet, index) => {
        expect(words(pages[index + 1] ?? '')).toEqual(
          expect.arrayContaining(words(`${sheet.heading} ${sheet.dates}`)),
        );
      });
      const body = pages.map((page) => page.trimEnd().split('\n').slice(0, -1).join('\n')).join('\n');
      expect(wordDifference(body, htmlText(planToHtml(document)))).toEqual({});
    },
    60_000,
  );
});

describe('what is printed', () => {
  const winter = load('samples/winter');
  const heron = documentOf(winter, 'heron');

  it('has the numbers of the worked example', () => {
    // The worked example of the language's own reference: loads and plates of weeks 1 to 5.
    const squat = heron.weeks.map((sheet) => sheet.days[0]?.entries[0]);
    const rows = squat.map((entry) => (entry?.kind === 'movement' ? entry.movement.work[0] : undefined));
    expect(rows.map((row) => [row?.dose, row?.effort, row?.load, row?.plates])).toEqual([
      ['3 × 6', 'leave 2 in reserve', '45 kg', 'each side 10 + 5 kg'],
      ['4 × 6', 'leave 2 in reserve', '45 kg', 'each side 10 + 5 kg'],
      ['4 × 5', 'leave 2 in reserve', '47.5 kg', 'each side 10 + 5 + 1.25 kg'],
      ['4 × 5', 'leave 2 in reserve', '47.5 kg', 'each side 10 + 5 + 1.25 kg'],
      ['2 × 5', 'leave 4 in reserve', '42.5 kg', 'each side 10 + 2.5 + 1.25 kg'],
    ]);
    expect(heron.weeks[4]?.notes[0]).toMatch(/^Lighter week/);
    expect(rows.map((row) => row?.boxes)).toEqual([3, 4, 4, 4, 2]);
  });

  it('starts with cautions and says who decides', () => {
    const cover = htmlText(planToHtml(heron)).slice(0, 4000);
    for (const part of [
      'health screening',
      'Stop at once',
      'qualified professional',
      'Local rules',
      'How to read',
    ])
      expect(cover).toContain(part);
    expect(cover.indexOf('Take care')).toBeLessThan(cover.indexOf('Keel, week 1'));
  });

  it.each(clients)('uses words, not the notation, for %s', (client) => {
    const document = documentOf(boathouse, client);
    // The coach's own texts are printed as they are.
    const ours = textsOf({ ...document, care: [] }).join('\n');
    expect(ours).not.toMatch(/~|\br\d\b|\dx\d|\bbw\b|undefined|NaN|null|Infinity|\[object/);
  });

  it.each(clients)('gives plates of %s that add up to the load', (client) => {
    let bars = 0;
    for (const session of boathouse.plan(client)?.sessions ?? []) {
      for (const cell of session.cells) {
        for (const group of cell.groups) {
          if (group.eachSideKg === null || group.loadKg === null) continue;
          bars += 1;
          const bar = cell.kit?.model.bars.find(({ name }) => name === group.bar);
          const side = group.eachSideKg.reduce((total, kg) => total + kg, 0);
          expect((bar?.kg ?? Number.NaN) + 2 * side).toBeCloseTo(group.loadKg, 6);
        }
      }
    }
    if (client === 'plover' || client === 'wren') expect(bars).toBeGreaterThan(20);
  });

  it.each(clients)('warms %s up below the work, with what the kit has', (client) => {
    const cells = boathouse.plan(client)?.sessions.flatMap(({ cells }) => cells) ?? [];
    for (const cell of cells.filter(({ warm }) => warm)) {
      const loads = warmUpSets(cell).map(({ loadKg }) => loadKg);
      expect(loads).toEqual([...loads].sort((a, b) => a - b));
      for (const kg of loads) expect(kg).toBeLessThan(cell.groups[0]?.loadKg ?? 0);
    }
  });

  it('names the dates that were asked for, and says so when there is nothing', () => {
    const resolved = winter.plan('heron');
    if (!resolved) throw new Error('no Heron');
    const options = { printedOn: '2026-11-25', errors: 2 } as const;
    const second = buildPlanDocument(resolved, winter.world(), {
      ...options,
      from: '2026-12-14',
      until: '2026-12-20',
    });
    expect(second.weeks.map(({ heading }) => heading)).toEqual(['Keel, week 2 of 5']);
    expect(second.notices[0]).toContain('2 mistakes');
    const none = buildPlanDocument(resolved, winter.world(), { ...options, from: '2030-01-01', until: null });
    expect(none.weeks).toEqual([]);
    expect(none.notices[0]).toContain('no sessions');
  });
});

describe('the page', () => {
  it('repeats its header rows when a week needs two pages, and loses nothing', async () => {
    const rows = Array.from({ length: 18 }, (_, index) => movement({ name: `Movement ${index + 1}` }));
    const pages = await pdfPages(plan([week(['A', 'B', 'C', 'D'].map((name) => day(`Day ${name}`, rows)))]));
    expect(pages.length).toBeGreaterThan(2);
    for (const page of pages.slice(1))
      expect(page).toMatch(/Movement\s+Sets × reps\s+Load\s+Last time\s+What you did/);
    for (let index = 1; index <= 18; index += 1) {
      expect(pages.join('\n').match(new RegExp(`Movement ${index}\\s`, 'g'))).toHaveLength(4);
    }
  });

  it('is the same file for the same input', async () => {
    const document = documentOf(boathouse, 'wren');
    const [first, second] = [
      (await drawPdf(planToPdfDefinition(document, MADE_AT))).bytes,
      (await drawPdf(planToPdfDefinition(document, MADE_AT))).bytes,
    ];
    expect(Buffer.from(first).equals(second)).toBe(true);
    expect(planToHtml(document)).toBe(planToHtml(documentOf(load('samples/boathouse'), 'wren')));
  });

  it('needs nothing from outside', () => {
    const html = planToHtml(documentOf(boathouse, 'wren'));
    expect(html).not.toMatch(/<script|<link|<img|\bsrc=|\bhref=|url\(|@import|https?:/i);
    expect(html).toContain("default-src 'none'");
    expect(html).toContain('@media print');
  });
});

describe('hostile names', () => {
  it.each(HOSTILE)('%s stays text', async (name) => {
    const hostile = plan(
      [week([day(name, [movement({ name, details: [name], cue: name, texts: [name] })])], { heading: name })],
      {
        title: `Plan for ${name}`,
        client: name,
        footer: name,
        care: [name],
      },
    );
    const html = planToHtml(hostile);
    expect(html).not.toMatch(/<script|<b>(?!)/i);
    // The style sheet ends where ours ends, and nothing in it comes from the name.
    expect(html.match(/<\/style>/g)).toHaveLength(1);
    const style = html.slice(html.indexOf('<style>'), html.indexOf('</style>'));
    expect(style).not.toContain('display: none }\n"');
    expect(style.split('\n').filter((line) => line.startsWith('@page'))).toHaveLength(1);
    expect(htmlText(html).replace(/\s+/g, ' ')).toContain(name.replace(/[\u202a-\u202e]/g, ''));
    const pages = await pdfPages(hostile);
    expect(pages.length).toBeGreaterThanOrEqual(2);
  });

  it('give file names that stay in their folder and differ', () => {
    const stems = [...HOSTILE, 'Heron', 'A/B', 'A-B', 'A B', 'a:b', '...', ''].map(planFileStem);
    for (const stem of stems) {
      expect(stem).toMatch(/^[\p{L}\p{M}\p{N}_][\p{L}\p{M}\p{N}_-]*-plan$/u);
      expect([...stem].length).toBeLessThan(80);
    }
    expect(new Set(stems).size).toBe(stems.length);
    expect(planFileStem('Heron')).toBe('Heron-plan');
  });
});

describe('a week that no single page holds', () => {
  const full = (count: number) =>
    Array.from({ length: count }, (_, index) => movement({ name: `Movement ${index}` }));
  const days = ['A', 'B', 'C', 'D'].map((name) => day(name, full(7)));

  it('goes on with whole days, evenly, and says on each page which week it is', async () => {
    const { fontPt, breaks } = weekLayout(days);
    expect(breaks).toEqual([2]);
    expect(fontPt).toBeGreaterThanOrEqual(8);
    const sheets = days.map((each, index) =>
      breaks.includes(index) ? { ...each, continued: 'Keel, week 1 of 5, continued' } : each,
    );
    const pages = await pdfPages(plan([{ ...week(sheets), fontPt }]));
    expect(pages).toHaveLength(3);
    expect(pages[1]).toMatch(/^B\s/m);
    expect(pages[2]).toContain('Keel, week 1 of 5, continued');
    expect(pages[2]).not.toMatch(/^B\s/m);
  });

  it('is not cut where it fits', () => {
    expect(weekLayout(days.slice(0, 1)).breaks).toEqual([]);
  });
});
