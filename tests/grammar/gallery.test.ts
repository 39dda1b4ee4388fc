import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { PROBLEM_CODES, parse } from '../../grammar/index.js';
import { applyEdits, showProblems } from './show.js';

/** Every message with the smallest text that gives it. */
const cases = readFileSync(new URL('../fixtures/grammar/gallery.txt', import.meta.url), 'utf8')
  .split(/^=== /m)
  .slice(1)
  .map((part) => ({ name: part.slice(0, part.indexOf('\n')), text: part.slice(part.indexOf('\n') + 1) }));

describe('the gallery of slips', () => {
  test('reads as a coach would say it', async () => {
    const shown = cases
      .map(({ name, text }) => `=== ${name}\n${showProblems(text, parse(text))}\n`)
      .join('\n');
    await expect(shown).toMatchFileSnapshot('../fixtures/grammar/gallery.expected.txt');
  });

  test.each(cases)('$name: is found', ({ text }) => {
    expect(parse(text).problems.length).toBeGreaterThan(0);
  });

  test('names no part of a parser and no bare apology', () => {
    for (const { text } of cases) {
      for (const { message } of parse(text).problems) {
        expect(message).not.toMatch(
          /\b(token|parse|parser|syntax|invalid|unexpected|undefined|null|NaN|expecting|EOF)\b/i,
        );
        expect(message).toMatch(/[.?)]$/);
      }
    }
  });

  test('every code is shown and explained, and nothing else is given', () => {
    const given = new Set(cases.flatMap(({ text }) => parse(text).problems.map((found) => found.code)));
    expect([...given].sort()).toEqual(PROBLEM_CODES.map((each) => each.code).sort());
  });

  test('a safe repair leaves fewer problems', () => {
    for (const { text } of cases) {
      const before = parse(text).problems;
      for (const fix of before.flatMap((found) => found.fixes)) {
        if (fix.safe)
          expect(parse(applyEdits(text, fix.edits)).problems.length, fix.title).toBeLessThan(before.length);
      }
    }
  });
});

describe('the help of each code', () => {
  test.each(PROBLEM_CODES.map((each) => [each.code, each] as const))(
    '%s: its example has it, the better one has nothing',
    (code, each) => {
      expect(parse(each.example).problems.map((found) => found.code)).toContain(code);
      expect(parse(each.better).problems).toEqual([]);
    },
  );
});
