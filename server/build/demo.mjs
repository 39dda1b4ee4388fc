// Everything at once on a fresh machine: installs what is missing, builds, writes the plans of the sample's clients
// as HTML and PDF into demo-output/, shows their first weeks, and packs the extension.
import { spawnSync } from 'node:child_process';
import fs from 'node:fs';
import path from 'node:path';
import { ensurePackages, root, run } from './prepare.mjs';

const sample = 'samples/boathouse';
const output = 'demo-output';
const program = path.join('dist', 'stave.js');

/** Stops the demo where a step fails: what would follow rests on it. */
function must(name, status) {
  if (status === 0) return;
  console.error(`the demo stopped: ${name} failed`);
  process.exit(1);
}

/** Runs our own program and gives back what it printed. */
function stave(...args) {
  const { status, stdout, stderr } = spawnSync(process.execPath, [program, ...args], {
    cwd: root,
    encoding: 'utf8',
    maxBuffer: 1 << 28,
  });
  if (stderr) console.error(stderr.trimEnd());
  must(`stave ${args.join(' ')}`, status);
  return stdout;
}

/** The names in the sample's `client` lines. */
function clientNames() {
  const folder = path.join(root, sample, 'clients');
  const files = fs.readdirSync(folder).sort();
  const names = files.flatMap((file) =>
    [...fs.readFileSync(path.join(folder, file), 'utf8').matchAll(/^client ([^\n]+?)(?: -- .*)?$/gm)].map(
      ([, name]) => name.trim(),
    ),
  );
  return [...new Set(names)];
}

ensurePackages();
console.log('== building');
must('the build', run(process.execPath, ['server/build/build.mjs']));

console.log(`\n== checking ${sample}`);
// Findings are what the sample is for; only a program that does not run is a failure here.
const { status: checked } = spawnSync(process.execPath, [program, 'check', sample], {
  cwd: root,
  stdio: 'inherit',
});
must('stave check', checked === 1 ? 0 : checked);

fs.rmSync(path.join(root, output), { recursive: true, force: true });
const written = [];
for (const client of clientNames()) {
  const [firstWeek] = stave('loads', sample, '--for', client).split('\n\n');
  console.log(
    `\n== ${client}: the first week, "= " what is lifted, "~ " provisional\n${firstWeek.trimEnd()}`,
  );
  written.push(
    ...stave('plan', sample, '--for', client, '--to', 'html,pdf', '-o', output).trim().split('\n'),
  );
}

console.log('\n== packing the extension');
must('packing', run(process.execPath, ['server/build/package.mjs', '--built']));

console.log('\n== written');
for (const file of [...written, 'dist/stave.vsix']) {
  const { size } = fs.statSync(path.join(root, file));
  console.log(`${path.join(root, file)}  ${Math.ceil(size / 1024)} kB`);
}
