import { describe, expect, it } from 'vitest';
import type { EngineSession } from '../../server/src/engine/session.js';
import { hover } from '../../server/src/engine/views/hover.js';
import { escapeMarkdown } from '../../server/src/engine/views/text.js';
import { WORKED } from './samples.js';
import { SMALL, sessionOf, WINTER } from './workspace.js';

/** The hover on the first place of some words, a few characters in. */
function on(session: EngineSession, file: string, words: string, into = 1): string {
  const text = session.text(file) as string;
  const at = text.indexOf(words);
  expect(at).toBeGreaterThanOrEqual(0);
  return hover(session, file, at + into)?.markdown ?? '';
}

describe('hover on a cell', () => {
  // Numbers of the worked example in the notation's reference.
  it('has load, plates, reserve and share of the worked example, and why', () => {
    const markdown = on(sessionOf({ a: WORKED }), 'a', '3x6 r2');
    expect(markdown).toContain('| Heron | 1 | 2026-12-07 | 3 × 6 | 45 kg | 10 + 5 | 2.6 | 78.9 % |');
    expect(markdown).toMatch(/Why, for \*\*Heron\*\*.*\n\n1\. Max: back squat, 47\.5 kg × 5/);
    expect(markdown).toContain('`3x6`: 3 sets of 6 repetitions.');
  });

  it('has the deload week and an empty cell', () => {
    const session = sessionOf({ a: WORKED });
    const end = WORKED.indexOf('|  |\n') + 4;
    expect(hover(session, 'a', end)?.markdown).toContain(
      '| Heron | 5 (deload) | 2027-01-04 | 2 × 5 | 42.5 kg | 10 + 2.5 + 1.25 | 5.2 | 74.6 % |',
    );
  });

  it('lists every client in her own unit, and says what is provisional', () => {
    const markdown = on(sessionOf(SMALL), 'winter.stave', '3x6 r2');
    expect(markdown).toContain('| Heron | 1 | 2026-12-07 | 3 × 6 | 45 kg |');
    expect(markdown).toMatch(/\| Wren \| 1 \| 2026-12-07 \| 3 × 6 \| \\~ 126\.77 lb \|/);
    expect(markdown).toMatch(/- Wren: the load is provisional \(/);
    expect(markdown).toMatch(/Why, for \*\*Heron\*\*, group 2/);
  });

  it('holds the weeks after the last written cell', () => {
    expect(on(sessionOf(SMALL), 'winter.stave', '3x8\n')).toContain('| Heron | 3 (deload) |');
  });

  it('says why a load is missing, or that nobody follows', () => {
    expect(on(sessionOf({ 'winter.stave': WINTER }), 'winter.stave', '3x6')).toContain(
      'Nobody follows **Winter** yet',
    );
    const clients = (SMALL['clients.stave'] ?? '').replace(/ {2}max:.*\n/g, '');
    const markdown = on(sessionOf({ ...SMALL, 'clients.stave': clients }), 'winter.stave', '3x6');
    expect(markdown).toContain('| no load |');
    expect(markdown).toContain('Heron: no max is written for this movement');
  });

  it('says that a damaged cell means nothing', () => {
    const session = sessionOf({ ...SMALL, 'winter.stave': WINTER.replace('| 4x |', '| 4x 2,5kg |') });
    expect(on(session, 'winter.stave', '4x 2,5kg')).toContain('There is a mistake in this cell');
  });
});

describe('hover on names and words', () => {
  const session = sessionOf(SMALL);

  it('sums up clients, kits, movements, programs, blocks and days', () => {
    expect(on(session, 'clients.stave', 'Heron')).toContain(
      'Max: back squat: 47.5 kg × 5, 2 in reserve, 2026-11-23',
    );
    expect(on(session, 'clients.stave', 'Boathouse')).toContain('Plates: 1.25 kg ×2');
    expect(on(session, 'clients.stave', 'Winter')).toContain('Followed by: Heron, Wren');
    expect(on(session, 'winter.stave', 'Keel')).toContain('Deload weeks: 3');
    expect(on(session, 'winter.stave', 'Lower')).toContain('Rows: back squat, box squat, push-up');
    const movement = on(session, 'winter.stave', 'back squat');
    expect(movement).toContain('(movement, built in)');
    expect(movement).toContain('| Wren | 2 | 2026-12-14 |');
  });

  it('explains openers, labels and rule codes', () => {
    expect(on(session, 'clients.stave', 'follows')).toContain('The program that is trained');
    expect(on(session, 'winter.stave', 'block')).toContain('Some weeks of a program');
    const allowed = sessionOf({ ...SMALL, 'winter.stave': `${WINTER}    allow: heavy-early "as agreed"\n` });
    const rule = on(allowed, 'winter.stave', 'heavy-early');
    expect(rule).toContain('`heavy-early`');
    expect(rule).toContain('Source: ');
  });

  it('is silent in notes', () => {
    expect(hover(session, 'winter.stave', WINTER.indexOf('easy'))).toBeNull();
  });

  it('lets nothing written by hand become Markdown', () => {
    const name = 'A *b* [c](https://x.y) <img src=x> `d` www.e.f';
    const text = `client ${name.replace(':', '')}\n  care: "# [go](command:run) <b>"\n`;
    const markdown = on(sessionOf({ a: text }), 'a', 'A *b*');
    expect(markdown).not.toMatch(/(?<!\\)\[c\]|<img|<b>|command:|www\./);
    expect(escapeMarkdown('2.6')).toBe('2.6');
    expect(escapeMarkdown('1. one')).toBe('1\\. one');
  });
});
