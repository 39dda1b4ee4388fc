// The roster of a practice with five years of logs: the bundled server over stdio, and `stave roster`.
import { measureCommand } from './benchCommand.mjs';
import { logKeystrokes, ROSTER_DAY, rosterWorkspace } from './benchRosterWorkspace.mjs';
import { measureServer } from './benchServer.mjs';
import { keystrokes } from './benchWorkspace.mjs';

/** Measures both. `strokes` is the number of keystrokes in each file; each is taken back, which counts as another. */
export async function measureRoster(strokes) {
  const { files, logs, sets } = rosterWorkspace();
  const program = 'program-0.stave';
  const log = 'log-0-2026.stave';
  const server = await measureServer(files, {
    program: { file: program, keystrokes: keystrokes(files.get(program), strokes) },
    log: { file: log, keystrokes: logKeystrokes(files.get(log), strokes) },
  });
  const command = await measureCommand(files, (folder) => ['roster', folder, '--today', ROSTER_DAY]);
  return { files: files.size, logs, sets, server, command };
}
