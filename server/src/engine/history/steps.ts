/** The next load and the step back, row by row, from the last two sessions in which the row was logged. */
import { later, said, say } from '../../../../grammar/say.js';
import { addDays } from '../dates.js';
import { nextLoad } from '../kit.js';
import type { Client, IsoDate, Movement, ResolvedCell, ResolvedGroup } from '../model.js';
import { formatNumber } from '../numbers.js';
import { DEFAULT_LIMITS } from '../resolve/limits.js';
import { strengthOn } from '../resolve/strength.js';
import { lifted, sameLoad } from '../rules/shared/loads.js';
import { formatMass } from '../units.js';
import { type GroupDone, type MovementDone, weakerReps } from './done.js';
import type { MeasuredSet } from './estimates.js';
import { countsFrom, maxLine, strengthOfSet, underMaxes } from './maxLine.js';
import type { Offer, OfferInput } from './offers.js';

/** NSCA: two or more repetitions over the goal in the last set, in two sessions one after the other. */
const NSCA_OVER = 2;
/** ACSM 2009: one or two repetitions over the target on two sessions one after the other, then 2 to 10 % more. */
const ACSM_OVER = 1;
const ACSM_MOST_SHARE = 0.1;
const ACSM_LEAST_SHARE = 0.02;
/** A reserve that is a whole repetition under the plan counts. Common practice, no source. */
const RESERVE_UNDER = 1;

const NSCA_SOURCE =
  '2-for-2 rule: NSCA, Baechle & Earle, Essentials of Strength Training and Conditioning, 2008 (two reps over the goal in the last set of two consecutive workouts).';
const ACSM_SOURCE =
  'ACSM position stand, Ratamess et al., Med Sci Sports Exerc 2009;41(3):687-708: 2-10 % more when 1-2 reps over the target are done on two consecutive sessions.';
const BACK_SOURCE = later('Common practice, no source.');

/** One row in one session: the first group as planned and as done. */
interface Turn {
  /** Day on which it was done. */
  readonly date: IsoDate;
  readonly cell: ResolvedCell;
  readonly planned: ResolvedGroup;
  readonly done: GroupDone;
  readonly each: MovementDone;
}

/** Offers of the next load and of a step back. At most one for each row. */
export function stepOffers(input: OfferInput): readonly Offer[] {
  const offers: Offer[] = [];
  for (const turns of lastTurns(input)) {
    const [before, last] = turns;
    if (!before || !last) continue;
    const offer = backOffer(input, before, last) ?? nextOffer(input, before, last);
    if (offer) offers.push(offer);
  }
  return offers;
}

/** The last two logged working sessions of each row; a row that was skipped or swapped or is not in the newest ones counts not. */
function lastTurns({ done, today }: OfferInput): readonly (readonly Turn[])[] {
  // What lies further back says nothing of the next session.
  const since = addDays(today, -DEFAULT_LIMITS.staleDays);
  const byRow = new Map<string, (Turn | null)[]>();
  for (const session of done) {
    if (session.date > today || session.date < since) continue;
    for (const each of session.movements) {
      const { cell } = each;
      const planned = cell?.groups[0];
      if (
        !cell ||
        !planned ||
        cell.deload ||
        cell.test ||
        each.insteadOf !== null ||
        each.status === 'not-written' ||
        each.status === 'skipped'
      )
        continue;
      const key = JSON.stringify([cell.program.key, cell.day.key, cell.row.key, each.key]);
      const group = each.groups[0];
      const turn =
        group && !group.asPlanned ? { date: session.date, cell, planned, done: group, each } : null;
      byRow.set(key, [...(byRow.get(key) ?? []).slice(-1), turn]);
    }
  }
  // A session that went as planned breaks the two in a row.
  return [...byRow.values()]
    .map((turns) => turns.filter((turn) => turn !== null))
    .filter((turns) => turns.length === 2);
}

function lastReps(turn: Turn): number | null {
  const last = turn.done.sets[turn.done.sets.length - 1];
  return last ? weakerReps(last) : null;
}

function overGoal(turn: Turn): number | null {
  const goal = turn.planned.repsUpper ?? turn.planned.reps;
  const reps = lastReps(turn);
  const allSets = turn.done.sets.length >= (turn.planned.sets ?? 1);
  return goal === null || reps === null || !allSets || turn.planned.openReps ? null : reps - goal;
}

function atLeastPlanned(turn: Turn): boolean {
  if (turn.planned.loadKg === null || turn.done.loadKg === null) return false;
  return turn.done.loadKg >= turn.planned.loadKg - 1e-6;
}

function nextOffer(input: OfferInput, before: Turn, last: Turn): Offer | null {
  const over = Math.min(overGoal(before) ?? 0, overGoal(last) ?? 0);
  const { loadKg } = last.done;
  const { movement, cell } = { movement: last.each.movement, cell: last.cell };
  if (over < ACSM_OVER || loadKg === null || before.done.loadKg === null || !movement || !cell.kit)
    return null;
  if (!sameLoad(before.done.loadKg, loadKg) || !atLeastPlanned(before) || !atLeastPlanned(last)) return null;
  // A reserve under the plan says that the repetitions were bought with effort.
  if (reserveUnder(last) > 0 || reserveUnder(before) > 0) return null;
  const next = nextLoad(cell.kit.model, movement.implement, loadKg, 'up');
  if (next === null) return null;
  const { client } = input.plan;
  const nsca = over >= NSCA_OVER;
  const total = lifted({ ...last.planned, loadKg }) ?? loadKg;
  const share = (next - loadKg) / (movement.liftsShare === null ? loadKg : Math.max(total, 1));
  const percent = `${formatNumber(share * 100, 1)} %`;
  const wide =
    share > ACSM_MOST_SHARE
      ? say`That is ${percent} more, over the 10 % of the ACSM: more repetitions first.`
      : '';
  const small =
    share < ACSM_LEAST_SHARE
      ? say`That is ${percent}, under the 2 % of the ACSM, which is the careful side.`
      : '';
  const step = wide || small || say`That is ${percent} more.`;
  if (share > ACSM_MOST_SHARE && !nsca) return null;
  const coming = comingCell(input, last);
  // The plan goes there by itself.
  if ((coming?.groups[0]?.loadKg ?? -Infinity) >= next - 1e-6) return null;
  return {
    kind: 'next-load',
    about: movement.key,
    title: say`${client.name}: ${movement.name} is ready for ${formatMass(next, client.units)}`,
    why: say`The last set went ${formatNumber(over)} or more reps over the goal on ${before.date} and ${last.date} at ${formatMass(loadKg, client.units)}. ${step}`,
    source: nsca ? NSCA_SOURCE : ACSM_SOURCE,
    rests: restsOf(before, last),
    ...written(input, last, coming, next, 'more'),
    under: underMaxes(client, movement.key),
  };
}

function missed(turn: Turn): boolean {
  const goal = turn.planned.reps;
  if (goal === null || turn.planned.loadKg === null) return false;
  // Fewer repetitions at more load than planned are no miss.
  if (moreThanPlanned(turn)) return false;
  return (
    turn.done.sets.some((set) => (weakerReps(set) ?? goal) < goal) ||
    turn.done.sets.length < (turn.planned.sets ?? 1)
  );
}

function moreThanPlanned({ planned, done }: Turn): boolean {
  return planned.loadKg !== null && done.loadKg !== null && done.loadKg > planned.loadKg + 1e-6;
}

/** Repetitions by which the told reserve lies under the written one; 0 where one of them is not known. */
function reserveUnder(turn: Turn): number {
  const { writtenReserve } = turn.planned;
  if (writtenReserve === null || turn.done.reserve === null) return 0;
  return Math.max(0, writtenReserve - turn.done.reserve);
}

function backOffer(input: OfferInput, before: Turn, last: Turn): Offer | null {
  const movement = last.each.movement;
  if (!movement) return null;
  const repsMissed = missed(before) && missed(last);
  const low = [before, last].every((turn) => reserveUnder(turn) >= RESERVE_UNDER && !moreThanPlanned(turn));
  if (!repsMissed && !low) return null;
  const { client } = input.plan;
  const coming = comingCell(input, last);
  const loadKg = last.done.loadKg ?? last.planned.loadKg;
  const less =
    loadKg === null || !last.cell.kit
      ? null
      : nextLoad(last.cell.kit.model, movement.implement, loadKg, 'down');
  if (less !== null && (coming?.groups[0]?.loadKg ?? Infinity) <= less + 1e-6) return null;
  const what = repsMissed
    ? say('Reps were missed')
    : say`The reserve was ${formatNumber(Math.min(reserveUnder(before), reserveUnder(last)), 1)} or more under the plan`;
  const to = less === null ? say('fewer reps or the easier movement') : formatMass(less, client.units);
  return {
    kind: 'step-back',
    about: movement.key,
    title: say`${client.name}: ${movement.name} steps back to ${to}`,
    why: say`${what} on ${before.date} and on ${last.date}. Ask about sleep, pain and illness before the next session.`,
    source: said(BACK_SOURCE),
    rests: restsOf(before, last),
    ...written(input, last, coming, less, 'less'),
    under: underMaxes(client, movement.key),
  };
}

/** The next working session of the row that is not over: what an offer would change. */
function comingCell({ plan, done, today }: OfferInput, { date, cell }: Turn): ResolvedCell | null {
  const logged = new Set(done.flatMap(({ session }) => session ?? []));
  for (const session of plan.sessions) {
    if (session.date <= date || session.date < today || logged.has(session)) continue;
    const found = session.cells.find(
      (each) =>
        each.program.key === cell.program.key &&
        each.day.key === cell.day.key &&
        each.row.key === cell.row.key &&
        each.movement?.key === cell.movement?.key &&
        !each.deload &&
        !each.test,
    );
    if (found) return found;
  }
  return null;
}

/** A fixed load is changed in its row, as no max moves it; all others follow the set that was done as a max line. */
function written(
  input: OfferInput,
  last: Turn,
  coming: ResolvedCell | null,
  loadKg: number | null,
  direction: 'more' | 'less',
): Pick<Offer, 'line' | 'next'> {
  if ((coming ?? last.cell).groups[0]?.basis !== 'load')
    return { line: lineFrom(input, last, direction), next: null };
  return { line: null, next: coming && loadKg !== null ? { cell: coming, loadKg } : null };
}

function restsOf(before: Turn, last: Turn) {
  return [before, last].map((turn) => ({
    place: turn.done.place,
    message: say`${turn.date}: ${setsText(turn.done)} done; planned ${formatNumber(turn.planned.sets ?? 1)} × ${formatNumber(turn.planned.reps ?? 0)}.`,
  }));
}

function setsText(done: GroupDone): string {
  const sets = done.sets.map((set) => formatNumber(set.reps ?? 0)).join(' ');
  return done.reserve === null ? sets : say`${sets} with ${formatNumber(done.reserve, 1)} in reserve`;
}

/** The last set as a max line, where it moves the plan in the right direction. A told reserve is needed for more. */
function lineFrom(input: OfferInput, turn: Turn, direction: 'more' | 'less'): string | null {
  const { client } = input.plan;
  const movement = turn.each.movement as Movement;
  const reps = lastReps(turn);
  const loadKg = turn.done.loadKg;
  if (reps === null || reps < 1 || loadKg === null) return null;
  const reserve = turn.done.reserve ?? (direction === 'less' ? 0 : null);
  if (reserve === null) return null;
  const set: MeasuredSet = {
    loadKg,
    written: turn.done.written,
    bodyweight: movement.liftsShare !== null,
    reps,
    reserve,
    kit: movement.implement.kind === 'machine' ? (turn.cell.kit?.key ?? null) : null,
    place: turn.done.place,
    from: 'log',
  };
  const { date } = turn;
  const own = strengthOfSet(client, movement, set, date);
  const now = planStrength(client, movement, turn, input);
  if (own === null || (now !== null && (direction === 'more' ? own <= now : own >= now))) return null;
  return maxLine(movement, set, date, input.world, countsFrom(input.plan, input.done, date, input.today));
}

function planStrength(
  client: Client,
  movement: Movement,
  turn: Turn,
  { world, today }: OfferInput,
): number | null {
  const answer = strengthOn(client, movement, today, turn.cell.kit?.key ?? null, world);
  return 'missing' in answer ? null : answer.estimatedOneRepMaxKg;
}
