/** `stave format`: lays files out. */
import { createTwoFilesPatch } from 'diff';
import { applyEdits, formatText } from '../engine/views/format.js';
import { quoted, readWorkspace, STDIN_NAME } from './files.js';
import { EXIT, type Io, Misuse } from './io.js';
import { MARK, writeWhole } from './output.js';
import { counted, visible, wrapText } from './text.js';

export interface FormatOptions {
  readonly check: boolean;
  readonly diff: boolean;
}

/** Exit 1 where a file was refused, or with `--check` or `--diff` where one would change. */
export async function format(paths: readonly string[], options: FormatOptions, io: Io): Promise<number> {
  if (paths.includes('-') && paths.length > 1) throw new Misuse('`-` (standard input) stands alone.');
  const workspace = await readWorkspace(paths, io, { lookIn: null });
  const changed: { readonly file: string; readonly text: string }[] = [];
  let refused = 0;
  for (const file of workspace.shown) {
    const before = workspace.session.text(file) ?? '';
    const result = formatText(before);
    if (result.refusedBecause !== null) {
      refused += 1;
      io.err(`${wrapText(`${quoted(file)}: ${result.refusedBecause}`, io.width)}\n`);
      continue;
    }
    const text = applyEdits(before, result.edits);
    if (text !== before) changed.push({ file, text });
    if (options.diff && text !== before)
      io.out(createTwoFilesPatch(file, file, before, text, 'as it is', 'formatted'));
    if (file === STDIN_NAME && !options.diff && !options.check) io.out(text);
  }
  if (options.diff) return changed.length + refused > 0 ? EXIT.findings : EXIT.clean;
  if (options.check) {
    for (const { file } of changed) io.out(`${visible(file)}\n`);
    if (changed.length > 0) io.err(`${counted(changed.length, 'file')} would be laid out anew.\n`);
    return changed.length + refused > 0 ? EXIT.findings : EXIT.clean;
  }
  const written = changed.filter(({ file }) => file !== STDIN_NAME);
  await writeWhole(
    written.map(({ file, text }) => ({
      path: workspace.paths.get(file) as string,
      content: workspace.marked.has(file) ? MARK + text : text,
    })),
  );
  for (const { file } of written) io.out(`${visible(file)}\n`);
  if (!workspace.shown.includes(STDIN_NAME)) {
    io.err(
      `${counted(written.length, 'file')} laid out anew, ${counted(workspace.shown.length - written.length - refused, 'file')} as they should be.\n`,
    );
  }
  return refused > 0 ? EXIT.findings : EXIT.clean;
}
