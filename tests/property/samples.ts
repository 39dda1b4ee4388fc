import fs from 'node:fs';
import path from 'node:path';
import { fileURLToPath } from 'node:url';

const root = fileURLToPath(new URL('../../samples/', import.meta.url));

/** Every sample file: its path below `samples/` and its text. */
export function samples(): Map<string, string> {
  const found = fs
    .readdirSync(root, { recursive: true, encoding: 'utf8' })
    .filter((file) => file.endsWith('.stave'))
    .sort();
  return new Map(
    found.map((file) => [file.replaceAll(path.sep, '/'), fs.readFileSync(path.join(root, file), 'utf8')]),
  );
}

/** The files of one sample folder. */
export function sampleFolder(folder: string): Map<string, string> {
  return new Map([...samples()].filter(([file]) => file.startsWith(`${folder}/`)));
}
