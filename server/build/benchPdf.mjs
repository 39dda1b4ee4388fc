// The plans of a whole practice as PDF: 200 clients, programs of 12 weeks, three days of five rows.
import { measureCommand } from './benchCommand.mjs';
import { benchWorkspace } from './benchWorkspace.mjs';

/** `stave plan --all --to pdf`: elapsed and processor time in milliseconds, peak memory in bytes, number of files. */
export function measurePdf() {
  const files = benchWorkspace({ weeks: 12 });
  return measureCommand(files, (folder) => ['plan', folder, '--all', '--to', 'pdf', '-o', `${folder}/plans`]);
}
