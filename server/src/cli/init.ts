/** `stave init`: a working folder to start from. */
import fs from 'node:fs/promises';
import path from 'node:path';
import { PATTERN_NAMES, type PatternName } from '../../../grammar/index.js';
import { type IsoDate, WEEKDAYS, type Weekday } from '../engine/dates.js';
import { createSession } from '../engine/session.js';
import { type Read, readAlias, readBorn, readSet } from '../engine/starter/answers.js';
import { clientFiles, type StarterFile } from '../engine/starter/client.js';
import { MADE_FOR_HER, starterChange } from '../engine/starter/follow.js';
import { firstDay } from '../engine/starter/program.js';
import { KITS_TEXT, PROGRAMS_TEXT } from '../engine/starter/seeds.generated.js';
import { seedKits } from '../engine/starter/seeds.js';
import { applyEdits } from '../engine/views/format.js';
import { quoted } from './files.js';
import { EXIT, type Io, Misuse } from './io.js';
import { makeFolder, writeWhole } from './output.js';
import { wrapText } from './text.js';

/** What is known of the first client; without an alias an invented one stands in the folder. */
export interface InitOptions {
  readonly client: string | null;
  readonly born: string | null;
  readonly kits: readonly string[];
  readonly sets: readonly string[];
  readonly signedOff: readonly string[];
  readonly on: string;
}

export async function init(folder: string, options: InitOptions, io: Io): Promise<number> {
  const files = options.client === null ? example(io.today) : ownClient(options.client, options, io.today);
  const target = path.resolve(io.cwd, folder);
  const names = files.map((file) => file.path);
  for (const name of names) {
    const there = await fs.lstat(path.join(target, name)).then(
      () => true,
      () => false,
    );
    if (there) throw new Misuse(`${quoted(path.join(folder, name))} is there already: nothing was written.`);
  }
  for (const name of new Set(names.map(path.dirname)))
    await makeFolder(path.join(target, name), path.join(folder, name));
  await writeWhole(files.map((file) => ({ path: path.join(target, file.path), content: file.text })));
  for (const name of names) io.out(`${path.join(folder, name).split(path.sep).join('/')}\n`);
  io.err(`${wrapText(options.client === null ? NEXT_EXAMPLE : NEXT_OWN, io.width)}\n`);
  return EXIT.clean;
}

const NEXT_EXAMPLE =
  'Change the kits to what is really there and the client to somebody real, then run `stave check` in this folder.';
const NEXT_OWN =
  'Change the kit to what is really there, then run `stave check` in this folder: it has one warning, which is meant. `stave explain failure-early` says more.';

/** The same files that the editor writes, with a program made for her. */
function ownClient(alias: string, options: InitOptions, today: IsoDate): readonly StarterFile[] {
  const kits = (options.kits.length > 0 ? options.kits : [seedKits()[0]?.name ?? '']).map((name) => {
    const known = seedKits().find(({ key }) => key === name.trim().toLowerCase());
    if (known) return known.name;
    throw new Misuse(
      `There is no kit ${quoted(name)} to start from. There are: ${seedKits()
        .map((kit) => kit.name)
        .join(', ')}.`,
    );
  });
  const answers = {
    alias: taken(readAlias(alias, new Set())) ?? alias,
    born: taken(readBorn(options.born ?? '', today)),
    kits,
    sets: options.sets.flatMap((text) => taken(readSet(text, today)) ?? []),
    signedOff: options.signedOff.map(patternOf),
  };
  const written = clientFiles(answers, today);
  const session = createSession({ today });
  for (const file of written) session.setFile(file.path, file.text);
  const [key] = session.world().clients.keys();
  const on = weekdaysOf(options.on);
  const change = starterChange(session, key ?? '', MADE_FOR_HER, { from: firstDay(today, on), on });
  if (!change?.file) throw new Misuse(`No program could be made for ${quoted(alias)}.`);
  const edit = { span: change.at.span, newText: change.line };
  const files = written.map((file) =>
    file.path === change.at.file ? { ...file, text: applyEdits(file.text, [edit]) } : file,
  );
  return [...files, change.file];
}

function taken<Value>(read: Read<Value>): Value | null {
  if (read.problem !== null) throw new Misuse(read.problem);
  return read.value;
}

function patternOf(text: string): PatternName {
  const known = PATTERN_NAMES.find((name) => name === text.trim().toLowerCase());
  if (known) return known;
  throw new Misuse(`${quoted(text)} is no pattern. There are: ${PATTERN_NAMES.join(', ')}.`);
}

function weekdaysOf(text: string): readonly Weekday[] {
  const words = text
    .toLowerCase()
    .split(/[\s,]+/)
    .filter((word) => word !== '');
  const unknown = words.find((word) => !WEEKDAYS.some((day) => day === word));
  if (unknown !== undefined || words.length === 0)
    throw new Misuse(`--on takes weekdays such as mon,thu; found ${quoted(text)}.`);
  return WEEKDAYS.filter((day) => words.includes(day));
}

/** All kits and programs that are shipped, and one invented client, who starts next week with the first program. */
function example(today: IsoDate): readonly StarterFile[] {
  return [
    { path: 'kits.stave', text: KITS_TEXT },
    { path: 'programs.stave', text: PROGRAMS_TEXT },
    { path: 'clients.stave', text: exampleClient(today) },
  ];
}

function exampleClient(today: IsoDate): string {
  return `-- One section for each client. Use an alias, not a name, where others can read this folder.
-- Screening comes first: write the date of it, and sign a stage off only for what you have seen.

client Dipper
  born: 1968
  mass: 64kg, ${today}
  screened: ${today}
  trains at: Home corner
  ready: learn all ${today}
  care: "Shoes on, chair against the wall."
  follows: First steps, from ${firstDay(today, ['mon'])}, on mon thu

  -- Once a set has been done for real, write it here, and loads follow from it:
  --   max: goblet squat, 8kg x8 r3, ${today}
`;
}
