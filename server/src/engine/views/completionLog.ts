import { normaliseName, type Span } from '../../../../grammar/index.js';
import { say } from '../../../../grammar/say.js';
import { historyOf } from '../history/history.js';
import type { ResolvedCell, ResolvedGroup, Session } from '../model.js';
import { formatNumber, roundTo } from '../numbers.js';
import { fromKg, type MassUnit } from '../units.js';
import { type CompletionItem, type Cursor, item } from './completionParts.js';

/** So many sessions without a log are offered for a new one. */
const OFFERED = 8;

/**
 * After `log NAME, `: her sessions without a log, the newest up to today first; taking one fills in the day's
 * movements as they were planned. The reserve is left out, because a planned one would read as a told one.
 */
export function loggedDayItems(cursor: Cursor, names: string, replace: Span): CompletionItem[] {
  const { session } = cursor;
  const plan = session.plan(normaliseName(names));
  if (!plan) return [];
  const logged = new Set(historyOf(plan, session.world()).done.flatMap((done) => done.session ?? []));
  const open = plan.sessions.filter((each) => !logged.has(each));
  const today = session.today();
  const offered =
    today === null
      ? open.slice(0, OFFERED)
      : open
          .filter(({ date }) => date <= today)
          .slice(-OFFERED)
          .reverse();
  return offered.map((each) => ({
    ...item(
      `${each.date}, ${each.day.name}`,
      'day',
      say`${each.program.name} · ${each.block.name}, week ${each.week}`,
      replace,
      [`${each.date}, ${each.day.name}`, ...each.cells.map((cell) => `  ${plannedLine(cell)}`)].join('\n'),
    ),
  }));
}

/** In a log: the day's movements with what was planned. */
export function plannedLineItems(cursor: Cursor, replace: Span): CompletionItem[] {
  return cellsOfLog(cursor).map((cell) => {
    const line = plannedLine(cell);
    return item(line, 'movement', say('As it was planned, to be changed where it differed.'), replace, line);
  });
}

/** After a movement in a log: what was planned of it. */
export function plannedValueItems(cursor: Cursor, label: string, replace: Span): CompletionItem[] {
  const key = normaliseName(label);
  return cellsOfLog(cursor)
    .filter((cell) => cell.row.key === key || cell.row.movement === key || cell.movement?.key === key)
    .map((cell) => doneText(cell))
    .filter((text) => text !== 'as planned')
    .map((text) => item(text, 'item', say('As it was planned.'), replace, text));
}

/** In `swap:` of a log: the day's rows, by name and label. */
export function plannedRowNames(cursor: Cursor): readonly string[] {
  return cellsOfLog(cursor).map(rowName);
}

/** The sets that were planned of a row, without its load: that of another movement is never taken over. */
export function plannedSetsItems(cursor: Cursor, row: string, replace: Span): CompletionItem[] {
  const key = normaliseName(row);
  return cellsOfLog(cursor)
    .filter((cell) => normaliseName(rowName(cell)) === key || cell.row.movement === key)
    .slice(0, 1)
    .map((cell) => cell.groups.map((group) => amountText(cell, group)))
    .filter((groups) => groups.length > 0 && !groups.includes(null))
    .map((groups) => groups.join(' ; '))
    .map((text) =>
      item(text, 'item', say('The sets that were planned; put the load before them.'), replace, text),
    );
}

function rowName({ movement, row }: ResolvedCell): string {
  return `${movement?.name ?? row.movementName.text}${row.label === null ? '' : ` (${row.label})`}`;
}

function cellsOfLog(cursor: Cursor): readonly ResolvedCell[] {
  const [client = '', ...rest] = cursor.context.opener
    .replace(/^log\s+/i, '')
    .split(',')
    .map((part) => part.trim());
  const plan = cursor.session.plan(normaliseName(client));
  const date = rest.find((part) => /^\d{4}-\d{2}-\d{2}$/.test(part));
  if (!plan || date === undefined) return [];
  const day = normaliseName(rest[rest.length - 1] ?? '');
  const own = plan.sessions.filter((session) => session.date === date);
  return (own.find((session: Session) => session.day.key === day) ?? own[0])?.cells ?? [];
}

function plannedLine(cell: ResolvedCell): string {
  return `${rowName(cell)}: ${doneText(cell)}`;
}

/** A cell as a log writes it: `45kg 6 6 6 ; 40kg 8`; `as planned` where that cannot be said in numbers. */
function doneText(cell: ResolvedCell): string {
  const groups = cell.groups.map((group) => groupText(cell, group));
  return groups.length === 0 || groups.includes(null) ? 'as planned' : groups.join(' ; ');
}

function groupText(cell: ResolvedCell, group: ResolvedGroup): string | null {
  const done = amountText(cell, group);
  const load = loadText(cell, group);
  return done === null || load === '' ? done : `${load} ${done}`;
}

/** Each set as it was planned: `6 6 6`, `8/8 8/8`, `30s 30s`; null where that cannot be said. */
function amountText(cell: ResolvedCell, group: ResolvedGroup): string | null {
  const { sets } = group;
  if (sets === null || group.issue === 'broken') return null;
  const reps = group.reps !== null && cell.perSide ? `${group.reps}/${group.reps}` : group.reps;
  const amount =
    reps !== null
      ? String(reps)
      : group.seconds !== null
        ? `${group.seconds}s`
        : group.metres !== null
          ? `${group.metres}m`
          : null;
  return amount === null ? null : Array.from({ length: sets }, () => amount).join(' ');
}

function loadText({ client, movement }: ResolvedCell, { loadKg, band }: ResolvedGroup): string {
  if (band !== null) return `band ${band}`;
  const free =
    movement !== null && (movement.liftsShare !== null || movement.implement.kind === 'bodyweight');
  if (loadKg === null) return free ? 'bw' : '';
  const size = massText(Math.abs(loadKg), client.units);
  if (free) return loadKg === 0 ? 'bw' : `bw${loadKg < 0 ? '-' : '+'}${size}`;
  return movement?.implement.kind === 'pack' ? `pack ${size}` : size;
}

/** In the client's unit where that gives a plain number; kilograms of a kit in kilograms stay what they are. */
function massText(kg: number, unit: MassUnit): string {
  const value = fromKg(kg, unit);
  const isPlain = Math.abs(value - roundTo(value, 2)) < 1e-6;
  return isPlain ? `${formatNumber(value, 2)}${unit}` : `${formatNumber(kg, 3)}kg`;
}
