import type { Dirent } from 'node:fs';
import fs from 'node:fs/promises';
import path from 'node:path';
import { SKIPPED_FOLDERS } from '../engine/skippedFolders.js';

/**
 * All `.stave` files of a folder and below, absolute, in order of name; the same for the editor and the command line.
 * Links to files count, links to folders are not followed. Folders that cannot be read are left out.
 */
export async function staveFiles(folder: string): Promise<string[]> {
  let entries: Dirent[];
  try {
    entries = await fs.readdir(folder, { withFileTypes: true });
  } catch {
    return [];
  }
  const found = await Promise.all(
    entries.map(async (entry) => {
      const full = path.join(folder, entry.name);
      if (entry.isDirectory()) return SKIPPED_FOLDERS.has(entry.name) ? [] : staveFiles(full);
      return entry.name.endsWith('.stave') && (entry.isFile() || entry.isSymbolicLink()) ? [full] : [];
    }),
  );
  return found.flat().sort();
}
