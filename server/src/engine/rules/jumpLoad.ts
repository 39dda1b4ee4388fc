import { say } from '../../../../grammar/say.js';
import type { Block, FindingFix, ResolvedCell, ResolvedGroup, Session } from '../model.js';
import { formatNumber, formatPercent } from '../numbers.js';
import type { RawFinding, Rule, RuleContext } from '../ruleForm.js';
import { formatMass } from '../units.js';
import { writeChange, writeLoad } from './shared/cellFixes.js';
import { fixesOf } from './shared/fixes.js';
import { JUMP_OPTIONS, type JumpLimit, jumpLimit } from './shared/jumpLimits.js';
import { lifted, nextUp, sameLoad, sameMax, shareAtReps } from './shared/loads.js';
import { type OfSession, perSession, picked } from './shared/perSession.js';
import { movementText, whenText, workText } from './shared/words.js';

const CODE = 'jump-load';
/** A load up to this share above the limit is taken as noise of rounding. */
const ROUNDING = 0.005;
/** Reserve that is assumed where none is known, to compare sets of different reps. */
const ASSUMED_RESERVE = 2;

/** The heaviest set of a movement in one week, to compare the next week with. */
interface Worked {
  readonly cell: ResolvedCell;
  readonly group: ResolvedGroup;
}

interface Jump {
  readonly before: Worked;
  readonly now: Worked;
  /** How far the load lies above what this dose would be at last week's level, as a share. */
  readonly rise: number;
  readonly limit: JumpLimit;
  /** The jump is one step of the kit, and there is none between: the load that this step starts from, else null. */
  readonly stepFromKg: number | null;
  /** The most that may be on the bar for this dose. */
  readonly mostKg: number;
}

function comparable(cell: ResolvedCell, group: ResolvedGroup): boolean {
  return (
    !cell.deload &&
    cell.backShare === 1 &&
    cell.test === null &&
    cell.movement !== null &&
    group.reps !== null &&
    group.loadKg !== null &&
    group.loadKg > 0
  );
}

/** Reserve that counts for comparing: as written, else as predicted, else assumed. */
function reserveOf(group: ResolvedGroup): number {
  if (group.basis === 'reserve' && group.writtenReserve !== null) return group.writtenReserve;
  return Math.max(0, group.reserve ?? group.writtenReserve ?? ASSUMED_RESERVE);
}

/**
 * What `now` would weigh at the level of `before`: the former load, brought to the new reps by the client's curve.
 * Where the coach writes another reserve that is meant, so it is brought to the new reserve as well. A lower number
 * of sets or a load for fewer reps is thereby no jump, more reps with the same load are none either.
 */
function expectedKg(before: Worked, now: Worked, liftedKg: number | null): number | null {
  if (liftedKg === null || before.group.reps === null || now.group.reps === null) return null;
  const reserveBefore = reserveOf(before.group);
  const byReserve = now.group.basis === 'reserve' && before.group.basis === 'reserve';
  const reserveNow = byReserve ? reserveOf(now.group) : reserveBefore;
  const shareBefore = shareAtReps(before.cell, Math.max(1, before.group.reps + reserveBefore));
  const shareNow = shareAtReps(now.cell, Math.max(1, now.group.reps + reserveNow));
  // Beyond the curve there is nothing to compare by but the load itself.
  if (!Number.isFinite(shareBefore) || !Number.isFinite(shareNow)) return liftedKg;
  return liftedKg * Math.max(1, shareNow / shareBefore);
}

function jumpBetween(before: Worked, now: Worked, limit: JumpLimit): Jump | null {
  if (before.cell.movement?.key !== now.cell.movement?.key || !sameMax(before.group, now.group)) return null;
  const expected = expectedKg(before, now, lifted(before.group));
  const liftedKg = lifted(now.group);
  const loadKg = now.group.loadKg;
  if (expected === null || liftedKg === null || loadKg === null || expected <= 0) return null;
  const rise = liftedKg / expected - 1;
  if (rise <= limit.share + ROUNDING) return null;
  const mostKg = expected * (1 + limit.share) - (liftedKg - loadKg);
  const stepFromKg = stepBelow(now.cell, [before.group.loadKg ?? 0, expected - (liftedKg - loadKg)], loadKg);
  if (stepFromKg !== null) return earned(now.group) ? null : { before, now, rise, limit, stepFromKg, mostKg };
  // Rounding down to the kit may hide what was written the week before: what is meant has to jump as well.
  const meant = targetRise(before, now);
  if (meant !== null && meant <= limit.share + ROUNDING) return null;
  return { before, now, rise, limit, stepFromKg, mostKg };
}

/** The one of several loads above which the kit has nothing before `loadKg`; null where it has. */
function stepBelow(cell: ResolvedCell, fromKg: readonly number[], loadKg: number): number | null {
  for (const from of fromKg) {
    const step = nextUp(cell, from);
    if (step !== null && sameLoad(step, loadKg)) return from;
  }
  return null;
}

/** How far the written work rises before the kit rounds it down, as a share; null where a load is written itself. */
function targetRise(before: Worked, now: Worked): number | null {
  const targets = [before.group, now.group].map(({ basis, targetKg, loadKg }) =>
    (basis === 'reserve' || basis === 'percent') && targetKg !== null && loadKg !== null ? targetKg : null,
  );
  const [from, to] = targets;
  if (from == null || to == null) return null;
  const bodyKg = (lifted(now.group) ?? 0) - (now.group.loadKg ?? 0);
  const expected = expectedKg(before, now, from + bodyKg);
  return expected === null || expected <= 0 ? null : (to + bodyKg) / expected - 1;
}

/** One step of a coarse kit is no finding where a fresh max says that the written reserve is kept. */
function earned(group: ResolvedGroup): boolean {
  return (
    group.basis === 'reserve' &&
    !group.provisional &&
    group.reserve !== null &&
    group.writtenReserve !== null &&
    group.reserve >= group.writtenReserve - 0.25
  );
}

/** The set of a week's sets that asks most: the one whose load is highest when all are brought to five reps. */
function heaviest(worked: readonly Worked[]): Worked | null {
  let best: Worked | null = null;
  let bestKg = 0;
  for (const each of worked) {
    const share = shareAtReps(each.cell, Math.max(1, (each.group.reps ?? 1) + reserveOf(each.group)));
    const kg = (lifted(each.group) ?? 0) / (Number.isFinite(share) ? share : 1);
    if (best === null || kg > bestKg) {
      best = each;
      bestKg = kg;
    }
  }
  return best;
}

/** The load from which the next step is taken: the heaviest within the limit, or the former one where there is none. */
function smallerKg({ before, now, stepFromKg, mostKg }: Jump): number {
  let kg = stepFromKg ?? before.group.loadKg ?? 0;
  for (;;) {
    const next = nextUp(now.cell, kg);
    if (next === null || next > mostKg || next >= (now.group.loadKg ?? 0)) return kg;
    kg = next;
  }
}

/** A smaller load or a smaller change, where one is written in this cell. */
function fixesFor(jump: Jump): readonly FindingFix[] {
  const { cell, group } = jump.now;
  const kg = smallerKg(jump);
  return fixesOf(
    kg > 0 && kg < (group.loadKg ?? 0) ? writeLoad(cell, group, kg) : null,
    jump.stepFromKg === null ? writeChange(cell, group, Math.floor(jump.limit.share * 100)) : null,
  );
}

function findingOf(jump: Jump): RawFinding {
  const { before, now, rise, limit, stepFromKg } = jump;
  const { client } = now.cell;
  const name = movementText(now.cell);
  const most = formatPercent(limit.share, 1);
  const oneStep = stepFromKg !== null;
  const was = formatMass(before.group.loadKg ?? 0, client.units);
  const is = formatMass(now.group.loadKg ?? 0, client.units);
  const otherDose = before.group.reps !== now.group.reps;
  const compared = otherDose ? say`, for ${now.group.reps} reps instead of ${before.group.reps}` : '';
  const reserve =
    now.group.reserve === null
      ? ''
      : say` It leaves about ${formatNumber(Math.max(0, now.group.reserve), 1)} in reserve.`;
  return {
    place: now.cell.place,
    headline: oneStep
      ? say`${name}: the next load of the kit is more than ${most} heavier.`
      : say`${name}: the load jumps by more than ${most} in a week.`,
    detail: say`${client.name}: ${workText(now.group, client)} ${whenText(now.cell)}, after ${was} on ${before.cell.date}${compared}. That is ${formatPercent(rise, 0)} more than last week's level; ${most} is the limit for ${limit.words}.${reserve}`,
    advice: oneStep
      ? say`There is nothing between ${formatMass(stepFromKg, client.units)} and ${is}. Add reps at ${was} first, one or two a set, or get smaller ${plateWord(now.cell)}.`
      : say(
          `Rise by 2 to 10 % a week: take a step between, or write a newer max if the former load has become easy.`,
        ),
    client: client.key,
    cell: now.cell,
    related: [
      {
        place: before.cell.place,
        message: say`${client.name}: ${workText(before.group, client)} on ${before.cell.date}.`,
      },
    ],
    fixes: fixesFor(jump),
    severity: oneStep ? 'info' : 'warning',
  };
}

/** What a smaller step would be made of. */
function plateWord({ movement }: ResolvedCell): string {
  switch (movement?.implement.kind) {
    case 'dumbbell':
    case 'dumbbells':
      return say('dumbbells');
    case 'kettlebell':
      return say('kettlebells');
    default:
      return say('plates');
  }
}

function limitsOf(context: RuleContext): Limits {
  return {
    limitOf: ({ cell, group }) => jumpLimit(cell, group, (option) => context.option(CODE, option)),
    // No limit is lower than this one, so that most weeks need no closer look.
    least: Math.min(...JUMP_OPTIONS.map((option) => context.option(CODE, option))) / 100,
  };
}

interface Limits {
  readonly limitOf: (worked: Worked) => JumpLimit;
  readonly least: number;
}

/** The sets of one cell that can be compared, by the number of the cell. */
interface CellWork {
  readonly number: number;
  readonly movement: string;
  readonly heaviestKg: number;
  readonly lightestKg: number;
}

function workOf(cell: ResolvedCell, number: number): CellWork | null {
  const worked = workedIn(cell);
  if (worked.length === 0) return null;
  const movement = cell.movement?.key ?? '';
  return { number, movement, heaviestKg: heaviestKg(worked), lightestKg: lightestKg(worked) };
}

function workIn({ cells }: Session): readonly CellWork[] | null {
  return picked(cells, workOf);
}

const workInPlan = perSession(workIn);

function workedIn(cell: ResolvedCell): readonly Worked[] {
  const found: Worked[] = [];
  for (const group of cell.groups) if (comparable(cell, group)) found.push({ cell, group });
  return found;
}

function workedAt({ session, value }: OfSession<CellWork>): readonly Worked[] {
  return workedIn(session.cells[value.number] as ResolvedCell);
}

/**
 * Compares every week of a program with the last one that was no deload, movement by movement. `isAsked` tells which
 * two weeks are compared here.
 */
function jumpsOf(
  sessions: Iterable<OfSession<readonly CellWork[]>>,
  context: RuleContext,
  isAsked: (before: Session, now: Session) => boolean,
): readonly Jump[] {
  const limits = limitsOf(context);
  const jumps: Jump[] = [];
  const programs = new Map<string, Weeks>();
  for (const { session, value: work } of sessions) {
    let weeks = programs.get(session.program.key);
    if (!weeks) {
      weeks = { block: null, week: 0, last: new Map(), current: new Map() };
      programs.set(session.program.key, weeks);
    }
    if (session.block !== weeks.block || session.week !== weeks.week) {
      for (const [key, worked] of weeks.current) weeks.last.set(key, worked);
      weeks.current = new Map();
      weeks.block = session.block;
      weeks.week = session.week;
    }
    for (const value of work) {
      const before = weeks.last.get(value.movement);
      const now = { session, value };
      if (before?.[0] && isAsked(before[0].session, session)) {
        const jump = jumpOf(now, before, limits);
        if (jump) jumps.push(jump);
      }
      const soFar = weeks.current.get(value.movement);
      if (soFar) soFar.push(now);
      else weeks.current.set(value.movement, [now]);
    }
  }
  return jumps;
}

/** The sets of each movement in the week that runs and in the last one that it was trained in. */
interface Weeks {
  block: Block | null;
  week: number;
  readonly last: Map<string, readonly OfSession<CellWork>[]>;
  current: Map<string, OfSession<CellWork>[]>;
}

function heaviestKg(worked: readonly Worked[]): number {
  return worked.reduce((most, { group }) => Math.max(most, lifted(group) ?? 0), 0);
}

function lightestKg(worked: readonly Worked[]): number {
  return worked.reduce((least, { group }) => Math.min(least, lifted(group) ?? 0), Number.POSITIVE_INFINITY);
}

function jumpOf(
  now: OfSession<CellWork>,
  past: readonly OfSession<CellWork>[],
  { limitOf, least }: Limits,
): Jump | null {
  // Brought to other reps a former load never counts for less than it was: most weeks need no closer look.
  const lightest = past.reduce((kg, { value }) => Math.min(kg, value.lightestKg), Number.POSITIVE_INFINITY);
  if (now.value.heaviestKg <= lightest * (1 + least) || isQuiet(now, past)) return null;
  const found = workedAt(now);
  const before = past.flatMap(workedAt);
  const { row, day } = (found[0] as Worked).cell;
  // The same row is compared where it was done, so that a light and a heavy day of one movement stay apart.
  const ofRow = before.filter((each) => each.cell.row.key === row.key && each.cell.day.key === day.key);
  const former = heaviest(ofRow.length > 0 ? ofRow : before);
  const top = heaviest(found);
  const jump = former && top ? jumpBetween(former, top, limitOf(top)) : null;
  if (!jump)
    quietAfter.set(
      now.value,
      past.map(({ value }) => value),
    );
  return jump;
}

/** Work that was compared with other work and is no jump. Both say all that the comparison rests on. */
const quietAfter = new WeakMap<CellWork, readonly CellWork[]>();

function isQuiet({ value: now }: OfSession<CellWork>, past: readonly OfSession<CellWork>[]): boolean {
  const before = quietAfter.get(now);
  return before?.length === past.length && past.every(({ value }, index) => value === before[index]);
}

export const jumpLoad: Rule = {
  code: CODE,
  title: 'A load that jumps in a week',
  severity: 'warning',
  options: JUMP_OPTIONS,
  what: 'A load lies too far above the last week that was no deload, brought to the same reps and reserve: more than 10 % in learning work; more than 10 % for the lower and 8 % for the upper body in load work; more than 8 % and 7 % in heavy work. A newer max in between is no jump. Where the kit has no smaller step it is information, with reps proposed first.',
  why: 'Muscle adapts faster than tendon and bone. A jump that the max has not earned leaves fewer reps in reserve than the plan says, and often it is only a slip of the pen.',
  source:
    'ACSM position stand 2009 (Ratamess et al., Med Sci Sports Exerc 41(3):687-708): raise the load by 2 to 10 % when it can be done for 1 to 2 reps over the target, less for small muscles and more for large ones (the latter from memory). How the limits are divided over stages and the upper and lower body is common practice, no source.',
  example: `kit Boathouse
  bar: 15kg
  plates: 1.25kg x2, 2.5kg x2, 5kg x4, 10kg x4

movement box squat
  pattern: squat
  with: barbell

client Heron
  trains at: Boathouse
  ready: heavy squat 2026-10-05
  max: box squat, 60kg x5 r2, 2026-11-23
  follows: Winter, from 2026-12-07, on mon

program Winter

block Keel, 2 weeks
day Lower
  box squat: 3x6 40kg | 50kg
`,
  better: `kit Boathouse
  bar: 15kg
  plates: 1.25kg x2, 2.5kg x2, 5kg x4, 10kg x4

movement box squat
  pattern: squat
  with: barbell

client Heron
  trains at: Boathouse
  ready: heavy squat 2026-10-05
  max: box squat, 60kg x5 r2, 2026-11-23
  follows: Winter, from 2026-12-07, on mon

program Winter

block Keel, 2 weeks
day Lower
  box squat: 3x6 40kg | 42.5kg
`,
  fix: 'Take a smaller step, more reps first, or write down the newer max that makes the step right. The quick fix writes the heaviest load of the kit within the limit, or the limit itself in place of a larger "+x%"; where the kit has no smaller step it stays at the former load.',
  checkBlock: ({ sessions }, _world, context) => {
    const work = sessions.map((session) => ({ session, value: workIn(session) ?? [] }));
    return jumpsOf(work, context, () => true).map(findingOf);
  },
  // From one block to the next.
  checkPlan: (plan, _world, context) =>
    jumpsOf(workInPlan(plan, context), context, (before, now) => before.block !== now.block).map(findingOf),
};
