import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { parse } from '../../grammar/index.js';
import { applyEdits, formatText } from '../../server/src/engine/views/format.js';
import { meaningOf } from '../../server/src/engine/views/meaning.js';
import { SAMPLES, WORKED } from './samples.js';

function formatted(text: string): string {
  const result = formatText(text);
  expect(result.refusedBecause).toBeNull();
  return applyEdits(text, result.edits);
}

const block = (rows: string): string => `program Winter\n\nblock Keel, 5 weeks, heavy\nday Lower\n${rows}`;

describe('formatting', () => {
  it('sets week columns and labels of a day under each other', () => {
    const rows =
      'back squat: 3x6 r2 warm | 4x | x5\n  bench press (pause):3x8 r3|  |  +2% weekly\neffort: r3|r2\n';
    expect(formatted(block(rows))).toBe(
      block(
        [
          '  back squat:          3x6 r2 warm | 4x | x5',
          '  bench press (pause): 3x8 r3      |    | +2% weekly',
          '  effort:              r3          | r2',
          '',
        ].join('\n'),
      ),
    );
  });

  it('counts columns as wide as they are drawn', () => {
    const rows =
      '  スクワット: 3x6 r2 | 4x\n  row: 3x8 r3 "速く" | 4x\n  e\u0301le\u0301vation: 3x8 r3 | 4x\n';
    expect(formatted(block(rows))).toBe(
      block(
        [
          '  スクワット: 3x6 r2        | 4x',
          '  row:        3x8 r3 "速く" | 4x',
          '  e\u0301le\u0301vation:  3x8 r3        | 4x',
          '',
        ].join('\n'),
      ),
    );
  });

  it('does not let a day widen the columns of another', () => {
    const text = `${block('  squat: 3x6 r2 warm rest 3min | 4x\n')}day Upper\n  press: 3x8 r3 | 4x\n`;
    expect(formatted(text)).toBe(text);
  });

  it('lines up a continued row with the row above', () => {
    const rows = '  back squat: 3x6 r2 warm | 4x |\n | x5 | r1\n';
    expect(formatted(block(rows))).toBe(
      block('  back squat: 3x6 r2 warm | 4x |\n                          | x5 | r1\n'),
    );
  });

  it('indents circuits with their day', () => {
    const rows =
      'circuit Ring,3 rounds,rest 90s\n"Slowly."\nstep-up: x8 /side|x10\nrounds: 2 | | 3\nend\nheel drop: 2x10 | 3x\n';
    const out = formatted(block(rows));
    expect(out).toContain('circuit Ring, 3 rounds, rest 90s');
    // All columns of the day share their places, inside the circuit and outside.
    const pipes = out
      .split('\n')
      .filter((line) => line.includes('|'))
      .map((line) => line.indexOf('|'));
    expect(new Set(pipes).size).toBe(1);
  });

  it('writes plain forms: times, dashes, small letters, single spaces', () => {
    const rows = '  Back  Squat:  4X6   R2 | –5% | REST 2min −2.5KG ;4×8  +2%\n';
    expect(formatted(block(rows))).toBe(block('  Back Squat: 4x6 r2 | -5% | rest 2min -2.5kg ; 4x8 +2%\n'));
  });

  it('keeps quoted text, names and notes to the letter', () => {
    const rows = '  Bench–Press: 3x8 R3 "Keep  CALM – 4×6"   --  R2 was  too MUCH  \n  -- A  note\n';
    expect(formatted(block(rows))).toBe(
      block('  Bench–Press: 3x8 r3 "Keep  CALM – 4×6" --  R2 was  too MUCH\n  -- A  note\n'),
    );
  });

  it('keeps blank lines, the missing last line break, and line breaks of other systems', () => {
    const text = 'kit Boathouse\r\n   bar:15kg  \r\n   \r\n\r\n  plates:  5kg  x4,10kg x4';
    expect(formatted(text)).toBe('kit Boathouse\r\n  bar: 15kg\r\n\r\n\r\n  plates: 5kg x4, 10kg x4');
  });

  it('leaves a line with a mistake as it is and formats the others', () => {
    const rows = '   back squat:   3x6   2,5kg |4x\n   press:  3x8   r3\n';
    expect(formatted(block(rows))).toBe(block('   back squat:   3x6   2,5kg |4x\n  press: 3x8 r3\n'));
  });

  it('keeps a mark of encoding at the very beginning', () => {
    expect(formatted('\ufeffkit   Boathouse\n bar: 15kg\n')).toBe('\ufeffkit Boathouse\n  bar: 15kg\n');
  });

  it('leaves the worked example as it stands, but for columns that belong to single days', () => {
    const once = formatted(WORKED);
    expect(once).toContain('  back squat: 3x6 r2 warm rest 3min | 4x | x5 |  |\n');
    expect(once).toContain('  overhead press: 3x8 r3 |  | +2% weekly\n');
  });

  it('edits no more than what differs, one edit a line', () => {
    const text = block('  back squat: 3x6  r2 | 4x\n');
    const { edits } = formatText(text);
    expect(edits).toEqual([
      { span: { start: text.indexOf('  r2') + 1, end: text.indexOf('  r2') + 2 }, newText: '' },
    ]);
  });

  it('formats only the lines of a range', () => {
    const text = block('back squat: 3x6 r2 | 4x\nbench press: 3x8 r3 | 4x\n');
    const start = text.indexOf('bench');
    const { edits } = formatText(text, { range: { start: start + 1, end: start + 3 } });
    expect(applyEdits(text, edits)).toBe(block('back squat: 3x6 r2 | 4x\n  bench press: 3x8 r3 | 4x\n'));
  });
});

describe('the comparison that formatting rests on', () => {
  const meaning = (rows: string): string => meaningOf(parse(block(rows)).value);
  const plain = meaning('  squat: 3x6 r2 "go  on" | 4x\n');

  it('overlooks places, spaces and capitals of items', () => {
    expect(meaning(' squat:3X6  R2 "go  on"|4×\n')).toBe(plain);
  });

  it.each([
    '  squat: 3x5 r2 "go  on" | 4x\n',
    '  squat: 3x6 r2 "go on" | 4x\n',
    '  squat: 3x6 r2 "go  on" | | 4x\n',
    '  squad: 3x6 r2 "go  on" | 4x\n',
    '  squat: 3x6 r2 "go  on" ; 4x\n',
    '  squat: 3x6 r2 "go  on"\n  | 4x 80%\n',
  ])('notices %j', (rows) => {
    expect(meaning(rows)).not.toBe(plain);
  });
});

describe('formatting any text', { timeout: 90_000 }, () => {
  const pieces = SAMPLES.map(({ text }) => text).concat(WORKED);

  it.each(SAMPLES)('$file: means the same, and twice is once', ({ text }) => {
    const once = formatted(text);
    expect(meaningOf(parse(once).value)).toBe(meaningOf(parse(text).value));
    expect(formatText(once).edits).toEqual([]);
  });

  it('keeps the meaning, and twice is once, whatever is cut or mistyped', () => {
    const damaged = fc
      .tuple(
        fc.constantFrom(...pieces),
        fc.nat(),
        fc.nat(60),
        fc.constantFrom('', '|', ';', '"', ' -- ', ':', ',', '–', '×', 'X', '\n', '\t', '(', '4x6', '漢'),
      )
      .map(([text, at, length, put]) => {
        const window = text.slice(0, 2500);
        const start = at % (window.length + 1);
        return window.slice(0, start) + put + window.slice(start + length);
      });
    fc.assert(
      fc.property(damaged, (text) => {
        const { edits } = formatText(text);
        const once = applyEdits(text, edits);
        expect(meaningOf(parse(once).value)).toBe(meaningOf(parse(text).value));
        expect(formatText(once).edits).toEqual([]);
      }),
      { numRuns: 150 },
    );
  });

  it('never throws', () => {
    const anything = fc.string({
      unit: fc.constantFrom(...'ab 4x6|;:,"-–r2%\n\r\t×(漢\ud83d'),
      maxLength: 120,
    });
    fc.assert(
      fc.property(anything, (text) => {
        const once = applyEdits(text, formatText(text).edits);
        expect(formatText(once).edits).toEqual([]);
      }),
      { numRuns: 400 },
    );
  });
});
