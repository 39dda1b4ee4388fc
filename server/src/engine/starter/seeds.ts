import { normaliseName } from '../../../../grammar/index.js';
import { KITS_TEXT, PROGRAMS_TEXT } from './seeds.generated.js';

/** A kit or a program that is shipped to start from. */
export interface Seed {
  readonly name: string;
  readonly key: string;
  /** What the shipped file says of it in a note, in English; empty where it says nothing. */
  readonly about: string;
  /** The section as it is written, with the notes right above it, without a line break at its end. */
  readonly text: string;
}

/** The kits that are shipped, in the order of the file. */
export function seedKits(): readonly Seed[] {
  return seedsOf(KITS_TEXT, 'kit');
}

/** The programs that are shipped, in the order of the file. */
export function seedPrograms(): readonly Seed[] {
  return seedsOf(PROGRAMS_TEXT, 'program');
}

/** Cuts a shipped file at its openers. Notes right above an opener belong to it, those above an empty line do not. */
function seedsOf(text: string, word: 'kit' | 'program'): readonly Seed[] {
  const lines = text.split('\n');
  const opener = new RegExp(`^${word} (.+?)(?: -- (.*))?$`);
  const starts = lines.flatMap((line, at) => (opener.test(line) ? [at] : []));
  const firstNote = (at: number): number => {
    let first = at;
    while (lines[first - 1]?.startsWith('--')) first -= 1;
    return first;
  };
  return starts.map((start, index) => {
    const [, name = '', note = ''] = opener.exec(lines[start] ?? '') ?? [];
    const next = starts[index + 1];
    const end = next === undefined ? lines.length : firstNote(next);
    const above = lines.slice(firstNote(start), start).map((line) => line.replace(/^--\s*/, ''));
    return {
      name,
      key: normaliseName(name),
      about: note || above.join(' '),
      text: lines.slice(firstNote(start), end).join('\n').trimEnd(),
    };
  });
}
