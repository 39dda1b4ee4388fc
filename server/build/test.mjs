// Everything that has to hold, in one run: types, lint, build, unit tests, and the tests in a real editor.
// The last line is "N passed, N failed"; a check that fails before its tests could count is one failure.
import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { ensureDebianPackages, ensurePackages, run, tool } from './prepare.mjs';

ensurePackages();
ensureDebianPackages();

const scratch = fs.mkdtempSync(path.join(os.tmpdir(), 'stave-test-'));
const broken = [];
let passed = 0;
let failed = 0;

/** Runs one step; a non-zero exit is noted under the step's name. */
function step(name, command, args, options) {
  console.log(`\n== ${name}`);
  const ok = run(command, args, options) === 0;
  if (!ok) broken.push(name);
  return ok;
}

/** Runs one step that counts its own tests and leaves a report; no report, or none run, is a failure. */
function counted(name, report, read, command, args, options) {
  const ok = step(name, command, args, options);
  let counts = { passed: 0, failed: 0 };
  if (fs.existsSync(report)) counts = read(JSON.parse(fs.readFileSync(report, 'utf8')));
  if (counts.passed + counts.failed === 0 || (!ok && counts.failed === 0)) counts.failed += 1;
  passed += counts.passed;
  failed += counts.failed;
}

const node = process.execPath;
const checks = [
  ['types', [tool('typescript/bin/tsc'), '-p', 'tsconfig.json']],
  ['types of the pure code', [tool('typescript/bin/tsc'), '-p', 'server/tsconfig.pure.json']],
  ['types of the server in a browser', [tool('typescript/bin/tsc'), '-p', 'server/tsconfig.browser.json']],
  ['lint and format', [tool('@biomejs/biome/bin/biome'), 'check', '.']],
  ['build', ['server/build/build.mjs']],
  ['package', ['server/build/package.mjs', '--built']],
];
for (const [name, args] of checks) if (!step(name, node, args)) failed += 1;

const unit = path.join(scratch, 'unit.json');
counted(
  'unit tests',
  unit,
  (report) => {
    // A file that cannot even be loaded has no failed test to show for it.
    const unloadable = report.testResults.filter(
      ({ status, assertionResults }) =>
        status === 'failed' && !assertionResults.some((one) => one.status === 'failed'),
    );
    return { passed: report.numPassedTests, failed: report.numFailedTests + unloadable.length };
  },
  node,
  [tool('vitest/vitest.mjs'), 'run', '--reporter=default', '--reporter=json', `--outputFile.json=${unit}`],
);

const editor = path.join(scratch, 'editor.json');
counted(
  'tests in the real editor',
  editor,
  (report) => ({ passed: report.passes, failed: report.failures }),
  node,
  ['tests/editor/start.mjs', '--vsix', 'dist/stave.vsix'],
  { env: { ...process.env, STAVE_EDITOR_REPORT: editor } },
);

fs.rmSync(scratch, { recursive: true, force: true });
if (broken.length > 0) console.log(`\nfailed: ${broken.join(', ')}`);
console.log(`\n${passed} passed, ${failed} failed`);
process.exitCode = failed > 0 || broken.length > 0 ? 1 : 0;
