import fs from 'node:fs';
import path from 'node:path';
import { keysIn, windowKeysIn } from '../texts.js';

interface Context {
  read(file: string): string;
}

/** TypeScript files of a folder and below. */
function sources(folder: string): string[] {
  return fs
    .readdirSync(folder, { recursive: true, encoding: 'utf8' })
    .map((name) => path.posix.join(folder, name.split(path.sep).join('/')))
    .filter((file) => file.endsWith('.ts'))
    .sort();
}

/**
 * The keys of all texts that people see, for translators: those of the editor's windows and messages in
 * `client/l10n/bundle.l10n.json`, those of the server in `server/l10n/keys.json`.
 */
export function generate({ read }: Context): Record<string, string> {
  const windows = sources('client/src').flatMap((file) => windowKeysIn(file, read(file)));
  const texts = ['grammar', 'server/src'].flatMap(sources).flatMap((file) => keysIn(file, read(file)));
  const sorted = (keys: readonly string[]): string[] => [...new Set(keys)].sort();
  const bundle = Object.fromEntries(sorted(windows).map((text) => [text, text]));
  return {
    'client/l10n/bundle.l10n.json': `${JSON.stringify(bundle, null, 2)}\n`,
    'server/l10n/keys.json': `${JSON.stringify(sorted(texts), null, 2)}\n`,
  };
}
