import { say } from '../../../../grammar/say.js';
import { BAND_DEVIATIONS, errorOf } from '../history/estimates.js';
import type {
  Client,
  MaxUse,
  Place,
  ReasonKind,
  ReasonStep,
  ResolvedCell,
  ResolvedGroup,
  World,
} from '../model.js';
import { formatNumber, formatPercent, roundTo } from '../numbers.js';
import { formatMass } from '../units.js';
import { isBodyweight } from './addedLoad.js';
import {
  basisKg,
  type GroupInput,
  growsWithLike,
  known,
  liftedBodyKg,
  lowerReps,
  targetOf,
} from './group.js';
import { retrace } from './plan.js';
import type { GroupState } from './rowState.js';
import { curveOn, massOn, type Strength } from './strength.js';

/** The chain of reasons of one set group: max, formula, share, changes, target, kit, load, prediction. */
export function reasonsOf(cell: ResolvedCell, group: number, world: World): readonly ReasonStep[] {
  const follows = cell.client.follows.findLast(
    (line) => line.program === cell.program.key && line.from <= cell.date,
  );
  if (!follows || !cell.movement) return [];
  const steps: ReasonStep[] = [];
  retrace(cell, follows, world, (index, input, result, notes) => {
    if (index === group) steps.push(...explain(cell, input, result, notes));
  });
  return steps;
}

function explain(
  cell: ResolvedCell,
  input: GroupInput,
  result: ResolvedGroup,
  notes: readonly string[],
): ReasonStep[] {
  const { client, movement } = input;
  const kg = (value: number) => formatMass(value, client.units);
  const steps: ReasonStep[] = [];
  const add = (kind: ReasonKind, text: string, more: Partial<ReasonStep> = {}) =>
    steps.push(step(kind, text, more));
  const written = cell.place;
  if (cell.swap) {
    const why = cell.swap.reason ? ` (${cell.swap.reason})` : '';
    const text = say`${movement.name} in the place of ${cell.row.movementName.text}${why}.`;
    add('swap', text, { value: movement.name, place: cell.swap.place });
  }
  const strength = known(input.strength);
  const usesMax = result.share !== null || result.basis === 'reserve' || result.basis === 'percent';
  if (strength && usesMax) {
    const { entry } = strength.use;
    const value = entry.bodyweight ? null : `${kg(entry.loadKg)} × ${entry.reps}`;
    add('max', maxText(client, strength.use), { value, place: entry.place });
    add('formula', formulaText(input, strength.use), {
      value: kg(ownOneRepMaxKg(strength)),
      source: input.curve.source,
      place: client.curves.findLast(({ value: name }) => name === input.curve.name)?.place ?? null,
    });
    if (input.curve !== curveOn(client, input.date)) {
      add(
        'formula',
        say(
          'So few reps lie far from a max of many: of all curves, the one that gives the lowest load is used.',
        ),
        { source: commonPractice() },
      );
    }
    const error = errorOfMax(input, strength);
    if (error !== null)
      add('error', errorText(input, strength, result, error), {
        value: `± ${kg(roundTo(error, 1))}`,
        source: ERROR_SOURCE,
      });
    for (const estimated of strength.estimatedThrough) {
      const share = formatPercent(estimated.estimate?.share ?? 1);
      add(
        'estimate',
        say`No max of its own: ${estimated.name} is taken as ${share} of that, an estimate only.`,
        { value: share, place: estimated.place, source: estimated.place ? null : commonPractice() },
      );
    }
    if (strength.estimatedThrough.length > 0) {
      const ownMax = kg(strength.estimatedOneRepMaxKg);
      add('estimate', say`e1RM of ${movement.name}: ${ownMax}.`, { value: ownMax });
    }
  }
  if (!strength && usesMax && result.loadKg === null) add('missing', missingText(input));
  if (cell.deload)
    add(
      'deload',
      say(
        'Deload week: 40 % fewer sets and two more in reserve (without a written reserve, 10 % less load).',
      ),
      { place: cell.block.place, source: DELOAD_SOURCE },
    );
  const basis = basisOf(input);
  if (basis) add('share', basis.text, { value: basis.value, source: basis.source, place: written });
  steps.push(...changeSteps(cell, input));
  for (const note of notes) add('note', note, { place: written });
  const target = targetOf(input).totalKg;
  if (target !== null && result.basis !== 'bodyweight') {
    const bodyKg = isBodyweight(movement) ? (liftedBodyKg(client, movement, input.date) ?? 0) : 0;
    if (bodyKg > 0) {
      const mass = massOn(client, input.date) ?? 0;
      const onTop = kg(target - bodyKg);
      add(
        'target',
        say`${formatPercent(movement.liftsShare ?? 0)} of ${kg(mass)} body mass is ${kg(bodyKg)}: ${onTop} on top would meet the target.`,
        { value: onTop, place: client.masses.findLast(({ kg: own }) => own === mass)?.place ?? null },
      );
    } else add('target', say`Target: ${kg(target)}.`, { value: kg(target) });
  }
  const lines = result.basis === 'none' ? [written] : kitPlaces(cell);
  add('load', loadText(cell, result, kg), {
    value: result.loadKg === null ? (result.band ?? null) : kg(result.loadKg),
    place: lines[0] ?? null,
    more: lines.slice(1),
    source: result.loadKg === null || input.kit === null ? null : commonPractice(),
  });
  if (result.reserve !== null && result.share !== null) {
    const more = result.reserveBeyond ? say('more than ') : '';
    const left = formatNumber(result.reserve, 1);
    add(
      'left',
      say`That is ${formatPercent(result.share)} of the e1RM, with ${more}${left} reps predicted in reserve.`,
      { value: say`${more}${left} left`, source: input.curve.source },
    );
  }
  if (result.provisionalReason)
    add('provisional', say`Provisional: ${result.provisionalReason}.`, {
      place: result.max?.entry.place ?? null,
      source: commonPractice(),
    });
  return steps;
}

/** People's errors first, then those of the curves; both as they are cited where the numbers stand. */
const ERROR_SOURCE =
  'Halperin et al. Sports Med 2022;52(2):377-390; Kemmler WK et al. J Strength Cond Res 2006;20(4)';
/** That athletes do fewer sets and leave more in reserve; the amounts are common practice. */
const DELOAD_SOURCE = 'Rogerson et al. Sports Med Open 2024;10:26';

function commonPractice(): string {
  return say('common practice, no source');
}

function step(kind: ReasonKind, text: string, more: Partial<ReasonStep> = {}): ReasonStep {
  return { kind, text, value: null, place: null, more: [], source: null, ...more };
}

/** The lines of the kit that say what can be loaded, else its first line. */
function kitPlaces({ kit, movement }: ResolvedCell): readonly Place[] {
  if (!kit) return [];
  const kinds: Readonly<Record<string, readonly string[]>> = {
    barbell: ['bar', 'plates'],
    dumbbell: ['dumbbells'],
    dumbbells: ['dumbbells'],
    kettlebell: ['kettlebells'],
    pack: ['pack'],
    band: ['bands'],
    machine: ['machine'],
  };
  const implement = movement?.implement;
  const wanted = kinds[implement?.kind ?? ''] ?? [];
  const lines = kit.node.lines.filter(
    (line) =>
      wanted.includes(line.kind) &&
      (line.kind !== 'machine' || implement?.kind !== 'machine' || line.name.key === implement.key),
  );
  const places = lines.map(({ span }) => ({ file: kit.place.file, span }));
  return places.length > 0 ? places : [kit.place];
}

function maxText(client: Client, { entry, repsToFailure }: MaxUse): string {
  const added =
    entry.loadKg === 0
      ? ''
      : ` ${entry.loadKg > 0 ? '+' : '−'} ${formatMass(Math.abs(entry.loadKg), client.units)}`;
  const load = entry.bodyweight ? say`bodyweight${added}` : formatMass(entry.loadKg, client.units);
  const left = entry.reserve === 0 ? '' : say` with ${formatNumber(entry.reserve)} in reserve`;
  const day = entry.from === null ? entry.date : say`${entry.date}, counted from ${entry.from} on`;
  const reps =
    repsToFailure === 1
      ? say('a single, which is the maximum itself')
      : say`${formatNumber(repsToFailure)} reps to failure`;
  return say`Max: ${entry.movementName.text}, ${load} × ${entry.reps}${left} on ${day}, so ${reps}.`;
}

/** e1RM of the movement that the max is of, before an estimate for another one. */
function ownOneRepMaxKg({ use, estimatedThrough, estimatedOneRepMaxKg }: Strength): number {
  if (use.kind !== 'estimate') return estimatedOneRepMaxKg;
  const through = estimatedThrough.reduce((share, movement) => share * (movement.estimate?.share ?? 1), 1);
  return estimatedOneRepMaxKg / through;
}

function formulaText(input: GroupInput, { repsToFailure }: MaxUse): string {
  const strength = known(input.strength);
  if (!strength) return '';
  const share = input.curve.share(repsToFailure);
  return say`${input.curve.title}: ${formatNumber(repsToFailure)} reps are ${formatPercent(share)} of the maximum, so the e1RM is ${formatMass(ownOneRepMaxKg(strength), input.client.units)}.`;
}

/** How far the estimate may be off, in kilograms; null where nothing is estimated, or already marked as an estimate. */
function errorOfMax(input: GroupInput, strength: Strength): number | null {
  const { entry, repsToFailure, kind } = strength.use;
  if (kind === 'estimate' || repsToFailure <= 1) return null;
  return BAND_DEVIATIONS * errorOf(strength.estimatedOneRepMaxKg, entry.reps, entry.reserve, input.curve);
}

/** The same in words, and what it means for the reps that are really left. */
function errorText(input: GroupInput, strength: Strength, result: ResolvedGroup, errorKg: number): string {
  const e1rmKg = strength.estimatedOneRepMaxKg;
  const band = say`Give or take ${formatMass(roundTo(errorKg, 1), input.client.units)} (people tell their reserve about one rep off, Halperin 2022; curves err too, Kemmler 2006)`;
  if (result.share === null || result.reps === null) return `${band}.`;
  const left = (oneRepMaxKg: number) =>
    (input.curve.reps((result.share as number) * (e1rmKg / oneRepMaxKg)) ?? Number.NaN) -
    (result.reps as number);
  const [few, many] = [left(e1rmKg - errorKg), left(e1rmKg + errorKg)];
  if (!Number.isFinite(few) || !Number.isFinite(many)) return `${band}.`;
  return say`${band}: the load below may leave ${formatNumber(Math.max(0, few), 1)} to ${formatNumber(many, 1)} reps.`;
}

function missingText({ strength, movement }: GroupInput): string {
  if ('missing' in strength && strength.missing === 'no-mass')
    return say`No body mass is written, and ${movement.name} lifts a share of it.`;
  if ('missing' in strength && strength.missing === 'beyond-curve')
    return say`The max of ${movement.name} comes from more reps than the curve covers.`;
  return say`No max of ${movement.name} is known before this day.`;
}

interface Basis {
  readonly text: string;
  readonly value: string | null;
  readonly source: string | null;
}

function basisOf(input: GroupInput): Basis | null {
  const { state, client, before } = input;
  const kg = (value: number) => formatMass(value, client.units);
  const stated = (text: string, value: string | null, source: string | null = null): Basis => ({
    text,
    value,
    source,
  });
  if (state.relation && before) return stated(relationText(state, before, kg), null);
  const { totalKg } = basisKg(input);
  const reps = lowerReps(state);
  const { basis } = state;
  switch (basis.kind) {
    case 'reserve': {
      if (reps === null) return null;
      const n = reps + (state.reserve ?? 0);
      const asked = say`${reps} reps with ${formatNumber(state.reserve ?? 0)} in reserve are ${formatNumber(n)} to failure`;
      if (totalKg === null) return stated(`${asked}.`, null);
      const share = formatPercent(input.curve.share(n));
      return stated(say`${asked}: ${share} of the e1RM, ${kg(totalKg)}.`, share, input.curve.source);
    }
    case 'percent': {
      const share = `${formatNumber(basis.percent)} %`;
      if (totalKg === null) return stated(say`Written: ${formatNumber(basis.percent)} % of the e1RM.`, share);
      const text = say`Written: ${formatNumber(basis.percent)} % of the e1RM, ${kg(totalKg)}.`;
      return stated(text, share);
    }
    case 'load':
      return stated(say`Written: ${kg(basis.kg)}.`, kg(basis.kg));
    case 'pack':
      return stated(say`Written: a pack of ${kg(basis.kg)}.`, kg(basis.kg));
    case 'band':
      return stated(say`Written: the ${basis.band} band.`, basis.band);
    case 'bodyweight': {
      if (basis.addedKg === null) return stated(say('Written: bodyweight.'), null);
      const added = `${basis.addedKg < 0 ? '−' : '+'} ${kg(Math.abs(basis.addedKg))}`;
      return stated(say`Written: bodyweight ${added}.`, added);
    }
    case 'none':
      return null;
  }
}

function relationText(state: GroupState, before: ResolvedGroup, kg: (value: number) => string): string {
  const { relation } = state;
  if (relation?.kind === 'percent') {
    const from =
      before.targetKg === null
        ? say('the target of the group before')
        : say`${kg(before.targetKg)}, the target of the group before`;
    const percent = formatNumber(Math.abs(relation.percent));
    return relation.percent < 0 ? say`${percent} % below ${from}.` : say`${percent} % above ${from}.`;
  }
  if (relation?.kind !== 'mass') return say('One step from the load of the group before.');
  const mass = kg(Math.abs(relation.kg));
  return relation.kg < 0
    ? say`${mass} below the load of the group before.`
    : say`${mass} above the load of the group before.`;
}

function changeSteps(cell: ResolvedCell, input: GroupInput): ReasonStep[] {
  const { state, client } = input;
  const steps: ReasonStep[] = [];
  if (state.relation) return steps;
  const add = (text: string, value: string, place: Place | null = cell.place, source: string | null = null) =>
    steps.push(step('change', text, { value, place, source }));
  if (growsWithLike(state) && state.likeFactor !== 1) {
    const percent = signed((state.likeFactor - 1) * 100);
    add(say`${percent} % for the whole block, as its first line says.`, `${percent} %`, cell.block.place);
  }
  if (Math.abs(state.factor - 1) > 1e-12) {
    const percent = signed((state.factor - 1) * 100);
    add(say`${percent} % from the changes written so far.`, `${percent} %`);
  }
  if (Math.abs(state.offsetKg) > 1e-9) {
    const mass = formatMass(Math.abs(state.offsetKg), client.units);
    add(
      state.offsetKg < 0
        ? say`${mass} less, from the kilogram changes written so far.`
        : say`${mass} more, from the kilogram changes written so far.`,
      `${state.offsetKg < 0 ? '−' : '+'}${mass}`,
    );
  }
  if (state.deloadShare !== 1) {
    const share = formatPercent(state.deloadShare);
    add(say`Deload: × ${share}.`, `× ${share}`, cell.block.place, DELOAD_SOURCE);
  }
  if (input.backShare !== 1) {
    const away = client.aways.findLast((absence) => absence.to < cell.date);
    const share = formatPercent(input.backShare);
    add(say`Back from an absence: × ${share}.`, `× ${share}`, away?.place ?? null);
  }
  return steps;
}

function signed(percent: number): string {
  return `${percent < 0 ? '−' : '+'}${formatNumber(Math.abs(percent), 2)}`;
}

function loadText(cell: ResolvedCell, result: ResolvedGroup, kg: (value: number) => string): string {
  const kit = cell.kit?.name ?? say('no kit');
  switch (result.issue) {
    case 'no-max':
    case 'no-mass':
    case 'beyond-curve':
      return say('So no load can be worked out: only reps and reserve are printed.');
    case 'estimate-too-heavy':
      return say('This is heavy work, and an estimate is never used for heavy work: no load is given.');
    case 'no-kit':
      return say('She has no kit on this day, so no load is given.');
    case 'kit-lacks':
      return say`${kit} has nothing to load this with, so no load is given.`;
    case 'too-light':
      return say`Even the lightest that ${kit} has is too heavy, so no load is given.`;
    case 'unknown-movement':
    case 'broken':
      return say('The line holds a mistake, so nothing is worked out from it.');
    case 'lightest-used':
    case null:
      break;
  }
  const light = result.issue === 'lightest-used' ? say(', its lightest, a little above the target') : '';
  if (result.band !== null) return say`${kit} has the ${result.band} band.`;
  if (result.loadKg === null)
    return result.basis === 'none' ? say('No effort or load is written.') : say`Bodyweight${light}.`;
  if (result.loadKg < 0) return say`${kit} can take ${kg(-result.loadKg)} off.`;
  const rounding = cell.client.rounding === 'down' ? say('rounded down') : say('the nearest');
  if (result.eachSideKg === null) return say`${kit} has ${kg(result.loadKg)}${light || ` (${rounding})`}.`;
  const plates =
    result.eachSideKg.length === 0
      ? say('the bare bar')
      : say`${result.eachSideKg.map((plate) => kg(plate)).join(' + ')} on each side`;
  const bar = result.bar === null ? '' : say` of the ${result.bar} bar`;
  return say`${kit} makes ${kg(result.loadKg)}: ${plates}${bar}${light || ` (${rounding})`}.`;
}
