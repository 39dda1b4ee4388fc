import { readdirSync, readFileSync, statSync } from 'node:fs';
import path from 'node:path';
import { fileURLToPath } from 'node:url';

const root = path.join(path.dirname(fileURLToPath(import.meta.url)), '..', '..');

function staveFiles(folder: string): string[] {
  return readdirSync(folder)
    .sort()
    .flatMap((name) => {
      const file = path.join(folder, name);
      return statSync(file).isDirectory() ? staveFiles(file) : file.endsWith('.stave') ? [file] : [];
    });
}

/** Every sample and seed file: realistic texts to try the views on. */
export const SAMPLES: readonly { readonly file: string; readonly text: string }[] = ['samples', 'seeds']
  .flatMap((folder) => staveFiles(path.join(root, folder)))
  .map((file) => ({ file: path.relative(root, file), text: readFileSync(file, 'utf8') }));

/** The worked example of the notation's reference. */
export const WORKED = `kit Boathouse
  bar: 15kg
  plates: 1.25kg x2, 2.5kg x2, 5kg x4, 10kg x4
  dumbbells: 2kg to 20kg by 2kg

client Heron
  born: 1979-03
  trains at: Boathouse
  ready: heavy squat 2026-10-05, load press 2026-06-01
  max: back squat, 47.5kg x5 r2, 2026-11-23
  max: overhead press, 22.5kg x6 r2, 2026-11-23
  follows: Harbour winter, from 2026-12-07, on mon thu

program Harbour winter
  aim: strength

block Keel, 5 weeks, heavy, deload 5
day Lower
  back squat:     3x6 r2 warm rest 3min | 4x | x5        |  |
day Upper
  overhead press: 3x8 r3                |    | +2% weekly
`;

/** Splits a text at a mark: the text without it, and where it stood. */
export function cursor(marked: string): { readonly text: string; readonly offset: number } {
  const offset = marked.indexOf('‸');
  if (offset < 0) throw new Error('The text holds no ‸.');
  return { text: marked.slice(0, offset) + marked.slice(offset + 1), offset };
}
