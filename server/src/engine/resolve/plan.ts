import { weekdayOf } from '../dates.js';
import type { Client, ClientPlan, Follows, IsoDate, Kit, Program, ResolvedCell, Row, Session, World } from '../model.js';
import { calendarOf, type Slot, untilOf } from './calendar.js';
import { RowRunner, type RowTrace } from './row.js';

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

/** Everything of one client, worked out: sessions in order of date, with every cell resolved. */
export function resolvePlan(client: Client, world: World): ClientPlan {
  const sessions: Session[] = [];
  const missed: ClientPlan['missed'][number][] = [];
  const unreachedDays: ClientPlan['unreachedDays'][number][] = [];
  client.follows.forEach((follows, index) => {
    const program = world.programs.get(follows.program);
    if (!program) return;
    const calendar = calendarOf(program, follows, client.aways, untilOf(client.follows, index));
    missed.push(...calendar.missed);
    unreachedDays.push(...calendar.unreachedDays);
    const runners = new Runners(world, client, program);
    for (const slot of calendar.slots) sessions.push(session(runners, follows, slot));
  });
  sessions.sort((a, b) => (a.date < b.date ? -1 : a.date > b.date ? 1 : 0));
  return { client, sessions, missed, unreachedDays };
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

/** One runner for each row of a program, kept as its weeks go by. */
class Runners {
  readonly #byRow = new Map<Row, RowRunner>();

  constructor(
    readonly world: World,
    readonly client: Client,
    readonly program: Program,
  ) {}

  of(row: Row, slot: Slot): RowRunner {
    let runner = this.#byRow.get(row);
    if (!runner) {
      const { world, client, program } = this;
      runner = new RowRunner({ world, client, program, block: slot.block, day: slot.day, row });
      this.#byRow.set(row, runner);
    }
    return runner;
  }
}

function session(runners: Runners, follows: Follows, slot: Slot): Session {
  const { client, program, world } = runners;
  const kit = kitOn(client, slot.date, world);
  const cells: ResolvedCell[] = [];
  for (const row of slot.day.rows) {
    const cell = runners.of(row, slot).resolve(slot, kit);
    if (cell) cells.push(cell);
  }
  const { block, day, week, date } = slot;
  return {
    client,
    program,
    block,
    day,
    week,
    date,
    deload: block.deloadWeeks.has(week),
    kit,
    supervised: follows.supervised,
    cells,
  };
}

