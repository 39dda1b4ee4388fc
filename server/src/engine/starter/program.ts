import { normaliseName } from '../../../../grammar/index.js';
import { say } from '../../../../grammar/say.js';
import { addDays, WEEKDAYS, type Weekday, weekdayOf } from '../dates.js';
import type { Client, IsoDate, MaxEntry, Movement, World } from '../model.js';
import { kitHas } from '../rules/shared/fixes.js';
import { readinessOn } from '../rules/shared/readiness.js';
import type { EngineSession } from '../session.js';
import { createSession } from '../session.js';
import { stageAllows } from '../stages.js';
import { laidOut } from './laidOut.js';
import { DAYS, FIRST_ROWS, LESSONS, type Slot } from './rows.js';

/** When a client trains. */
export interface StarterDays {
  /** A program week is seven days from here; one of `on`. */
  readonly from: IsoDate;
  readonly on: readonly Weekday[];
}

/** A program made for one client. */
export interface StarterProgram {
  readonly name: string;
  readonly text: string;
  /** What it leaves out of the movements of her sets. */
  readonly waiting: readonly Waiting[];
}

/** A movement of hers that the program leaves out, and why in words. */
export interface Waiting {
  readonly movement: string;
  readonly why: string;
}

/** The finding that the program is written with, for the coach to meet and solve: a set to failure by a beginner. */
export const LESSON_CODE = 'failure-early';

/** The first of some weekdays in the week after today. */
export function firstDay(today: IsoDate, on: readonly Weekday[]): IsoDate {
  let monday = addDays(today, 1);
  while (weekdayOf(monday) !== 'mon') monday = addDays(monday, 1);
  const first = Math.max(0, Math.min(...on.map((day) => WEEKDAYS.indexOf(day))));
  return addDays(monday, Number.isFinite(first) ? first : 0);
}

/** The line that lets a client follow a program. */
export function followsLine(program: string, { from, on }: StarterDays): string {
  return `follows: ${program}, from ${from}, on ${on.join(' ')}`;
}

/**
 * A program of six weeks for a beginner: each day begins with bodyweight, then come the movements of which she has a
 * set, light at first, then bands and a backpack. Each row is tried on her and her kit before it is taken: one that
 * would bring a finding is left out for the next way to do it. The one finding that stays is `LESSON_CODE`: it is meant.
 */
export function starterProgram(
  session: EngineSession,
  clientKey: string,
  days: StarterDays,
): StarterProgram | null {
  const world = session.world();
  const client = world.clients.get(clientKey);
  if (!client) return null;
  const name = freeName(world, client);
  const trial = new Trial(session, world, client, name, days);
  const taken = new Map<Slot, string>();
  const fits = (slot: Slot): boolean => {
    const found = slot.rows.find((row) => trial.passes(textOf(name, new Map([...taken, [slot, row]]))));
    if (found !== undefined) taken.set(slot, found);
    return found !== undefined;
  };
  const first = firstRows(client, days.from);
  // Where all of them go as they are wished, one look is enough.
  const wished = new Map(first.map((slot) => [slot, slot.rows[0] ?? '']));
  if (trial.passes(textOf(name, wished))) for (const [slot, row] of wished) taken.set(slot, row);
  else for (const slot of first) fits(slot);
  const waiting: Waiting[] = [];
  const loaded = [0, 0];
  for (const { movement, max } of lifts(world, client)) {
    if (first.some(({ rows }) => rows.some((row) => row.startsWith(`${movement.name}:`)))) continue;
    const wishedDay = ON_SECOND_DAY.has(movement.pattern) ? 1 : 0;
    const day = (loaded[wishedDay] ?? 0) < 2 ? wishedDay : 1 - wishedDay;
    const obstacle = obstacleTo(world, client, movement, days.from);
    const ways = obstacle === null ? [0, 1].map((block) => loadedRows(movement, max, block)) : [];
    const [ground = [], footing = []] = ways;
    if (!fits({ block: 0, day, place: 'lift', rows: ground }))
      waiting.push({ movement: movement.name, why: obstacle ?? say('no dose of it fits yet') });
    else {
      loaded[day] = (loaded[day] ?? 0) + 1;
      fits({ block: 1, day, place: 'lift', rows: footing });
    }
  }
  return { name, text: laidOut(textOf(name, taken, waiting)), waiting };
}

/** The rows for everybody, with one to failure in a pattern that she is still learning. */
function firstRows(client: Client, date: IsoDate): readonly Slot[] {
  const lesson = LESSONS.find(({ pattern }) => readinessOn(client, pattern, date).stage === 'learn');
  const label = lesson?.row.replace(/:.*/, ':');
  return FIRST_ROWS.map((slot) =>
    lesson && slot.block === 0 && slot.rows.some((row) => row.startsWith(label ?? ''))
      ? { ...slot, rows: [lesson.row, ...slot.rows] }
      : slot,
  );
}

/** Why no dose of a movement needs a look: her kit has nothing for it, or it is not signed off. Null: nothing is. */
function obstacleTo(world: World, client: Client, movement: Movement, date: IsoDate): string | null {
  const kit = world.kits.get(client.trainsAt[0]?.kit ?? '') ?? null;
  if (!kitHas(kit, movement)) return say('the kit has nothing for it');
  const { stage } = readinessOn(client, movement.pattern, date);
  return stageAllows(stage, movement.stage) ? null : say('not signed off yet');
}

const ON_SECOND_DAY: ReadonlySet<string> = new Set(['hinge', 'lunge', 'press', 'row']);

/** Names are unique in a folder. */
function freeName(world: World, client: Client): string {
  const names = ['First weeks', `First weeks of ${client.name}`];
  for (let number = 2; number < 100; number += 1) names.push(`First weeks of ${client.name} ${number}`);
  return names.find((name) => !world.programs.has(normaliseName(name))) ?? 'First weeks';
}

/** The movements of which a client has a set, the newest set of each, in the order written. */
function lifts(world: World, client: Client): readonly { movement: Movement; max: MaxEntry }[] {
  const newest = new Map<string, MaxEntry>();
  for (const max of client.maxes) {
    const before = newest.get(max.movement);
    if (!before || before.date <= max.date) newest.set(max.movement, max);
  }
  return [...newest.values()].flatMap((max) => {
    const movement = world.movements.get(max.movement);
    return movement ? [{ movement, max }] : [];
  });
}

/**
 * Ways to do a movement in a block, the wished one first: at least four in reserve, so that the load stays that of
 * learning work. Common practice, no source.
 */
function loadedRows(movement: Movement, max: MaxEntry, block: number): readonly string[] {
  const warm = movement.implement.kind === 'barbell' ? ' warm' : '';
  const row = (dose: string, then = '') => `${movement.name}: ${dose}${warm} rest 90s${then}`;
  const more = block === 0 ? '' : ' | | 3x';
  const efforts = block === 0 ? ['r5', 'r4', 'r6'] : ['r4', 'r5', 'r6'];
  const doses = ['2x10', '2x8', '2x12'].flatMap((dose) =>
    efforts.map((effort) => row(`${dose} ${effort}`, more)),
  );
  const ranges = ['2x8-12', '2x10-14'].flatMap((dose) =>
    efforts.map((effort) => row(`${dose} ${effort}`, more)),
  );
  // Without a body mass there is no load to work out: half of what she did.
  const half = max.bodyweight ? [`${movement.name}: 2x${Math.max(1, Math.floor(max.reps / 2))}${more}`] : [];
  return [...doses, ...ranges, ...half];
}

/** Asks what a program would bring, with what this client's plan rests on and nothing else. */
class Trial {
  private readonly session = createSession();
  private readonly before: number;

  constructor(
    session: EngineSession,
    world: World,
    private readonly client: Client,
    private readonly name: string,
    private readonly days: StarterDays,
  ) {
    const places = [
      ...client.nodes.map(({ file }) => file),
      ...client.trainsAt.map(({ kit }) => world.kits.get(kit)?.place.file),
      ...[...world.movements.values()].map(({ place }) => place?.file),
    ];
    for (const file of new Set(places)) {
      if (file !== undefined) this.session.setFile(file, session.text(file) ?? '');
    }
    this.session.setOptions({ today: session.today(), severities: {} });
    this.before = this.findings();
  }

  passes(text: string): boolean {
    const follows = `client ${this.client.name}\n  ${followsLine(this.name, this.days)}\n`;
    this.session.setFile(TRIAL_FILE, `${text}\n${follows}`);
    return this.findings() <= this.before;
  }

  /** A program that is not whole yet may lack its other half; that is looked at in tests. */
  private findings(): number {
    const rest = this.session
      .allFindings()
      .filter(({ code }) => code !== LESSON_CODE && code !== 'one-sided');
    return rest.length;
  }
}

const TRIAL_FILE = 'starter:trial';

function textOf(name: string, rows: ReadonlyMap<Slot, string>, waiting: readonly Waiting[] = []): string {
  const blocks = [`block Ground, 2 weeks, learn`, `block Footing, 4 weeks, learn`];
  const lines = [
    `-- ${say('A week is a column, a movement is a row.')}`,
    `-- ${say('An empty column repeats the one before.')}`,
    `-- ${say('One row goes to failure on purpose: see the warning.')}`,
    ...waiting.map(({ movement, why }) => `-- ${say`Not in here yet: ${movement} (${why}).`}`),
    '',
    `program ${name}`,
    '  aim: health',
    `  "${say('Stop at pain in the chest, dizziness, unusual breathlessness or sharp pain, and tell your coach.')}"`,
  ];
  blocks.forEach((block, index) => {
    lines.push('', block);
    DAYS.forEach((day, dayIndex) => {
      lines.push(`day ${day}`);
      for (const place of ['first', 'lift', 'rest']) {
        for (const [slot, row] of rows) {
          if (slot.block === index && slot.day === dayIndex && slot.place === place) lines.push(`  ${row}`);
        }
      }
    });
  });
  return `${lines.join('\n')}\n`;
}
