import type { PatternName } from '../../../../grammar/index.js';
import { normaliseName } from '../../../../grammar/index.js';
import { say } from '../../../../grammar/say.js';
import type { IsoDate } from '../model.js';
import { documentFileStem } from '../print/fileName.js';
import type { DoneSet } from './answers.js';
import { laidOut } from './laidOut.js';
import { seedKits } from './seeds.js';

/** What a coach answers when she adds a client. */
export interface ClientAnswers {
  readonly alias: string;
  /** Year, or year and month; null: not written down. */
  readonly born: string | null;
  /** Names of the kits she has; the first is the one she trains at. Those that are not there yet are shipped ones. */
  readonly kits: readonly string[];
  readonly sets: readonly DoneSet[];
  /** Patterns that the coach has seen done well, and signs off for working loads today. */
  readonly signedOff: readonly PatternName[];
}

/** A file to write: its path in the folder, with `/`, and its text. */
export interface StarterFile {
  readonly path: string;
  readonly text: string;
}

/** Where a client's own file lies in a folder. Two clients never share one. */
export function clientFile(alias: string): string {
  return `clients/${documentFileStem(alias, '').replace(/-$/, '').toLowerCase()}.stave`;
}

/**
 * The files of a new client: her own, and one with the kits that are not written yet. `knownKits` has the keys of kits
 * that are, `taken` the paths of files that are there and stay as they are.
 */
export function clientFiles(
  answers: ClientAnswers,
  today: IsoDate,
  knownKits: ReadonlySet<string> = new Set(),
  taken: ReadonlySet<string> = new Set(),
): readonly StarterFile[] {
  const wanted = new Set(answers.kits.map(normaliseName).filter((key) => !knownKits.has(key)));
  const kits = seedKits().filter(({ key }) => wanted.has(key));
  const files = [{ path: free(clientFile(answers.alias), taken), text: laidOut(clientText(answers, today)) }];
  if (kits.length === 0) return files;
  const head = [
    note(say('What there is to lift. Change it to what is really there: weigh the bar, count the plates.')),
    note(say('"plates" counts both sides together; an odd plate cannot be used in a pair.')),
  ];
  const text = `${[head.join('\n'), ...kits.map((kit) => kit.text)].join('\n\n')}\n`;
  return [...files, { path: free('kits.stave', taken), text: laidOut(text) }];
}

function clientText({ alias, born, kits, sets, signedOff }: ClientAnswers, today: IsoDate): string {
  const [kit, ...others] = kits;
  const lines = [
    note(say('Health data: keep to an alias, not a name.')),
    '',
    `client ${alias}`,
    ...(born === null ? [] : [`  born: ${born}`]),
    '',
    `  ${note(say('Screening comes first, by somebody qualified.'))}`,
    `  ${note(say('Once it is done, take these two dashes away:'))}`,
    `  -- screened: ${today}`,
    '',
    ...(kit === undefined ? [] : [`  trains at: ${kit}`]),
    ...others.map((other) => `  -- trains at: ${other}, on sat ${note(say('on other days, if she does'))}`),
    ...(signedOff.length === 0
      ? []
      : [`  ready: ${signedOff.map((pattern) => `load ${pattern} ${today}`).join(', ')}`]),
    ...sets.map(({ line }) => `  max: ${line}`),
    ...(sets.length > 0
      ? []
      : [
          `  ${note(say('Once a set has been done, write it here, and loads follow from it:'))}`,
          `  -- max: goblet squat, 8kg x10 r4, ${today}`,
        ]),
  ];
  return `${lines.join('\n')}\n`;
}

/** A note for the coach alone. */
function note(text: string): string {
  return `-- ${text}`;
}

/** A path that is not taken: `kits.stave`, `kits-2.stave` … */
export function free(path: string, taken: ReadonlySet<string>): string {
  const [stem, ending] = [path.replace(/\.stave$/, ''), '.stave'];
  let found = path;
  for (let number = 2; taken.has(found); number += 1) found = `${stem}-${number}${ending}`;
  return found;
}
