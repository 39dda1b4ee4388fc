import { describe, expect, it } from 'vitest';
import { type CompletionItem, completions } from '../../server/src/engine/views/completion.js';
import { cursor } from './samples.js';
import { SMALL, sessionOf } from './workspace.js';

interface Offer {
  readonly items: readonly CompletionItem[];
  readonly labels: readonly string[];
  readonly text: string;
  /** The text after an item was taken, tab stops as they are. */
  readonly taken: (label: string) => string;
}

/** What is offered at ‸ in a file beside the small workspace. */
function at(marked: string): Offer {
  const { text, offset } = cursor(marked);
  const session = sessionOf({ ...SMALL, 'own.stave': text });
  const items = completions(session, 'own.stave', offset);
  for (const { replace } of items) {
    expect(replace.start).toBeLessThanOrEqual(offset);
    expect(replace.end).toBeGreaterThanOrEqual(offset);
    expect(text.slice(replace.start, replace.end)).not.toMatch(/[\r\n]/);
  }
  const taken = (label: string): string => {
    const item = items.find((entry) => entry.label === label);
    if (!item) throw new Error(`Not offered: ${label}`);
    return text.slice(0, item.replace.start) + item.insert + text.slice(item.replace.end);
  };
  return { items, labels: items.map(({ label }) => label), text, taken };
}

describe('completion at the start of a line', () => {
  it('offers openers in an empty file', () => {
    expect(at('‸').labels).toEqual(['program', 'client', 'kit', 'movement', 'group', 'log']);
    expect(at('cl‸').taken('client')).toMatch(/^client \$\{1:name\}\n/);
  });

  it('offers the statements of the section on an empty line, then what may open next', () => {
    const { labels } = at('client Heron\n  ‸\n');
    expect(labels.slice(0, 3)).toEqual(['born', 'height', 'mass']);
    expect(labels).toContain('max');
    expect(labels).not.toContain('pattern');
    expect(labels).not.toContain('day');
    expect(at('program X\n‸').labels.slice(0, 3)).toEqual(['aim', 'allow', 'block']);
  });

  it('offers movements in a day, with the last loads beside them', () => {
    const { items, taken } = at('program Winter\nblock Other, 2 weeks\nday A\n  bac‸\n');
    const squat = items.find(({ label }) => label === 'back squat');
    expect(squat?.detail).toBe('Heron 47.5 kg x5 on 2026-11-23; Wren 132.28 lb x5 on 2026-09-01');
    expect(taken('back squat')).toContain('\n  back squat: \n');
  });

  it('takes the last loads from the logs where there are some', () => {
    const log =
      'log Heron, 2026-12-07, Lower\n  as planned\n\nlog Wren, 2026-12-07, Lower\n  back squat: 50kg 6 6 6\n\n';
    const { items } = at(`${log}log Heron, Wren, 2026-12-14, Lower\n  ‸`);
    const squat = items.find(({ label }) => label === 'back squat');
    expect(squat?.detail).toBe('Heron 45 kg on 2026-12-07; Wren 110.23 lb on 2026-12-07');
  });

  it('replaces a whole label that is there already', () => {
    expect(at('program W\nblock O, 2 weeks\nday A\n  back‸ sqat: 3x6').taken('back squat')).toContain(
      '\n  back squat: 3x6',
    );
  });

  it('offers the end of a circuit', () => {
    expect(at('program W\nblock O, 2 weeks\nday A\ncircuit C, 2 rounds\n  ‸').labels).toContain('end');
  });
});

describe('completion after a label', () => {
  it.each([
    ['client A\n  trains at: ‸', 'Boathouse'],
    ['client A\n  max: back‸', 'back squat'],
    ['client A\n  follows: Win‸', 'Winter'],
    ['client A\n  follows: Winter, from 2026-12-07, on mon ‸', 'thu'],
    ['client A\n  curve: ‸', 'brzycki'],
    ['client A\n  condition: ‸', 'osteopenia'],
    ['client A\n  ready: ‸', 'heavy'],
    ['client A\n  ready: heavy ‸', 'squat'],
    ['client A\n  swap: back squat, to box‸', 'box squat'],
    ['client A\n  avoid: ‸', 'jump'],
    ['client A\n  allow: ‸', 'heavy-early'],
    ['group A\n  members: Heron, ‸', 'Wren'],
    ['movement A\n  with: ‸', 'barbell'],
    ['movement A\n  easier: ‸', 'back squat'],
    ['movement A\n  estimate: 80% of ‸', 'back squat'],
    ['program A\n  aim: ‸', 'strength'],
    ['block A, like ‸', 'Winter / Keel'],
    ['log ‸', 'Heron'],
    ['log Heron, 2026-12-07, ‸', 'Lower'],
    ['log Heron, 2026-12-07\n  back squat: ‸', 'skipped'],
  ])('%j offers %s', (marked, label) => {
    expect(at(marked).labels).toContain(label);
  });

  it('replaces the whole name, not a word of it', () => {
    expect(at('client A\n  max: back‸ sqat, 40kg x5 r2, 2026-11-01').taken('back squat')).toContain(
      'max: back squat, 40kg x5 r2, 2026-11-01',
    );
  });

  it('offers no dates and no numbers', () => {
    expect(at('client A\n  born: ‸').labels).toEqual([]);
    expect(at('client A\n  max: back squat, ‸').labels).toEqual([]);
    expect(at('client A\n  follows: Winter, from ‸').labels).toEqual([]);
  });
});

describe('completion in a cell', () => {
  const row = (cells: string): Offer => at(`program W\nblock O, 4 weeks\nday A\n  back squat: ${cells}\n`);

  it('offers sets and reps first, and no change in the first cell', () => {
    const { labels, taken } = row('‸');
    expect(labels[0]).toBe('sets x reps');
    expect(labels).not.toContain('up');
    expect(labels).not.toContain('stop');
    expect(taken('sets x reps')).toMatch(/back squat: \$\{1:sets\}x\$\{2:reps\}/);
  });

  it('offers changes in later cells, also in a continued row', () => {
    expect(row('3x6 r2 | ‸').labels).toEqual(expect.arrayContaining(['up', 'weekly', '-', 'stop']));
    expect(row('3x6 r2 |\n  | ‸').labels).toContain('stop');
  });

  it('does not offer again what is said, and stays quiet while a number is typed', () => {
    expect(row('3x6 warm ‸').labels).not.toContain('warm');
    expect(row('3x‸').labels).toEqual([]);
    expect(row('r2‸').labels).toEqual([]);
  });

  it('offers bands after `band`, and what can end after `no`', () => {
    expect(row('3x6 band ‸').labels).toEqual(['light', 'medium']);
    expect(row('3x6 r2 | no ‸').labels).toContain('rest');
  });

  it('is silent in notes and quoted text', () => {
    expect(row('3x6 -- w‸').labels).toEqual([]);
    expect(row('3x6 "slow ‸').labels).toEqual([]);
    expect(at('-- ‸').labels).toEqual([]);
    expect(at('client A\n  care: "‸"').labels).toEqual([]);
  });
});
