import type { EngineSession } from '../session.js';
import { applyEdits } from './format.js';
import { safeFixes } from './quickFixes.js';

/** A repair may bring the next to light; this many rounds are far more than any text needs. */
const MOST_ROUNDS = 20;

/**
 * Takes every safe repair of some files, again until there is none left, and leaves the session with the texts as they
 * then are. Returns the texts that changed, by file.
 */
export function fixAll(session: EngineSession, files: readonly string[]): ReadonlyMap<string, string> {
  const changed = new Map<string, string>();
  for (let round = 0; round < MOST_ROUNDS; round += 1) {
    let done = true;
    for (const file of files) {
      const text = session.text(file);
      const edits = text === undefined ? [] : safeFixes(session, file);
      if (text === undefined || edits.length === 0) continue;
      const fixed = applyEdits(text, edits);
      session.setFile(file, fixed);
      changed.set(file, fixed);
      done = false;
    }
    if (done) break;
  }
  return changed;
}
