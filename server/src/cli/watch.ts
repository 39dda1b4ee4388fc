/** `stave watch`: keeps the documents of a folder up to date while the files are written. */
import fs from 'node:fs';
import path from 'node:path';
import { SETTINGS_FILE } from '../engine/ruleSettings.js';
import { readWorkspace } from './files.js';
import { EXIT, type Io, Misuse } from './io.js';
import { speakIn } from './language.js';
import { makeFolder } from './output.js';
import { checkOptions, jobsOf, type PlanOptions, writeJobs } from './plan.js';
import { counted } from './text.js';

/** An editor that saves writes more than once. */
const QUIET_MS = 150;

/** Builds once, then again whenever a file changes, only what has changed. Ends when `stop` says so; else never. */
export async function watch(
  paths: readonly string[],
  options: PlanOptions,
  io: Io,
  stop?: AbortSignal,
): Promise<number> {
  checkOptions(options);
  const spoken = await speakIn(options.language, io);
  if (paths.includes('-')) throw new Misuse('Standard input cannot be watched.');
  const folder = path.resolve(io.cwd, options.output);
  const written = new Map<string, string>();
  const build = async (): Promise<void> => {
    const workspace = await readWorkspace(paths, io, { lookIn: options.in });
    const { jobs, errors } = jobsOf(workspace, options, folder, io);
    const prints = new Map(jobs.map((job) => [job.stem, job.fingerprint()]));
    const changed = jobs.filter(({ stem }) => written.get(stem) !== prints.get(stem));
    await makeFolder(folder, options.output);
    await writeJobs(changed, { showProgress: false, spoken }, io);
    for (const { stem } of changed) written.set(stem, prints.get(stem) ?? '');
    const note = errors > 0 ? ` The files have ${counted(errors, 'error')}.` : '';
    io.err(
      `stave: ${counted(changed.length, 'document')} written, ${jobs.length - changed.length} as before.${note} Watching.\n`,
    );
  };
  await build();
  await new Promise<void>((resolve) => {
    let timer: NodeJS.Timeout | undefined;
    let busy = false;
    let again = false;
    const rebuild = async (): Promise<void> => {
      if (busy) {
        again = true;
        return;
      }
      busy = true;
      // A file that is being saved may be away for a moment; the next change tries again.
      await build().catch((error: unknown) =>
        io.err(`stave: ${error instanceof Error ? error.message : String(error)}\n`),
      );
      busy = false;
      if (again) {
        again = false;
        void rebuild();
      }
    };
    const watchers = foldersOf(paths, options, io).map((place) =>
      fs.watch(place, { recursive: true }, (_event, name) => {
        // Settings of a folder make mistakes of findings, and a plan says how many mistakes it rests on.
        if (name !== null && !name.endsWith('.stave') && path.basename(name) !== SETTINGS_FILE) return;
        clearTimeout(timer);
        timer = setTimeout(() => void rebuild(), QUIET_MS);
      }),
    );
    stop?.addEventListener('abort', () => {
      clearTimeout(timer);
      for (const watcher of watchers) watcher.close();
      resolve();
    });
  });
  return EXIT.clean;
}

/** The folders in which a change may matter. */
function foldersOf(paths: readonly string[], options: PlanOptions, io: Io): readonly string[] {
  const asked = [...(paths.length === 0 ? ['.'] : paths), ...(options.in === null ? [] : [options.in])];
  const folders = asked.map((given) => {
    const target = path.resolve(io.cwd, given);
    return fs.statSync(target).isDirectory() ? target : path.dirname(target);
  });
  return [...new Set(folders)];
}
