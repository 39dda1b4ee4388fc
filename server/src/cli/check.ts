/** `stave check`: every finding of the files, and their safe repairs. */
import { createTwoFilesPatch } from 'diff';
import { fixAll } from '../engine/views/fixAll.js';
import { readWorkspace, STDIN_NAME, type Workspace } from './files.js';
import { foundIn } from './found.js';
import { EXIT, type Io, Misuse } from './io.js';
import { MARK, writeWhole } from './output.js';
import { type ReportFormat, report } from './reports.js';
import { visible } from './text.js';

export interface CheckOptions {
  readonly format: ReportFormat;
  readonly in: string | null;
  /** Takes the safe repairs first and writes the files. */
  readonly fix: boolean;
  /** Changes nothing; shows what the safe repairs would change. */
  readonly diff: boolean;
  /** Of the program, for formats that name it. */
  readonly version: string;
}

export async function check(paths: readonly string[], options: CheckOptions, io: Io): Promise<number> {
  if (options.fix && !options.diff && paths.includes('-')) {
    throw new Misuse('`--fix` writes files, and standard input is none. `--fix --diff` shows the repairs.');
  }
  const workspace = await readWorkspace(paths, io, { lookIn: options.in });
  if (options.diff) return showRepairs(workspace, io);
  if (options.fix) await repair(workspace, io);
  const found = foundIn(workspace);
  io.out(report(options.format, found, workspace, io, options.version));
  return found.some(({ severity }) => severity === 'error' || severity === 'warning')
    ? EXIT.findings
    : EXIT.clean;
}

/** Exit 1 where there is a safe repair. */
function showRepairs(workspace: Workspace, io: Io): number {
  const before = new Map(workspace.shown.map((file) => [file, workspace.session.text(file) ?? '']));
  const fixed = fixAll(workspace.session, workspace.shown);
  for (const [file, text] of fixed) {
    io.out(createTwoFilesPatch(file, file, before.get(file) ?? '', text, 'as it is', 'repaired'));
  }
  return fixed.size > 0 ? EXIT.findings : EXIT.clean;
}

async function repair(workspace: Workspace, io: Io): Promise<void> {
  const fixed = [...fixAll(workspace.session, workspace.shown)].filter(([file]) => file !== STDIN_NAME);
  await writeWhole(
    fixed.map(([file, text]) => ({
      path: workspace.paths.get(file) as string,
      content: workspace.marked.has(file) ? MARK + text : text,
    })),
  );
  for (const [file] of fixed) io.err(`Repaired ${visible(file)}.\n`);
}
