import { describe, expect, it } from 'vitest';
import { applyEdits, formatText } from '../../server/src/engine/views/format.js';
import { inlayHints } from '../../server/src/engine/views/inlayHints.js';
import { lenses, lensWords } from '../../server/src/engine/views/lenses.js';
import { onEnter } from '../../server/src/engine/views/onEnter.js';
import { moveColumn, newRow } from '../../server/src/engine/views/tableMoves.js';
import { cursor, WORKED } from './samples.js';
import { boathouse, sessionOf } from './workspace.js';

const DRAFT = `program Draft

block Keel, 4 weeks, heavy
day Lower
  back squat: 3x6 r2 | 4x | x5
  box squat:  3x8 r3 | 4x |
`;

describe('ending a line', () => {
  const enter = (marked: string, align = true): string => {
    const { text, offset } = cursor(marked);
    return applyEdits(text, onEnter(text, offset, { align }));
  };

  it('gives the new line the depth of what comes next there', () => {
    expect(enter('kit Shed\n‸')).toBe('kit Shed\n  ');
    expect(enter('program P\nblock B, 2 weeks\nday D\n‸')).toBe('program P\nblock B, 2 weeks\nday D\n  ');
    expect(enter('program P\nblock B, 2 weeks\nday D\n  circuit C, 2 rounds\n‸')).toMatch(/\n {4}$/);
    expect(enter('-- nothing yet\n‸')).toBe('-- nothing yet\n');
  });

  it('sets an opener that was written too deep', () => {
    expect(enter('program P\nblock B, 2 weeks\n  day D\n‸')).toBe('program P\nblock B, 2 weeks\nday D\n  ');
  });

  it('aligns the finished row where the others are aligned, with what the editor wrote into the new line', () => {
    const rows = `${DRAFT}  push-up: 3x8 bw|x10 -- easy\n  ‸`;
    expect(enter(rows)).toContain('\n  push-up:    3x8 bw | x10 -- easy\n');
    expect(enter(rows, false)).toContain('\n  push-up: 3x8 bw|x10 -- easy\n');
  });

  it('leaves a table alone that its writer has not aligned, and a row with a mistake', () => {
    expect(enter(`${DRAFT.replace('squat:  3x8', 'squat: 3x8')}  push-up: 3x8 bw|x10\n‸`)).toContain(
      'push-up: 3x8 bw|x10\n',
    );
    expect(enter(`${DRAFT}  push-up: 3x8 bw|xx\n‸`)).toContain('push-up: 3x8 bw|xx\n');
  });
});

describe('columns', () => {
  const ask = (marked: string) => {
    const { text, offset } = cursor(marked);
    return { text, offset, session: sessionOf({ 'a.stave': text }) };
  };
  const to = (marked: string, direction: 'next' | 'previous'): string | null => {
    const { text, offset, session } = ask(marked);
    const move = moveColumn(session, 'a.stave', offset, direction);
    if (!move) return null;
    const after = move.edit ? applyEdits(text, [move.edit]) : text;
    const { start, end } = move.select ?? { start: 0, end: 0 };
    return `${after.slice(after.lastIndexOf('\n', start - 1) + 1, start)}[${after.slice(start, end)}]`;
  };

  it('goes from the name to the first week, on, and to the next row', () => {
    expect(to(DRAFT.replace('back', 'ba‸ck'), 'next')).toBe('  back squat: [3x6 r2]');
    expect(to(DRAFT.replace('3x6', '3x‸6'), 'next')).toBe('  back squat: 3x6 r2 | [4x]');
    expect(to(DRAFT.replace('3x8', '3‸x8'), 'previous')).toBe('  back squat: 3x6 r2 | 4x | [x5]');
  });

  it('begins the next week while the block has one, then goes to the next row', () => {
    expect(to(DRAFT.replace('x5', 'x5‸'), 'next')).toBe('  back squat: 3x6 r2 | 4x | x5 | []');
    expect(to(DRAFT.replace('x5', 'x5 | r1‸'), 'next')).toBe('  box squat:  [3x8 r3]');
    expect(to(DRAFT.replace('4x |\n', '4x | | r2‸\n'), 'next')).toBeNull();
  });

  it('has no way where no row is', () => {
    expect(to(DRAFT.replace('program', 'pro‸gram'), 'next')).toBeNull();
    expect(to('kit A\n  bar: 1‸5kg\n', 'next')).toBeNull();
  });

  it('begins a row with as many columns at the end of one, and aligns the finished one', () => {
    const { text, offset, session } = ask(`${DRAFT}  push-up: 3x8 bw|x10‸\n`);
    const move = newRow(session, 'a.stave', offset, true);
    expect(move?.edit?.newText).toBe('\n  $1: $2 | $3$0');
    expect(applyEdits(text, move?.format ?? [])).toContain('  push-up:    3x8 bw | x10\n');
  });

  it('takes the marks of an empty new row away, and begins none inside a row', () => {
    const { text, offset, session } = ask(DRAFT.replace('  box', '  ‸:  |  | \n  box'));
    const move = newRow(session, 'a.stave', offset, true);
    expect(applyEdits(text, move?.edit ? [move.edit] : [])).toContain('x5\n  \n  box');
    const inside = ask(DRAFT.replace('4x | x5', '4x ‸| x5'));
    expect(newRow(inside.session, 'a.stave', inside.offset, true)).toBeNull();
  });
});

describe('hints in a table', () => {
  const text = `${WORKED.replace('day Upper\n', '')}  box squat: 3x8 bw | | x5\n`;
  const drawn = (align: boolean): string[] => {
    const options = { clientKey: 'heron', loads: true, reserve: false, plates: false, align };
    const tidy = applyEdits(text, formatText(text).edits);
    const session = sessionOf({ 'a.stave': tidy });
    const hints = inlayHints(session, 'a.stave', { start: 0, end: tidy.length }, options);
    const edits = hints.map(({ offset, label }) => ({
      span: { start: offset, end: offset },
      newText: ` ${label} `,
    }));
    return applyEdits(tidy, edits).split('\n').slice(-4);
  };
  const pipes = (line: string): string => [...line.matchAll(/\|/g)].map(({ index }) => index).join(' ');

  it('leave columns under each other, whatever the width of the loads, and where a cell has none', () => {
    const [squat = '', press = '', box = ''] = drawn(true);
    expect(pipes(squat).startsWith(pipes(press))).toBe(true);
    expect(pipes(press)).toBe(pipes(box));
    const loose = drawn(false);
    expect(pipes(loose[1] ?? '')).not.toBe(pipes(loose[2] ?? ''));
  });
});

describe('lenses', () => {
  const all = { programs: true, clients: true, kits: true };

  it('stand above programs, blocks, clients and kits, as far as they are wanted', () => {
    const session = sessionOf({ 'a.stave': WORKED });
    expect(lenses(session, 'a.stave', all).map(({ target }) => `${target.kind} ${target.key}`)).toEqual([
      'kit boathouse',
      'client heron',
      'program harbour winter',
      'block harbour winter / keel',
    ]);
    expect(lenses(session, 'a.stave', { programs: false, clients: true, kits: false })).toHaveLength(1);
  });

  const words = (kind: 'program' | 'block' | 'client' | 'kit', key: string, today: string) =>
    lensWords(sessionOf({ 'a.stave': WORKED }), 'a.stave', { kind, key }, today);

  it('say which week is trained, from its first day to its last', () => {
    // The program begins on Monday 7 December; its fourth week ends on Sunday 3 January.
    expect(words('program', 'harbour winter', '2026-12-06')?.title).toBe('1 client · 1 finding');
    expect(words('program', 'harbour winter', '2026-12-07')?.title).toBe(
      '1 client · Keel, week 1 now · 1 finding',
    );
    expect(words('block', 'harbour winter / keel', '2027-01-03')?.title).toBe(
      '1 client · week 4 now · 1 finding',
    );
    expect(words('block', 'harbour winter / keel', '2027-01-04')?.title).toMatch(/week 5 now/);
    expect(words('block', 'harbour winter / keel', '2027-01-11')?.title).toBe('1 client · 1 finding');
  });

  it('say the next session of a client and who uses a kit', () => {
    expect(words('client', 'heron', '2026-12-08')?.title).toBe('next session Thu 10 Dec');
    expect(words('client', 'heron', '2027-01-01')?.title).toBe('next session Mon 4 Jan');
    expect(words('client', 'heron', '2026-12-06')?.title).toBe('next session Mon 7 Dec');
    expect(words('client', 'heron', '2027-02-01')?.title).toBe('no session to come');
    expect(words('kit', 'boathouse', '2026-12-08')?.title).toBe('used by 1 client');
  });

  it('list what they count, each with its place, for everything in the sample practice', () => {
    const session = boathouse();
    let entries = 0;
    for (const file of session.files()) {
      for (const { target } of lenses(session, file, all)) {
        const found = lensWords(session, file, target, '2026-12-01');
        expect(found?.title, target.key).toMatch(/^\S/);
        for (const { place } of found?.entries ?? []) {
          entries++;
          expect(session.text(place.file)?.slice(place.span.start, place.span.end)).not.toBe('');
        }
      }
    }
    expect(entries).toBeGreaterThan(20);
  });
});
