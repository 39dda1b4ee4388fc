/** The easier movement to take on a bad day. */

import type { ResolvedCell, World } from '../model.js';
import { signedOff } from '../resolve/strength.js';
import { easierWithin, kitHas } from '../rules/shared/fixes.js';
import { STAGES } from '../stages.js';

/**
 * The nearest easier movement of the catalogue that the kit has, that her sign-off covers, and that she does not
 * avoid on that day. Null when there is none: nothing is made up.
 */
export function easierFor(cell: ResolvedCell, world: World): string | null {
  const { client, date, kit, movement } = cell;
  if (!movement || cell.test) return null;
  return easierWithin(world, movement.key, (key) => {
    const easier = world.movements.get(key);
    if (!easier || !kitHas(kit, easier)) return false;
    const avoided = client.avoids.some(
      ({ what, from, until }) =>
        (what === key || what === easier.pattern) &&
        (from === null || from <= date) &&
        (until === null || until >= date),
    );
    const { stage } = signedOff(client, easier.pattern, date);
    return !avoided && STAGES.indexOf(easier.stage) <= STAGES.indexOf(stage);
  });
}
