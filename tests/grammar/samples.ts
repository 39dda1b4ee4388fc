import { readdirSync, readFileSync, statSync } from 'node:fs';
import { fileURLToPath } from 'node:url';

const ROOT = fileURLToPath(new URL('../../', import.meta.url));

function under(folder: string): string[] {
  return readdirSync(folder).flatMap((name) => {
    const path = `${folder}/${name}`;
    if (statSync(path).isDirectory()) return under(path);
    return name.endsWith('.stave') ? [path] : [];
  });
}

/** Every file written in the notation that this repository holds. */
export const SAMPLES: readonly { readonly name: string; readonly text: string }[] = [
  'samples',
  'seeds',
  'tests/fixtures/grammar/constructs',
]
  .flatMap((folder) => under(ROOT + folder))
  .sort()
  .map((path) => ({ name: path.slice(ROOT.length), text: readFileSync(path, 'utf8') }));
