import { say } from '../../../../grammar/say.js';
import { BAND_DEVIATIONS, errorOf } from '../history/estimates.js';
import type { Client, MaxUse, ReasonStep, ResolvedCell, ResolvedGroup, World } from '../model.js';
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
  const add = (text: string, place: ReasonStep['place'] = null) => steps.push({ text, place });
  if (cell.swap) {
    const why = cell.swap.reason ? ` (${cell.swap.reason})` : '';
    add(say`${movement.name} in the place of ${cell.row.movementName.text}${why}.`, cell.swap.place);
  }
  const strength = known(input.strength);
  const usesMax = result.share !== null || result.basis === 'reserve' || result.basis === 'percent';
  if (strength && usesMax) {
    add(maxText(client, strength.use), strength.use.entry.place);
    add(formulaText(input, strength.use));
    if (input.curve !== curveOn(client, input.date)) {
      add(
        say(
          'So few reps lie far from a max of many: of all curves, the one that gives the lowest load is used.',
        ),
      );
    }
    const error = errorText(input, strength, result);
    if (error) add(error);
    for (const estimated of strength.estimatedThrough) {
      const share = formatPercent(estimated.estimate?.share ?? 1);
      add(
        say`No max of its own: ${estimated.name} is taken as ${share} of that, an estimate only.`,
        estimated.place,
      );
    }
    if (strength.estimatedThrough.length > 0)
      add(say`e1RM of ${movement.name}: ${kg(strength.estimatedOneRepMaxKg)}.`);
  }
  if (!strength && usesMax && result.loadKg === null) add(missingText(input));
  if (cell.deload)
    add(
      say(
        'Deload week: 40 % fewer sets and two more in reserve (without a written reserve, 10 % less load).',
      ),
      cell.place,
    );
  const basis = basisText(input);
  if (basis) add(basis, cell.place);
  steps.push(...changeSteps(cell, input));
  for (const note of notes) add(note, cell.place);
  const target = targetOf(input).totalKg;
  if (target !== null && result.basis !== 'bodyweight') {
    const bodyKg = isBodyweight(movement) ? (liftedBodyKg(client, movement, input.date) ?? 0) : 0;
    if (bodyKg > 0) {
      const mass = massOn(client, input.date) ?? 0;
      add(
        say`${formatPercent(movement.liftsShare ?? 0)} of ${kg(mass)} body mass is ${kg(bodyKg)}: ${kg(target - bodyKg)} on top would meet the target.`,
      );
    } else add(say`Target: ${kg(target)}.`);
  }
  add(loadText(cell, result, kg), cell.kit?.place ?? null);
  if (result.reserve !== null && result.share !== null) {
    const more = result.reserveBeyond ? say('more than ') : '';
    add(
      say`That is ${formatPercent(result.share)} of the e1RM, with ${more}${formatNumber(result.reserve, 1)} reps predicted in reserve.`,
    );
  }
  if (result.provisionalReason)
    add(say`Provisional: ${result.provisionalReason}.`, result.max?.entry.place ?? null);
  return steps;
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

function formulaText(input: GroupInput, { repsToFailure, kind }: MaxUse): string {
  const strength = known(input.strength);
  if (!strength) return '';
  const through = strength.estimatedThrough.reduce(
    (share, movement) => share * (movement.estimate?.share ?? 1),
    1,
  );
  const oneRepMaxKg = strength.estimatedOneRepMaxKg / (kind === 'estimate' ? through : 1);
  const share = input.curve.share(repsToFailure);
  return say`${input.curve.title}: ${formatNumber(repsToFailure)} reps are ${formatPercent(share)} of the maximum, so the e1RM is ${formatMass(oneRepMaxKg, input.client.units)}.`;
}

/** How far the estimate may be off, and what that means for the reps that are really left. */
function errorText(input: GroupInput, strength: Strength, result: ResolvedGroup): string | null {
  const { entry, repsToFailure, kind } = strength.use;
  if (kind === 'estimate' || repsToFailure <= 1) return null;
  const e1rmKg = strength.estimatedOneRepMaxKg;
  const errorKg = BAND_DEVIATIONS * errorOf(e1rmKg, entry.reps, entry.reserve, input.curve);
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

function basisText(input: GroupInput): string | null {
  const { state, client, before } = input;
  const kg = (value: number) => formatMass(value, client.units);
  if (state.relation && before) return relationText(state, before, kg);
  const { totalKg } = basisKg(input);
  const reps = lowerReps(state);
  switch (state.basis.kind) {
    case 'reserve': {
      if (reps === null) return null;
      const n = reps + (state.reserve ?? 0);
      const asked = say`${reps} reps with ${formatNumber(state.reserve ?? 0)} in reserve are ${formatNumber(n)} to failure`;
      if (totalKg === null) return `${asked}.`;
      return say`${asked}: ${formatPercent(input.curve.share(n))} of the e1RM, ${kg(totalKg)}.`;
    }
    case 'percent':
      return totalKg === null
        ? say`Written: ${formatNumber(state.basis.percent)} % of the e1RM.`
        : say`Written: ${formatNumber(state.basis.percent)} % of the e1RM, ${kg(totalKg)}.`;
    case 'load':
      return say`Written: ${kg(state.basis.kg)}.`;
    case 'pack':
      return say`Written: a pack of ${kg(state.basis.kg)}.`;
    case 'band':
      return say`Written: the ${state.basis.band} band.`;
    case 'bodyweight':
      return state.basis.addedKg === null
        ? say('Written: bodyweight.')
        : say`Written: bodyweight ${state.basis.addedKg < 0 ? '−' : '+'} ${kg(Math.abs(state.basis.addedKg))}.`;
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
  const add = (text: string, place: ReasonStep['place'] = cell.place) => steps.push({ text, place });
  if (state.relation) return steps;
  if (growsWithLike(state) && state.likeFactor !== 1) {
    add(
      say`${signed((state.likeFactor - 1) * 100)} % for the whole block, as its first line says.`,
      cell.block.place,
    );
  }
  if (Math.abs(state.factor - 1) > 1e-12)
    add(say`${signed((state.factor - 1) * 100)} % from the changes written so far.`);
  if (Math.abs(state.offsetKg) > 1e-9) {
    const mass = formatMass(Math.abs(state.offsetKg), client.units);
    add(
      state.offsetKg < 0
        ? say`${mass} less, from the kilogram changes written so far.`
        : say`${mass} more, from the kilogram changes written so far.`,
    );
  }
  if (state.deloadShare !== 1) add(say`Deload: × ${formatPercent(state.deloadShare)}.`);
  if (input.backShare !== 1) {
    const away = client.aways.findLast((absence) => absence.to < cell.date);
    add(say`Back from an absence: × ${formatPercent(input.backShare)}.`, away?.place ?? null);
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
