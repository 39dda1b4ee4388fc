import { z } from 'zod';
import { say } from '../../../grammar/say.js';
import { calendarOf, dataFile, htmlFile, paperOf, pdfDefinition } from '../engine/documents/draw.js';
import type { DocumentFormat, DocumentInput, MadeDocument } from '../engine/documents/kind.js';
import { documentKind } from '../engine/documents/kinds.js';
import { mistakesIn } from '../engine/documents/mistakes.js';
import { documentFileStem } from '../engine/print/fileName.js';
import { mailRead } from './mailRead.js';
import { Refusal } from './refusal.js';
import type { OutputFile, Runtime } from './runtime.js';
import { statusOf } from './status.js';
import type { Scope } from './workspace.js';

/** What the extension sends with the command that writes documents. */
const exportRequest = z.object({
  /** Any file of the folder, or the folder itself. */
  uri: z.string(),
  /** Key of the client; null: every client, or a document that is about everyone. */
  client: z.string().nullable(),
  /** Kind of document. */
  kind: z.string().default('plan'),
  /** Null: those of the settings. */
  formats: z
    .array(z.enum(['html', 'pdf', 'ics', 'csv', 'json', 'md']))
    .min(1)
    .nullable()
    .default(null),
  large: z.boolean().default(false),
  /** Null: the one of the settings. */
  size: z.enum(['a4', 'letter']).nullable().default(null),
  date: z.iso.date().nullable().default(null),
  /** Folder to write to; null: the one of the settings, inside the workspace folder. */
  folder: z.string().nullable().default(null),
});

export type ExportRequest = z.infer<typeof exportRequest>;

export interface ExportAnswer {
  /** URIs of the files, those of one document together, in the order of the formats. */
  readonly files: readonly string[];
  /** The folder that they lie in. */
  readonly folder: string;
  /** Characters that the fonts of the PDFs lack; a sign stands there instead. */
  readonly missing: readonly string[];
}

/** Reads the argument of the command; undefined when it is not what the command takes. */
export function readExportRequest(value: unknown): ExportRequest | undefined {
  return exportRequest.safeParse(value).data;
}

/** Who waits for the documents: is told how far they are, and may have had enough. */
export interface ExportWatcher {
  readonly isCancelled: () => boolean;
  /** Before a document is drawn: whose it is, how many are done, and how many there are to be. */
  readonly report: (name: string, done: number, all: number) => void;
}

/**
 * Writes documents, all of them or none. Throws a `Refusal` in plain words when there is nothing to write; null when it
 * was given up.
 */
export async function writeDocuments(
  runtime: Runtime,
  scope: Scope,
  request: ExportRequest,
  watcher: ExportWatcher,
): Promise<ExportAnswer | null> {
  const { session } = scope;
  const kind = documentKind(request.kind);
  const clients = session.world().clients;
  const unknown = request.client !== null && !clients.has(request.client);
  if (unknown || clients.size === 0) throw new Refusal(unknownClient(scope, request.client ?? ''));
  if (request.folder === null && !scope.isFolder) {
    throw new Refusal(say('This file lies in no folder. Say which folder the plan should be written to.'));
  }
  const today = runtime.today();
  const { large, date } = request;
  const size = request.size ?? scope.settings.plan.size;
  const common = { session, today, large, size, date, mistakes: mistakesIn(session) };
  const asked = request.formats ?? scope.settings.plan.formats;
  const formats = asked.filter((format) => kind.formats.includes(format));
  const madeAt = new Date(`${today}T00:00:00Z`);
  const files: OutputFile[] = [];
  const missing = new Set<string>();
  const whose = kind.about === 'everyone' ? [null] : clientsOf(scope, request.client);
  let made = 0;
  for (const [index, client] of whose.entries()) {
    // One after the other: the documents of everybody at once would fill the memory.
    const documents = kind.make({ ...common, client } satisfies DocumentInput);
    for (const [at, document] of documents.entries()) {
      const all = kind.about === 'everyone' ? documents.length : whose.length;
      watcher.report(document.name, kind.about === 'everyone' ? at : index, all);
      await mailRead();
      if (watcher.isCancelled()) return null;
      files.push(...(await filesOf(document, formats, runtime, madeAt, missing)));
      made += 1;
    }
  }
  if (made === 0) throw new Refusal(nothingWords(scope, request, kind.about));
  if (files.length === 0) {
    throw new Refusal(say('This document cannot be written in that format here. Choose HTML.'));
  }
  checkNames(files);
  await mailRead();
  if (watcher.isCancelled()) return null;
  const folder = request.folder ?? inFolder(scope.uri, scope.settings.plan.folder);
  try {
    return { files: await runtime.writeFiles(folder, files), folder, missing: [...missing].sort() };
  } catch (error) {
    const reason = error instanceof Error ? error.message : String(error);
    throw new Refusal(say`The folder cannot be written to: ${reason}`);
  }
}

/** The client who was asked for, or everybody. */
function clientsOf({ session }: Scope, client: string | null): readonly string[] {
  return client === null ? [...session.world().clients.keys()].sort() : [client];
}

/** The files of one document; a format that this platform cannot make is left out. */
async function filesOf(
  { name, suffix, drawing }: MadeDocument,
  formats: readonly DocumentFormat[],
  runtime: Runtime,
  madeAt: Date,
  missing: Set<string>,
): Promise<readonly OutputFile[]> {
  const stem = documentFileStem(name, suffix);
  const paper = paperOf(drawing);
  const fitted = paper && runtime.fitPaper ? await runtime.fitPaper(paper) : paper;
  const files: OutputFile[] = [];
  for (const format of formats) {
    const content = await contentOf(format);
    if (content !== null) files.push({ name: `${stem}.${format}`, content });
  }
  return files;

  async function contentOf(format: DocumentFormat): Promise<string | Uint8Array | null> {
    if (format === 'html') return htmlFile(drawing, fitted);
    if (format === 'pdf') {
      const definition = runtime.drawPdf ? pdfDefinition(drawing, fitted, madeAt) : null;
      if (!definition || !runtime.drawPdf) return null;
      const drawn = await runtime.drawPdf(definition);
      for (const character of drawn.missing) missing.add(character);
      return drawn.bytes;
    }
    if (format === 'ics') {
      const calendar = runtime.calendarText ? calendarOf(drawing) : null;
      return calendar && runtime.calendarText ? runtime.calendarText(calendar, madeAt) : null;
    }
    return dataFile(drawing, format);
  }
}

/** No document may take the place of another one of the same export. */
function checkNames(files: readonly OutputFile[]): void {
  const seen = new Set<string>();
  for (const { name } of files) {
    const key = name.normalize('NFKC').toLowerCase();
    if (seen.has(key)) {
      throw new Refusal(
        say`Two documents would have the same file name, ${name}. Give one of them another name.`,
      );
    }
    seen.add(key);
  }
}

/** A folder below another, by a path with `/` or `\`. `..` has no effect: plans stay inside the workspace folder. */
function inFolder(folder: string, path: string): string {
  const parts = path.split(/[\\/]+/).filter((part) => part !== '' && part !== '.' && part !== '..');
  return [folder.replace(/\/$/, ''), ...parts.map(encodeURIComponent)].join('/');
}

function unknownClient(scope: Scope, client: string): string {
  const names = statusOf(scope, undefined).clients.map(({ name }) => name);
  if (names.length === 0) return say('No client is written here yet.');
  return say`There is no client "${client}" here. There are: ${names.join(', ')}.`;
}

function nothingWords(scope: Scope, { client, date }: ExportRequest, about: 'client' | 'everyone'): string {
  const name = client === null ? null : (scope.session.world().clients.get(client)?.name ?? client);
  if (about === 'everyone') {
    return date === null
      ? say('Nobody trains at a known place, so there is nothing to write.')
      : say`Nobody trains at a known place on ${date}. Choose another day.`;
  }
  if (name === null) return say('Nobody has sessions, so there is nothing to write.');
  return date === null
    ? say`${name} has no sessions, so there is nothing to write. Her line "follows:" gives her some.`
    : say`${name} has no session on ${date}. Choose another day.`;
}
