/** Reading what the command line is pointed at: files, folders, standard input. */
import fs from 'node:fs/promises';
import path from 'node:path';
import { createSession, type EngineSession } from '../engine/session.js';
import { type Io, Misuse, reasonOf } from './io.js';
import { Positions } from './positions.js';
import { settingsLookup } from './settings.js';
import { staveFiles } from './staveFiles.js';
import { visible } from './text.js';

/** The name under which standard input is shown. */
export const STDIN_NAME = '<stdin>';

const BYTE_ORDER_MARK = Buffer.from([0xef, 0xbb, 0xbf]);

export interface Workspace {
  readonly session: EngineSession;
  /** Files that were asked for, in order of name. Findings of others are not shown. */
  readonly shown: readonly string[];
  /** Folders whose files were read only so that names can be looked up in them. */
  readonly lookedUpIn: readonly string[];
  /** Absolute path of each file but standard input. */
  readonly paths: ReadonlyMap<string, string>;
  /** Files that begin with a byte order mark, which is no part of their text. */
  readonly marked: ReadonlySet<string>;
  positions(file: string): Positions;
}

export interface ReadOptions {
  /** Folder in which names are looked up beside what was asked for; null: the folder of each file. */
  readonly lookIn: string | null;
}

/**
 * Reads the files of the paths (the current folder where there are none). A folder counts with everything below it.
 * A single file is read together with the files of its folder and below, so that names are known, but only the file
 * itself is shown. Throws `Misuse` when something is not there or cannot be read.
 */
export async function readWorkspace(
  paths: readonly string[],
  io: Io,
  options: ReadOptions,
): Promise<Workspace> {
  const asked = paths.length === 0 ? ['.'] : paths;
  const shown = new Set<string>();
  const lookedUpIn = new Set<string>();
  const texts = new Map<string, string>();
  const absolute = new Map<string, string>();
  const marked = new Set<string>();
  const add = async (file: string): Promise<string> => {
    const name = nameOf(file, io);
    if (!texts.has(name)) {
      const bytes = await readBytes(file, name);
      texts.set(name, decode(bytes, quoted(name)));
      if (bytes.subarray(0, 3).equals(BYTE_ORDER_MARK)) marked.add(name);
      absolute.set(name, file);
    }
    return name;
  };
  const lookUp = async (folder: string): Promise<void> => {
    lookedUpIn.add(nameOf(folder, io));
    for (const file of await staveFiles(folder)) await add(file);
  };
  for (const given of asked) {
    if (given === '-') {
      texts.set(STDIN_NAME, decode(await io.readStdin(), 'standard input'));
      shown.add(STDIN_NAME);
      continue;
    }
    const target = path.resolve(io.cwd, given);
    if (await isFolder(target, given)) {
      const files = await staveFiles(target);
      if (files.length === 0) throw new Misuse(`There are no .stave files in ${quoted(given)}.`);
      for (const file of files) shown.add(await add(file));
    } else {
      shown.add(await add(target));
      if (options.lookIn === null) await lookUp(path.dirname(target));
    }
  }
  if (options.lookIn !== null) {
    const folder = path.resolve(io.cwd, options.lookIn);
    if (!(await isFolder(folder, options.lookIn)))
      throw new Misuse(`${quoted(options.lookIn)} is not a folder.`);
    await lookUp(folder);
  }
  const settings = settingsLookup();
  const session = createSession({
    today: io.today,
    severities: {},
    // Standard input counts as a file of the current folder.
    settingsFor: (file) => settings.settingsFor(absolute.get(file) ?? path.join(io.cwd, file)),
  });
  for (const [file, text] of texts) session.setFile(file, text);
  for (const file of texts.keys()) settings.settingsFor(absolute.get(file) ?? path.join(io.cwd, file));
  for (const problem of settings.problems)
    io.err(`stave: ${nameOf(problem.path, io)}: ${visible(problem.text)}\n`);
  const index = new Map<string, Positions>();
  return {
    session,
    shown: [...shown].sort(),
    lookedUpIn: [...lookedUpIn],
    paths: absolute,
    marked,
    positions(file) {
      // The text may have been repaired since it was read.
      const text = session.text(file) ?? '';
      const known = index.get(file);
      if (known?.text === text) return known;
      const fresh = new Positions(text);
      index.set(file, fresh);
      return fresh;
    },
  };
}

/** A path as it is printed: from the current folder, with `/`. */
function nameOf(file: string, io: Io): string {
  return (path.relative(io.cwd, file) || '.').split(path.sep).join('/');
}

/** A path in quotation marks for a message. */
export function quoted(text: string): string {
  return `"${visible(text)}"`;
}

async function isFolder(target: string, given: string): Promise<boolean> {
  try {
    const stat = await fs.stat(target);
    if (stat.isDirectory()) return true;
    if (stat.isFile()) return false;
  } catch (error) {
    const missing = error instanceof Error && 'code' in error && error.code === 'ENOENT';
    if (missing) throw new Misuse(`There is no file or folder ${quoted(given)}.`);
    throw new Misuse(`${quoted(given)} cannot be read: ${reasonOf(error)}.`);
  }
  throw new Misuse(`${quoted(given)} is neither a file nor a folder.`);
}

async function readBytes(file: string, name: string): Promise<Buffer> {
  try {
    return await fs.readFile(file);
  } catch (error) {
    throw new Misuse(`${quoted(name)} cannot be read: ${reasonOf(error)}.`);
  }
}

/** Text of bytes; a byte order mark is no part of it. */
function decode(bytes: Buffer, name: string): string {
  try {
    return new TextDecoder('utf-8', { fatal: true }).decode(bytes);
  } catch {
    throw new Misuse(`${name} is not text in UTF-8. Save it as UTF-8 and try again.`);
  }
}
