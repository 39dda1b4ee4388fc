/** What was done: log sections bound to the planned sessions and cells that they answer. */
import type { CellItem, DoneGroup, DoneSet, LogLine } from '../../../../grammar/index.js';
import { dayNumber } from '../dates.js';
import type {
  ClientPlan,
  IsoDate,
  LogEntry,
  Movement,
  Place,
  ResolvedCell,
  ResolvedGroup,
  Session,
  World,
} from '../model.js';

/** Days by which a session may be moved and still be the planned one, when its day is named. Common practice, no source. */
const MOVED_DAYS = 3;

/** One set that was done. */
export interface SetDone {
  readonly reps: number | null;
  /** Right side, where both were written: `8/7`. */
  readonly rightReps: number | null;
  readonly seconds: number | null;
  readonly metres: number | null;
}

/** Sets with one load, in the order in which they were done. */
export interface GroupDone {
  /** Kilograms as in the plan: each dumbbell, the added load on bodyweight. Null where none is known or used. */
  readonly loadKg: number | null;
  /** Load as it was written, `45kg` or `bw+5kg`; null where the plan's load was taken. */
  readonly written: string | null;
  readonly band: string | null;
  readonly sets: readonly SetDone[];
  /** Repetitions in reserve that were told after the last set; null where none were. */
  readonly reserve: number | null;
  /** Taken from the plan, nothing was written of its own: says that it was done, and nothing about strength. */
  readonly asPlanned: boolean;
  readonly place: Place;
}

export type DoneStatus = 'as-planned' | 'done' | 'skipped' | 'not-written';

/** One movement of a session: what was planned, what was done. */
export interface MovementDone {
  readonly key: string;
  readonly name: string;
  readonly label: string | null;
  readonly movement: Movement | null;
  /** Null for a movement that was not in the plan. */
  readonly cell: ResolvedCell | null;
  readonly status: DoneStatus;
  readonly skippedReason: string | null;
  /** A swap on the day: the planned movement in whose place this one was done, and why. Null for all else. */
  readonly insteadOf: { readonly name: string; readonly reason: string | null } | null;
  readonly groups: readonly GroupDone[];
  readonly place: Place;
}

export interface PainNoted {
  readonly where: string;
  /** 0 to 10. */
  readonly score: number;
  readonly date: IsoDate;
  readonly place: Place;
}

/** One log of one client. */
export interface SessionDone {
  readonly date: IsoDate;
  readonly entry: LogEntry;
  /** The planned session that it answers; null when there is none. */
  readonly session: Session | null;
  readonly movements: readonly MovementDone[];
  /** Effort of the whole session, 0 to 10, and its length. */
  readonly rpe: number | null;
  readonly minutes: number | null;
  readonly pains: readonly PainNoted[];
  readonly notes: readonly string[];
  readonly place: Place;
}

/** The logs of one client in order of date. */
export function logsOf(world: Pick<World, 'logsByClient'>, clientKey: string): readonly LogEntry[] {
  return world.logsByClient.get(clientKey)?.all ?? [];
}

/**
 * Every log of a client, or those given, bound to her plan, in order of date. Never throws; what finds no plan stands
 * for itself.
 */
export function bindLogs(
  plan: ClientPlan,
  world: World,
  entries: readonly LogEntry[] = logsOf(world, plan.client.key),
): readonly SessionDone[] {
  const planned = pairSessions(plan, entries);
  return entries.map((entry, index) => bindEntry(entry, planned[index] ?? null, world));
}

/**
 * The planned session of each log: that of its date (and day, where one is named), else for a named day the nearest
 * of that day within three days, each session once.
 */
function pairSessions(plan: ClientPlan, entries: readonly LogEntry[]): readonly (Session | null)[] {
  const byDate = new Map<IsoDate, Session[]>();
  for (const session of plan.sessions) {
    const same = byDate.get(session.date);
    if (same) same.push(session);
    else byDate.set(session.date, [session]);
  }
  const taken = new Set<Session>();
  const found = entries.map((entry) => {
    const sessions = (byDate.get(entry.date) ?? []).filter((session) => !taken.has(session));
    const session = entry.day === null ? sessions[0] : sessions.find(({ day }) => day.key === entry.day);
    if (session) taken.add(session);
    return session ?? null;
  });
  const sessionDays = plan.sessions.map(({ date }) => dayNumber(date));
  return found.map((session, index) => {
    const entry = entries[index] as LogEntry;
    if (session || entry.day === null) return session;
    const at = dayNumber(entry.date);
    let best: Session | null = null;
    let bestDays = MOVED_DAYS + 1;
    for (let i = lowerBound(sessionDays, at - MOVED_DAYS); i < sessionDays.length; i += 1) {
      const days = (sessionDays[i] as number) - at;
      if (days > MOVED_DAYS) break;
      const candidate = plan.sessions[i] as Session;
      if (candidate.day.key !== entry.day || taken.has(candidate) || Math.abs(days) >= bestDays) continue;
      best = candidate;
      bestDays = Math.abs(days);
    }
    if (best) taken.add(best);
    return best;
  });
}

function lowerBound(values: readonly number[], least: number): number {
  let low = 0;
  let high = values.length;
  while (low < high) {
    const middle = (low + high) >>> 1;
    if ((values[middle] as number) < least) low = middle + 1;
    else high = middle;
  }
  return low;
}

export type DoneLine = Extract<LogLine, { kind: 'done' }>;

/** What was planned where a line of a log stands, of the movement that it names; null where there was nothing. */
export type PlannedFor = (entry: LogEntry, line: DoneLine) => ResolvedCell | null;

/** Finds what was planned for lines of a client's logs. Nothing is worked out until the first one is asked for. */
export function plannedFor(plan: () => ClientPlan, entries: readonly LogEntry[]): PlannedFor {
  let sessions: ReadonlyMap<LogEntry, Session | null> | null = null;
  return (entry, line) => {
    if (!sessions) {
      const paired = pairSessions(plan(), entries);
      sessions = new Map(entries.map((each, index) => [each, paired[index] ?? null]));
    }
    const cells = sessions.get(entry)?.cells ?? [];
    const cell = line.insteadOf === null ? cells.find((each) => answers(line, each, cells)) : undefined;
    return cell?.movement?.key === line.movement.key ? cell : null;
  };
}

function bindEntry(entry: LogEntry, session: Session | null, world: World): SessionDone {
  const { file } = entry.place;
  const { lines } = entry.node;
  const allAsPlanned = lines.some((line) => line.kind === 'as-planned');
  const doneLines = lines.filter((line): line is DoneLine => line.kind === 'done');
  const cells = session?.cells ?? [];
  const used = new Set<DoneLine>();
  const movements: MovementDone[] = [];
  for (const cell of cells) {
    const line = doneLines.find((candidate) => !used.has(candidate) && answers(candidate, cell, cells));
    if (line) used.add(line);
    movements.push(line ? fromLine(line, cell, file, world) : fromPlan(cell, allAsPlanned, entry.place));
  }
  for (const line of doneLines) if (!used.has(line)) movements.push(fromLine(line, null, file, world));
  const told = lines.find((line) => line.kind === 'session');
  return {
    date: entry.date,
    entry,
    session,
    movements,
    rpe: told?.kind === 'session' ? (told.rpe?.value ?? null) : null,
    minutes: told?.kind === 'session' ? (told.minutes?.value ?? null) : null,
    pains: lines.flatMap((line) =>
      line.kind === 'pain'
        ? [
            {
              where: line.where.text,
              score: line.score.value,
              date: entry.date,
              place: { file, span: line.span },
            },
          ]
        : [],
    ),
    notes: lines.flatMap((line) => (line.kind === 'note' ? [line.text.text] : [])),
    place: entry.place,
  };
}

/** Whether a log line is about a cell: by row and label, or by the movement that a client's swap put there. */
function answers(line: DoneLine, cell: ResolvedCell, cells: readonly ResolvedCell[]): boolean {
  const about = line.insteadOf ?? line;
  const label = about.label?.key ?? null;
  const names = cell.row.movement === about.movement.key || cell.movement?.key === about.movement.key;
  if (!names) return false;
  const own = cell.row.label === null ? null : cell.row.label.toLowerCase();
  if (label !== null || own === null) return label === own;
  // A row with a label may be named without it where nothing else is meant.
  return !cells.some((other) => other !== cell && other.row.movement === cell.row.movement);
}

function fromPlan(cell: ResolvedCell, asPlanned: boolean, place: Place): MovementDone {
  return {
    key: cell.movement?.key ?? cell.row.movement,
    name: cell.movement?.name ?? cell.row.movementName.text,
    label: cell.row.label,
    movement: cell.movement,
    cell,
    status: asPlanned ? 'as-planned' : 'not-written',
    skippedReason: null,
    insteadOf: null,
    groups: asPlanned ? cell.groups.map((group) => plannedGroup(group, place)) : [],
    place,
  };
}

function fromLine(line: DoneLine, cell: ResolvedCell | null, file: string, world: World): MovementDone {
  const place: Place = { file, span: line.span };
  const swapped = line.insteadOf;
  const movement = world.movements.get(line.movement.key) ?? (swapped ? null : cell?.movement) ?? null;
  const status: DoneStatus = line.skipped ? 'skipped' : line.asPlanned ? 'as-planned' : 'done';
  const planned = swapped ? (cell?.groups ?? []).map(withoutLoad) : (cell?.groups ?? []);
  const asPlanned = status === 'as-planned' || (swapped !== null && line.groups.length === 0);
  const groups =
    status === 'skipped'
      ? []
      : asPlanned
        ? planned.map((group) => plannedGroup(group, place))
        : line.groups.map((group, index) => writtenGroup(group, planned[index] ?? null, file));
  return {
    key: movement?.key ?? line.movement.key,
    name: movement?.name ?? line.movement.text,
    label: line.label?.text ?? null,
    movement,
    cell,
    status,
    skippedReason: line.skipped?.reason?.text ?? null,
    insteadOf: swapped && {
      name: cell?.movement?.name ?? cell?.row.movementName.text ?? swapped.movement.text,
      reason: swapped.reason?.text ?? null,
    },
    groups,
    place,
  };
}

/** What of a planned group holds for another movement: never its load. */
function withoutLoad(group: ResolvedGroup): ResolvedGroup {
  return { ...group, loadKg: null, band: null };
}

/** Sets as the plan asked for them. Open repetitions stay unknown. */
function plannedSets(group: ResolvedGroup): readonly SetDone[] {
  const set: SetDone = { reps: group.reps, rightReps: null, seconds: group.seconds, metres: group.metres };
  return Array.from({ length: group.sets ?? 1 }, () => set);
}

function plannedGroup(group: ResolvedGroup, place: Place): GroupDone {
  return {
    loadKg: group.loadKg,
    written: null,
    band: group.band,
    sets: plannedSets(group),
    reserve: null,
    asPlanned: true,
    place,
  };
}

function writtenGroup(group: DoneGroup, planned: ResolvedGroup | null, file: string): GroupDone {
  const load = group.load;
  return {
    loadKg: load === null ? (planned?.loadKg ?? null) : loadOf(load),
    written: load === null ? null : writtenLoad(load),
    band: load === null ? (planned?.band ?? null) : load.kind === 'band' ? load.band.text : null,
    sets: group.sets.length > 0 ? group.sets.map(plainSet) : planned ? plannedSets(planned) : [],
    reserve: group.reserve,
    asPlanned: false,
    place: { file, span: group.span },
  };
}

function plainSet({ reps, rightReps, seconds, metres }: DoneSet): SetDone {
  return { reps, rightReps, seconds, metres };
}

function loadOf(item: CellItem): number | null {
  if (item.kind === 'load' || item.kind === 'pack') return item.mass.kg;
  return item.kind === 'bodyweight' ? (item.added?.kg ?? 0) : null;
}

/** The load in the notation, as a max line takes it. */
function writtenLoad(item: CellItem): string | null {
  if (item.kind === 'load') return `${item.mass.value}${item.mass.unit}`;
  if (item.kind === 'pack') return `pack ${item.mass.value}${item.mass.unit}`;
  if (item.kind === 'band') return `band ${item.band.text}`;
  if (item.kind !== 'bodyweight') return null;
  if (item.added === null) return 'bw';
  return `bw${item.added.value < 0 ? '-' : '+'}${Math.abs(item.added.value)}${item.added.unit}`;
}

/** Repetitions of a set, both sides together. */
export function repsOf(set: SetDone, perSide: boolean): number {
  if (set.rightReps !== null) return (set.reps ?? 0) + set.rightReps;
  return (set.reps ?? 0) * (perSide ? 2 : 1);
}

/** Repetitions of the weaker side, which is what strength is read from. */
export function weakerReps(set: SetDone): number | null {
  return set.reps !== null && set.rightReps !== null ? Math.min(set.reps, set.rightReps) : set.reps;
}
