import { spawnSync } from 'node:child_process';
import path from 'node:path';
import { expect, it } from 'vitest';
import { root } from './repository.js';

it('generated files are up to date', { timeout: 60_000 }, () => {
  const { status, stdout, stderr } = spawnSync(
    process.execPath,
    [path.join('server', 'build', 'generate.mjs'), '--check'],
    { cwd: root, encoding: 'utf8' },
  );
  expect(`${stdout}${stderr}`).toMatch(/^[1-9]\d* generated files are up to date\n$/);
  expect(status).toBe(0);
});
