/** `stave share`: a folder with one client's plan and nothing of anyone else. */
import fs from 'node:fs/promises';
import path from 'node:path';
import { mistakesIn } from '../engine/documents/mistakes.js';
import type { Client } from '../engine/model.js';
import { buildPlanDocument } from '../engine/print/build.js';
import { planFileStem } from '../engine/print/fileName.js';
import { planToHtml } from '../engine/print/html.js';
import { planToPdfDefinition } from '../engine/print/pdfDefinition.js';
import { planOf } from './clients.js';
import { quoted, readWorkspace } from './files.js';
import { EXIT, type Io, Misuse } from './io.js';
import { type Language, speakIn } from './language.js';
import { makeFolder, writeWhole } from './output.js';
import { visible } from './text.js';

export interface ShareOptions {
  readonly for: string;
  readonly output: string;
  readonly in: string | null;
  readonly language: Language;
}

/**
 * Writes the printed plan of one client, HTML and PDF, into an empty folder. The notation itself is not shared: its
 * notes are the coach's, and programs serve several clients. Refuses where the plan names another client.
 */
export async function share(paths: readonly string[], options: ShareOptions, io: Io): Promise<number> {
  await speakIn(options.language, io);
  const workspace = await readWorkspace(paths, io, { lookIn: options.in });
  const plan = planOf(workspace, options.for);
  const world = workspace.session.world();
  const errors = mistakesIn(workspace.session)(plan);
  const document = buildPlanDocument(plan, world, { from: null, until: null, printedOn: io.today, errors });
  const { name } = plan.client;
  if (document.weeks.length === 0) throw new Misuse(`${visible(name)} has no sessions: nothing was written.`);
  const others = [...world.clients.values()].filter((client) => client !== plan.client);
  const named = others.find((client) => isNamed(client, JSON.stringify(document)));
  if (named) {
    throw new Misuse(
      `The plan of ${visible(name)} names ${visible(named.name)}, perhaps in a text or the name of a program. Take that out first: nothing was written.`,
    );
  }
  const folder = path.resolve(io.cwd, options.output);
  await mustBeEmpty(folder, options.output);
  const { drawPdf } = await import('./pdf.js');
  const stem = planFileStem(name);
  const { bytes: pdf } = await drawPdf(planToPdfDefinition(document, new Date(io.madeAtSeconds * 1000)));
  const files = [
    { path: path.join(folder, `${stem}.html`), content: planToHtml(document) },
    { path: path.join(folder, `${stem}.pdf`), content: pdf },
  ];
  await makeFolder(folder, options.output);
  await writeWhole(files);
  for (const file of files)
    io.out(`${visible(path.relative(io.cwd, file.path).split(path.sep).join('/'))}\n`);
  io.err('stave: these are health data. Look through them before you pass them on.\n');
  return EXIT.clean;
}

/** Whether a text has a client's name as a word of its own, in any case. */
function isNamed(client: Client, text: string): boolean {
  const name = client.name.replace(/[.*+?^${}()|[\]\\]/g, '\\$&').replace(/\s+/g, '\\s+');
  return new RegExp(`(?<![\\p{L}\\p{N}])${name}(?![\\p{L}\\p{N}])`, 'iu').test(text);
}

/** A folder that holds something may hold somebody else's plan. */
async function mustBeEmpty(folder: string, given: string): Promise<void> {
  const names = await fs.readdir(folder).catch((error: NodeJS.ErrnoException) => {
    if (error.code === 'ENOENT') return [];
    throw new Misuse(`${quoted(given)} is not a folder that can be used.`);
  });
  if (names.length > 0)
    throw new Misuse(
      `The folder ${quoted(given)} is not empty. Name a new one, so that nothing of anyone else is in it.`,
    );
}
