/** How many mistakes of the files a plan may rest on: said on its cover, in the panel and by every export alike. */

import type { ClientPlan, World } from '../model.js';
import type { EngineSession } from '../session.js';

/** Of a plan: how many mistakes it may rest on. */
export type Mistakes = (plan: ClientPlan) => number;

/**
 * Findings of severity error in the files from which a plan is made: those of the client and her groups, of her programs
 * and of what they take over, of her kits and of the movements she does. A file counts whole: in doubt once too often.
 * Each file is asked once, however many plans there are.
 */
export function mistakesIn(session: EngineSession): Mistakes {
  const known = new Map<string, number>();
  const errorsOf = (file: string): number => {
    const count =
      known.get(file) ?? session.findings(file).filter(({ severity }) => severity === 'error').length;
    known.set(file, count);
    return count;
  };
  return (plan) => [...filesBehind(session.world(), plan)].reduce((sum, file) => sum + errorsOf(file), 0);
}

function filesBehind(world: World, { client, sessions }: ClientPlan): ReadonlySet<string> {
  const files = new Set(client.nodes.map(({ file }) => file));
  for (const { program, place } of client.follows) {
    files.add(place.file);
    const followed = world.programs.get(program)?.place.file;
    if (followed !== undefined) files.add(followed);
  }
  for (const { kit } of client.trainsAt) {
    const file = world.kits.get(kit)?.place.file;
    if (file !== undefined) files.add(file);
  }
  for (const { block, cells } of sessions) {
    files.add(block.place.file);
    for (const { place, movement } of cells) {
      files.add(place.file);
      // Those of the built-in catalogue stand in no file.
      if (movement?.place) files.add(movement.place.file);
    }
  }
  return files;
}
