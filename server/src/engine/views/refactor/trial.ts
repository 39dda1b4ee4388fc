import type { ClientPlan, ResolvedCell, ResolvedGroup, World } from '../../model.js';
import { createSession, type EngineSession } from '../../session.js';
import { applyEdits } from '../format.js';
import type { FileEdit } from '../navigation.js';

/** A copy of a workspace in which edits are tried before anybody sees them. */
export class Trial {
  readonly session: EngineSession;

  constructor(private readonly original: EngineSession) {
    this.session = createSession({ today: original.today() });
    for (const file of original.files()) this.session.setFile(file, original.text(file) ?? '');
  }

  /** Adds a file that only the trial knows. */
  add(file: string, text: string): void {
    this.session.setFile(file, text);
  }

  /** Makes the edits, reads what `look` asks for, and takes them back. */
  with<Answer>(edits: readonly FileEdit[], files: readonly NewFile[], look: () => Answer): Answer {
    const touched = new Set(edits.map(({ file }) => file));
    for (const file of touched) this.session.setFile(file, this.edited(file, edits));
    for (const { file, text } of files) this.session.setFile(file, text);
    try {
      return look();
    } finally {
      for (const file of touched) this.session.setFile(file, this.original.text(file) ?? '');
      for (const { file } of files) this.session.removeFile(file);
    }
  }

  private edited(file: string, edits: readonly FileEdit[]): string {
    return applyEdits(
      this.original.text(file) ?? '',
      edits.filter((edit) => edit.file === file),
    );
  }
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
  const found = new Map<string, Work>();
  for (const client of clientKeys) {
    for (const { program, block, day, week, cells } of (session.plan(client) as ClientPlan | undefined)
      ?.sessions ?? []) {
      for (const cell of cells) {
        const base = {
          client,
          program: program.key,
          block: block.key,
          day: day.key,
          row: cell.row.key,
          week,
        };
        let turn = 0;
        while (found.has(textOf({ ...base, turn }))) turn++;
        const key = { ...base, turn };
        found.set(textOf(key), { key, cell, asked: askedOf(cell), loadKg: heaviest(cell) });
      }
    }
  }
  return found;
}

export function textOf({ client, program, block, day, row, week, turn }: WorkKey): string {
  return JSON.stringify([client, program, block, day, row, week, turn]);
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
    if (now?.asked === work.asked) continue;
    const raised = now !== null && now.loadKg !== null && now.loadKg > (work.loadKg ?? -1000) + 1e-9;
    changes.push({ before: work, after: now, raised });
  }
  return changes;
}

/** What is wrong in a workspace that a refactoring must not add to: by kind, how often. */
export function mistakesOf(session: EngineSession, files: readonly string[]): ReadonlyMap<string, number> {
  const found = new Map<string, number>();
  const add = (what: string): void => {
    found.set(what, (found.get(what) ?? 0) + 1);
  };
  for (const file of files)
    for (const { code, severity } of session.tree(file)?.problems ?? []) if (severity === 'error') add(code);
  const { unknownNames, twiceNamed, structureProblems } = session.world();
  for (const { kind, name } of unknownNames) add(`unknown ${kind} ${name.key}`);
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
