import { readFileSync } from 'node:fs';
import path from 'node:path';
import { describe, expect, it } from 'vitest';
import { IMPORT_COLUMNS } from '../../server/src/engine/history/importRows.js';
import { DEFAULT_SIGN_OFF } from '../../server/src/engine/history/signOffCriteria.js';
import { root } from '../structure/repository.js';

const page = readFileSync(path.join(root, 'server/reference/history.md'), 'utf8');

describe('the page about logs', () => {
  it('names every column of the import, in its order', () => {
    const columns = [...page.slice(page.indexOf('## Columns')).matchAll(/^\| `([^`]+)` \|/gm)].map(
      (match) => match[1],
    );
    expect(columns).toEqual([...IMPORT_COLUMNS]);
  });

  it('states the defaults of the sign-offs', () => {
    for (const { stage, sessions, weeks } of DEFAULT_SIGN_OFF) {
      expect(page).toMatch(new RegExp(`sign-off to \`${stage}\` \\| ${sessions} sessions.* ${weeks} weeks`));
    }
  });
});
