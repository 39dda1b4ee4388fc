import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  type FileTree,
  LineCache,
  normaliseName,
  type Outcome,
  parse,
  VOCABULARY,
} from '../../grammar/index.js';
import { SAMPLES } from './samples.js';
import { lineMeanings, visitSpans } from './tree.js';

const SEED = 20261207;

/** Pieces of the notation in no order, so that random text is nearly right. */
const PIECES = [
  ...Object.values(VOCABULARY.openers).map((each) => each.example),
  ...Object.values(VOCABULARY.statements).flatMap((list) => list.map((each) => each.example)),
  ...VOCABULARY.cell.map((each) => each.example),
  'squat:',
  '|',
  ';',
  ',',
  ':',
  '"',
  '--',
  'end',
  '\n',
  '\n  ',
  '\r\n',
  '\t',
  ' ',
  '\ufeff',
  '\u{1F3CB}\u{1F3FD}',
  '\ud83c',
  '\u2028',
  '2,5kg',
  'x',
  '-',
];
const nearlyRight = fc.array(fc.constantFrom(...PIECES), { maxLength: 40 }).map((parts) => parts.join(' '));

function checkSpans(text: string, outcome: Outcome<FileTree>): void {
  const inside = (start: number, end: number): boolean => 0 <= start && start <= end && end <= text.length;
  visitSpans(outcome.value, (_node, span) => {
    if (!inside(span.start, span.end)) throw new Error(`span ${span.start}-${span.end} of ${text.length}`);
  });
  for (const { span, fixes, message } of outcome.problems) {
    if (!inside(span.start, span.end)) throw new Error(`span of ${message}`);
    for (const edit of fixes.flatMap((fix) => fix.edits))
      if (!inside(edit.span.start, edit.span.end)) throw new Error(`fix of ${message}`);
  }
}

describe('any text', () => {
  test('is read without a throw, with every span inside', () => {
    fc.assert(
      fc.property(fc.oneof(fc.string({ unit: 'binary', maxLength: 200 }), nearlyRight), (text) =>
        checkSpans(text, parse(text)),
      ),
      {
        seed: SEED,
        numRuns: 600,
      },
    );
  });

  test('has one line entry for each of its lines', () => {
    fc.assert(
      fc.property(nearlyRight, (text) => {
        expect(parse(text).value.lines).toHaveLength(text.split(/\r\n|\n|\r/).length);
      }),
      { seed: SEED, numRuns: 200 },
    );
  });
});

describe('the memory of lines', () => {
  test('changes nothing: after any edits the tree and the problems are those of a fresh reading', () => {
    const edit = fc.record({
      at: fc.nat(),
      drop: fc.nat(12),
      put: fc.oneof(fc.constantFrom(...PIECES), fc.string({ maxLength: 3 })),
    });
    const sample = fc.constantFrom(
      ...SAMPLES.filter(({ text }) => text.length < 9000).map(({ text }) => text),
    );
    fc.assert(
      fc.property(sample, fc.array(edit, { minLength: 1, maxLength: 6 }), (start, edits) => {
        const cache = new LineCache();
        let text = start;
        parse(text, cache);
        for (const { at, drop, put } of edits) {
          const from = at % (text.length + 1);
          text = text.slice(0, from) + put + text.slice(from + drop);
          expect(parse(text, cache)).toEqual(parse(text));
        }
      }),
      { seed: SEED, numRuns: 40 },
    );
  });

  test('keeps the very nodes of lines that did not move', () => {
    const cache = new LineCache();
    const text = 'client Heron\n  born: 1979\n  height: 172cm\n';
    const before = parse(text, cache).value.sections[0];
    const after = parse(`${text}  units: kg\n`, cache).value.sections[0];
    if (before?.kind !== 'client' || after?.kind !== 'client') throw new Error('no client');
    expect(after.lines[0]).toBe(before.lines[0]);
    expect(after.lines).toHaveLength(3);
  });
});

describe('line breaks, tabs and marks', () => {
  test.each(SAMPLES)(
    '$name means the same with other line breaks, tabs and a byte order mark',
    ({ text }) => {
      const meanings = (written: string): string[] =>
        [...lineMeanings(parse(written).value).values()].map((each) => each.meaning);
      const plain = meanings(text);
      expect(meanings(text.replace(/\n/g, '\r\n'))).toEqual(plain);
      expect(meanings(text.replace(/\n/g, '\r'))).toEqual(plain);
      expect(meanings(`\ufeff${text}`)).toEqual(plain);
      expect(meanings(text.replace(/^ {2}/gm, '\t'))).toEqual(plain);
    },
  );

  test('offsets count UTF-16 units, also behind characters of two', () => {
    const text = 'program \u{1F3CB} P\nblock B, 2 weeks\nday \u{1F3CB}\n  squat \u{1F3CB}: 3x6 r2 oops';
    const { problems } = parse(text);
    expect(problems.map(({ span }) => text.slice(span.start, span.end))).toEqual(['oops']);
  });

  test('a note needs a space or the edge on both sides, and none begins inside quotation marks', () => {
    const { value, problems } = parse('-- top\nprogram P--Q -- note "x\n"a -- b" --\nblock B, 2 weeks');
    expect(problems).toEqual([]);
    expect(value.sections[0]).toMatchObject({
      name: { text: 'P--Q' },
      texts: [{ text: { text: 'a -- b' } }],
    });
    expect(value.comments).toHaveLength(3);
  });

  test('names are compared without regard to case and repeated spaces', () => {
    expect(normaliseName('  Back \t Squat ')).toBe('back squat');
    expect(parse('client  Grey   Heron ').value.sections[0]).toMatchObject({
      name: { key: 'grey heron', text: 'Grey   Heron' },
    });
  });
});

describe('sections', () => {
  test('an `allow` belongs to what stands directly above', () => {
    const text =
      'program P\nallow: a "1"\nblock B, 2 weeks\nallow: b "2"\nday D\nallow: c "3"\n  squat: 3x6 r2\n  allow: d "4"\ncircuit C, 2 rounds\nallow: e "5"\n  dip: x6\n  allow: f "6"\nend\nallow: g "7"';
    const { value, problems } = parse(text);
    expect(problems).toEqual([]);
    const codes = (node: { allows: readonly { code: { value: string } }[] } | undefined): string[] =>
      node?.allows.map((each) => each.code.value) ?? [];
    const program = value.sections[0];
    if (program?.kind !== 'program') throw new Error('no program');
    const day = program.blocks[0]?.days[0];
    const [row, circuit] = day?.entries ?? [];
    if (row?.kind !== 'row' || circuit?.kind !== 'circuit') throw new Error('no rows');
    expect([codes(program), codes(program.blocks[0]), codes(day), codes(row), codes(circuit)]).toEqual([
      ['a'],
      ['b'],
      ['c'],
      ['d'],
      ['e', 'g'],
    ]);
    expect(codes(circuit.entries[0] as typeof row)).toEqual(['f']);
  });

  test('an `allow` under a row that cannot be read silences nothing else', () => {
    const { value } = parse(
      'program P\nblock B, 2 weeks\nday D\n  squat: 3x6 r2\n  press 3x6\n  allow: d "4"',
    );
    expect(JSON.stringify(value)).not.toContain('"allow"');
  });

  test('what could not be read is noted where it stood', () => {
    const { value } = parse(
      'program P\nblock B, 2 weeks\nday D\n  press 3x6\nblok C, 2 weeks\nday E\n  dip: 3x6',
    );
    const program = value.sections[0];
    if (program?.kind !== 'program') throw new Error('no program');
    expect(program.damaged).toHaveLength(1);
    expect(program.blocks).toHaveLength(1);
    expect(program.blocks[0]?.days.map((day) => [day.name.key, day.damaged.length])).toEqual([['d', 1]]);
  });

  test('depths for the formatter', () => {
    const { value } = parse(
      'program P\n aim: strength\nblock B, 2 weeks\nday D\n-- about it\nsquat: 3x6\n| 4x\ncircuit C, 2 rounds\ndip: x6\nend\n\nday E',
    );
    expect(value.lines.map((line) => [line.kind, line.depth])).toEqual([
      ['opener', 0],
      ['statement', 1],
      ['opener', 0],
      ['opener', 0],
      ['comment', 1],
      ['row', 1],
      ['continuation', 2],
      ['opener', 1],
      ['row', 2],
      ['end', 1],
      ['blank', 1],
      ['opener', 0],
    ]);
  });
});
