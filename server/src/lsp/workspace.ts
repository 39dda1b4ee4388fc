import { TextDocument } from 'vscode-languageserver-textdocument';
import type { EngineSession } from '../engine/session.js';
import { createSession } from '../engine/session.js';
import { SKIPPED_FOLDERS } from '../engine/skippedFolders.js';
import { isThere, type Located } from './located.js';
import type { Runtime } from './runtime.js';
import type { Settings } from './settings.js';
import { foldersAbove, SettingsFiles } from './settingsFiles.js';
import { canonicalUri, isInside } from './uris.js';

/**
 * A set of files whose names see each other: a workspace folder with everything below it, or one file that lies in
 * no folder (an unsaved draft, a file opened by itself). Sets do not see each other.
 */
export interface Scope {
  /** Canonical URI of the folder or of the single file. */
  readonly uri: string;
  readonly isFolder: boolean;
  readonly session: EngineSession;
  settings: Settings;
  /** Another one after every change of a file or a setting, in no two scopes the same. */
  revision: number;
  /** Settled when the settings and the files on the disk are there. Never rejects. */
  readonly ready: Promise<void>;
}

export interface WorkspaceOptions {
  readonly runtime: Runtime;
  /** The settings for a folder or file; never rejects. */
  readonly settingsFor: (uri: string) => Promise<Settings>;
  readonly defaults: Settings;
  readonly log: (message: string) => void;
  /** Tells the coach what could not be taken from a `stave.json`. */
  readonly complain: (uri: string, problems: readonly string[]) => void;
}

/** All open texts and all files of the folders, each in its scope. Owns nothing of the protocol's connection. */
export class Workspace {
  private readonly folders = new Map<string, Scope>();
  private readonly singles = new Map<string, Scope>();
  /** Open documents by canonical URI. */
  private readonly open = new Map<string, TextDocument>();
  /** Documents made from closed files, kept while their text is the same. */
  private readonly closed = new Map<string, TextDocument>();

  /** The `stave.json` files beside and above the coach's files. */
  private readonly besides: SettingsFiles;

  constructor(private readonly options: WorkspaceOptions) {
    this.besides = new SettingsFiles(
      (uri) => options.runtime.readFile(uri),
      (uri, problems) => options.complain(uri, problems),
    );
  }

  scopes(): readonly Scope[] {
    return [...this.folders.values(), ...this.singles.values()];
  }

  /** The scope that a file belongs to: the innermost folder, else the file's own. Undefined for unknown files. */
  scopeOf(uri: string): Scope | undefined {
    const key = canonicalUri(uri);
    return this.folderOf(key) ?? this.singles.get(key);
  }

  /** The scope of a folder that is open as such. */
  folder(uri: string): Scope | undefined {
    return this.folders.get(canonicalUri(uri));
  }

  /** Replaces the set of folders. Open files move to the scope they now belong to. */
  setFolders(uris: readonly string[]): void {
    const wanted = new Set(uris.map(canonicalUri));
    for (const uri of [...this.folders.keys()]) if (!wanted.has(uri)) this.folders.delete(uri);
    const added = [...wanted].filter((uri) => !this.folders.has(uri));
    // All are known before any is read: a folder inside another keeps its files to itself.
    for (const uri of added)
      this.folders.set(
        uri,
        this.createScope(uri, true, () => this.readFolder(uri)),
      );
    for (const scope of this.folders.values()) this.dropForeignFiles(scope);
    for (const document of this.open.values()) this.place(document);
    for (const uri of [...this.singles.keys()]) if (this.folderOf(uri)) this.singles.delete(uri);
  }

  /** A document was opened or changed: its text counts from now on, not the disk's. */
  setDocument(document: TextDocument): Scope {
    this.open.set(canonicalUri(document.uri), document);
    return this.place(document);
  }

  /** A document was opened: what lies above its folder may have changed. Its scope, if other rules hold now. */
  async refreshSettingsAbove(uri: string): Promise<Scope | undefined> {
    const scope = this.scopeOf(uri);
    await scope?.ready;
    if (!scope || !(await this.besides.refresh(canonicalUri(uri)))) return undefined;
    this.applySettings(scope, scope.settings);
    return scope;
  }

  /** Folders whose `stave.json` counts here and that lie in no open folder. */
  foldersOutside(): readonly string[] {
    const outside = this.scopes().flatMap(({ uri }) => foldersAbove(uri));
    return [...new Set(outside)].filter((folder) => !this.folders.has(folder) && !this.folderOf(folder));
  }

  /** A document was closed: in a folder the text on the disk counts again, elsewhere the file is gone. */
  async closeDocument(uri: string): Promise<void> {
    const key = canonicalUri(uri);
    this.open.delete(key);
    this.singles.delete(key);
    if (this.folderOf(key)) await this.readFromDisk(key);
  }

  /** A file on the disk was made, changed or deleted. Open documents keep the text of the editor. */
  async readFromDisk(uri: string): Promise<void> {
    const key = canonicalUri(uri);
    const skipped = isSkipped(key.slice(this.folderOf(key)?.uri.length ?? 0));
    const text = skipped ? undefined : await this.options.runtime.readFile(key);
    await this.besides.read(key);
    const scope = this.folderOf(key);
    if (!scope || this.open.has(key)) return;
    if (text === undefined) scope.session.removeFile(key);
    else scope.session.setFile(key, text);
    this.touch(scope);
  }

  /** A `stave.json` was made, changed or deleted: the rules of the files below it are asked again. */
  async rereadSettingsFile(uri: string): Promise<readonly Scope[]> {
    const key = canonicalUri(uri);
    await this.besides.reread(key);
    const folder = key.slice(0, key.lastIndexOf('/'));
    const touched = this.scopes().filter(
      (scope) => isInside(scope.uri, folder) || isInside(`${folder}/`, scope.uri),
    );
    for (const scope of touched) this.applySettings(scope, scope.settings);
    return touched;
  }

  /**
   * Something that is no file of ours was made or deleted, which may be a folder: what was known in it and what lies in
   * it now is read again, since nobody tells of the files of a folder that comes or goes as a whole. Returns the scopes
   * in which something was read.
   */
  async readBelow(uri: string): Promise<readonly Scope[]> {
    const key = canonicalUri(uri);
    const scope = this.folderOf(key) ?? this.folders.get(key);
    if (!scope || isSkipped(key.slice(scope.uri.length))) return [];
    const known = this.scopes().flatMap(({ session }) =>
      session.files().filter((file) => isInside(file, key)),
    );
    const there = await this.options.runtime.listFiles(key);
    const below = new Set([...known, ...there.map(canonicalUri)]);
    if (below.size === 0) return [];
    this.besides.forget(key);
    await Promise.all([...below].map((file) => this.readFromDisk(file)));
    const touched = new Set([...below].map((file) => this.folderOf(file)).filter(isThere));
    for (const each of touched) this.applySettings(each, each.settings);
    return [...touched];
  }

  /** Asks for the settings of every scope again. */
  async reloadSettings(): Promise<void> {
    await Promise.all(
      this.scopes().map(async (scope) =>
        this.applySettings(scope, await this.options.settingsFor(scope.uri)),
      ),
    );
  }

  openIn(scope: Scope): readonly TextDocument[] {
    return [...this.open.values()].filter((document) => this.scopeOf(document.uri) === scope);
  }

  isOpen(uri: string): boolean {
    return this.open.has(canonicalUri(uri));
  }

  /** The key under which sessions know a file. */
  keyOf(uri: string): string {
    return canonicalUri(uri);
  }

  /** The file of a request; undefined for one that is neither open nor in a folder. */
  locate(uri: string): Located | undefined {
    const file = canonicalUri(uri);
    const scope = this.scopeOf(file);
    const document = scope && this.document(scope, file);
    return document && { scope, file, document };
  }

  /** The text of a file of a scope as a document, to turn offsets into positions. */
  document(scope: Scope, file: string): TextDocument | undefined {
    const open = this.open.get(file);
    if (open) return open;
    const text = scope.session.text(file);
    if (text === undefined) return undefined;
    const known = this.closed.get(file);
    if (known?.getText() === text) return known;
    const made = TextDocument.create(file, 'stave', 0, text);
    this.closed.set(file, made);
    return made;
  }

  /** Called before every answer: a new day has begun when the clock says so. */
  settle(scope: Scope): void {
    const today = this.options.runtime.today();
    if (this.today.get(scope) !== today) this.applySettings(scope, scope.settings);
  }

  private readonly today = new WeakMap<Scope, string>();
  private revisions = 0;

  private touch(scope: Scope): void {
    this.revisions += 1;
    scope.revision = this.revisions;
  }

  private applySettings(scope: Scope, settings: Settings): void {
    const today = this.options.runtime.today();
    this.today.set(scope, today);
    scope.settings = settings;
    const { severities, options, signOff } = settings.rules;
    scope.session.setOptions({
      today,
      severities,
      options,
      ...(signOff ? { signOff } : {}),
      settingsFor: (file) => this.besides.settingsFor(file),
    });
    this.touch(scope);
  }

  private folderOf(key: string): Scope | undefined {
    let found: Scope | undefined;
    for (const scope of this.folders.values()) {
      if (isInside(key, scope.uri) && scope.uri.length > (found?.uri.length ?? 0)) found = scope;
    }
    return found;
  }

  private place(document: TextDocument): Scope {
    const key = canonicalUri(document.uri);
    let scope = this.scopeOf(key);
    if (!scope) {
      scope = this.createScope(key, false, async () => {
        await this.besides.read(key);
      });
      this.singles.set(key, scope);
    }
    scope.session.setFile(key, document.getText());
    this.touch(scope);
    if (scope.isFolder) void this.readBeside(scope, key);
    return scope;
  }

  /** A file may have been opened in a folder that had no file of ours before. */
  private async readBeside(scope: Scope, key: string): Promise<void> {
    if (await this.besides.read(key)) this.applySettings(scope, scope.settings);
  }

  private createScope(uri: string, isFolder: boolean, read: () => Promise<void>): Scope {
    const { defaults, settingsFor, log } = this.options;
    const scope: Scope = {
      uri,
      isFolder,
      session: createSession({ today: this.options.runtime.today(), severities: {} }),
      settings: defaults,
      revision: 0,
      ready: Promise.resolve()
        .then(async () => {
          const [settings] = await Promise.all([settingsFor(uri), read()]);
          this.applySettings(scope, settings);
        })
        .catch((error: unknown) => log(`${uri}: ${String(error)}`)),
    };
    return scope;
  }

  private async readFolder(folder: string): Promise<void> {
    const files = await this.options.runtime.listFiles(folder);
    await Promise.all(files.map((file) => this.readFromDisk(file)));
  }

  private dropForeignFiles(scope: Scope): void {
    for (const file of scope.session.files()) {
      if (this.folderOf(file) === scope) continue;
      scope.session.removeFile(file);
      this.touch(scope);
    }
  }
}

/** Whether a path inside an open folder leads through one that is not looked into. */
function isSkipped(path: string): boolean {
  return path.split('/').some((part) => SKIPPED_FOLDERS.has(part));
}
