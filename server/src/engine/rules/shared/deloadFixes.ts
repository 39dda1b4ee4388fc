import { say } from '../../../../../grammar/say.js';
import { rowWeeks } from '../../bind/weeks.js';
import { addDays, daysBetween, isBefore } from '../../dates.js';
import type { Block, ClientPlan, FindingFix, IsoDate, Program, Session, World } from '../../model.js';
import { blockSessions } from './cells.js';

/** Deloads of athletes come every 5.6 weeks (Rogerson 2024): the week that comes nearest to it is offered. */
const USUAL_WEEK = 6;
const WEEK_DAYS = 7;

/** Heavy work without a deload, from its first session to the first one that is too late. */
export interface HeavyRun {
  readonly plan: ClientPlan;
  readonly world: World;
  readonly start: Session;
  readonly late: Session;
  readonly today: IsoDate | null;
}

/**
 * A week of the run that can be made a deload by the line of its block alone: nothing is written for it, so that no
 * cell comes to mean something else, and nobody who follows the program has trained it yet. Null without one.
 */
export function markDeload(run: HeavyRun): FindingFix | null {
  const weeks = weeksOf(run).filter(
    ({ block, week, program }) =>
      week > 1 &&
      !block.deloadWeeks.has(week) &&
      isUnwritten(block, week) &&
      everyLikeHas(run.world, program, block, week) &&
      !isBegun(run, program, block, week),
  );
  const best = nearest(weeks);
  if (!best) return null;
  const { block, week } = best;
  return {
    title: say`Make week ${week} of "${block.name}" a deload`,
    safe: false,
    edits: [{ file: block.place.file, ...deloadEdit(block, [week]) }],
  };
}

/**
 * One more week at the end of a block of the run, as a deload. All that is written stays in its week; what comes after
 * the block comes a week later. Null where no block ends within the run, or somebody is through it already.
 */
export function addDeload(run: HeavyRun): FindingFix | null {
  const ends = weeksOf(run).filter(
    ({ block, week, program }) =>
      week === block.weeks &&
      block !== run.late.block &&
      block.node.weeks !== null &&
      everyLikeHas(run.world, program, block, week + 1) &&
      !isBegun(run, program, block, week + 1),
  );
  const best = nearest(ends);
  const weeks = best?.block.node.weeks;
  if (!best || !weeks) return null;
  const { block } = best;
  const { file } = block.place;
  return {
    title: say`Add a deload week at the end of "${block.name}": ${block.weeks + 1} weeks instead of ${block.weeks}`,
    safe: false,
    edits: [
      { file, span: weeks.span, newText: String(block.weeks + 1) },
      { file, ...deloadEdit(block, [block.weeks + 1]) },
    ],
  };
}

interface RunWeek {
  readonly program: Program;
  readonly block: Block;
  readonly week: number;
  /** From 1: how many weeks the run has gone on by then. */
  readonly since: number;
}

/** The program weeks of the run, in order. */
function weeksOf({ plan, start, late }: HeavyRun): readonly RunWeek[] {
  const weeks: RunWeek[] = [];
  for (const { program, block, week, date } of plan.sessions) {
    if (date < start.date || date > late.date || program !== late.program) continue;
    const last = weeks.at(-1);
    if (last?.block === block && last.week === week) continue;
    weeks.push({ program, block, week, since: Math.floor(daysBetween(start.date, date) / WEEK_DAYS) + 1 });
  }
  return weeks;
}

function nearest(weeks: readonly RunWeek[]): RunWeek | undefined {
  const off = ({ since }: RunWeek) => Math.abs(since - USUAL_WEEK);
  return weeks.reduce<RunWeek | undefined>(
    (best, each) => (!best || off(each) < off(best) ? each : best),
    undefined,
  );
}

/** Whether no row, effort or round of a block states anything for a week. */
function isUnwritten(block: Block, week: number): boolean {
  return block.days.every(({ rows }) =>
    rows.every(({ node, effortByWeek, circuit }) => {
      const cell = rowWeeks(node, block.weeks).cells[week - 1] ?? null;
      if (cell?.broken || cell?.groups.some(({ items }) => items.length > 0)) return false;
      const rounds = circuit?.roundsByWeek;
      return effortByWeek[week - 1] === effortByWeek[week - 2] && rounds?.[week - 1] === rounds?.[week - 2];
    }),
  );
}

/** Blocks that are like this one take its deloads over, and must have the week too. */
function everyLikeHas(world: World, program: Program, block: Block, week: number): boolean {
  return [...world.programs.values()].every((other) =>
    other.blocks.every(({ node, weeks }) => {
      const isLike =
        node.like?.block.key === block.key && (node.like.program?.key ?? other.key) === program.key;
      return !isLike || node.deloadWeeks.length > 0 || weeks >= week;
    }),
  );
}

/** Whether somebody who follows the program has come to a week of a block by today: what was done stays as it was. */
function isBegun({ plan, world, today }: HeavyRun, program: Program, block: Block, week: number): boolean {
  if (today === null) return false;
  const own = blockSessions(plan).get(block) ?? [];
  if (own.some((session) => session.week >= week && session.date < today)) return true;
  const before = program.blocks.slice(0, block.index).reduce((sum, { weeks }) => sum + weeks, 0);
  return [...world.clients.values()].some(
    ({ key, follows }) =>
      key !== plan.client.key &&
      follows.some(
        ({ program: followed, from, everyDays }) =>
          followed === program.key &&
          // With `every N days` a column takes at least so long.
          isBefore(addDays(from, (before + week - 1) * (everyDays ?? WEEK_DAYS)), today),
      ),
  );
}

/** Puts weeks among the deload weeks of a block's line. */
function deloadEdit(block: Block, more: readonly number[]): Omit<FindingFix['edits'][number], 'file'> {
  const { node } = block;
  const all = [...new Set([...block.deloadWeeks, ...more])].sort((a, b) => a - b).join(' ');
  const first = node.deloadWeeks[0];
  const last = node.deloadWeeks.at(-1);
  if (first && last) return { span: { start: first.span.start, end: last.span.end }, newText: all };
  const { end } = node.headerSpan;
  return { span: { start: end, end }, newText: `, deload ${all}` };
}
