// Writes the files that are made from other files, so that no list is kept twice.
//
//   node server/build/generate.mjs            writes what is out of date
//   node server/build/generate.mjs --check    writes nothing; names what is out of date and exits with 1
//
// Each module in server/build/generators/ exports `generate(context)`, which returns a record of path (from the
// root) to text. `context.read(path)` reads a file of the repository. The modules may import our TypeScript.
import { spawnSync } from 'node:child_process';
import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { pathToFileURL } from 'node:url';
import { ensurePackages, root, tool } from './prepare.mjs';

ensurePackages();
const esbuild = await import('esbuild');

const check = process.argv.includes('--check');
const folder = path.join(root, 'server', 'build', 'generators');

/** Lays the text out as `npm run format` would, so that generated files pass the same check. */
function formatted(file, text) {
  if (!/\.(json|[cm]?[jt]sx?)$/.test(file)) return text;
  const { status, stdout, stderr } = spawnSync(
    process.execPath,
    [tool('@biomejs/biome/bin/biome'), 'format', `--stdin-file-path=${file}`],
    { cwd: root, input: text, encoding: 'utf8', maxBuffer: 1 << 28 },
  );
  if (status !== 0) throw new Error(`${file}: ${stderr}`);
  return stdout;
}

const results = new Map();
const context = {
  /** A file's text: as generated so far in this run, else as it stands. */
  read: (file) => results.get(file) ?? fs.readFileSync(path.join(root, file), 'utf8'),
};
const scratch = fs.mkdtempSync(path.join(os.tmpdir(), 'stave-generate-'));
try {
  const modules = fs.existsSync(folder) ? fs.readdirSync(folder).filter((file) => file.endsWith('.ts')) : [];
  for (const file of modules.sort()) {
    const outfile = path.join(scratch, file.replace(/\.ts$/, '.mjs'));
    await esbuild.build({
      entryPoints: [path.join(folder, file)],
      outfile,
      bundle: true,
      platform: 'node',
      format: 'esm',
      target: 'node20',
      logLevel: 'warning',
      banner: {
        js: [
          'import { createRequire } from "node:module";',
          'const require = createRequire(import.meta.url);',
          'const __filename = require("node:url").fileURLToPath(import.meta.url);',
          'const __dirname = require("node:path").dirname(__filename);',
        ].join('\n'),
      },
    });
    const { generate } = await import(pathToFileURL(outfile).href);
    for (const [target, text] of Object.entries(await generate(context)))
      results.set(target, formatted(target, text));
  }
} finally {
  fs.rmSync(scratch, { recursive: true, force: true });
}

let stale = 0;
for (const [file, text] of results) {
  const target = path.join(root, file);
  if (fs.existsSync(target) && fs.readFileSync(target, 'utf8') === text) continue;
  stale += 1;
  if (check) {
    console.log(`out of date: ${file} (npm run generate)`);
    continue;
  }
  fs.mkdirSync(path.dirname(target), { recursive: true });
  fs.writeFileSync(target, text);
  console.log(`wrote ${file}`);
}
if (stale === 0) console.log(`${results.size} generated files are up to date`);
if (check && stale > 0) process.exitCode = 1;
