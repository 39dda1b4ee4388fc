import { say } from '../../../../../grammar/say.js';
import { addDays, daysBetween } from '../../dates.js';
import type { Away, ClientPlan, FindingFix, ResolvedCell, Session } from '../../model.js';
import { formatNumber } from '../../numbers.js';
import { daysAway } from '../../resolve/calendar.js';
import { movementText } from './words.js';

/** Shares of the target in the weeks after an absence, in per cent. Common practice, no source. */
const SHORT_STEPS = (firstPercent: number) => [firstPercent];
const LONG_STEPS = (firstPercent: number) => [firstPercent, firstPercent + 10];
const LONGEST_STEPS = (firstPercent: number) => [
  firstPercent - 20,
  firstPercent - 10,
  firstPercent,
  firstPercent + 10,
];
/** Further off than this, a session is no return from an absence but a new start. */
const RETURN_WITHIN_DAYS = 28;
/** The share that the week after the steps has. */
const FULL = 100;

/** An absence with the training on both sides of it. */
export interface Return {
  readonly away: Away;
  readonly days: number;
  readonly first: Session;
  /** Sessions of the first seven days back. */
  readonly firstWeek: readonly Session[];
}

/** Every absence of at least so many days that training lies on both sides of. */
export function returnsOf(plan: ClientPlan, leastDays: number): readonly Return[] {
  return plan.client.aways.flatMap((away) => {
    const days = daysAway(away);
    if (days < leastDays || !plan.sessions.some(({ date }) => date < away.from)) return [];
    const first = plan.sessions.find(({ date }) => date > away.to);
    if (!first || daysBetween(away.to, first.date) > RETURN_WITHIN_DAYS) return [];
    const end = addDays(first.date, 6);
    const firstWeek = plan.sessions.filter(({ date }) => date >= first.date && date <= end);
    return [{ away, days, first, firstWeek }];
  });
}

/** What is left of the sets in the first week back, and the reserve of work whose load is fixed. */
export interface FewerSets {
  readonly share: number;
  readonly reserve: number;
}

function setsBack(former: number, { share }: FewerSets): number {
  return Math.max(1, Math.ceil(former * share));
}

export type Length = 'short' | 'long' | 'longest';

/**
 * The text after `back at` for a length of absence. Shares count from the day after the absence, so weeks without a
 * session before the first one get the first share as well.
 */
export function backText({ away, first }: Return, length: Length, firstPercent: number): string {
  const steps = { short: SHORT_STEPS, long: LONG_STEPS, longest: LONGEST_STEPS }[length](firstPercent);
  const idle = Math.floor((daysBetween(away.to, first.date) - 1) / 7);
  const all = [...Array<number>(idle).fill(steps[0] ?? firstPercent), ...steps];
  const below = all.filter((percent) => percent > 0 && percent < FULL);
  return `back at ${below.map((percent) => `${formatNumber(percent)}%`).join(' ')}`;
}

/** Puts `back at …` on the `away:` line: at its end, or in place of the shares that stand there. */
export function backEdit(plan: ClientPlan, { place }: Away, text: string): FindingFix['edits'][number] {
  for (const { file, node } of plan.client.nodes) {
    if (file !== place.file) continue;
    for (const line of node.lines) {
      if (line.kind !== 'away' || line.span.start !== place.span.start) continue;
      const first = line.backPercent[0];
      const last = line.backPercent.at(-1);
      if (first && last)
        return {
          file,
          span: { start: first.span.start, end: last.span.end },
          newText: text.replace(/^back at /, ''),
        };
    }
  }
  const { end } = place.span;
  return { file: place.file, span: { start: end, end }, newText: `, ${text}` };
}

/** Rows of the first week back with all their sets, where the week before the absence had as many. */
export function fullSets(
  { away, firstWeek }: Return,
  plan: ClientPlan,
  fewer: FewerSets,
): readonly ResolvedCell[] {
  const before = plan.sessions.filter(({ date }) => date < away.from).flatMap(({ cells }) => cells);
  return firstWeek
    .flatMap(({ cells }) => cells)
    .filter((cell) => {
      if (cell.deload || cell.swap || cell.test || cell.row.circuit) return false;
      const former = before.findLast(({ row, deload }) => row.key === cell.row.key && !deload);
      const setsOf = (each: ResolvedCell) => each.groups.reduce((sum, { sets }) => sum + (sets ?? 0), 0);
      return former !== undefined && setsOf(cell) > setsBack(setsOf(former), fewer);
    });
}

/**
 * One `swap:` line for each movement: itself, with fewer sets, for the first week back. A row with a fixed load cannot
 * keep it in a swap, so it gets a reserve instead.
 */
export function fewerSetLines(
  { firstWeek }: Return,
  cells: readonly ResolvedCell[],
  fewer: FewerSets,
): readonly string[] {
  const until = firstWeek.at(-1)?.date;
  const from = firstWeek[0]?.date;
  const lines = new Map<string, string>();
  for (const cell of cells) {
    const group = cell.groups[0];
    const amount = group && amountOf(group);
    if (!group?.sets || !amount || !cell.movement || lines.has(cell.row.movement)) continue;
    const name = cell.row.movementName.text;
    const fixed = group.basis === 'load' || group.basis === 'pack' || group.basis === 'bodyweight';
    const effort = fixed && group.reps !== null ? ` r${fewer.reserve}` : '';
    const dose = `${setsBack(group.sets, fewer)}x${amount}${effort}`;
    lines.set(
      cell.row.movement,
      `swap: ${name}, to ${movementText(cell)}, ${dose}, from ${from} until ${until}, "${say('fewer sets in the first week back')}"`,
    );
  }
  return [...lines.values()];
}

function amountOf({
  reps,
  seconds,
  metres,
  openReps,
  offSeconds,
}: ResolvedCell['groups'][number]): string | null {
  if (openReps || offSeconds !== null) return null;
  if (reps !== null) return formatNumber(reps);
  if (seconds !== null) return `${formatNumber(seconds)}s`;
  return metres === null ? null : `${formatNumber(metres)}m`;
}
