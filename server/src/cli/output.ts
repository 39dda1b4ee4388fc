/** Writing files so that nobody ever finds half of one. */
import fs from 'node:fs/promises';
import path from 'node:path';
import { quoted } from './files.js';
import { Misuse, reasonOf } from './io.js';

/** Begins some files; it is no part of their text. */
export const MARK = '\ufeff';

export interface OutputFile {
  /** Absolute. */
  readonly path: string;
  readonly content: string | Uint8Array;
}

/** The parts of the file system that are used, so that a test can let them fail. */
export interface Disk {
  writeFile(file: string, content: string | Uint8Array): Promise<void>;
  rename(from: string, to: string): Promise<void>;
  remove(file: string): Promise<void>;
}

const disk: Disk = {
  async writeFile(file, content) {
    const handle = await fs.open(file, 'wx');
    try {
      await handle.writeFile(content);
      // A full disk may show only now.
      await handle.sync();
    } finally {
      await handle.close();
    }
  },
  rename: (from, to) => fs.rename(from, to),
  remove: (file) => fs.rm(file, { force: true }),
};

let counter = 0;

/**
 * Writes all files, or none: each is written beside its place first, and only when all are whole do they take their
 * names. Throws `Misuse` with the reason; what was there before is then unchanged.
 */
export async function writeWhole(files: readonly OutputFile[], on: Disk = disk): Promise<void> {
  const beside: { readonly from: string; readonly to: string }[] = [];
  let current = '';
  try {
    for (const file of files) {
      current = file.path;
      counter += 1;
      const from = path.join(path.dirname(file.path), `.stave-${process.pid}-${counter}.tmp`);
      beside.push({ from, to: file.path });
      await on.writeFile(from, file.content);
    }
    for (const { from, to } of beside) {
      current = to;
      await on.rename(from, to);
    }
  } catch (error) {
    for (const { from } of beside) await on.remove(from).catch(() => undefined);
    throw new Misuse(`${quoted(current)} cannot be written: ${reasonOf(error)}.`);
  }
}

/** Makes a folder and those above it. */
export async function makeFolder(folder: string, given: string): Promise<void> {
  try {
    await fs.mkdir(folder, { recursive: true });
  } catch (error) {
    throw new Misuse(`The folder ${quoted(given)} cannot be made: ${reasonOf(error)}.`);
  }
}
