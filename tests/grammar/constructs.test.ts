import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { parse } from '../../grammar/index.js';

/** Every construct of the notation in one file, and the tree that it is read into, without places in the text. */
test('everything that can be written is read as it was meant', async () => {
  const text = readFileSync(
    new URL('../fixtures/grammar/constructs/everything.stave', import.meta.url),
    'utf8',
  );
  const { value, problems } = parse(text);
  expect(problems).toEqual([]);
  const tree = JSON.stringify(
    value.sections,
    (key, inner) => (['span', 'headerSpan', 'nameSpan'].includes(key) ? undefined : inner),
    1,
  );
  await expect(`${tree}\n`).toMatchFileSnapshot('../fixtures/grammar/constructs/everything.json');
});
