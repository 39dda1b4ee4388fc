import { spawnSync } from 'node:child_process';
import { expect, it } from 'vitest';
import { root } from '../structure/repository.js';

// The assertions stand in the .stave files beside this one, under the lines that they are about. They are checked
// with the engine that VS Code itself colours text with.
it('colours the notation as the examples say', { timeout: 60_000 }, () => {
  const { status, stdout, stderr } = spawnSync(
    process.execPath,
    [
      'node_modules/vscode-tmgrammar-test/dist/unit.js',
      ...['--grammar', 'grammar/stave.tmLanguage.json', '--compact'],
      'tests/textmate/*.stave',
    ],
    { cwd: root, encoding: 'utf8' },
  );
  expect(`${stdout}${stderr}`).toContain('tests/textmate/program.stave run');
  expect(status).toBe(0);
});
