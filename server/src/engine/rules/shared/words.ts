import { say } from '../../../../../grammar/say.js';
import { ageAt } from '../../dates.js';
import type { Client, ResolvedCell, ResolvedGroup } from '../../model.js';
import { formatNumber } from '../../numbers.js';
import { formatMass } from '../../units.js';
import { bodyWeightText, countOf, doseText as doseOf, packText } from '../../words.js';

/** Wording that the rules share, so that every message reads alike. */

export { capitalised as sentence, countOf, listOf } from '../../words.js';

/** `Heron's`, `Curlews'`. */
export function possessive(name: string): string {
  return name.endsWith('s') ? say`${name}'` : say`${name}'s`;
}

/** Sets and reps as hovers and plans have them: `3 × 6`; `6 reps` and `the work` where there are no sets. */
export function doseText(group: ResolvedGroup): string {
  if (group.sets === null && group.reps !== null && !group.openReps) return countOf(group.reps, 'rep');
  return doseOf(group) || say('the work');
}

/** The load as printed, or null where none is given: `45 kg`, `body weight + 5 kg`, `pack of 8 kg`, `medium band`. */
export function loadText(group: ResolvedGroup, client: Client): string | null {
  if (group.band !== null) return say`${group.band} band`;
  if (group.loadKg === null) return null;
  if (liftsBody(group)) return bodyWeightText(group.loadKg, client.units);
  if (group.basis === 'pack') return packText(group.loadKg, client.units);
  return formatMass(group.loadKg, client.units);
}

/** Whether body mass is part of what is lifted: then more is moved than the load that is printed. */
function liftsBody({ basis, loadKg, share, estimatedOneRepMaxKg }: ResolvedGroup): boolean {
  if (basis === 'bodyweight') return true;
  if (loadKg === null || share === null || estimatedOneRepMaxKg === null) return false;
  return share * estimatedOneRepMaxKg - loadKg > 1;
}

/** `3 × 6 at 45 kg`, `3 × 6 with 2 in reserve` where no load is given. */
export function workText(group: ResolvedGroup, client: Client): string {
  const load = loadText(group, client);
  if (load !== null) return say`${doseText(group)} at ${load}`;
  return group.writtenReserve === null
    ? doseText(group)
    : say`${doseText(group)} with ${formatNumber(group.writtenReserve, 1)} in reserve`;
}

/** `on 2026-12-07 (week 1)`. */
export function whenText(cell: ResolvedCell): string {
  return say`on ${cell.date} (week ${cell.week})`;
}

/**
 * When something holds in several weeks of one row: `on 2026-12-07 (week 1)`, or
 * `in 4 sessions from 2026-12-07 (week 1) to 2026-12-28 (week 4)`.
 */
export function spanText(cells: readonly ResolvedCell[]): string {
  const first = cells[0];
  const last = cells[cells.length - 1];
  if (!first || !last) return '';
  if (cells.length === 1) return whenText(first);
  return say`in ${countOf(cells.length, 'session')} from ${first.date} (week ${first.week}) to ${last.date} (week ${last.week})`;
}

/** The name of the movement that is done in a cell, as defined, or as written where it is not known. */
export function movementText(cell: ResolvedCell): string {
  return cell.movement?.name ?? cell.row.movementName.text;
}

/** Age on a day in whole years, or null when no date of birth is known. */
export function ageOn(client: Client, date: string): number | null {
  return client.born === null ? null : ageAt(client.born, date);
}

/** What stays within the stage of a client: `For Heron: goblet squat, or 3 × 8 with 4 in reserve.` */
export function lighterText(name: string, easier: string | null, allowed: 'learn' | 'load'): string {
  const dose = allowed === 'load' ? say('3 × 8 with 4 in reserve') : say('3 × 10 with 5 in reserve');
  return say`For ${name}: ${easier ? `${easier}, ` : ''}${dose}.`;
}
