import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { parse } from '../../grammar/index.js';
import { REFERENCE, referenceMarkdown } from '../../grammar/reference.js';

describe('the one-page reference', () => {
  const entries = REFERENCE.flatMap((part) => part.entries);

  test.each(entries.map((each) => [each.title, each] as const))(
    '%s: the example reads as written',
    (_title, each) => {
      expect(
        parse(each.example === each.around ? each.example : each.around.replace('…', () => each.example))
          .problems,
      ).toEqual([]);
    },
  );

  test('titles are different', () => {
    const titles = entries.map((each) => each.title);
    expect(new Set(titles).size).toBe(titles.length);
  });

  test('the page is made from them', () => {
    const page = readFileSync(new URL('../../grammar/reference.md', import.meta.url), 'utf8');
    expect(page).toBe(referenceMarkdown());
  });
});
