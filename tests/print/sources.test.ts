import { describe, expect, it } from 'vitest';
import { buildPlanDocument } from '../../server/src/engine/print/build.js';
import { planParts, planToHtml } from '../../server/src/engine/print/html.js';
import { buildOverview } from '../../server/src/engine/print/overview.js';
import { paperParts, paperToHtml } from '../../server/src/engine/print/paper/html.js';
import { planIn, sessionOf } from '../export/workspaces.js';

const session = sessionOf('samples/winter');
const heron = planIn(session, 'heron');
const asked = { from: null, until: null, printedOn: '2026-11-25', errors: 0 };
const document = buildPlanDocument(heron, session.world(), asked);
const overview = buildOverview(heron, heron.sessions, session.world(), {
  printedOn: '2026-11-25',
  size: 'a4',
  large: false,
});

/** The texts to which the elements of a kind lead back. */
function leadsTo(body: string, tag: string): string[] {
  const pattern = new RegExp(`<${tag}[^>]* data-file="([^"]*)" data-start="(\\d+)" data-end="(\\d+)"`, 'g');
  return [...body.matchAll(pattern)].map(([, file, start, end]) =>
    (session.text(file as string) ?? '').slice(Number(start), Number(end)),
  );
}

describe('the way back to the text', () => {
  it('leads from a row of the plan to its cell, from a day to its line', () => {
    const { body } = planParts(document, 'a4', { sources: true });
    expect(leadsTo(body, 'tr')[0]).toContain('3x6 r2');
    expect(leadsTo(body, 'caption')[0]).toBe('Lower');
    expect(leadsTo(body, 'h2')[0]).toMatch(/^Keel/);
  });

  it('leads from a cell of the overview to its cell', () => {
    const { body } = paperParts(overview, { sources: true });
    expect(leadsTo(body, 'span')[0]).toContain('3x6 r2');
  });

  it('is not written into files', () => {
    for (const html of [planToHtml(document), paperToHtml(overview)]) {
      expect(html).not.toContain('data-');
      expect(html).not.toContain('.stave');
    }
  });

  it('has no inline styles and no scripts', () => {
    for (const html of [planToHtml(document), paperToHtml(overview)]) {
      expect(html).not.toMatch(/<[^>]+ style=|<script|<[^>]+ on\w+=/i);
    }
  });
});
