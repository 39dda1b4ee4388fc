/** `stave log import`: logged sets from a CSV file. */
import fs from 'node:fs/promises';
import path from 'node:path';
import Papa from 'papaparse';
import { parse } from '../../../grammar/index.js';
import {
  IMPORT_COLUMNS,
  type ImportColumn,
  type ImportRow,
  logsFromRows,
  type RowProblem,
} from '../engine/history/importRows.js';
import { planOf } from './clients.js';
import { quoted, readWorkspace } from './files.js';
import { EXIT, type Io, Misuse, reasonOf } from './io.js';
import { makeFolder, writeWhole } from './output.js';
import { todayOption } from './review.js';
import { counted, visible, wrapText } from './text.js';

export interface ImportOptions {
  /** The client of a table without a client column. */
  readonly for: string | null;
  /** The file that the logs are written to; made where it is missing, else added to at its end. */
  readonly into: string;
  readonly today: string | null;
  readonly in: string | null;
}

/** Exit 1 where a row cannot be taken: every such row is told and nothing is written. */
export async function logImport(table: string, options: ImportOptions, io: Io): Promise<number> {
  const today = todayOption(options.today, io);
  const target = path.resolve(io.cwd, options.into);
  if (!target.endsWith('.stave'))
    throw new Misuse(`--into takes a .stave file; ${quoted(options.into)} is none.`);
  const text = await readTable(path.resolve(io.cwd, table), table);
  const lookIn = options.in ?? '.';
  const workspace = await readWorkspace([lookIn], { ...io, today }, { lookIn: null });
  const only = options.for === null ? null : planOf(workspace, options.for).client;
  const { rows, problems: unread } = tableRows(text, only !== null);
  const imported = logsFromRows(rows, workspace.session.world(), today, only);
  const problems = [...unread, ...imported.problems].sort((a, b) => a.row - b.row);
  if (problems.length > 0) {
    for (const { row, reason } of problems)
      io.err(`${wrapText(visible(`${table}, row ${row}: ${reason}`), io.width)}\n`);
    io.err(
      `stave: ${counted(problems.length, 'row')} of ${rows.length + unread.length} cannot be taken: nothing was written.\n`,
    );
    return EXIT.findings;
  }
  if (rows.length === 0) throw new Misuse(`There are no rows in ${quoted(table)}: nothing was written.`);
  const before = await existing(target, options.into);
  const content = before === '' ? imported.text : `${before.replace(/\s*$/, '')}\n\n${imported.text}`;
  if (parse(content).problems.length > parse(before).problems.length) {
    throw new Misuse(
      `The logs do not fit behind what stands in ${quoted(options.into)}: nothing was written.`,
    );
  }
  await makeFolder(path.dirname(target), path.dirname(options.into));
  await writeWhole([{ path: target, content }]);
  io.out(
    `${visible(options.into)}: ${counted(imported.sets, 'set')} of ${counted(imported.sessions, 'session')}\n`,
  );
  return EXIT.clean;
}

async function readTable(file: string, given: string): Promise<string> {
  let bytes: Buffer;
  try {
    bytes = await fs.readFile(file);
  } catch (error) {
    throw new Misuse(`${quoted(given)} cannot be read: ${reasonOf(error)}.`);
  }
  try {
    return new TextDecoder('utf-8', { fatal: true }).decode(bytes);
  } catch {
    throw new Misuse(`${quoted(given)} is not text in UTF-8. Save it as UTF-8 and try again.`);
  }
}

async function existing(file: string, given: string): Promise<string> {
  try {
    return await fs.readFile(file, 'utf8');
  } catch (error) {
    if (error instanceof Error && 'code' in error && error.code === 'ENOENT') return '';
    throw new Misuse(`${quoted(given)} cannot be read: ${reasonOf(error)}.`);
  }
}

function isColumn(name: string): name is ImportColumn {
  return IMPORT_COLUMNS.some((column) => column === name);
}

/** Rows under their columns. Throws `Misuse` for a header that does not fit: a column that is not known is not dropped. */
function tableRows(text: string, hasClient: boolean): { rows: ImportRow[]; problems: RowProblem[] } {
  const { data, errors } = Papa.parse<string[]>(text, { header: false, skipEmptyLines: false });
  const [header, ...lines] = data;
  const columns = (header ?? []).map((name) =>
    name
      .trim()
      .toLowerCase()
      .replace(/[_\s]+/g, ' '),
  );
  const unknown = columns.find((name) => !isColumn(name));
  if (unknown !== undefined) {
    throw new Misuse(
      `No column is called ${quoted(unknown)}. The columns are: ${IMPORT_COLUMNS.join(', ')}.`,
    );
  }
  const twice = columns.find((name, index) => columns.indexOf(name) !== index);
  if (twice !== undefined) throw new Misuse(`The column ${quoted(twice)} is there twice.`);
  const needed: ImportColumn[] = hasClient ? ['date', 'movement'] : ['date', 'client', 'movement'];
  const missing = needed.find((column) => !columns.includes(column));
  if (missing !== undefined) {
    throw new Misuse(
      `The column "${missing}" is missing.${missing === 'client' ? ' Or name the client with --for.' : ''}`,
    );
  }
  const problems: RowProblem[] = errors
    .filter(({ type }) => type === 'Quotes')
    .map(({ row }) => ({ row: (row ?? 0) + 1, reason: 'a quotation mark does not close.' }));
  const rows: ImportRow[] = [];
  for (const [index, line] of lines.entries()) {
    if (line.every((cell) => cell.trim() === '')) continue;
    const row = index + 2;
    if (line.length > columns.length) {
      problems.push({ row, reason: `there are ${line.length} values under ${columns.length} columns.` });
      continue;
    }
    rows.push({ row, cells: Object.fromEntries(line.map((cell, at) => [columns[at], cell])) });
  }
  return { rows, problems };
}
