// How fast the engine and the language server are in a workspace of 200 clients and 40 programs of 52 weeks, and in
// the same one with five years of logs.
//
//   npm run bench                    engine in its own process, then the bundled server over stdio, then the roster
//   npm run bench -- --engine        the engine alone
//   npm run bench -- --roster        the workspace with logs alone
//   npm run bench -- --pdf           plans of 200 clients and 12 weeks as PDF alone
//   npm run bench -- --profile       the engine alone, with a profile for a browser's developer tools in the
//                                    folder that is printed
//   npm run bench -- --json          the measurements as JSON
import { spawnSync } from 'node:child_process';
import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { measurePdf } from './benchPdf.mjs';
import { measureRoster } from './benchRoster.mjs';
import { measureServer } from './benchServer.mjs';
import { benchWorkspace, keystrokes, summary } from './benchWorkspace.mjs';
import { ensurePackages, root } from './prepare.mjs';

ensurePackages();
const { build } = await import('esbuild');
const has = (flag) => process.argv.includes(flag);
const profile = has('--profile');
const STROKES = 60;

/** What is aimed at: milliseconds, and megabytes of 1024 × 1024 bytes. */
const AIMS = { keystrokeP95: 16, cold: 1500, peak: 250 };
const PDF_AIMS = { elapsed: 60_000, peak: 500 };
const ROSTER_AIMS = { keystrokeP95: 30, cold: 3000, peak: 600 };

const engineSource = `
export { createSession } from './server/src/engine/session.ts';
export { inlayHints } from './server/src/engine/views/inlayHints.ts';
export { hover } from './server/src/engine/views/hover.ts';
export { formatText } from './server/src/engine/views/format.ts';
export { refactorings } from './server/src/engine/views/refactor/index.ts';
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

/** The first keystrokes find code that was hardly run before, which takes several times as long: the later ones are told too. */
const typed = (values, aim) => {
  const later = summary(values.slice(values.length / 2));
  return `${against(summary(values).p95, aim, spread(values))}; second half: median ${ms(later.median)}, p95 ${ms(later.p95)}`;
};
const memory = (bytes, aim) =>
  bytes === null ? 'not measured on this system' : against(bytes / 1024 / 1024, aim, mb(bytes));

function table(title, lines) {
  console.log(`\n${title}`);
  for (const [name, value] of lines) console.log(`  ${name.padEnd(36)}${value}`);
}

/** Elapsed time against an aim, with the processor time beside it, as others may be using the machine. */
function opened(elapsedMs, cpuMs, aim) {
  const processor = cpuMs === null ? '' : `, ${ms(cpuMs)} of processor`;
  return against(elapsedMs, aim, `${ms(elapsedMs)}${processor}`);
}

function reportEngine(measured) {
  table('The engine in its own process', [
    ['cold open of everything', opened(measured.coldMs, measured.coldCpuMs, AIMS.cold)],
    [
      '  read, bind, resolve and find',
      [measured.parseMs, measured.bindMs, measured.findingsMs].map(ms).join(', '),
    ],
    ['keystroke to diagnostics and hints', typed(measured.keystrokeMs, AIMS.keystrokeP95)],
    ['hover', spread(measured.hoverMs)],
    ['format', spread(measured.formatMs)],
    ['a refactoring, with its trial', spread(measured.refactorMs)],
    ['peak memory', memory(measured.rssPeak, AIMS.peak)],
  ]);
}

function reportServer(measured) {
  table('The bundled server over stdio', [
    ['cold open', opened(measured.coldMs, measured.coldCpuMs, AIMS.cold)],
    ['keystroke to diagnostics and hints', typed(measured.strokes.program, AIMS.keystrokeP95)],
    ['hover', spread(measured.hoverMs)],
    ['format', spread(measured.formatMs)],
    ['peak memory', memory(measured.rssPeak, AIMS.peak)],
  ]);
}

function reportRoster({ files, logs, sets, server, command }) {
  console.log(`\nThe same with five years of logs: ${files} files, ${logs} logs, ${sets} logged sets`);
  table('The bundled server over stdio', [
    ['cold open', opened(server.coldMs, server.coldCpuMs, ROSTER_AIMS.cold)],
    ['keystroke in a program', typed(server.strokes.program, ROSTER_AIMS.keystrokeP95)],
    ['keystroke in a log', typed(server.strokes.log, ROSTER_AIMS.keystrokeP95)],
    ['peak memory', memory(server.rssPeak, ROSTER_AIMS.peak)],
  ]);
  table(`stave roster, ${command.lines} lines`, [
    ['from start to end', opened(command.elapsedMs, command.cpuMs, ROSTER_AIMS.cold)],
    ['peak memory', memory(command.rssPeak, ROSTER_AIMS.peak)],
  ]);
}

function reportPdf({ elapsedMs, cpuMs, rssPeak, lines }) {
  table(`stave plan --all --to pdf: 200 clients, 12 weeks, ${lines} files`, [
    ['from start to end', opened(elapsedMs, cpuMs, PDF_AIMS.elapsed)],
    ['peak memory', memory(rssPeak, PDF_AIMS.peak)],
  ]);
}

const only = has('--pdf') ? 'pdf' : has('--engine') || profile ? 'engine' : has('--roster') ? 'roster' : null;
const engine = only === 'roster' || only === 'pdf' ? null : await measureEngine();
const files = benchWorkspace();
const typing = { file: 'program-0.stave', keystrokes: keystrokes(files.get('program-0.stave'), STROKES) };
const server = only === null ? await measureServer(files, { program: typing }) : null;
const roster = only === 'engine' || only === 'pdf' ? null : await measureRoster(STROKES);
const pdf = only === null || only === 'pdf' ? await measurePdf() : null;
if (has('--json')) {
  const cpu = os.cpus()[0]?.model;
  console.log(JSON.stringify({ node: process.version, cpu, engine, server, roster, pdf }, null, 2));
} else {
  const load = os.loadavg()[0]?.toFixed(1);
  console.log(
    `Node ${process.version}, ${os.cpus().length} × ${os.cpus()[0]?.model ?? 'unknown processor'}, load ${load}`,
  );
  if (engine) console.log(`200 clients, 40 programs of 52 weeks: ${engine.cells} resolved cells`);
  if (engine) reportEngine(engine);
  if (server) reportServer(server);
  if (roster) reportRoster(roster);
  if (pdf) reportPdf(pdf);
}
