// The tests in the real editor: gets the editor ready, then runs tests/editor/suites/*.cjs in it, on a copy of
// the samples.
//
//   node tests/editor/start.mjs                  the extension as it is built in dist/
//   node tests/editor/start.mjs --vsix FILE      the packaged extension, as it is shipped
//   node tests/editor/start.mjs --only NAME      only the suites whose file name contains NAME
//   node tests/editor/start.mjs --only folders   only the window with several folders (folders/)
//   node tests/editor/start.mjs --only languages only the windows in German and Spanish (languages/)
//   node tests/editor/start.mjs --only untrusted only the window on a folder that is not trusted (untrusted/)
//   node tests/editor/start.mjs --only empty     only the window on a folder with nothing in it (empty/)
//   node tests/editor/start.mjs --only web       only the editor in a browser with nothing behind it (web/run.mjs)
//   node tests/editor/start.mjs --only first     only the first ten minutes of a new user (firstMinutes/run.mjs)
//   node tests/editor/start.mjs --only reload    only the reload of the window (reload/run.mjs)
//
// STAVE_EDITOR_REPORT names a JSON file for the counts; STAVE_EDITOR_SHOTS a folder for pictures of the window;
// STAVE_EDITOR_PICTURE the file for the picture of the README (client/media/editor.png).
import { spawnSync } from 'node:child_process';
import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import { parseArgs } from 'node:util';

const here = path.dirname(fileURLToPath(import.meta.url));
const root = path.resolve(here, '..', '..');
const { values: flags } = parseArgs({
  options: {
    vsix: { type: 'string' },
    only: { type: 'string', default: '' },
    verbose: { type: 'boolean', default: false },
  },
});

const scratch = fs.mkdtempSync(path.join(os.tmpdir(), 'stave-suite-'));
const report = process.env.STAVE_EDITOR_REPORT ?? path.join(scratch, 'report.json');
const shots = process.env.STAVE_EDITOR_SHOTS ?? path.join(root, 'out');
fs.mkdirSync(shots, { recursive: true });

function run(command, args, to = report, more = {}) {
  const env = {
    ...process.env,
    ...more,
    STAVE_EDITOR_REPORT: to,
    STAVE_EDITOR_SHOTS: shots,
    STAVE_EDITOR_ONLY: flags.only,
  };
  const { status, error } = spawnSync(command, args, { cwd: root, stdio: 'inherit', env });
  if (error) console.error(`${command}: ${error.message}`);
  return status ?? 1;
}

/** A workspace of two practices in two folders, and a third folder that is not open yet. */
function twoFolders() {
  const workspace = path.join(scratch, 'practices');
  const put = (file, text) => {
    fs.mkdirSync(path.dirname(path.join(workspace, file)), { recursive: true });
    fs.writeFileSync(path.join(workspace, file), text);
  };
  fs.cpSync(path.join(root, 'samples', 'winter'), path.join(workspace, 'north'), { recursive: true });
  fs.cpSync(path.join(root, 'samples', 'boathouse'), path.join(workspace, 'south'), { recursive: true });
  const text = fs.readFileSync(path.join(root, 'samples', 'winter', 'winter.stave'), 'utf8');
  const at = text.indexOf('program ');
  put('east/people.stave', text.slice(0, at).replaceAll('Heron', 'Godwit'));
  put('east/winter.stave', text.slice(at));
  put('both.code-workspace', JSON.stringify({ folders: [{ path: 'north' }, { path: 'south' }] }));
  return workspace;
}

/** Windows of another kind, on the samples unless said otherwise, each with the suites of a folder of its own. */
const others = [
  { only: 'languages', name: 'de', more: ['--language', 'de'] },
  { only: 'languages', name: 'es', more: ['--language', 'es'] },
  { only: 'untrusted', name: 'untrusted', more: ['--untrusted'] },
  { only: 'empty', name: 'empty', more: ['--workspace', fs.mkdtempSync(path.join(scratch, 'practice-'))] },
];
const reportOf = (name) => path.join(scratch, `${name}.json`);
const webReport = path.join(scratch, 'web.json');
const foldersReport = path.join(scratch, 'folders.json');
const firstReport = path.join(scratch, 'first.json');
const reloadReport = path.join(scratch, 'reload.json');
let code = run('bash', [path.join(here, 'setup.sh')]);
const ready = code === 0;
const extension = flags.vsix ? ['--vsix', flags.vsix] : ['--extension', root];
if (ready && !['web', 'folders', 'first', 'languages', 'untrusted', 'empty', 'reload'].includes(flags.only)) {
  code = run(process.execPath, [
    path.join(here, 'run.mjs'),
    ...extension,
    ...['--tests', path.join(here, 'index.cjs')],
    ...['--workspace', path.join(root, 'samples')],
    ...['--screenshot', path.join(shots, 'window.png')],
    ...['--timeout', '900'],
    ...(flags.verbose ? ['--verbose'] : []),
  ]);
}
if (ready && (flags.only === '' || flags.only === 'folders')) {
  const workspace = twoFolders();
  const args = [
    path.join(here, 'run.mjs'),
    ...extension,
    ...['--tests', path.join(here, 'index.cjs'), '--workspace', workspace, '--open', 'both.code-workspace'],
    ...['--screenshot', path.join(shots, 'folders.png'), '--timeout', '240'],
    ...(flags.verbose ? ['--verbose'] : []),
  ];
  code = run(process.execPath, args, foldersReport, { STAVE_EDITOR_SUITES: 'folders' }) || code;
}
for (const { only, name, more } of others) {
  if (!ready || (flags.only !== '' && flags.only !== only)) continue;
  const args = [
    ...[path.join(here, 'run.mjs'), ...extension],
    ...['--tests', path.join(here, 'index.cjs'), '--workspace', path.join(root, 'samples')],
    ...['--screenshot', path.join(shots, `${name}.png`), '--timeout', '240', ...more],
    ...(flags.verbose ? ['--verbose'] : []),
  ];
  code = run(process.execPath, args, reportOf(name), { STAVE_EDITOR_SUITES: only }) || code;
}
if (ready && (flags.only === '' || flags.only === 'web')) {
  const packed = flags.vsix ? ['--vsix', flags.vsix] : [];
  const web = [path.join(here, 'web', 'run.mjs'), ...packed, ...(flags.verbose ? ['--verbose'] : [])];
  code = run(process.execPath, web, webReport) || code;
}
if (ready && (flags.only === '' || flags.only === 'first')) {
  const packed = flags.vsix ? ['--vsix', flags.vsix] : [];
  code = run(process.execPath, [path.join(here, 'firstMinutes', 'run.mjs'), ...packed], firstReport) || code;
}
if (ready && (flags.only === '' || flags.only === 'reload')) {
  const packed = flags.vsix ? ['--vsix', flags.vsix] : [];
  code = run(process.execPath, [path.join(here, 'reload', 'run.mjs'), ...packed], reloadReport) || code;
}
// All runs together, in the one report.
const reports = [
  report,
  foldersReport,
  ...others.map(({ name }) => reportOf(name)),
  webReport,
  firstReport,
  reloadReport,
];
const counts = reports.filter((file) => fs.existsSync(file));
if (counts.length > 0) {
  const all = counts.map((file) => JSON.parse(fs.readFileSync(file, 'utf8')));
  const sum = (key) => all.reduce((total, one) => total + one[key], 0);
  const [passes, failures, pending] = [sum('passes'), sum('failures'), sum('pending')];
  fs.writeFileSync(report, JSON.stringify({ passes, failures, pending }));
  console.log(`in the editor: ${passes} passed, ${failures} failed, ${pending} skipped`);
}
fs.rmSync(scratch, { recursive: true, force: true });
process.exitCode = code;
