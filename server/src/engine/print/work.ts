/** What a resolved cell asks for, in words that a client reads: no codes, her own unit. */

import { say } from '../../../../grammar/say.js';
import type { Client, Kit, LoadIssue, Movement, ResolvedCell, ResolvedGroup } from '../model.js';
import { formatNumber } from '../numbers.js';
import { formatMass, fromKg, type MassUnit } from '../units.js';
import { countWords, durationWords } from './words.js';

/** The work of one set group. */
export interface Work {
  /** `3 × 6`, `4 × 6 to 8`, `6 × 20 s, 100 s easy between`, `8 repetitions` in a circuit. */
  readonly dose: string;
  /** `leave 2 in reserve`; null when nothing is said. */
  readonly effort: string | null;
  /** `45 kg`, `12 kg in each hand`, `body weight`; null when there is none to print. */
  readonly load: string | null;
  /** `each side 10 + 5 kg`, `the bar alone`, `on the 8 kg bar`. */
  readonly plates: string | null;
  /** Plates of one side to draw, heaviest first, and the unit in which they are marked; not there where there are none. */
  readonly side?: { readonly eachSideKg: readonly number[]; readonly unit: MassUnit } | null;
  /** Why it is provisional or why no load is given, in words. */
  readonly note: string | null;
  /** The load has to be chosen on the day: a line to write it on is printed. */
  readonly chooseLoad: boolean;
}

/** The unit in which the pieces of a kit are marked; the client's unit when the kit does not say. */
export function markedUnit(kit: Kit | null, movement: Movement | null, fallback: MassUnit): MassUnit {
  if (!kit || !movement) return fallback;
  const kind = movement.implement.kind;
  for (const line of kit.node.lines) {
    if (line.kind === 'plates' && kind === 'barbell') return stockUnit(line.stock) ?? fallback;
    if (line.kind === 'dumbbells' && (kind === 'dumbbell' || kind === 'dumbbells'))
      return stockUnit(line.stock) ?? fallback;
    if (line.kind === 'kettlebells' && kind === 'kettlebell') return stockUnit(line.stock) ?? fallback;
    if (line.kind === 'pack' && kind === 'pack') return line.by.unit;
    if (
      line.kind === 'machine' &&
      movement.implement.kind === 'machine' &&
      line.name.key === movement.implement.key
    ) {
      return stockUnit(line.stock) ?? fallback;
    }
  }
  return fallback;
}

type Stock = Extract<Kit['node']['lines'][number], { readonly kind: 'plates' }>['stock'];

function stockUnit(stock: Stock): MassUnit | null {
  const first = stock[0];
  if (!first) return null;
  return first.kind === 'range' ? first.from.unit : first.mass.unit;
}

/** A mass in the client's unit, and as the piece is marked where that is another unit. */
function massWords(kg: number, unit: MassUnit, marked: MassUnit): string {
  if (unit === marked) return formatMass(kg, unit);
  return `${formatNumber(fromKg(kg, unit), 1)} ${unit} (${formatMass(kg, marked)})`;
}

/** `3 × 6`; without `sets` (in a circuit the rounds say how often) `6 repetitions`. */
function doseWords(group: ResolvedGroup, sets: number | null, perSide: boolean): string {
  const side = perSide ? say(' each side') : '';
  const times = sets === null ? '' : `${sets} × `;
  if (group.seconds !== null) {
    const between =
      group.offSeconds === null ? '' : say`, ${durationWords(group.offSeconds)} easy after each`;
    return `${times}${durationWords(group.seconds)}${side}${between}`;
  }
  if (group.metres !== null) return `${times}${formatNumber(group.metres)} m${side}`;
  if (group.openReps) return say`${times}as many as you can${side}`;
  if (group.reps === null) return sets === null ? '' : countWords(sets, 'set');
  const range = group.repsUpper !== null && group.repsUpper !== group.reps ? say` to ${group.repsUpper}` : '';
  // "repetitions" is said where the × does not already say it.
  if (sets !== null) return `${times}${group.reps}${range}${side}`;
  const one = group.reps === 1 && range === '';
  return one ? say`${group.reps} repetition${side}` : say`${`${group.reps}${range}`} repetitions${side}`;
}

/** `leave 2 in reserve`, `leave 2 to 3 in reserve` for halves, `to the last good repetition` for none. */
export function reserveWords(reserve: number): string {
  if (reserve <= 0) return say('to the last good repetition');
  const whole = Math.floor(reserve);
  if (whole !== reserve) return say`leave ${whole} to ${whole + 1} in reserve`;
  return say`leave ${whole} in reserve`;
}

function effortWords(group: ResolvedGroup): string | null {
  if (group.writtenReserve !== null) return reserveWords(group.writtenReserve);
  if (group.writtenPercent !== null) return say`${formatNumber(group.writtenPercent, 1)}% of estimated best`;
  return null;
}

/** Why a load is missing, or is not what was asked for, said to the client. */
function issueWords(issue: LoadIssue, reserve: number | null): string | null {
  const choose =
    reserve === null
      ? say('Choose a light load with your coach.')
      : say`Choose a load with your coach that lets you ${reserveWords(reserve)}.`;
  switch (issue) {
    case 'no-max':
      return say`No earlier set to work from. ${choose}`;
    case 'estimate-too-heavy':
      return say`Too heavy to work out from an estimate. ${choose}`;
    case 'beyond-curve':
      return say`Too many repetitions to work a load out. ${choose}`;
    case 'no-mass':
      return say`No body mass known. ${choose}`;
    case 'no-kit':
      return say`No equipment known for this day. ${choose}`;
    case 'kit-lacks':
      return say('Your equipment has nothing for this. Ask your coach.');
    case 'too-light':
      return say('The lightest load here is too heavy for this. Ask your coach.');
    case 'lightest-used':
      return say('The lightest load there is, a little more than asked for.');
    case 'unknown-movement':
      return say('Ask your coach what this is.');
    case 'broken':
      return say('This line of the plan could not be read. Ask your coach.');
  }
}

function barbellPlates(
  group: ResolvedGroup,
  kit: Kit | null,
  marked: MassUnit,
  client: Client,
): string | null {
  if (group.eachSideKg === null) return null;
  const bar = group.bar === null ? null : kit?.model.bars.find(({ name }) => name === group.bar);
  const named = bar ? say`on the ${formatMass(bar.kg, client.units)} bar (${group.bar})` : null;
  if (group.eachSideKg.length === 0) return named ? say`${named}, no plates` : say('the bar alone');
  const plates = group.eachSideKg.map((kg) => formatNumber(fromKg(kg, marked))).join(' + ');
  return say`each side ${plates} ${marked}${named ? `, ${named}` : ''}`;
}

function bodyweightLoad(kg: number | null, unit: MassUnit): string {
  if (kg === null || kg === 0) return say('body weight');
  return kg > 0
    ? say`body weight + ${formatMass(kg, unit)}`
    : say`body weight with ${formatMass(-kg, unit)} of help`;
}

function loadWords(group: ResolvedGroup, cell: ResolvedCell): string | null {
  const { client, movement } = cell;
  const unit = client.units;
  if (group.band !== null) return say`${group.band} band`;
  const kind = movement?.implement.kind ?? null;
  if (kind === 'bodyweight' || group.basis === 'bodyweight') {
    // Nobody needs to be told to take her body along on a walk.
    const timed = group.seconds !== null || group.metres !== null;
    return timed && (group.loadKg ?? 0) === 0 ? null : bodyweightLoad(group.loadKg, unit);
  }
  const kg = group.loadKg;
  if (kg === null) return null;
  if (group.basis === 'pack' || kind === 'pack')
    return kg === 0 ? say('empty pack') : say`pack of ${formatMass(kg, unit)}`;
  const mass = massWords(kg, unit, markedUnit(cell.kit, movement, unit));
  if (kind === 'dumbbells') return say`${mass} in each hand`;
  if (kind === 'dumbbell') return say`${mass} dumbbell`;
  if (kind === 'kettlebell') return say`${mass} kettlebell`;
  return mass;
}

/** The work of one group of a cell in words. */
export function workOf(cell: ResolvedCell, group: ResolvedGroup): Work {
  const { client, kit } = cell;
  const load = loadWords(group, cell);
  const issue = group.issue === null ? null : issueWords(group.issue, group.writtenReserve);
  const provisional = group.provisional && load !== null ? provisionalWords(group.provisionalReason) : null;
  const marked = markedUnit(kit, cell.movement, client.units);
  return {
    dose: doseWords(group, cell.row.circuit === null ? group.sets : null, cell.perSide),
    effort: effortWords(group),
    load,
    plates: load === null ? null : barbellPlates(group, kit, marked, client),
    side:
      load === null || (group.eachSideKg?.length ?? 0) === 0
        ? null
        : { eachSideKg: group.eachSideKg ?? [], unit: marked },
    note: [issue, provisional].filter((text) => text !== null).join(' ') || null,
    chooseLoad: load === null && group.issue !== null,
  };
}

/** The word `provisional` and why, as a sentence. */
function provisionalWords(reason: string | null): string {
  if (reason === null || reason.trim() === '') return say('Provisional.');
  const sentence = reason.trim();
  return say`Provisional: ${sentence}${/[.!?]$/.test(sentence) ? '' : '.'}`;
}

/** More boxes than this leave no room for anything else. */
const MOST_BOXES = 24;

/** Boxes to write in: one a set, in a circuit one a round. */
export function boxCount(group: ResolvedGroup, rounds: number | null): number {
  return Math.min(MOST_BOXES, Math.max(1, group.sets ?? rounds ?? 1));
}
