/** The command line's entry: hands the machine to the program. Everything heavy is loaded when it is needed. */
import fs from 'node:fs';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import type { Io } from '../cli/io.js';
import { runProgram } from '../cli/program.js';
import { localToday } from '../lsp/today.js';

const here = path.dirname(fileURLToPath(import.meta.url));

/** From the manifest, which lies beside dist/; from the sources it lies further up. */
function version(): string {
  for (const up of ['..', '../../..']) {
    const manifest = path.resolve(here, up, 'package.json');
    if (fs.existsSync(manifest)) return String(JSON.parse(fs.readFileSync(manifest, 'utf8')).version);
  }
  return 'unknown';
}

/** `SOURCE_DATE_EPOCH` (reproducible-builds.org) stands for now, so that the same input gives the same bytes. */
function now(): { readonly today: string; readonly seconds: number } {
  const fixed = process.env.SOURCE_DATE_EPOCH ?? '';
  if (/^\d{1,11}$/.test(fixed)) {
    const seconds = Number(fixed);
    return { today: new Date(seconds * 1000).toISOString().slice(0, 10), seconds };
  }
  return { today: localToday(), seconds: Math.floor(Date.now() / 1000) };
}

async function readStdin(): Promise<Buffer> {
  const chunks: Buffer[] = [];
  for await (const chunk of process.stdin) chunks.push(Buffer.from(chunk));
  return Buffer.concat(chunks);
}

/** A reader that has seen enough (`stave check | head`) is no mistake. */
for (const stream of [process.stdout, process.stderr]) {
  stream.on('error', (error: NodeJS.ErrnoException) => {
    if (error.code !== 'EPIPE') process.exitCode = 2;
  });
}

/** From the folder of translations, which lies beside dist/; from the sources it lies further up. */
async function texts(language: string): Promise<string | undefined> {
  const folders = ['../server/l10n', '../../l10n'].map((up) => path.resolve(here, up));
  const folder = folders.find((each) => fs.existsSync(each));
  return folder && fs.promises.readFile(path.join(folder, `${language}.json`), 'utf8').catch(() => undefined);
}

const { today, seconds } = now();
const io: Io = {
  cwd: process.cwd(),
  today,
  madeAtSeconds: seconds,
  colour: process.stdout.isTTY === true && process.env.NO_COLOR === undefined && process.env.TERM !== 'dumb',
  width: Math.min(100, Math.max(40, process.stdout.isTTY ? process.stdout.columns || 80 : 80)),
  terminal: process.stderr.isTTY === true && process.env.TERM !== 'dumb',
  texts,
  out: (text) => process.stdout.write(text),
  err: (text) => process.stderr.write(text),
  readStdin,
};

try {
  process.exitCode = await runProgram(process.argv.slice(2), {
    io,
    version: version(),
    commands: () => import('../cli/commands.js'),
    startServer: async () => {
      await import('./server.js');
    },
  });
} catch (error) {
  // A mistake of the program itself; where it happened helps whoever mends it.
  io.err(
    `stave: something went wrong in the program itself. ${error instanceof Error ? error.stack : String(error)}\n`,
  );
  process.exitCode = 2;
}
