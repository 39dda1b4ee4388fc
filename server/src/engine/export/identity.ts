/** A lasting name for each session, so that a calendar or a table that is written again replaces what it wrote before. */

import type { ClientPlan, Session } from '../model.js';

/** FNV-1a, 32 bits, over the code points of a text. */
function fnv(text: string, start: number): number {
  let hash = start;
  for (const character of text) {
    hash ^= character.codePointAt(0) as number;
    hash = Math.imul(hash, 0x01000193) >>> 0;
  }
  return hash;
}

const hex = (value: number): string => value.toString(16).padStart(8, '0');

/**
 * The identity of each session of a plan: made from client, program, block, week and day, not from the date, so that
 * a session that moves keeps its identity. A day that comes more than once in a week is counted. Names cannot be read
 * from it.
 */
export function sessionIds(plan: ClientPlan): ReadonlyMap<Session, string> {
  const seen = new Map<string, number>();
  return new Map(
    plan.sessions.map((session) => {
      const { client, program, block, week, day } = session;
      const key = JSON.stringify([client.key, program.key, block.key, week, day.key]);
      const times = (seen.get(key) ?? 0) + 1;
      seen.set(key, times);
      const whole = `${key} ${times}`;
      return [session, `${hex(fnv(whole, 0x811c9dc5))}${hex(fnv(`stave ${whole}`, 0x050c5d1f))}`] as const;
    }),
  );
}

/** Sessions from `from` until `until`, both included; null is open. */
export function sessionsBetween(
  plan: ClientPlan,
  from: string | null,
  until: string | null,
): readonly Session[] {
  return plan.sessions.filter(
    ({ date }) => (from === null || date >= from) && (until === null || date <= until),
  );
}
