import { describe, expect, it } from 'vitest';
import { lineParser } from '../../grammar/parser.js';
import { plainDone, plainLogHeader } from '../../grammar/plainLines.js';
import { Random } from '../property/random.js';

/** Lines of logs that are read without the parser say what the parser says, to the last offset. */

const WORDS = [
  ...[
    'Heron',
    'client',
    'Lower',
    'x',
    'r',
    'to',
    'As',
    'planned',
    'skipped',
    'swap',
    'rest',
    'tempo',
    'no',
    'test',
  ],
  ...[
    'off',
    'up',
    'weekly',
    'stop',
    'rpe',
    'pack',
    'band',
    'load',
    'mon',
    'machine',
    'by',
    'of',
    'mass',
    'from',
  ],
  ...[
    'until',
    'on',
    'at',
    'every',
    'day',
    'weeks',
    'rounds',
    'deload',
    'like',
    'back',
    'keep',
    'supervised',
    'log',
  ],
  ...[
    'bw',
    'kg',
    'min',
    's',
    'm',
    'warm',
    'height',
    'fits',
    'rx',
    'é',
    'a-b',
    '3',
    '12',
    '3x6',
    'r2',
    '5kg',
    '2-1-2',
  ],
];
const GAPS = [' ', ' ', ' ', '  ', '\t', ''];

const span = (text: string) => ({ start: 4, end: 4 + text.length });

/** What the parser reads; undefined where it has anything to say against it. */
function parsed<Value>(rule: 'done' | 'logHeader', text: string): Value | undefined {
  const parser = lineParser();
  const reading = parser.read(parser[rule] as () => unknown, `log:${text}`, span(text));
  return reading.stopped === null && reading.problems.length === 0 ? (reading.value as Value) : undefined;
}

function doneText(random: Random): string {
  const number = () =>
    random.pick(['0', '1', '8', '10', '99', '100', '199', '200', '08', '2.5', '57.5', '2.25', '1.125']);
  const unit = random.pick(['kg', 'kg', 'kg', 'KG', 'lb', '']);
  const sets = Array.from({ length: random.below(5) }, () =>
    random.pick(['5', '6', '12', '0', '99', '100', '8/7', '3x6', '30s', 'x', ';', '2,5']),
  );
  const end = random.pick(['', ' r0', ' r2', ' r5', ' r6', ' r10', ' r2.5', ' R1', ' rpe 8', ' r1 ']);
  const gap = () => random.pick(GAPS);
  return `${gap()}${number()}${unit}${sets.map((set) => `${gap()}${set}`).join('')}${end}`;
}

function headerText(random: Random): string {
  const name = () =>
    Array.from({ length: 1 + random.below(3) }, () => random.pick(WORDS)).join(random.pick(GAPS));
  const date = random.pick([
    '2026-12-07',
    '2026-02-28',
    '2026-02-29',
    '2028-02-29',
    '2026-04-30',
    '2026-04-31',
    '2026-12-31',
    '2026-12-32',
    '2026-13-01',
    '2026-00-10',
    '2026-1-7',
    '0000-01-01',
  ]);
  const comma = () => `,${random.pick(GAPS)}`;
  const day = random.below(2) === 0 ? `${comma()}${name()}` : '';
  return `${random.pick(GAPS)}${name()}${comma()}${date}${day}${random.pick(['', ' ', ','])}`;
}

describe('a plain line of a log', () => {
  it('is the same with and without the parser: what was done', () => {
    const random = new Random(1);
    let plain = 0;
    for (let run = 0; run < 20_000; run += 1) {
      const text = doneText(random);
      const own = plainDone(`log:${text}`, span(text));
      if (own === null) continue;
      plain += 1;
      expect(own, text).toEqual(parsed('done', text));
    }
    expect(plain).toBeGreaterThan(300);
  });

  it('is the same with and without the parser: the line that opens a log', () => {
    const random = new Random(2);
    let plain = 0;
    for (let run = 0; run < 40_000; run += 1) {
      const text = headerText(random);
      const own = plainLogHeader(`log:${text}`, span(text));
      if (own === null) continue;
      plain += 1;
      expect(own, text).toEqual(parsed('logHeader', text));
    }
    expect(plain).toBeGreaterThan(1000);
  });

  it.each([' 57.5kg 5 6 7 r2', ' 20kg 8', ' 100kg 5 5 5 5 5'])('reads %s by itself', (text) => {
    expect(plainDone(`log:${text}`, span(text))).not.toBeNull();
  });
});
