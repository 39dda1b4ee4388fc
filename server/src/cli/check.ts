/** `stave check`: every finding of the files. */
import { readWorkspace } from './files.js';
import { foundIn } from './found.js';
import { EXIT, type Io } from './io.js';
import { type ReportFormat, report } from './reports.js';

export interface CheckOptions {
  readonly format: ReportFormat;
  readonly in: string | null;
  /** Of the program, for formats that name it. */
  readonly version: string;
}

export async function check(paths: readonly string[], options: CheckOptions, io: Io): Promise<number> {
  const workspace = await readWorkspace(paths, io, { lookIn: options.in });
  const found = foundIn(workspace);
  io.out(report(options.format, found, workspace, io, options.version));
  return found.some(({ severity }) => severity === 'error' || severity === 'warning')
    ? EXIT.findings
    : EXIT.clean;
}
