import type { ResolvedCell, ResolvedGroup, Session, World } from '../../model.js';
import type { EngineSession } from '../../session.js';
import { applyEdits } from '../format.js';
import type { FileEdit } from '../navigation.js';

/** A workspace as it would be with some edits and new files; the original is left as it is. */
export function withEdits(
  original: EngineSession,
  edits: readonly FileEdit[],
  files: readonly NewFile[] = [],
): EngineSession {
  const trial = original.fork();
  for (const file of new Set(edits.map((edit) => edit.file))) {
    const own = edits.filter((edit) => edit.file === file);
    trial.setFile(file, applyEdits(original.text(file) ?? '', own));
  }
  for (const { file, text } of files) trial.setFile(file, text);
  return trial;
}

export interface NewFile {
  readonly file: string;
  readonly text: string;
}

/** One cell of one client, as something that can be found again after an edit. */
export interface WorkKey {
  readonly client: string;
  readonly program: string;
  readonly block: string;
  readonly day: string;
  readonly row: string;
  readonly week: number;
  /** A day may come twice in a week. */
  readonly turn: number;
}

export interface Work {
  readonly key: WorkKey;
  readonly cell: ResolvedCell;
  /** Everything that is asked of her, as text to compare. */
  readonly asked: string;
  /** Heaviest load of the cell, added load for bodyweight movements; null where there is none. */
  readonly loadKg: number | null;
}

export type Works = ReadonlyMap<string, Work>;

/** Everything that some clients are asked to do. */
export function worksOf(session: EngineSession, clientKeys: readonly string[]): Works {
  return worksIn(clientKeys.flatMap((client) => session.plan(client)?.sessions ?? []));
}

/** The same before and after an edit, without the sessions in which nothing had to be worked out again. */
export function worksApart(
  before: EngineSession,
  after: EngineSession,
  clientKeys: readonly string[],
): { readonly before: Works; readonly after: Works } {
  const apart = clientKeys.map((client) => {
    const old = before.plan(client)?.sessions ?? [];
    const now = after.plan(client)?.sessions ?? [];
    const isKept = (index: number): boolean => {
      const [a, b] = [old[index], now[index]];
      return a !== undefined && b !== undefined && isSameSession(a, b);
    };
    return {
      old: old.filter((_, index) => !isKept(index)),
      now: now.filter((_, index) => !isKept(index)),
    };
  });
  return {
    before: worksIn(apart.flatMap(({ old }) => old)),
    after: worksIn(apart.flatMap(({ now }) => now)),
  };
}

function isSameSession(a: Session, b: Session): boolean {
  return (
    a.date === b.date &&
    a.week === b.week &&
    a.program.key === b.program.key &&
    a.block.key === b.block.key &&
    a.day.key === b.day.key &&
    a.cells.length === b.cells.length &&
    a.cells.every((cell, index) => {
      const other = b.cells[index];
      return cell.groups === other?.groups && cell.row.key === other.row.key;
    })
  );
}

function worksIn(sessions: readonly Session[]): Works {
  const found = new Map<string, Work>();
  for (const { client, program, block, day, week, cells } of sessions) {
    const place = { client: client.key, program: program.key, block: block.key, day: day.key };
    for (const cell of cells) {
      const base = { ...place, row: cell.row.key, week };
      let turn = 0;
      let text = textOf({ ...base, turn });
      while (found.has(text)) text = textOf({ ...base, turn: ++turn });
      found.set(text, new FoundWork({ ...base, turn }, cell));
    }
  }
  return found;
}

/** Names hold no line break. */
export function textOf({ client, program, block, day, row, week, turn }: WorkKey): string {
  return `${client}\n${program}\n${block}\n${day}\n${row}\n${week}\n${turn}`;
}

/** Most cells are the very same as before, so that what they ask is read when somebody asks. */
class FoundWork implements Work {
  constructor(
    readonly key: WorkKey,
    readonly cell: ResolvedCell,
  ) {}

  get asked(): string {
    return askedOf(this.cell);
  }

  get loadKg(): number | null {
    return heaviest(this.cell);
  }
}

/** Whether the same is asked of her. A cell that did not have to be worked out again has the very same groups. */
export function sameWork(a: ResolvedCell, b: ResolvedCell): boolean {
  return a.groups === b.groups || askedOf(a) === askedOf(b);
}

function heaviest({ groups }: ResolvedCell): number | null {
  const loads = groups.flatMap(({ loadKg }) => loadKg ?? []);
  return loads.length === 0 ? null : Math.max(...loads);
}

function askedOf(cell: ResolvedCell): string {
  const { perSide, restSeconds, tempo, heightCm, warm, test, texts, movement } = cell;
  const groups = cell.groups.map(askedOfGroup);
  return JSON.stringify([movement?.key, groups, perSide, restSeconds, tempo, heightCm, warm, test, texts]);
}

function askedOfGroup(group: ResolvedGroup): readonly unknown[] {
  const { sets, reps, repsUpper, openReps, seconds, metres, offSeconds, loadKg, band } = group;
  const load = loadKg === null ? null : Math.round(loadKg * 1e6) / 1e6;
  return [sets, reps, repsUpper, openReps, seconds, metres, offSeconds, load, band];
}

/** A cell that is no longer what it was. */
export interface WorkChange {
  readonly before: Work;
  /** Null: it is gone. */
  readonly after: Work | null;
  /** The load is higher than before, or there is one where there was none. */
  readonly raised: boolean;
}

/** Cells that changed. `renamed` says where a cell is found after the edit; null: it is meant to be gone. */
export function changesBetween(
  before: Works,
  after: Works,
  renamed: (key: WorkKey) => WorkKey | null = (key) => key,
): WorkChange[] {
  const changes: WorkChange[] = [];
  for (const work of before.values()) {
    const key = renamed(work.key);
    if (!key) continue;
    const now = after.get(textOf(key)) ?? null;
    if (now && sameWork(now.cell, work.cell)) continue;
    const raised = now !== null && now.loadKg !== null && now.loadKg > (work.loadKg ?? -1000) + 1e-9;
    changes.push({ before: work, after: now, raised });
  }
  return changes;
}

/**
 * What is wrong in a workspace that a refactoring of some files must not add to: by kind, how often. Logs of others than
 * `clients`, whom the files are about, are left alone: they name nothing that is written there.
 */
export function mistakesOf(
  session: EngineSession,
  files: readonly string[],
  clients: readonly string[],
): ReadonlyMap<string, number> {
  const found = new Map<string, number>();
  const add = (what: string): void => {
    found.set(what, (found.get(what) ?? 0) + 1);
  };
  for (const file of files)
    for (const { code, severity } of session.tree(file)?.problems ?? []) if (severity === 'error') add(code);
  const { unknownIn, holdsLogsOnly, logsByClient, twiceNamed, structureProblems } = session.world();
  const own = new Set([...files, ...clients.flatMap((key) => logsByClient.get(key)?.files ?? [])]);
  const named = session.files().filter((file) => own.has(file) || !holdsLogsOnly(file));
  for (const { kind, name } of named.flatMap(unknownIn)) add(`unknown ${kind} ${name.key}`);
  for (const { kind, text } of twiceNamed) add(`twice ${kind} ${text}`);
  for (const { kind } of structureProblems) add(kind);
  return found;
}

export function hasMore(before: ReadonlyMap<string, number>, after: ReadonlyMap<string, number>): boolean {
  return [...after].some(([what, count]) => count > (before.get(what) ?? 0));
}

/** Clients whose plan may rest on some files. */
export function clientsOn(world: World, files: ReadonlySet<string>): string[] {
  return [...world.clients.values()]
    .filter(
      ({ nodes, follows, trainsAt }) =>
        nodes.some(({ file }) => files.has(file)) ||
        trainsAt.some(({ kit }) => files.has(world.kits.get(kit)?.place.file ?? '')) ||
        follows.some(({ program, place }) => {
          const found = world.programs.get(program);
          if (files.has(place.file) || files.has(found?.place.file ?? '')) return true;
          return found?.blocks.some(({ days }) =>
            days.some(({ rows }) => rows.some((row) => files.has(row.place.file))),
          );
        }),
    )
    .map(({ key }) => key)
    .sort();
}
