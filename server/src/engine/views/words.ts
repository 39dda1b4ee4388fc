import { later, said, say } from '../../../../grammar/say.js';
import type { LoadIssue, ResolvedCell, ResolvedGroup } from '../model.js';
import { formatNumber, formatPercent } from '../numbers.js';
import { formatMass, fromKg, type MassUnit } from '../units.js';
import { doseText } from '../words.js';

export { doseText } from '../words.js';

/** The load in the client's unit: `45 kg`, `bw`, `bw + 5 kg`, `band medium`; empty where there is none. */
export function loadText(group: ResolvedGroup, unit: MassUnit): string {
  if (group.band !== null) return say`band ${group.band}`;
  if (group.loadKg === null) return group.basis === 'bodyweight' && group.issue === null ? 'bw' : '';
  if (group.basis !== 'bodyweight')
    return `${group.basis === 'pack' ? say('pack ') : ''}${formatMass(group.loadKg, unit)}`;
  if (group.loadKg === 0) return 'bw';
  return `bw ${group.loadKg < 0 ? '−' : '+'} ${formatMass(Math.abs(group.loadKg), unit)}`;
}

/** Plates of one side, heaviest first, in the client's unit: `10 + 5`; `bare bar` without plates; empty without a bar. */
export function platesText(group: ResolvedGroup, unit: MassUnit): string {
  if (group.eachSideKg === null || group.loadKg === null) return '';
  if (group.eachSideKg.length === 0) return say('bare bar');
  return group.eachSideKg.map((kg) => formatNumber(fromKg(kg, unit), 2)).join(' + ');
}

/** Predicted reserve to one decimal, `> 12` where the curve cannot tell; empty where none is known. */
export function reserveText(group: ResolvedGroup): string {
  if (group.reserve === null) return '';
  return `${group.reserveBeyond ? '> ' : ''}${formatNumber(group.reserve, 1)}`;
}

/** Share of the estimated one-repetition maximum: `78.9 %`; empty where none is known. */
export function shareText(group: ResolvedGroup): string {
  return group.share === null ? '' : formatPercent(group.share, 1);
}

const ISSUES: Readonly<Record<LoadIssue, string>> = {
  'no-max': later('no max is written for this movement, and nothing to estimate it from'),
  'estimate-too-heavy': later('only an estimate is known, and heavy work is never set from an estimate'),
  'beyond-curve': later('more repetitions than the curve can tell a load for'),
  'no-mass': later('no body mass is written for this client'),
  'no-kit': later('no kit is written for this day'),
  'kit-lacks': later('the kit has nothing to load this movement with'),
  'too-light': later('even the lightest load of the kit is heavier than the target'),
  'lightest-used': later('the lightest load of the kit is used; it is above the target'),
  'unknown-movement': later('this movement is not described anywhere'),
  broken: later('a mistake in this row has to be put right first'),
};

/** Why a group has no load, or no better one, in plain words. */
export function issueText(issue: LoadIssue): string {
  return said(ISSUES[issue]);
}

/** One group in one phrase: `3 × 6 at 45 kg (10 + 5 each side), 2.6 in reserve, 78.9 % of the max`. */
export function groupText(group: ResolvedGroup, unit: MassUnit): string {
  const load = loadText(group, unit);
  const plates = platesText(group, unit);
  const reserve = reserveText(group);
  const share = shareText(group);
  const parts = [
    [doseText(group), load === '' ? '' : say`at ${load}`, plates === '' ? '' : platesPhrase(group, plates)]
      .filter((part) => part !== '')
      .join(' '),
    reserve === '' ? '' : say`${reserve} in reserve`,
    share === '' ? '' : say`${share} of the max`,
    provisionalText(group),
    group.issue === null ? '' : issueText(group.issue),
  ];
  return parts.filter((part) => part !== '').join(', ');
}

function provisionalText({ provisional, provisionalReason }: ResolvedGroup): string {
  if (!provisional) return '';
  return provisionalReason === null ? say('provisional') : say`provisional: ${provisionalReason}`;
}

function platesPhrase(group: ResolvedGroup, plates: string): string {
  const { bar } = group;
  const side = group.eachSideKg?.length === 0 ? plates : say`${plates} each side`;
  return bar === null ? `(${side})` : say`(${bar} bar, ${side})`;
}

/** All groups of a cell in one line. */
export function cellText(cell: ResolvedCell): string {
  return cell.groups.map((group) => groupText(group, cell.client.units)).join('; ');
}
