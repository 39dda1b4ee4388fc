/** `stave init`: a working folder to start from. */
import fs from 'node:fs/promises';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import { addDays, type IsoDate, weekdayOf } from '../engine/dates.js';
import { quoted } from './files.js';
import { EXIT, type Io, Misuse, reasonOf } from './io.js';
import { makeFolder, writeWhole } from './output.js';
import { wrapText } from './text.js';

/** Beside the bundle; from the sources, at the top of the repository. */
const SEED_FOLDERS = ['seeds', '../../../seeds'];
const SEED_FILES = ['kits.stave', 'programs.stave'];
const CLIENTS_FILE = 'clients.stave';

export async function init(folder: string, io: Io): Promise<number> {
  const target = path.resolve(io.cwd, folder);
  const names = [...SEED_FILES, CLIENTS_FILE];
  for (const name of names) {
    const there = await fs.lstat(path.join(target, name)).then(
      () => true,
      () => false,
    );
    if (there) throw new Misuse(`${quoted(path.join(folder, name))} is there already: nothing was written.`);
  }
  const texts = await Promise.all(SEED_FILES.map(readSeed));
  await makeFolder(target, folder);
  await writeWhole(
    [...texts, clientsText(io.today)].map((content, index) => ({
      path: path.join(target, names[index] as string),
      content,
    })),
  );
  for (const name of names) io.out(`${path.join(folder, name).split(path.sep).join('/')}\n`);
  io.err(
    `${wrapText('Change the kits to what is really there and the client to somebody real, then run `stave check` in this folder.', io.width)}\n`,
  );
  return EXIT.clean;
}

async function readSeed(name: string): Promise<string> {
  const here = path.dirname(fileURLToPath(import.meta.url));
  let failure: unknown = null;
  for (const folder of SEED_FOLDERS) {
    try {
      return await fs.readFile(path.resolve(here, folder, name), 'utf8');
    } catch (error) {
      failure = error;
    }
  }
  throw new Misuse(`The starter file ${name} is missing from this installation: ${reasonOf(failure)}.`);
}

/** The Monday after today. */
function nextMonday(today: IsoDate): IsoDate {
  let date = addDays(today, 1);
  while (weekdayOf(date) !== 'mon') date = addDays(date, 1);
  return date;
}

/** One invented client, who starts next week with the first program. */
function clientsText(today: IsoDate): string {
  return `-- One section for each client. Use an alias, not a name, where others can read this folder.
-- Screening comes first: write the date of it, and sign a stage off only for what you have seen.

client Dipper
  born: 1968
  mass: 64kg, ${today}
  screened: ${today}
  trains at: Home corner
  ready: learn all ${today}
  care: "Shoes on, chair against the wall."
  follows: First steps, from ${nextMonday(today)}, on mon thu

  -- Once a set has been done for real, write it here, and loads follow from it:
  --   max: goblet squat, 8kg x8 r3, ${today}
`;
}
