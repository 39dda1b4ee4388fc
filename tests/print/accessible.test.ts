import { spawnSync } from 'node:child_process';
import fs from 'node:fs';
import axe from 'axe-core';
import puppeteer, { type Browser, type Page } from 'puppeteer-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { reviewOf } from '../../server/src/engine/history/review.js';
import { rosterOf } from '../../server/src/engine/history/roster.js';
import { buildPlanDocument } from '../../server/src/engine/print/build.js';
import { buildCards } from '../../server/src/engine/print/card.js';
import { buildFloorSheet, sessionsAt } from '../../server/src/engine/print/floor.js';
import { planToHtml } from '../../server/src/engine/print/html.js';
import { largePlan } from '../../server/src/engine/print/largePlan.js';
import { buildOverview } from '../../server/src/engine/print/overview.js';
import { paperToHtml } from '../../server/src/engine/print/paper/html.js';
import { buildReview } from '../../server/src/engine/print/review.js';
import { buildRoster } from '../../server/src/engine/print/roster.js';
import { buildYears } from '../../server/src/engine/print/years.js';
import { planIn, sessionOf } from '../export/workspaces.js';

// Checked in a real browser against the rules of WCAG 2.0 to 2.2, levels A and AA, that axe-core can test.

const CHROMIUM = ['/usr/bin/chromium', '/usr/bin/chromium-browser', '/usr/bin/google-chrome'].find((file) =>
  fs.existsSync(file),
);
const TAGS = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22a', 'wcag22aa'];
const PRINTED = { printedOn: '2026-11-25', size: 'a4', large: false } as const;

const session = sessionOf('samples/boathouse');
const wren = planIn(session, 'wren');
const world = session.world();
const plan = buildPlanDocument(wren, world, {
  from: null,
  until: '2026-11-06',
  printedOn: '2026-11-25',
  errors: 1,
});
const review = reviewOf(wren, world, '2026-11-25');
const first = wren.sessions[0];
if (!first?.kit) throw new Error('Wren has no session');

const documents: readonly (readonly [string, string])[] = [
  ['plan', planToHtml(plan)],
  ['large print', paperToHtml(largePlan(plan, 'a4'))],
  ['card', paperToHtml(buildCards(wren, [first], PRINTED))],
  [
    'floor sheet',
    paperToHtml(
      buildFloorSheet(first.kit, sessionsAt([wren], first.kit.key, first.date), {
        ...PRINTED,
        date: first.date,
      }),
    ),
  ],
  ['review', paperToHtml(buildReview(review, { ...PRINTED, from: null }))],
  ['years', paperToHtml(buildYears(review, PRINTED))],
  [
    'roster',
    paperToHtml(
      buildRoster(rosterOf([wren], world, '2026-11-25'), {
        ...PRINTED,
        today: '2026-11-25',
        placeWords: () => 'wren.stave:1',
      }),
    ),
  ],
  ['overview', paperToHtml(buildOverview(wren, wren.sessions, world, PRINTED))],
];

describe.skipIf(CHROMIUM === undefined)('HTML for everybody', () => {
  let browser: Browser;
  beforeAll(async () => {
    browser = await puppeteer.launch({
      executablePath: CHROMIUM as string,
      args: ['--no-sandbox', '--disable-gpu'],
    });
  }, 60_000);
  afterAll(async () => {
    await browser?.close();
  });

  const violations = async (html: string, look: 'light' | 'dark' | 'print') => {
    const page = await browser.newPage();
    try {
      await page.setBypassCSP(true);
      await page.emulateMediaType(look === 'print' ? 'print' : 'screen');
      await page.emulateMediaFeatures([
        { name: 'prefers-color-scheme', value: look === 'dark' ? 'dark' : 'light' },
      ]);
      await page.setContent(html);
      await page.evaluate(axe.source);
      const found = await page.evaluate(
        (tags) =>
          (globalThis as unknown as { axe: typeof axe }).axe.run({ runOnly: { type: 'tag', values: tags } }),
        TAGS,
      );
      expect(found.passes.length).toBeGreaterThan(5);
      return found.violations.map(({ id, nodes }) => `${id}: ${nodes[0]?.html}`);
    } finally {
      await page.close();
    }
  };

  for (const look of ['light', 'dark', 'print'] as const) {
    it.each(documents)(
      `%s, ${look}`,
      async (_name, html) => {
        expect(await violations(html, look)).toEqual([]);
      },
      60_000,
    );
  }

  it('would notice grey on grey', async () => {
    const html = planToHtml(plan).replace(
      '</style>',
      'p { color: #999 !important; background: #888 }</style>',
    );
    expect((await violations(html, 'light')).join()).toContain('color-contrast');
  }, 60_000);
});

describe.skipIf(CHROMIUM === undefined)('the printed page of the browser', () => {
  let browser: Browser;
  beforeAll(async () => {
    browser = await puppeteer.launch({
      executablePath: CHROMIUM as string,
      args: ['--no-sandbox', '--disable-gpu'],
    });
  }, 60_000);
  afterAll(async () => {
    await browser?.close();
  });

  const open = async (html: string, width = 800): Promise<Page> => {
    const page = await browser.newPage();
    await page.setViewport({ width, height: 800 });
    await page.setContent(html);
    return page;
  };

  it.each(['wren', 'plover'])(
    'has a cover and a page for each week of %s, as the PDF has',
    async (client) => {
      const whole = buildPlanDocument(planIn(session, client), world, {
        from: null,
        until: null,
        printedOn: '2026-11-25',
        errors: 0,
      });
      const page = await open(planToHtml(whole));
      const bytes = await page.pdf({ preferCSSPageSize: true });
      await page.close();
      const { stdout } = spawnSync('pdfinfo', ['-'], { input: bytes, encoding: 'utf8' });
      expect(/Pages:\s+(\d+)/.exec(stdout)?.[1]).toBe(String(1 + whole.weeks.length));
    },
    60_000,
  );

  it.each(documents)(
    'of %s is not wider than a telephone, but where a table of weeks is',
    async (name, html) => {
      const page = await open(html, 360);
      const over = await page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth);
      await page.close();
      if (['overview', 'years', 'roster'].includes(name)) expect(over).toBeGreaterThan(0);
      else expect(over).toBe(0);
    },
    60_000,
  );
});
