import { weekdayOf } from '../dates.js';
import type {
  Block,
  Client,
  ClientPlan,
  Day,
  Follows,
  IsoDate,
  Kit,
  Program,
  ResolvedCell,
  Row,
  Session,
  World,
} from '../model.js';
import { calendarOf, type Slot, untilOf } from './calendar.js';
import { cellPlace, RowRunner, type RowTrace } from './row.js';

/** The kit a client has on a date: lines for that weekday before general ones, and the newest `from` by then. */
export function kitOn(client: Client, date: IsoDate, world: Pick<World, 'kits'>): Kit | null {
  const weekday = weekdayOf(date);
  let best: Client['trainsAt'][number] | null = null;
  for (const line of client.trainsAt) {
    if ((line.from ?? '') > date || (line.on.length > 0 && !line.on.includes(weekday))) continue;
    const closer = !best || (line.on.length > 0 && best.on.length === 0);
    const equal = best !== null && line.on.length > 0 === best.on.length > 0;
    if (closer || (equal && (line.from ?? '') >= (best?.from ?? ''))) best = line;
  }
  return best ? (world.kits.get(best.kit) ?? null) : null;
}

/**
 * Cells of rows that were worked out before. After a keystroke most rows find their cells here. It is handed on from
 * plan to plan, because not every plan has all of its cells worked out.
 */
export interface PlanMemory {
  readonly client: Client;
  readonly movements: World['movements'];
  readonly kits: readonly (Kit | undefined)[];
  /** By place in the programs, with everything that the cells depend on besides the client, movements and kits. */
  readonly rows: Map<string, KeptRow>;
}

interface KeptRow {
  readonly about: string;
  readonly cells: readonly (ResolvedCell | null)[];
}

/** Rows that are gone are forgotten when there are so many times as many as the plan has. */
const MOST_ROWS_TIMES = 3;

/**
 * Everything of one client, worked out: sessions in order of date, with cells that are resolved when they are asked
 * for. `before` is what an earlier plan of the same client left; it is only used as far as nothing it rests on has
 * changed.
 */
export function resolvePlan(
  client: Client,
  world: World,
  before?: PlanMemory,
): { readonly plan: ClientPlan; readonly memory: PlanMemory } {
  const sessions: Session[] = [];
  const missed: ClientPlan['missed'][number][] = [];
  const unreachedDays: ClientPlan['unreachedDays'][number][] = [];
  const kits = client.trainsAt.map((line) => world.kits.get(line.kit));
  const rows: PlanMemory['rows'] =
    before && isSound(before, client, world, kits) ? before.rows : new Map<string, KeptRow>();
  let rowCount = 0;
  client.follows.forEach((follows, index) => {
    const program = world.programs.get(follows.program);
    if (!program) return;
    const calendar = calendarOf(program, follows, client.aways, untilOf(client.follows, index));
    missed.push(...calendar.missed);
    unreachedDays.push(...calendar.unreachedDays);
    for (const slots of byDay(calendar.slots).values()) {
      rowCount += slots[0]?.day.rows.length ?? 0;
      sessions.push(...sessionsOf(slots, { client, world, program, follows, index, rows }));
    }
  });
  if (rows.size > rowCount * MOST_ROWS_TIMES) rows.clear();
  sessions.sort((a, b) => (a.date < b.date ? -1 : a.date > b.date ? 1 : 0));
  return {
    plan: { client, sessions, missed, unreachedDays },
    memory: { client, movements: world.movements, kits, rows },
  };
}

function isSound(memory: PlanMemory, client: Client, world: World, kits: PlanMemory['kits']): boolean {
  if (memory.client !== client || memory.movements !== world.movements) return false;
  return memory.kits.length === kits.length && memory.kits.every((kit, index) => kit === kits[index]);
}

/** Sessions of each day of each block, in order. */
function byDay(slots: readonly Slot[]): Map<Day, Slot[]> {
  const found = new Map<Day, Slot[]>();
  for (const slot of slots) {
    const own = found.get(slot.day);
    if (own) own.push(slot);
    else found.set(slot.day, [slot]);
  }
  return found;
}

interface Work {
  readonly client: Client;
  readonly world: World;
  readonly program: Program;
  readonly follows: Follows;
  /** Number of the line that says what she follows. */
  readonly index: number;
  readonly rows: PlanMemory['rows'];
}

/** All sessions of one day of a block. Their cells are worked out when somebody asks for those of one of them. */
function sessionsOf(slots: readonly Slot[], work: Work): Session[] {
  const { client, world, program, follows } = work;
  const { block, day } = slots[0] as Slot;
  const kits = slots.map((slot) => kitOn(client, slot.date, world));
  const cells = new DayCells(slots, kits, work);
  return slots.map(
    (slot, index) =>
      new PlannedSession(
        client,
        program,
        block,
        day,
        slot.week,
        slot.date,
        block.deloadWeeks.has(slot.week),
        kits[index] as Kit | null,
        follows.supervised,
        follows.startMinutes.get(weekdayOf(slot.date)) ?? null,
        cells,
        index,
      ),
  );
}

/** The cells of one day of a block; the weeks of a row follow from one another, so all weeks are worked out at once. */
class DayCells {
  #work: Work | null;
  #byWeek: readonly (readonly ResolvedCell[])[] = [];

  constructor(
    readonly slots: readonly Slot[],
    readonly kits: readonly (Kit | null)[],
    work: Work,
  ) {
    this.#work = work;
  }

  at(index: number): readonly ResolvedCell[] {
    if (this.#work) {
      this.#byWeek = this.#resolve(this.#work);
      // What an earlier plan left is not held longer than it is needed.
      this.#work = null;
    }
    return this.#byWeek[index] as readonly ResolvedCell[];
  }

  #resolve(work: Work): ResolvedCell[][] {
    const { slots, kits } = this;
    const { block, day } = slots[0] as Slot;
    const ofDay = aboutDay(block, slots);
    const place = `${work.index}\n${work.program.key}\n${block.key}\n${day.key}`;
    const byRow = day.rows.map((row) => {
      const key = `${place}\n${row.key}`;
      const about = `${aboutRow(row)}\n${ofDay}`;
      const known = work.rows.get(key);
      const cells =
        known?.about === about
          ? placedAnew(known.cells, work.program, slots, row)
          : resolveRow(row, slots, kits, work);
      work.rows.set(key, { about, cells });
      return cells;
    });
    return slots.map((_, index) => cellsAt(byRow, index));
  }
}

class PlannedSession implements Session {
  readonly #cells: DayCells;
  readonly #index: number;

  constructor(
    readonly client: Client,
    readonly program: Program,
    readonly block: Block,
    readonly day: Day,
    readonly week: number,
    readonly date: IsoDate,
    readonly deload: boolean,
    readonly kit: Kit | null,
    readonly supervised: boolean,
    readonly startMinute: number | null,
    cells: DayCells,
    index: number,
  ) {
    this.#cells = cells;
    this.#index = index;
  }

  get cells(): readonly ResolvedCell[] {
    return this.#cells.at(this.#index);
  }
}

/** The cells of one session, less those of rows that are left out that day. */
function cellsAt(byRow: readonly (readonly (ResolvedCell | null)[])[], index: number): ResolvedCell[] {
  const found: ResolvedCell[] = [];
  for (const cells of byRow) {
    const cell = cells[index];
    if (cell) found.push(cell);
  }
  return found;
}

function resolveRow(
  row: Row,
  slots: readonly Slot[],
  kits: readonly (Kit | null)[],
  work: Work,
): (ResolvedCell | null)[] {
  const { client, world, program } = work;
  const { block, day } = slots[0] as Slot;
  const runner = new RowRunner({ world, client, program, block, day, row });
  return slots.map((slot, index) => runner.resolve(slot, kits[index] as Kit | null));
}

/** What the cells of a day depend on in its block and on the calendar, as text to compare. */
function aboutDay(block: Block, slots: readonly Slot[]): string {
  const dates = slots.map(({ week, date, back }) => `${week} ${date} ${back?.share ?? ''}`).join();
  return `${block.weeks} ${[...block.deloadWeeks].join()} ${block.likeFactor} ${dates}`;
}

/** The same for a row: its text, its circuit and the `effort:` that holds for it. */
function aboutRow({ text, circuit, effortByWeek }: Row): string {
  return `${text}\n${circuit ? `circuit ${circuit.roundsByWeek.join()}` : ''}\n${effortByWeek.join()}`;
}

/** Cells of an unchanged row, which may stand at another place now. */
function placedAnew(
  cells: readonly (ResolvedCell | null)[],
  program: Program,
  slots: readonly Slot[],
  row: Row,
): (ResolvedCell | null)[] {
  const { block, day } = slots[0] as Slot;
  return cells.map((cell) => {
    if (!cell) return null;
    const written = cell.cellIndex === null ? null : (row.node.cells[cell.cellIndex] ?? null);
    // Written out, because a spread of so many properties takes several times as long.
    return {
      client: cell.client,
      program,
      block,
      day,
      row,
      movement: cell.movement,
      swap: cell.swap,
      week: cell.week,
      date: cell.date,
      deload: cell.deload,
      backShare: cell.backShare,
      kit: cell.kit,
      groups: cell.groups,
      perSide: cell.perSide,
      restSeconds: cell.restSeconds,
      tempo: cell.tempo,
      heightCm: cell.heightCm,
      warm: cell.warm,
      test: cell.test,
      texts: cell.texts,
      place: cellPlace(row, written),
      cellIndex: cell.cellIndex,
    };
  });
}

/** Resolves one cell again and tells each step to `trace`. The weeks before it are gone through in silence. */
export function retrace(cell: ResolvedCell, follows: Follows, world: World, trace: RowTrace): void {
  const { client, program, row } = cell;
  const index = client.follows.indexOf(follows);
  const { slots } = calendarOf(program, follows, client.aways, untilOf(client.follows, index));
  const runner = new RowRunner({ world, client, program, block: cell.block, day: cell.day, row });
  for (const slot of slots) {
    if (slot.block !== cell.block || slot.day !== cell.day || slot.date > cell.date) continue;
    const kit = kitOn(client, slot.date, world);
    runner.resolve(slot, kit, slot.date === cell.date ? trace : undefined);
  }
}
