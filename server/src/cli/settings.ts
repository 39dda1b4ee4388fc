/** The `stave.json` files that lie beside and above the coach's files, as the editor takes them too. */
import fs from 'node:fs';
import path from 'node:path';
import { type RuleSettings, readSettingsFile, SETTINGS_FILE } from '../engine/ruleSettings.js';
import { Misuse, reasonOf } from './io.js';

export interface SettingsLookup {
  /** What the nearest settings file says for a file; null where there is none. The same object for the same file. */
  settingsFor(file: string): RuleSettings | null;
  /** What could not be taken, a line each, with the path of the file. */
  readonly problems: readonly { readonly path: string; readonly text: string }[];
}

/** A lookup that reads each folder once. Takes absolute paths. Throws `Misuse` when a settings file cannot be read. */
export function settingsLookup(): SettingsLookup {
  const known = new Map<string, RuleSettings | null>();
  const problems: { path: string; text: string }[] = [];
  const ofFolder = (folder: string): RuleSettings | null => {
    const kept = known.get(folder);
    if (kept !== undefined) return kept;
    const file = path.join(folder, SETTINGS_FILE);
    const text = textOf(file);
    let settings: RuleSettings | null;
    if (text !== null) {
      const read = readSettingsFile(text);
      settings = read.settings;
      problems.push(...read.problems.map((problem) => ({ path: file, text: problem })));
    } else {
      const above = path.dirname(folder);
      settings = above === folder ? null : ofFolder(above);
    }
    known.set(folder, settings);
    return settings;
  };
  return { settingsFor: (file) => ofFolder(path.dirname(file)), problems };
}

function textOf(file: string): string | null {
  try {
    return fs.readFileSync(file, 'utf8');
  } catch (error) {
    const code = error instanceof Error && 'code' in error ? error.code : null;
    if (code === 'ENOENT' || code === 'ENOTDIR') return null;
    // Without it, rules that somebody set would be judged by other measures than she asked for.
    throw new Misuse(`"${file}" cannot be read: ${reasonOf(error)}.`);
  }
}
