// biome-ignore-all lint/suspicious/noTemplateCurlyInString: these are tab stops of snippets.
import { normaliseName, type Span } from '../../../../grammar/index.js';
import { say } from '../../../../grammar/say.js';
import { plannedWork } from '../history/compare.js';
import { logsOf } from '../history/done.js';
import { historyOf } from '../history/history.js';
import type { ResolvedCell, ResolvedGroup, Session } from '../model.js';
import { formatNumber, roundTo } from '../numbers.js';
import { fromKg, type MassUnit } from '../units.js';
import { type CompletionItem, type Cursor, item } from './completionParts.js';
import { sectionAt, touches } from './text.js';

/** So many sessions without a log are offered for a new one. */
const OFFERED = 12;
/** So many of the newest logs are looked through for places that hurt. */
const PAIN_LOGS = 30;

/**
 * After `log NAME, `: her sessions without a log, the newest up to today first; taking one fills in the day's
 * movements as they were planned. The reserve is left out, because a planned one would read as a told one. For several
 * clients: the sessions that all of them have, as planned, since each has loads of her own.
 */
export function loggedDayItems(cursor: Cursor, names: readonly string[], replace: Span): CompletionItem[] {
  const today = cursor.session.today();
  const [first = [], ...others] = names.map((name) => openSessions(cursor, name));
  const open = first.filter((each) => others.every((own) => own.some((other) => isSame(each, other))));
  const offered =
    today === null
      ? open.slice(0, OFFERED)
      : open
          .filter(({ date }) => date <= today)
          .slice(-OFFERED)
          .reverse();
  return offered.map((each) => {
    const head = `${each.date}, ${each.day.name}`;
    return item(head, 'day', weekWords(each), replace, [head, ...dayLines(each, names.length)].join('\n'));
  });
}

/** After `log NAME, DATE, `: the days of that date, filled in, else the names of days that there are. */
export function dayOfDateItems(cursor: Cursor, parts: readonly string[], replace: Span): CompletionItem[] {
  const date = parts[parts.length - 1] ?? '';
  const names = parts.slice(0, -1);
  const plan = cursor.session.plan(normaliseName(names[0] ?? ''));
  const own = plan?.sessions.filter((session) => session.date === date) ?? [];
  return own.map((each) => {
    const insert = [each.day.name, ...dayLines(each, names.length)].join('\n');
    return item(each.day.name, 'day', weekWords(each), replace, insert);
  });
}

/** A client's sessions that no log answers, apart from the log that is being written. */
function openSessions({ session, file, offset }: Cursor, name: string): readonly Session[] {
  const plan = session.plan(normaliseName(name));
  if (!plan) return [];
  const logged = new Set(
    historyOf(plan, session.world())
      .done.filter(({ entry }) => entry.place.file !== file || !touches(entry.node.span, offset))
      .flatMap((done) => done.session ?? []),
  );
  return plan.sessions.filter((each) => !logged.has(each));
}

function isSame(a: Session, b: Session): boolean {
  return a.date === b.date && a.program.key === b.program.key && a.day.key === b.day.key;
}

function weekWords({ program, block, week }: Session): string {
  return say`${program.name} · ${block.name}, week ${week}`;
}

function dayLines({ cells }: Session, clients: number): readonly string[] {
  return clients > 1 ? ['  as planned'] : cells.map((cell) => `  ${plannedLine(cell)}`);
}

/** In a log: the day's movements that are not in it yet, with what was planned; all of them at once first. */
export function plannedLineItems(cursor: Cursor, replace: Span): CompletionItem[] {
  const written = linesBeside(cursor);
  const about = (cell: ResolvedCell) =>
    written.some(({ movement, label, insteadOf }) => {
      const row = insteadOf ?? { movement, label };
      const names = row.movement.key === cell.row.movement || row.movement.key === cell.movement?.key;
      return names && (row.label?.key ?? null) === (cell.row.label?.toLowerCase() ?? null);
    });
  const left = cellsOfLog(cursor).filter((cell) => !about(cell));
  const lines = left.map(plannedLine);
  const all =
    lines.length < 2
      ? []
      : [
          item(
            say('the whole day as planned, to change'),
            'day',
            say('A line for each movement that is not written yet.'),
            replace,
            lines.join('\n  '),
          ),
        ];
  const detail = say('As it was planned, to be changed where it differed.');
  return [...all, ...lines.map((line) => item(line, 'movement', detail, replace, line))];
}

/** The lines about movements in the log that the cursor stands in, apart from the one that is being written. */
function linesBeside({ session, file, offset }: Cursor) {
  const tree = session.tree(file)?.value;
  const log = tree && sectionAt(tree, offset);
  if (log?.kind !== 'log') return [];
  return log.lines.flatMap((line) => (line.kind === 'done' && !touches(line.span, offset) ? [line] : []));
}

/** After `session:` in a log: an effort to fill in, and the minutes that were planned. */
export function sessionItems(cursor: Cursor, replace: Span): CompletionItem[] {
  const { minutes } = plannedWork(cellsOfLog(cursor));
  const planned = minutes === null ? 'minutes' : String(Math.round(minutes));
  return [
    item(
      'rpe, min',
      'keyword',
      say('How hard it was as a whole, 0 to 10, and how long it took.'),
      replace,
      `rpe \${1:0-10}, \${2:${planned}}min`,
      true,
    ),
  ];
}

/** After `pain:` in a log: where it hurt before, else anywhere, and how much. */
export function painItems(cursor: Cursor, replace: Span): CompletionItem[] {
  const keys = clientsOfLog(cursor);
  const logs = keys.flatMap((key) => logsOf(cursor.session.world(), key));
  const places = logs
    .slice(-PAIN_LOGS)
    .flatMap(({ node }) => node.lines.flatMap((line) => (line.kind === 'pain' ? [line.where.text] : [])));
  const known = [...new Set(places.reverse())];
  const detail = say('Where, and how much from 0 to 10.');
  const any = item('…/10', 'keyword', detail, replace, '${1:where} ${2:0-10}/10', true);
  return [
    ...known.map((place) => item(place, 'keyword', detail, replace, `${place} \${1:0-10}/10`, true)),
    any,
  ];
}

/** After a movement in a log: what was planned of it. */
export function plannedValueItems(cursor: Cursor, label: string, replace: Span): CompletionItem[] {
  const key = normaliseName(label);
  const cells = cellsOfLog(cursor);
  const exact = cells.filter((cell) => cell.row.key === key || normaliseName(rowName(cell)) === key);
  const named = cells.filter((cell) => cell.row.movement === key || cell.movement?.key === key);
  return (exact.length > 0 ? exact : named)
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

/** Keys of the clients in the header of the log. */
function clientsOfLog(cursor: Cursor): readonly string[] {
  const parts = cursor.context.opener.replace(/^log\s+/i, '').split(',');
  const date = parts.findIndex((part) => isDate(part.trim()));
  return parts.slice(0, date < 0 ? 1 : date).map((part) => normaliseName(part));
}

/** Whether a piece of a log's header is its date. */
export function isDate(part: string): boolean {
  return /^\d{4}-\d{2}-\d{2}$/.test(part);
}

function cellsOfLog(cursor: Cursor): readonly ResolvedCell[] {
  const [client = '', ...rest] = cursor.context.opener
    .replace(/^log\s+/i, '')
    .split(',')
    .map((part) => part.trim());
  const plan = cursor.session.plan(normaliseName(client));
  const date = rest.find(isDate);
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
