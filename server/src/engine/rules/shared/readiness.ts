import type { PatternName } from '../../../../../grammar/index.js';
import { say } from '../../../../../grammar/say.js';
import type { Client, IsoDate, RelatedLine, ResolvedCell } from '../../model.js';
import { signedOff } from '../../resolve/strength.js';

/** What a client is signed off for, and the line that says so. */
export type Readiness = ReturnType<typeof signedOff>;

/** The stage that a client is signed off for in a pattern on a date. */
export function readinessOn(client: Client, pattern: PatternName, date: IsoDate): Readiness {
  return signedOff(client, pattern, date);
}

/** `signed off for load in squat since 2026-06-01`, `no sign-off for squat yet`. */
export function readinessText(readiness: Readiness, pattern: PatternName): string {
  return readiness.signOff === null
    ? say`no sign-off for ${pattern} yet`
    : say`signed off for ${readiness.stage} in ${pattern} since ${readiness.signOff.date}`;
}

/** The sign-off as a related line. */
export function readinessLines(client: Client, readiness: Readiness): readonly RelatedLine[] {
  return readiness.signOff === null
    ? [{ place: client.place, message: say`${client.name} has no sign-off for this.` }]
    : [{ place: readiness.signOff.place, message: say`${client.name}: the newest sign-off.` }];
}

/** Impact (jumps) and hard running or intervals: what nobody should do unscreened. */
export function needsScreening({ movement, groups }: ResolvedCell): boolean {
  if (movement === null || movement.stage === 'learn' || groups.length === 0) return false;
  return (
    movement.pattern === 'jump' ||
    movement.pattern === 'sprint' ||
    groups.some((group) => group.offSeconds !== null)
  );
}
