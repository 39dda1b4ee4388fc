// The program run from start to end on a folder of files, and what it has used.
import { spawnSync } from 'node:child_process';
import path from 'node:path';
import { performance } from 'node:perf_hooks';
import { withFolder } from './benchServer.mjs';
import { root } from './prepare.mjs';

/** Tells on standard error what a process has used, when it ends. */
const TELL = `data:text/javascript,${encodeURIComponent(
  "process.on('exit', () => process.stderr.write('used ' + JSON.stringify(process.resourceUsage())))",
)}`;

/** Elapsed and processor time in milliseconds, peak memory in bytes, with what the program printed. */
export function measureCommand(files, args) {
  return withFolder(files, (folder) => {
    const began = performance.now();
    const { status, stdout, stderr } = spawnSync(
      process.execPath,
      ['--import', TELL, path.join(root, 'dist', 'stave.js'), ...args(folder)],
      { encoding: 'utf8', maxBuffer: 1 << 26 },
    );
    const elapsedMs = performance.now() - began;
    if (status !== 0) throw new Error(`stave ${args(folder)[0]} failed: ${stderr}`);
    const used = JSON.parse(stderr.slice(stderr.lastIndexOf('used ') + 5));
    return {
      elapsedMs,
      cpuMs: (used.userCPUTime + used.systemCPUTime) / 1000,
      rssPeak: used.maxRSS * 1024,
      lines: stdout.trim().split('\n').length,
    };
  });
}
