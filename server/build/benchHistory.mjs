// Measures ten years of one client's logs; see benchHistory.ts.
import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { pathToFileURL } from 'node:url';
import { ensurePackages, root } from './prepare.mjs';

ensurePackages();
const esbuild = await import('esbuild');
const scratch = fs.mkdtempSync(path.join(os.tmpdir(), 'stave-bench-'));
try {
  const outfile = path.join(scratch, 'bench.mjs');
  await esbuild.build({
    entryPoints: [path.join(root, 'server', 'build', 'benchHistory.ts')],
    bundle: true,
    platform: 'node',
    format: 'esm',
    outfile,
    logLevel: 'warning',
  });
  await import(pathToFileURL(outfile).href);
} finally {
  fs.rmSync(scratch, { recursive: true, force: true });
}
