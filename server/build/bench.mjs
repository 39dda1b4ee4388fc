// How fast the engine and the language server are in a workspace of 200 clients and 40 programs of 52 weeks.
//
//   npm run bench                    engine in its own process, then the bundled server over stdio
//   npm run bench -- --engine        the engine alone
//   npm run bench -- --profile       the engine alone, with a profile for a browser's developer tools in the
//                                    folder that is printed
//   npm run bench -- --json          the measurements as JSON
import { spawnSync } from 'node:child_process';
import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { measureServer } from './benchServer.mjs';
import { summary } from './benchWorkspace.mjs';
import { ensurePackages, root } from './prepare.mjs';

ensurePackages();
const { build } = await import('esbuild');
const has = (flag) => process.argv.includes(flag);
const profile = has('--profile');
const STROKES = 60;

/** What is aimed at: milliseconds, and megabytes of 1024 × 1024 bytes. */
const AIMS = { keystrokeP95: 16, cold: 1500, peak: 250 };

const engineSource = `
export { createSession } from './server/src/engine/session.ts';
export { inlayHints } from './server/src/engine/views/inlayHints.ts';
export { hover } from './server/src/engine/views/hover.ts';
export { formatText } from './server/src/engine/views/format.ts';
`;

async function measureEngine() {
  const scratch = fs.mkdtempSync(path.join(os.tmpdir(), 'stave-bench-'));
  try {
    const bundle = path.join(scratch, 'engine.mjs');
    await build({
      stdin: { contents: engineSource, resolveDir: root, sourcefile: 'engine.ts', loader: 'ts' },
      outfile: bundle,
      bundle: true,
      minify: !profile,
      sourcemap: profile ? 'inline' : false,
      platform: 'node',
      format: 'esm',
      target: 'node20',
    });
    const flags = profile ? ['--cpu-prof', `--cpu-prof-dir=${scratch}`] : [];
    const { stdout, status } = spawnSync(
      process.execPath,
      [...flags, path.join(root, 'server', 'build', 'benchEngine.mjs'), bundle, String(STROKES)],
      { encoding: 'utf8', stdio: ['ignore', 'pipe', 'inherit'], maxBuffer: 1 << 26 },
    );
    if (status !== 0) throw new Error('the engine could not be measured');
    if (profile) console.log(`profile in ${scratch}`);
    return JSON.parse(stdout);
  } finally {
    if (!profile) fs.rmSync(scratch, { recursive: true, force: true });
  }
}

const ms = (value) => `${value.toFixed(value < 10 ? 1 : 0)} ms`;
const mb = (bytes) => `${(bytes / 1024 / 1024).toFixed(0)} MB`;
const spread = (values) => {
  const { median, p95, most } = summary(values);
  return `median ${ms(median)}, p95 ${ms(p95)}, most ${ms(most)}`;
};
const against = (value, aim, text) => `${text}  (aim: under ${aim}${value < aim ? '' : ', missed'})`;

function report(title, measured) {
  const lines = [
    ['cold open of everything', against(measured.coldMs, AIMS.cold, ms(measured.coldMs))],
    ...(measured.parseMs === undefined
      ? []
      : [
          [
            '  read, bind, resolve and find',
            [measured.parseMs, measured.bindMs, measured.findingsMs].map(ms).join(', '),
          ],
        ]),
    [
      'keystroke to diagnostics and hints',
      against(summary(measured.keystrokeMs).p95, AIMS.keystrokeP95, spread(measured.keystrokeMs)),
    ],
    ['hover', spread(measured.hoverMs)],
    ['format', spread(measured.formatMs)],
    [
      'peak memory',
      measured.rssPeak === null
        ? 'not measured on this system'
        : against(measured.rssPeak / 1024 / 1024, AIMS.peak, mb(measured.rssPeak)),
    ],
  ];
  console.log(`\n${title}`);
  for (const [name, value] of lines) console.log(`  ${name.padEnd(36)}${value}`);
}

const engine = await measureEngine();
const server = has('--engine') || profile ? null : await measureServer(STROKES);
if (has('--json')) {
  console.log(JSON.stringify({ node: process.version, cpu: os.cpus()[0]?.model, engine, server }, null, 2));
} else {
  console.log(`Node ${process.version}, ${os.cpus().length} × ${os.cpus()[0]?.model ?? 'unknown processor'}`);
  console.log(`200 clients, 40 programs of 52 weeks: ${engine.cells} resolved cells`);
  report('The engine in its own process', engine);
  if (server) report('The bundled server over stdio', server);
}
