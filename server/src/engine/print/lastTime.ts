/** What stood or was done the time before: from the log where there is one, else from the plan, and which. */

import { say } from '../../../../grammar/say.js';
import type { GroupDone, MovementDone } from '../history/done.js';
import { historyOf } from '../history/history.js';
import type { ClientPlan, IsoDate, ResolvedCell, World } from '../model.js';
import { formatNumber } from '../numbers.js';
import { formatMass, type MassUnit } from '../units.js';
import { durationWords, shortDate } from './words.js';
import { workOf } from './work.js';

/** The lines for one set group of a cell: load, what of it, and whether it was done or only planned. */
export type LastTimes = (cell: ResolvedCell, group: number) => readonly string[];

export const noLastTimes: LastTimes = () => [];

interface Before {
  readonly date: IsoDate;
  readonly how: 'done' | 'planned';
  /** The words of a set group, made when they are asked for; undefined where there is no such group. */
  readonly lines: (group: number) => readonly string[] | undefined;
}

/**
 * For each cell the newest time before it that the same movement (with the same label) was logged or stands in the plan. A session that has
 * gone by without a log is passed over where an older one was logged: what nobody saw is no help at the bar.
 */
export function lastTimesOf(plan: ClientPlan, world: World, today: IsoDate): LastTimes {
  const logged = new Map<string, Before[]>();
  for (const { date, movements } of historyOf(plan, world).done) {
    for (const done of movements) {
      if (done.groups.length === 0) continue;
      push(logged, keyOf(done.key, done.cell?.row.label ?? done.label), {
        date,
        how: 'done',
        lines: (group) => doneLines(done, group, plan.client.units),
      });
    }
  }
  const planned = new Map<string, Before[]>();
  for (const { date, cells } of plan.sessions) {
    for (const cell of cells) {
      if (cell.test) continue;
      push(planned, keyOfCell(cell), { date, how: 'planned', lines: (group) => plannedLines(cell, group) });
    }
  }
  const newest = (times: readonly Before[] | undefined, date: IsoDate) =>
    times?.findLast((each) => each.date < date) ?? null;
  return (cell, index) => {
    const done = newest(logged.get(keyOfCell(cell)), cell.date);
    const written = newest(planned.get(keyOfCell(cell)), cell.date);
    const before = done && (!written || done.date >= written.date || written.date < today) ? done : written;
    const lines = before?.lines(index);
    return before && lines
      ? [
          ...lines,
          before.how === 'done'
            ? say`done ${shortDate(before.date)}`
            : say`planned ${shortDate(before.date)}`,
        ]
      : [];
  };
}

function push(into: Map<string, Before[]>, key: string, before: Before): void {
  const known = into.get(key);
  if (known) known.push(before);
  else into.set(key, [before]);
}

/** A row with a label is another one: the pause squat of last week is no help for the squat. */
function keyOf(movement: string, label: string | null): string {
  return `${movement}\n${label?.toLowerCase() ?? ''}`;
}

function keyOfCell({ movement, row }: ResolvedCell): string {
  return keyOf(movement?.key ?? row.movement, row.label);
}

function plannedLines(cell: ResolvedCell, index: number): readonly string[] | undefined {
  const group = cell.groups[index];
  if (!group) return undefined;
  const { load, dose } = workOf(cell, group);
  return present([load ?? (group.issue === null ? null : say('load not known')), dose]);
}

function doneLines(done: MovementDone, index: number, unit: MassUnit): readonly string[] | undefined {
  if (done.status === 'as-planned' && done.cell) return plannedLines(done.cell, index);
  const group = done.groups[index];
  return group && present([loadWords(group, done, unit), setWords(group)]);
}

function present(texts: readonly (string | null)[]): readonly string[] {
  return texts.filter((text) => text !== null && text !== '') as string[];
}

function loadWords({ loadKg, band, written }: GroupDone, done: MovementDone, unit: MassUnit): string {
  if (band !== null) return say`${band} band`;
  const kind = done.movement?.implement.kind;
  if (kind === 'bodyweight' || written?.startsWith('bw')) {
    if (loadKg === null || loadKg === 0) return say('body weight');
    return loadKg > 0
      ? say`body weight + ${formatMass(loadKg, unit)}`
      : say`body weight with ${formatMass(-loadKg, unit)} of help`;
  }
  if (loadKg === null) return '';
  return kind === 'dumbbells' ? say`${formatMass(loadKg, unit)} in each hand` : formatMass(loadKg, unit);
}

/** `6, 6, 6, 5`, `30 s, 30 s`, `8 left and 7 right`; with the reserve that was told. */
function setWords({ sets, reserve }: GroupDone): string {
  const each = sets.map(({ reps, rightReps, seconds, metres }) => {
    if (seconds !== null) return durationWords(seconds);
    if (metres !== null) return `${formatNumber(metres)} m`;
    if (rightReps === null) return formatNumber(reps ?? 0);
    return reps === rightReps ? say`${reps} each side` : say`${reps} left and ${rightReps} right`;
  });
  return `${each.join(', ')}${reserve === null ? '' : say`; ${formatNumber(reserve, 1)} in reserve`}`;
}
