import { say } from '../../../../../grammar/say.js';
import { addDays, isWithin } from '../../dates.js';
import type { Client, FindingFix, LogEntry, World } from '../../model.js';
import { stageAllows } from '../../stages.js';
import { addClientLine, fixesOf } from './fixes.js';
import { readinessOn } from './readiness.js';

/** How long an easier movement is done at first. Common practice, no source. */
const SWAP_DAYS = 14;
/** So many movements of a log are offered to be swapped. */
const MOST_OFFERS = 3;

/**
 * Swaps each movement of a log for its easier one for two weeks from the day after `date`, as far as her sign-offs cover
 * it. Sets, reps and effort stay as the rows have them. What is swapped on that day already is left alone.
 */
export function swapsForPain(
  entry: LogEntry,
  client: Client,
  date: string,
  world: Pick<World, 'movements'>,
): readonly FindingFix[] {
  const from = addDays(date, 1);
  const until = addDays(date, SWAP_DAYS);
  const keys = new Set(entry.node.lines.flatMap((line) => (line.kind === 'done' ? [line.movement.key] : [])));
  const offers = [...keys].map((key): FindingFix | null => {
    const movement = world.movements.get(key);
    const easier = movement?.easier ? world.movements.get(movement.easier) : undefined;
    if (!movement || !easier) return null;
    if (!stageAllows(readinessOn(client, easier.pattern, from).stage, easier.stage)) return null;
    if (client.swaps.some((swap) => swap.movement === key && isWithin(from, swap.from, swap.until)))
      return null;
    if (client.avoids.some(({ what }) => what === easier.key || what === easier.pattern)) return null;
    return addClientLine(
      client,
      `swap: ${movement.name}, to ${easier.name}, from ${from} until ${until}, "${say('pain')}"`,
      say`${client.name}: ${easier.name} instead of ${movement.name} until ${until}`,
    );
  });
  return fixesOf(...offers).slice(0, MOST_OFFERS);
}
