import type { Dirent } from 'node:fs';
import fs from 'node:fs/promises';
import path from 'node:path';

/** Folders that hold no coach's files, and may hold very many others. */
const SKIPPED = new Set(['node_modules', '.git', '.hg', '.svn']);

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
      if (entry.isDirectory()) return SKIPPED.has(entry.name) ? [] : staveFiles(full);
      return entry.name.endsWith('.stave') && (entry.isFile() || entry.isSymbolicLink()) ? [full] : [];
    }),
  );
  return found.flat().sort();
}
