// The same suites in a desktop VS Code, for machines that can have one: @vscode/test-electron downloads it from
// Microsoft, or VSCODE names the program of an installed one. Tests that look at the window itself are skipped:
// only the browser run can see it.
import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import { runTests } from '@vscode/test-electron';

const here = path.dirname(fileURLToPath(import.meta.url));
const root = path.resolve(here, '..', '..');
const scratch = fs.mkdtempSync(path.join(os.tmpdir(), 'stave-desktop-'));
const workspace = path.join(scratch, 'samples');
fs.cpSync(path.join(root, 'samples'), workspace, { recursive: true });

try {
  await runTests({
    ...(process.env.VSCODE ? { vscodeExecutablePath: process.env.VSCODE } : {}),
    extensionDevelopmentPath: root,
    extensionTestsPath: path.join(here, 'index.cjs'),
    launchArgs: [
      workspace,
      '--disable-extensions',
      '--disable-workspace-trust',
      `--user-data-dir=${path.join(scratch, 'user')}`,
    ],
  });
} catch (error) {
  console.error(`desktop: ${error.message}`);
  process.exitCode = 1;
} finally {
  fs.rmSync(scratch, { recursive: true, force: true });
}
