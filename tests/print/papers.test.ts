import { spawnSync } from 'node:child_process';
import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import fc from 'fast-check';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { drawPdf, fitted } from '../../server/src/cli/pdf.js';
import { type BarUse, orderUses, plateChange } from '../../server/src/engine/floor/barOrder.js';
import { reviewOf } from '../../server/src/engine/history/review.js';
import { rosterOf } from '../../server/src/engine/history/roster.js';
import { plateSize, platesPicture } from '../../server/src/engine/plots/plates.js';
import { weeksPicture } from '../../server/src/engine/plots/weeks.js';
import { buildPlanDocument } from '../../server/src/engine/print/build.js';
import { buildCards } from '../../server/src/engine/print/card.js';
import { buildFloorSheet, changeWords, sessionsAt } from '../../server/src/engine/print/floor.js';
import { largePlan } from '../../server/src/engine/print/largePlan.js';
import { buildOverview, weekPoint } from '../../server/src/engine/print/overview.js';
import type { Paper } from '../../server/src/engine/print/paper/document.js';
import { paperToHtml } from '../../server/src/engine/print/paper/html.js';
import { paperToPdfDefinition } from '../../server/src/engine/print/paper/pdf.js';
import { buildReview } from '../../server/src/engine/print/review.js';
import { buildRoster } from '../../server/src/engine/print/roster.js';
import { buildYears } from '../../server/src/engine/print/years.js';
import { HOSTILE_NAMES, hostileWorkspace, planIn, sessionOf, sessionWith } from '../export/workspaces.js';

// Papers are read back with pdftotext (poppler), a reader that shares no code with the writer.

const MADE_AT = new Date(Date.UTC(2026, 10, 25));
const PRINTED = { printedOn: '2026-11-25', size: 'a4', large: false } as const;
const boathouse = sessionOf('samples/boathouse');
const clients = [...boathouse.world().clients.keys()].sort();
let scratch = '';
let counter = 0;

beforeAll(() => {
  scratch = fs.mkdtempSync(path.join(os.tmpdir(), 'stave-papers-'));
});
afterAll(() => {
  fs.rmSync(scratch, { recursive: true, force: true });
});

async function pdfPages(paper: Paper, order: '-layout' | '-raw' = '-layout'): Promise<string[]> {
  counter += 1;
  const file = path.join(scratch, `${counter}.pdf`);
  fs.writeFileSync(file, (await drawPdf(paperToPdfDefinition(paper, MADE_AT))).bytes);
  const { status, stdout } = spawnSync('pdftotext', [order, file, '-'], {
    encoding: 'utf8',
    maxBuffer: 1 << 28,
  });
  expect(status).toBe(0);
  return stdout.split('\f').slice(0, -1);
}

const letters = (text: string): string => [...text.normalize('NFKC').replace(/\s+/g, '')].sort().join('');

function htmlText(html: string): string {
  const text = html.slice(html.indexOf('<main>'), html.indexOf('</main>')).replace(/<[^>]*>/g, ' ');
  const entities: Record<string, string> = { lt: '<', gt: '>', quot: '"', '#39': "'", amp: '&' };
  return text.replace(/&(\w+|#\d+);/g, (_all, name: string) => entities[name] ?? `&${name};`);
}

/** The text of the pages without their footers. */
const bodyOf = (pages: readonly string[]): string =>
  pages.map((page) => page.trimEnd().split('\n').slice(0, -1).join('\n')).join('\n');

const cardOf = (client: string): Paper =>
  buildCards(planIn(boathouse, client), planIn(boathouse, client).sessions.slice(0, 1), PRINTED);
const overviewOf = (client: string): Paper =>
  buildOverview(planIn(boathouse, client), planIn(boathouse, client).sessions, boathouse.world(), PRINTED);

const TODAY = '2026-11-25';
const reviewIn = (session: typeof boathouse, client: string, size: 'a4' | 'letter' = 'a4'): Paper =>
  buildReview(reviewOf(planIn(session, client), session.world(), TODAY), { ...PRINTED, size, from: null });
const yearsIn = (session: typeof boathouse, client: string, size: 'a4' | 'letter' = 'a4'): Paper =>
  buildYears(reviewOf(planIn(session, client), session.world(), TODAY), { ...PRINTED, size });
const rosterIn = (session: typeof boathouse): Paper => {
  const plans = [...session.world().clients.keys()].map((client) => planIn(session, client));
  return buildRoster(rosterOf(plans, session.world(), TODAY), { ...PRINTED, today: TODAY });
};

function floorOf(session = boathouse): Paper {
  const plans = [...session.world().clients.keys()].sort().map((client) => planIn(session, client));
  const counts = new Map<string, number>();
  for (const { sessions } of plans)
    for (const { date, kit } of sessions)
      if (kit) counts.set(`${date}|${kit.key}`, (counts.get(`${date}|${kit.key}`) ?? 0) + 1);
  // The fullest day.
  const [fullest] = [...counts].sort((a, b) => b[1] - a[1] || (a[0] < b[0] ? -1 : 1))[0] ?? [''];
  const [date, key] = fullest.split('|') as [string, string];
  const kit = session.world().kits.get(key);
  if (!kit) throw new Error(`no kit ${key}`);
  return buildFloorSheet(kit, sessionsAt(plans, key, date), { ...PRINTED, date });
}

const papers: readonly (readonly [string, () => Paper])[] = [
  ...clients.map((client) => [`card of ${client}`, () => cardOf(client)] as const),
  ...clients.map((client) => [`overview of ${client}`, () => overviewOf(client)] as const),
  ...clients.map((client) => [`review of ${client}`, () => reviewIn(boathouse, client)] as const),
  ...clients.map((client) => [`years of ${client}`, () => yearsIn(boathouse, client, 'letter')] as const),
  ['roster', () => rosterIn(boathouse)],
  ['floor sheet', () => floorOf()],
  [
    'plan of wren in large print',
    () =>
      largePlan(
        buildPlanDocument(planIn(boathouse, 'wren'), boathouse.world(), {
          from: null,
          until: '2026-11-06',
          printedOn: '2026-11-25',
          errors: 0,
        }),
        'letter',
      ),
  ],
];

describe('HTML and PDF of a paper', () => {
  it.each(papers)(
    'have the same letters: %s',
    async (_name, make) => {
      // Headings of tables come again on each page, so a paper that needs more pages than it begins is read without them.
      const paper = await fitted(make());
      const pages = await pdfPages(paper);
      const html = htmlText(paperToHtml(paper));
      const begun = paper.sections.filter(({ flows }) => !flows).length;
      if (pages.length === begun) expect(letters(bodyOf(pages))).toBe(letters(html));
      else {
        // As drawn: labels of drawings that stand side by side would run together in columns.
        const words = new Set(bodyOf(await pdfPages(paper, '-raw')).split(/\s+/));
        expect(
          html
            .split(/\s+/)
            .filter((word) => word !== '' && !words.has(word) && !words.has(word.replace(/[×:]/g, ''))),
        ).toEqual([]);
      }
    },
    60_000,
  );

  it.each(papers)('need nothing from outside: %s', (_name, make) => {
    expect(paperToHtml(make())).not.toMatch(/<script|<link|<img|\bsrc=|\bhref=|url\(|@import|https?:/i);
  });
});

describe('the page', () => {
  it.each(clients)(
    'holds each card of %s on one page, at both sizes',
    async (client) => {
      const { sessions } = planIn(boathouse, client);
      const fullest = [...sessions].sort((a, b) => b.cells.length - a.cells.length).slice(0, 1);
      for (const size of ['a4', 'letter'] as const) {
        const paper = await fitted(buildCards(planIn(boathouse, client), fullest, { ...PRINTED, size }));
        expect(await pdfPages(paper)).toHaveLength(1);
        expect(paper.fontPt).toBeGreaterThan(6.5);
      }
    },
    60_000,
  );

  it('leaves out what the plan says where a card is too full for one page, before it gets smaller', async () => {
    const names = Array.from(
      { length: 15 },
      (_, index) => `  back squat (no ${index + 1}): 3x8 r3 rest 2min`,
    );
    const text = `kit Hall\n  bar: 15kg\n  plates: 5kg x4, 10kg x4\nprogram Winter\nblock Keel, 1 weeks, load
day Lower\n${names.join('\n')}\nclient Heron\n  trains at: Hall\n  max: back squat, 40kg x5 r2, 2026-11-20
  follows: Winter, from 2026-12-07, on mon\n`;
    const session = sessionWith(text);
    const plan = planIn(session, 'heron');
    const whole = buildCards(plan, plan.sessions, PRINTED, session.world());
    expect(JSON.stringify(whole.sections)).toContain('brace');
    const paper = await fitted(whole);
    expect(await pdfPages(paper)).toHaveLength(1);
    expect(JSON.stringify(paper.sections)).not.toContain('brace');
    expect(JSON.stringify(paper.sections)).toContain('no 15');
  });

  it('breaks words that are wider than the page, and keeps the foot in its place', async () => {
    const name = 'x'.repeat(500);
    const session = sessionWith(hostileWorkspace(name));
    const plan = planIn(session, name);
    const file = path.join(scratch, 'wide.pdf');
    const paper = buildCards(plan, plan.sessions.slice(0, 1), PRINTED);
    fs.writeFileSync(file, (await drawPdf(paperToPdfDefinition(paper, MADE_AT))).bytes);
    const { stdout } = spawnSync('pdftotext', ['-bbox', file, '-'], { encoding: 'utf8' });
    const ends = [...stdout.matchAll(/xMax="([\d.]+)"/g)].map(([, end]) => Number(end));
    expect(ends.length).toBeGreaterThan(20);
    expect(Math.max(...ends)).toBeLessThan(419.53);
  });

  it('has 16 point letters in large print', () => {
    const large = papers[papers.length - 1]?.[1]();
    expect(large?.fontPt).toBe(16);
    const definition = JSON.stringify(paperToPdfDefinition(large as Paper, MADE_AT).content);
    const sizes = [...definition.matchAll(/"fontSize":([\d.]+)/g)].map(([, size]) => Number(size));
    // Column heads and the labels of lines to fill in are the smallest.
    expect(Math.min(...sizes)).toBeGreaterThanOrEqual(13.5);
  });

  it('is the same file for the same input', async () => {
    const [one, other] = [
      await drawPdf(paperToPdfDefinition(overviewOf('wren'), MADE_AT)),
      await drawPdf(paperToPdfDefinition(overviewOf('wren'), MADE_AT)),
    ];
    expect(Buffer.from(one.bytes).equals(other.bytes)).toBe(true);
  });
});

describe('hostile names', () => {
  it.each(HOSTILE_NAMES)(
    '%s stays text in every paper',
    async (name) => {
      const session = sessionWith(hostileWorkspace(name));
      const plan = planIn(session, name.toLowerCase());
      const made = [
        buildCards(plan, plan.sessions.slice(0, 1), PRINTED),
        buildOverview(plan, plan.sessions, session.world(), PRINTED),
        floorOf(session),
        reviewIn(session, name.toLowerCase()),
        yearsIn(session, name.toLowerCase()),
        rosterIn(session),
      ];
      for (const paper of made) {
        const html = paperToHtml(paper);
        expect(html).not.toMatch(/<script/i);
        expect(html.match(/<\/style>/g)).toHaveLength(1);
        expect(htmlText(html)).toContain(name);
        const { pages, missing } = await drawPdf(paperToPdfDefinition(paper, MADE_AT));
        expect(pages).toBeGreaterThan(0);
        expect(missing).toEqual(name.includes('🦆') ? [...'🦆'] : []);
      }
    },
    60_000,
  );

  it('never draws the box of a missing letter, and says which letter it is', async () => {
    const paper = cardOf('wren');
    const first = paper.sections[0];
    if (!first) throw new Error('no section');
    const rare = { ...paper, sections: [{ ...first, notes: ['鴨 duck'], texts: ['طائر'] }] };
    const { missing, bytes } = await drawPdf(paperToPdfDefinition(rare, MADE_AT));
    expect(missing).toEqual(['鴨']);
    const file = path.join(scratch, 'rare.pdf');
    fs.writeFileSync(file, bytes);
    const { stdout } = spawnSync('pdftotext', ['-layout', file, '-'], { encoding: 'utf8' });
    expect(stdout).toContain('\ufffd duck');
  });
});

describe('the order at a bar', () => {
  const cost = (order: readonly BarUse[]): number => {
    let before: readonly number[] = [];
    let total = 0;
    for (const { eachSideKg } of order) {
      const { offKg, onKg } = plateChange(before, eachSideKg);
      total += offKg.length + onKg.length;
      before = eachSideKg;
    }
    return total;
  };
  const merges = (queues: readonly (readonly BarUse[])[]): BarUse[][] => {
    if (queues.every((queue) => queue.length === 0)) return [[]];
    return queues.flatMap((queue, index) => {
      const [first, ...rest] = queue;
      if (!first) return [];
      return merges(queues.map((other, at) => (at === index ? rest : other))).map((tail) => [first, ...tail]);
    });
  };
  const use = fc.record({
    eachSideKg: fc
      .uniqueArray(fc.constantFrom(20, 10, 5, 2.5, 1.25), { maxLength: 4 })
      .map((kg) => kg.sort((a, b) => b - a)),
  });

  it('moves as few plates as any order that keeps each person in turn', () => {
    fc.assert(
      fc.property(fc.array(fc.array(use, { maxLength: 3 }), { maxLength: 3 }), (queues) => {
        const order = orderUses(queues);
        expect(order.length).toBe(queues.flat().length);
        for (const queue of queues) expect(order.filter((one) => queue.includes(one))).toEqual(queue);
        expect(cost(order)).toBe(Math.min(...merges(queues).map(cost)));
      }),
      { numRuns: 60 },
    );
  });

  it('goes on from what is on the bar', () => {
    const after = [{ eachSideKg: [10] }, { eachSideKg: [20, 5] }].map((each) => [each]);
    expect(orderUses(after, [20]).map(({ eachSideKg }) => eachSideKg)).toEqual([[20, 5], [10]]);
  });

  it('keeps those who come at another time apart', () => {
    const text = `kit Hall
  bar: 15kg
  plates: 5kg x4, 10kg x4
program Winter
block Keel, 1 weeks, load
day Lower
  back squat: 3x5 35kg
  push-up: 3x8
${['Egret, mon 17:00', 'Avocet, mon 18:00', 'Bittern, mon 18:00']
  .map((each) => each.split(', '))
  .map(([name, on]) => `client ${name}\n  trains at: Hall\n  follows: Winter, from 2026-12-07, on ${on}\n`)
  .join('')}`;
    const stations = floorOf(sessionWith(text)).sections[0]?.blocks ?? [];
    const rows = stations.flatMap((block) => (block.kind === 'table' ? [block.table] : []));
    const bar = rows.find(({ name }) => name.startsWith('Bar'))?.rows ?? [];
    expect(bar.flatMap((row) => (row.kind === 'band' ? [row.text] : []))).toEqual(['17:00', '18:00']);
    // Away from the bar, who does the same stands in one row.
    const floor = rows.find(({ name }) => name === 'Floor')?.rows ?? [];
    expect(floor).toHaveLength(1);
    expect(JSON.stringify(floor)).toContain('Egret, Avocet, Bittern');
  });

  it('copes with a full room', () => {
    const queues = Array.from({ length: 20 }, (_, person) =>
      Array.from({ length: 4 }, (_, turn) => ({
        eachSideKg: [10, 5, 2.5, 1.25].slice(0, (person + turn) % 5),
      })),
    );
    expect(orderUses(queues)).toHaveLength(80);
  });

  it('says what to take off and put on', () => {
    expect(changeWords([20, 10, 2.5], [20, 5, 1.25], 'kg')).toEqual(['off: 2.5 + 10 kg', 'on: 5 + 1.25 kg']);
    expect(changeWords([20], [20], 'kg')).toEqual(['nothing to change']);
  });
});

describe('the drawings', () => {
  it('draw plates to scale: a plate of eight times the mass is twice as high', () => {
    expect(plateSize(20).heightPt / plateSize(2.5).heightPt).toBeCloseTo(2, 6);
  });

  it('draw as many plates as add up to the load', () => {
    for (const session of planIn(boathouse, 'wren').sessions) {
      for (const cell of session.cells) {
        for (const group of cell.groups) {
          if (group.eachSideKg === null || group.loadKg === null) continue;
          const { svg, alt } = platesPicture(group.eachSideKg, 'kg');
          // Collar and sleeve, then the plates.
          expect(svg.match(/<rect /g)).toHaveLength(2 + group.eachSideKg.length);
          expect(alt === 'The bar without plates.').toBe(group.eachSideKg.length === 0);
          const bar = cell.kit?.model.bars.find(({ name }) => name === group.bar);
          expect((bar?.kg ?? 0) + 2 * group.eachSideKg.reduce((sum, kg) => sum + kg, 0)).toBeCloseTo(
            group.loadKg,
            6,
          );
        }
      }
    }
  });

  it('say the same in words', () => {
    const weeks = planIn(boathouse, 'wren').sessions.filter(
      ({ block, week }) => block.index === 0 && week === 5,
    );
    const point = weekPoint(weeks);
    expect(point.deload).toBe(true);
    const { svg, alt } = weeksPicture([point]);
    expect(alt).toContain(`${point.sets} sets`);
    expect(alt).toContain('lighter');
    expect(svg).toContain('role="img"');
    expect(svg).not.toMatch(/NaN|undefined|Infinity/);
  });

  it('never draw what is no number', () => {
    for (const client of clients)
      expect(JSON.stringify(overviewOf(client))).not.toMatch(/NaN|undefined|Infinity/);
  });
});
