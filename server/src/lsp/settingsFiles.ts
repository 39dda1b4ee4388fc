import { type RuleSettings, readSettingsFile, SETTINGS_FILE } from '../engine/ruleSettings.js';
import { fileName, isInside } from './uris.js';

/** The `stave.json` files that lie beside and above the coach's files, as far as they were read. Canonical URIs. */
export class SettingsFiles {
  /** By folder; null where the folder has none. */
  private readonly known = new Map<string, RuleSettings | null>();
  /** The text that was read last, so that the same mistake is told once. */
  private readonly texts = new Map<string, string | undefined>();
  /** Folders that are being read: many files of one folder are read at the same time. */
  private readonly reading = new Map<string, Promise<boolean>>();

  constructor(
    private readonly readFile: (uri: string) => Promise<string | undefined>,
    /** Told what could not be taken, with the file's address. */
    private readonly complain: (uri: string, problems: readonly string[]) => void,
  ) {}

  /** What the nearest settings file says for a file; null where there is none. The others above it do not count. */
  settingsFor(file: string): RuleSettings | null {
    for (const folder of foldersAbove(file)) {
      const settings = this.known.get(folder);
      if (settings) return settings;
    }
    return null;
  }

  /** Reads the folders of a file that were not read yet. True when one of them has a settings file. */
  async read(file: string): Promise<boolean> {
    const folders = foldersAbove(file).filter((folder) => !this.known.has(folder));
    const found = await Promise.all(
      folders.map((folder) => {
        const reading = this.reading.get(folder) ?? this.readFolder(folder);
        this.reading.set(folder, reading);
        return reading;
      }),
    );
    return found.includes(true);
  }

  /** A settings file was made, changed or deleted. */
  async reread(uri: string): Promise<void> {
    await this.readFolder(uri.slice(0, uri.lastIndexOf('/')));
  }

  /**
   * Reads all folders of a file again: a settings file above the open folders may have changed without anybody telling.
   * True when one of them says something else than before.
   */
  async refresh(file: string): Promise<boolean> {
    const folders = foldersAbove(file);
    const texts = folders.map((folder) => this.texts.get(folder));
    await Promise.all(folders.map((folder) => this.readFolder(folder)));
    return folders.some((folder, index) => this.texts.get(folder) !== texts[index]);
  }

  /** A folder came or went: nothing that was read in it and below counts any more. */
  forget(folder: string): void {
    const below = [...this.known.keys()].filter((each) => each === folder || isInside(each, folder));
    for (const each of below) {
      this.known.delete(each);
      this.texts.delete(each);
      this.reading.delete(each);
    }
  }

  private async readFolder(folder: string): Promise<boolean> {
    const uri = `${folder}/${SETTINGS_FILE}`;
    const text = await this.readFile(uri);
    const known = this.known.has(folder) && this.texts.get(folder) === text;
    this.texts.set(folder, text);
    if (known) return text !== undefined;
    if (text === undefined) {
      this.known.set(folder, null);
      return false;
    }
    const { settings, problems } = readSettingsFile(text);
    this.known.set(folder, settings);
    if (problems.length > 0) this.complain(uri, problems);
    return true;
  }
}

/** Whether an address is that of a settings file. */
export function isSettingsFile(uri: string): boolean {
  return fileName(uri) === SETTINGS_FILE;
}

/** The folders of a file, the innermost first. Addresses without a path have none. */
export function foldersAbove(file: string): readonly string[] {
  const folders: string[] = [];
  const root = /^[a-z][\w+.-]*:(?:\/\/[^/]*)?(?=\/)/i.exec(file)?.[0];
  if (root === undefined) return folders;
  for (let end = file.lastIndexOf('/'); end >= root.length; end = file.lastIndexOf('/', end - 1)) {
    folders.push(file.slice(0, end));
  }
  return folders;
}
