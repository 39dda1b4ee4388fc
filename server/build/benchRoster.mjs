// The roster of a practice with five years of logs: the bundled server over stdio, and `stave roster`.
import { spawnSync } from 'node:child_process';
import path from 'node:path';
import { performance } from 'node:perf_hooks';
import { logKeystrokes, ROSTER_DAY, rosterWorkspace } from './benchRosterWorkspace.mjs';
import { measureServer, withFolder } from './benchServer.mjs';
import { keystrokes } from './benchWorkspace.mjs';
import { root } from './prepare.mjs';

/** Tells on standard error what a process has used, when it ends. */
const TELL = `data:text/javascript,${encodeURIComponent(
  "process.on('exit', () => process.stderr.write('used ' + JSON.stringify(process.resourceUsage())))",
)}`;

/** `stave roster`: elapsed and processor time in milliseconds, peak memory in bytes. */
function measureCommand(files) {
  return withFolder(files, (folder) => {
    const began = performance.now();
    const { status, stdout, stderr } = spawnSync(
      process.execPath,
      ['--import', TELL, path.join(root, 'dist', 'stave.js'), 'roster', folder, '--today', ROSTER_DAY],
      { encoding: 'utf8', maxBuffer: 1 << 26 },
    );
    const elapsedMs = performance.now() - began;
    if (status !== 0) throw new Error(`stave roster failed: ${stderr}`);
    const used = JSON.parse(stderr.slice(stderr.lastIndexOf('used ') + 5));
    return {
      elapsedMs,
      cpuMs: (used.userCPUTime + used.systemCPUTime) / 1000,
      rssPeak: used.maxRSS * 1024,
      lines: stdout.trim().split('\n').length,
    };
  });
}

/** Measures both. `strokes` is the number of keystrokes in each file; each is taken back, which counts as another. */
export async function measureRoster(strokes) {
  const { files, logs, sets } = rosterWorkspace();
  const program = 'program-0.stave';
  const log = 'log-0-2026.stave';
  const server = await measureServer(files, {
    program: { file: program, keystrokes: keystrokes(files.get(program), strokes) },
    log: { file: log, keystrokes: logKeystrokes(files.get(log), strokes) },
  });
  const command = await measureCommand(files);
  return { files: files.size, logs, sets, server, command };
}
