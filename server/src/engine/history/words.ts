/** What reviews and hovers say of work that was done, in one place. */
import { later, say } from '../../../../grammar/say.js';
import { formatNumber } from '../numbers.js';
import { formatMass, fromKg, type MassUnit } from '../units.js';
import type { SessionState, Work } from './compare.js';
import type { GroupDone, MovementDone } from './done.js';
import type { StrengthVerdict } from './estimates.js';

export const STATE_WORDS: Readonly<Record<SessionState, string>> = {
  done: later('done'),
  partly: later('partly done'),
  skipped: later('skipped'),
  'not-logged': later('not logged'),
  ahead: later('ahead'),
  extra: later('not planned'),
};

export const SUPPORT_WORDS: Readonly<Record<StrengthVerdict['supports'], string>> = {
  more: later('more than the plan takes'),
  same: later('what the plan takes'),
  less: later('less than the plan takes'),
  unsure: later('too few sets since the max to tell'),
};

/** `5 sets, 31 reps, 1,558 kg`: amounts of work, minutes where known. */
export function workWords(work: Work, unit: MassUnit): string {
  const parts = [
    say`${formatNumber(work.sets)} sets`,
    say`${formatNumber(work.reps)} reps`,
    `${formatNumber(fromKg(work.volumeLoadKg, unit), 0)} ${unit}`,
  ];
  if (work.minutes !== null) parts.push(`${formatNumber(work.minutes, 0)} min`);
  return parts.join(', ');
}

/** What was done of one movement: `45 kg: 6 6 6 5, 1 in reserve`, `as planned`, `skipped: knee`. */
export function doneWords(done: MovementDone, unit: MassUnit): string {
  if (done.status === 'not-written') return say('nothing written');
  if (done.status === 'skipped')
    return done.skippedReason === null ? say('skipped') : say`skipped: ${done.skippedReason}`;
  if (done.status === 'as-planned') return say('as planned');
  if (done.insteadOf && done.groups.some(({ asPlanned }) => asPlanned))
    return say('the planned sets, load not written');
  return done.groups.map((group) => groupWords(group, unit)).join('; ');
}

/** `instead of back squat: rack taken`; empty where nothing was swapped on the day. */
export function insteadWords({ insteadOf }: MovementDone): string {
  if (insteadOf === null) return '';
  return say`instead of ${insteadOf.name}${insteadOf.reason === null ? '' : `: ${insteadOf.reason}`}`;
}

function groupWords(group: GroupDone, unit: MassUnit): string {
  const sets = group.sets.map(({ reps, rightReps, seconds, metres }) => {
    if (seconds !== null) return `${formatNumber(seconds)} s`;
    if (metres !== null) return `${formatNumber(metres)} m`;
    return rightReps === null ? formatNumber(reps ?? 0) : `${reps}/${rightReps}`;
  });
  const load = loadWords(group, unit);
  const reserve = group.reserve === null ? '' : say`, ${formatNumber(group.reserve, 1)} in reserve`;
  return `${load === '' ? '' : `${load}: `}${sets.join(' ')}${reserve}`;
}

function loadWords({ loadKg, band, written }: GroupDone, unit: MassUnit): string {
  if (band !== null) return say`band ${band}`;
  if (loadKg === null) return '';
  if (!written?.startsWith('bw')) return formatMass(loadKg, unit);
  return loadKg === 0 ? 'bw' : `bw ${loadKg < 0 ? '−' : '+'} ${formatMass(Math.abs(loadKg), unit)}`;
}

/** `+3`, `−250`, `0`: a difference with its sign. */
export function signed(value: number, decimals = 0): string {
  const text = formatNumber(Math.abs(value), decimals);
  return text === '0' ? '0' : `${value < 0 ? '−' : '+'}${text}`;
}
