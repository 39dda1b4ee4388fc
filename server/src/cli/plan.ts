/** `stave plan`: printed plans, cards, floor sheets and overviews, and the same plan for calendars and programs. */
import path from 'node:path';
import { isValidIsoDate } from '../engine/dates.js';
import { mistakesIn } from '../engine/documents/mistakes.js';
import type { PaperSize } from '../engine/print/paper/document.js';
import { capitalised } from '../engine/print/words.js';
import { planOf } from './clients.js';
import {
  clientJobs,
  type DocumentName,
  type DocumentOptions,
  floorJobs,
  type Job,
  PAPER_FORMATS,
  type PlanFormat,
  rosterJob,
} from './documents.js';
import { quoted, readWorkspace, type Workspace } from './files.js';
import { EXIT, type Io, Misuse } from './io.js';
import { type Language, type Spoken, speakIn } from './language.js';
import { makeFolder, writeWhole } from './output.js';
import { counted, visible } from './text.js';

export { DOCUMENTS, PLAN_FORMATS, type PlanFormat } from './documents.js';

export interface PlanOptions {
  /** The client; null with `all`, and for a floor sheet. */
  readonly for: string | null;
  readonly to: readonly PlanFormat[];
  readonly output: string;
  readonly from: string | null;
  readonly toDate: string | null;
  readonly in: string | null;
  readonly document: DocumentName;
  readonly date: string | null;
  readonly size: PaperSize;
  readonly large: boolean;
  readonly all: boolean;
  /** Of the documents. */
  readonly language: Language;
}

/** Where and how the files of a document are written. */
export type FileOptions = Pick<PlanOptions, 'to' | 'output' | 'size' | 'large' | 'language'>;

/** Writes one document of all that is known: no dates are cut off. */
export function writeDocument(
  paths: readonly string[],
  options: FileOptions & Pick<PlanOptions, 'document' | 'for' | 'in'>,
  io: Io,
): Promise<number> {
  return plan(paths, { from: null, toDate: null, date: null, all: false, ...options }, io);
}

export async function plan(paths: readonly string[], options: PlanOptions, io: Io): Promise<number> {
  checkOptions(options);
  const spoken = await speakIn(options.language, io);
  const workspace = await readWorkspace(paths, io, { lookIn: options.in });
  const folder = path.resolve(io.cwd, options.output);
  const { jobs, errors, without } = jobsOf(workspace, options, folder, io);
  if (jobs.length === 0) throw new Misuse(nothingWords(workspace, options));
  await makeFolder(folder, options.output);
  await writeJobs(jobs, { showProgress: options.all, spoken }, io);
  if (without > 0)
    io.err(`stave: ${counted(without, 'client')} without sessions in these dates: left out.\n`);
  if (errors > 0) {
    io.err(
      `stave: the files have ${counted(errors, 'error')}; loads that rest on them are blank in the plan. \`stave check\` shows them.\n`,
    );
  }
  return EXIT.clean;
}

const articled = (document: DocumentName): string =>
  document === 'years' ? 'the years' : `${document === 'overview' ? 'an' : 'a'} ${document}`;

/** What is asked for has to make sense before anything is read. */
export function checkOptions(options: PlanOptions): void {
  const from = dateOption('--from', options.from);
  const until = dateOption('--to-date', options.toDate);
  dateOption('--date', options.date);
  if (from !== null && until !== null && until < from) throw new Misuse('--to-date lies before --from.');
  if (options.all && options.for !== null) throw new Misuse('--all writes every client; leave --for out.');
  const forEverybody = options.document === 'floor' || options.document === 'roster';
  if (options.document === 'roster' && options.for !== null) {
    throw new Misuse('A roster is of every client; leave --for out.');
  }
  if (options.for === null && !options.all && !forEverybody) {
    throw new Misuse(
      '--for is missing; or write --all for every client. `stave help` shows how a command is written.',
    );
  }
  const other = options.to.find((format) => !PAPER_FORMATS.includes(format));
  if (options.document !== 'plan' && other !== undefined) {
    throw new Misuse(
      `${capitalised(articled(options.document))} can be written as ${PAPER_FORMATS.join(' or ')}; ${other} is there for the plan.`,
    );
  }
}

/** The documents that are asked for, how many errors the files have, and how many clients have no sessions. */
export function jobsOf(
  workspace: Workspace,
  options: PlanOptions,
  folder: string,
  io: Io,
): { readonly jobs: readonly Job[]; readonly errors: number; readonly without: number } {
  const { session } = workspace;
  const world = session.world();
  const errors = session.allFindings().filter(({ severity }) => severity === 'error').length;
  const { to, document, date, size, large } = options;
  const asked: DocumentOptions = {
    to,
    document,
    date,
    size,
    large,
    mistakes: mistakesIn(session),
    from: options.from,
    until: options.toDate,
  };
  const everybody = () => [...world.clients.keys()].sort().flatMap((key) => session.plan(key) ?? []);
  if (document === 'floor') {
    const plans = options.for === null ? everybody() : [planOf(workspace, options.for)];
    const kits = [...world.kits.values()].sort((a, b) => (a.key < b.key ? -1 : 1));
    return { jobs: distinct(floorJobs(plans, kits, asked, folder, io)), errors, without: 0 };
  }
  const plans = options.for === null ? everybody() : [planOf(workspace, options.for)];
  if (document === 'roster')
    return { jobs: [rosterJob(plans, workspace, asked, folder, io)], errors, without: 0 };
  const jobs = plans.map((clientPlan) => clientJobs(clientPlan, workspace, asked, folder, io));
  return {
    jobs: distinct(jobs.flat()),
    errors,
    without: jobs.filter((ofClient) => ofClient.length === 0).length,
  };
}

/** Two documents never share a file, whatever the names are. Names that differ in case only would on some disks. */
function distinct(jobs: readonly Job[]): readonly Job[] {
  const seen = new Set<string>();
  for (const { stem, name } of jobs) {
    const key = stem.normalize('NFKC').toLowerCase();
    if (seen.has(key))
      throw new Misuse(`The file of ${quoted(name)} would replace another one: give her another name.`);
    seen.add(key);
  }
  return jobs;
}

/** Draws and writes the documents, several at once where there are many; each is whole or as it was before. */
export async function writeJobs(
  jobs: readonly Job[],
  { showProgress, spoken }: { readonly showProgress: boolean; readonly spoken: Spoken },
  io: Io,
): Promise<void> {
  const line = showProgress && io.terminal === true;
  const { pdfPool } = await import('./pdfPool.js');
  const pool = pdfPool(jobs.length, spoken);
  const bar = progressBar(jobs.length);
  let done = 0;
  const queue = [...jobs];
  const write = async (): Promise<void> => {
    for (let job = queue.shift(); job !== undefined; job = queue.shift()) {
      const { files, missing } = await job.render(pool.draw);
      await writeWhole(files);
      done += 1;
      if (line) io.err(`\r\u001b[K${bar(done)}  ${visible(job.name).slice(0, 30)}`);
      else
        for (const file of files)
          io.out(`${visible(path.relative(io.cwd, file.path).split(path.sep).join('/'))}\n`);
      if (missing.length > 0) io.err(`${line ? '\n' : ''}${missingWords(job.name, missing)}`);
    }
  };
  try {
    // One more than there are threads: while all of them draw, the next document is made.
    await Promise.all(Array.from({ length: pool.width === 1 ? 1 : pool.width + 1 }, write));
  } catch (error) {
    queue.length = 0;
    throw error;
  } finally {
    await pool.close();
  }
  if (line) io.err(`\r\u001b[K${counted(jobs.length, 'document')} written.\n`);
}

const BAR_WIDTH = 24;

/** `[######------------------] 50 of 200, about 12 s left`. */
export function progressBar(
  all: number,
  clock: () => number = () => performance.now(),
): (done: number) => string {
  const startedMs = clock();
  return (done) => {
    const filled = Math.floor((done / Math.max(1, all)) * BAR_WIDTH);
    const leftSeconds = Math.ceil((((clock() - startedMs) / Math.max(1, done)) * (all - done)) / 1000);
    const left = done < all && leftSeconds >= 2 ? `, about ${leftSeconds} s left` : '';
    return `[${'#'.repeat(filled)}${'-'.repeat(BAR_WIDTH - filled)}] ${done} of ${all}${left}`;
  };
}

function missingWords(name: string, missing: readonly string[]): string {
  const shown = missing
    .slice(0, 8)
    .map(
      (character) =>
        `${visible(character)} (U+${(character.codePointAt(0) ?? 0).toString(16).toUpperCase().padStart(4, '0')})`,
    );
  const more = missing.length > 8 ? ` and ${missing.length - 8} more` : '';
  return `stave: the letters of the PDF lack ${shown.join(', ')}${more}: \ufffd stands there instead in the document of ${quoted(name)}. The HTML has them.\n`;
}

function nothingWords(workspace: Workspace, options: PlanOptions): string {
  const limited = options.from !== null || options.toDate !== null || options.date !== null;
  const dates = limited ? ' in these dates' : '';
  if (options.for === null) return `Nobody has sessions${dates}: nothing was written.`;
  return `${visible(planOf(workspace, options.for).client.name)} has no sessions${dates}: nothing was written.`;
}

function dateOption(option: string, value: string | null): string | null {
  if (value === null || isValidIsoDate(value)) return value;
  throw new Misuse(`${option} takes a date such as 2026-12-07; ${quoted(value)} is none.`);
}
