import type { FileTree, LogNode, Name } from '../../../../grammar/index.js';
import { builtInMovements } from '../catalogue.js';
import type {
  Client,
  Group,
  Kit,
  LogEntry,
  Movement,
  NameKind,
  Program,
  StructureProblem,
  TwiceNamed,
  UnknownName,
  World,
} from '../model.js';
import { DEFAULT_LIMITS, type MaxLimits } from '../resolve/limits.js';
import { joinedProblems, movementCircles } from './circles.js';
import { bindClient, type ClientPart, type GroupPart } from './client.js';
import { bindKit } from './kit.js';
import { FileLogs, LogBinder, type LogHeading } from './logs.js';
import { bindMovement } from './movement.js';
import { isPattern, type NameUse, namesOf } from './names.js';
import { bindProgram, type ProgramPart } from './program.js';

/** A file to bind. */
export interface BoundFile {
  readonly text: string;
  /** Read when it is asked for, where the headings are there. */
  readonly tree: FileTree;
  /** Of a file with nothing but logs, where they are known without reading it; else null. */
  readonly headings: readonly LogHeading[] | null;
}

/** What one file defines. Kept by tree, so that a file that did not change is not bound again. */
interface FileParts {
  readonly names: readonly NameUse[];
  readonly kits: readonly Kit[];
  readonly movements: readonly Movement[];
  readonly clients: readonly ClientPart[];
  readonly groups: readonly GroupPart[];
  readonly programs: readonly ProgramPart[];
  /** Null where there are none. */
  readonly logs: FileLogs | null;
  /** Blocks, days and rows that are there twice in a program of this file. */
  readonly twice: readonly TwiceNamed[];
  /** Everything that is defined here, as one text: while it stays the same, no name elsewhere becomes unknown. */
  readonly defined: string;
}

interface KeptClient {
  readonly inputs: readonly unknown[];
  readonly client: Client;
  readonly conflicts: readonly TwiceNamed[];
}

interface KeptProgram {
  readonly inputs: readonly unknown[];
  readonly program: Program;
  readonly problems: readonly StructureProblem[];
}

/** A client and the programs that she follows. */
interface Followed {
  readonly inputs: readonly unknown[];
}

/** Binds the names of a whole workspace, and reuses every part whose inputs are the same objects as before. */
export class WorldBinder {
  /** By tree, or by headings where it is not read yet. */
  #parts = new WeakMap<object, Map<string, FileParts>>();
  #clients = new Map<string, KeptClient>();
  #programs = new Map<string, KeptProgram>();
  #movementInputs: readonly Movement[] = [];
  #movements: ReadonlyMap<string, Movement> | null = null;
  #circles: {
    readonly of: ReadonlyMap<string, Movement>;
    readonly found: readonly StructureProblem[];
  } | null = null;
  #logs = new LogBinder();
  #gathered: {
    readonly of: ReadonlyMap<string, BoundFile>;
    readonly beside: readonly FileLogs[];
    readonly all: readonly FileLogs[];
  } | null = null;
  #followed: ReadonlyMap<string, Followed> = new Map();
  #defined: readonly string[] = [];
  #known: KnownNames | null = null;
  /** Unknown names of a file, for the names that were known when it was looked through. */
  #unknown = new WeakMap<
    readonly NameUse[],
    { readonly known: KnownNames; readonly days: readonly unknown[]; readonly found: readonly UnknownName[] }
  >();

  /** A binder that knows what this one knows, and goes its own way from here. */
  fork(): WorldBinder {
    const copy = new WorldBinder();
    // These two only hold what follows from their keys.
    copy.#parts = this.#parts;
    copy.#unknown = this.#unknown;
    copy.#clients = new Map(this.#clients);
    copy.#programs = new Map(this.#programs);
    copy.#movementInputs = this.#movementInputs;
    copy.#movements = this.#movements;
    copy.#circles = this.#circles;
    copy.#logs = this.#logs.fork();
    copy.#gathered = this.#gathered;
    copy.#followed = this.#followed;
    copy.#defined = this.#defined;
    copy.#known = this.#known;
    return copy;
  }

  /** Names of one file. */
  names(file: string, bound: BoundFile): readonly NameUse[] {
    return this.#partsOf(file, bound).names;
  }

  /**
   * `logFiles`: those of nothing but logs, by headings; the same object as before while none of them changes. `limitsFor`
   * gives what is set for a file, the same object for the same settings.
   */
  bind(
    files: ReadonlyMap<string, BoundFile>,
    logFiles: ReadonlyMap<string, BoundFile>,
    limitsFor: (file: string) => MaxLimits = () => DEFAULT_LIMITS,
  ): World {
    const parts = [...files].map(([file, bound]) => ({ file, parts: this.#partsOf(file, bound) }));
    const twiceNamed: TwiceNamed[] = [];
    const kits = new Map<string, Kit>();
    const ownMovements = new Map<string, Movement>();
    const programParts = new Map<string, ProgramPart>();
    const groups = new Map<string, Group>();
    const clientParts = new Map<string, ClientPart[]>();
    const memberGroups = new Map<string, GroupPart[]>();
    const logsBeside: FileLogs[] = [];

    for (const { file, parts: part } of parts) {
      for (const kit of part.kits) keepFirst(kits, kit.key, kit, 'kit', kit.name, twiceNamed);
      for (const movement of part.movements) {
        keepFirst(ownMovements, movement.key, movement, 'movement', movement.name, twiceNamed);
      }
      for (const program of part.programs) {
        const before = programParts.get(program.node.name.key);
        if (!before) programParts.set(program.node.name.key, program);
        else twiceNamed.push(again('program', program.node.name, file, before.file, before.node.name));
      }
      twiceNamed.push(...part.twice);
      for (const { node } of part.groups) {
        const group: Group = {
          key: node.name.key,
          name: node.name.text,
          members: node.members,
          node,
          place: { file, span: node.name.span },
        };
        keepFirst(groups, group.key, group, 'group', group.name, twiceNamed);
      }
      for (const client of part.clients) push(clientParts, client.node.name.key, client);
      if (part.logs) logsBeside.push(part.logs);
    }
    for (const group of groups.values()) {
      for (const member of group.members) {
        push(memberGroups, member.key, { file: group.place.file, node: group.node });
      }
    }

    const clients = new Map<string, Client>();
    for (const [key, own] of clientParts) {
      const kept = this.#client(key, own, memberGroups.get(key) ?? [], limitsFor(own[0]?.file ?? ''));
      clients.set(key, kept.client);
      twiceNamed.push(...kept.conflicts);
    }
    const programs = new Map<string, Program>();
    const structureProblems: StructureProblem[] = [];
    for (const [key, part] of programParts) {
      const kept = this.#program(key, part, (name) => programParts.get(name));
      programs.set(key, kept.program);
      structureProblems.push(...kept.problems);
    }
    const movements = this.#allMovements([...ownMovements.values()]);
    structureProblems.push(...this.#circlesOf(movements));
    const logs = this.#logs.bind(this.#allLogs(logsBeside, logFiles));
    const names = { kits, movements, clients, groups, programs };
    const known = this.#knownNames(
      parts.map(({ parts: part }) => part.defined),
      names,
    );
    const followed = this.#followedBy(clients, programs);
    const namesIn = (file: string) => {
      const bound = files.get(file) ?? logFiles.get(file);
      return bound ? this.#partsOf(file, bound).names : [];
    };
    return {
      ...names,
      logsByClient: logs.byClient,
      logsIn: (file) => logs.in(file),
      holdsLogsOnly: (file) => logFiles.has(file),
      unknownIn: (file) => this.#unknownIn(file, namesIn(file), names, known, followed),
      twiceNamed,
      structureProblems: joinedProblems(structureProblems),
    };
  }

  /** Logs of all files in order of their names: put together again only when any of them changed. */
  #allLogs(beside: readonly FileLogs[], logFiles: ReadonlyMap<string, BoundFile>): readonly FileLogs[] {
    const kept = this.#gathered;
    if (kept?.of === logFiles && same(kept.beside, beside)) return kept.all;
    const own = [...logFiles].flatMap(([file, bound]) => this.#partsOf(file, bound).logs ?? []);
    const all = [...own, ...beside].sort((a, b) => (a.file < b.file ? -1 : 1));
    this.#gathered = { of: logFiles, beside, all };
    return all;
  }

  #circlesOf(movements: ReadonlyMap<string, Movement>): readonly StructureProblem[] {
    if (this.#circles?.of !== movements) this.#circles = { of: movements, found: movementCircles(movements) };
    return this.#circles.found;
  }

  #knownNames(defined: readonly string[], world: Names): KnownNames {
    if (!this.#known || !same(this.#defined, defined)) {
      this.#defined = defined;
      this.#known = knownNames(world);
    }
    return this.#known;
  }

  /** What each client follows: the same object as before while neither she nor any of the programs changed. */
  #followedBy(
    clients: ReadonlyMap<string, Client>,
    programs: ReadonlyMap<string, Program>,
  ): ReadonlyMap<string, Followed> {
    const now = new Map<string, Followed>();
    for (const [key, client] of clients) {
      const inputs = [client, ...client.follows.map(({ program }) => programs.get(program))];
      const kept = this.#followed.get(key);
      now.set(key, kept && same(kept.inputs, inputs) ? kept : { inputs });
    }
    this.#followed = now;
    return now;
  }

  #unknownIn(
    file: string,
    names: readonly NameUse[],
    world: Names,
    known: KnownNames,
    followed: ReadonlyMap<string, Followed>,
  ): readonly UnknownName[] {
    const kept = this.#unknown.get(names);
    // Which days a log may name depends on what its clients follow, and not on names alone.
    const days = dayClients(names).map((key) => followed.get(key));
    if (kept?.known === known && same(kept.days, days)) return kept.found;
    const found = unknownIn(file, names, world, known);
    this.#unknown.set(names, { known, days, found });
    return found;
  }

  #partsOf(file: string, bound: BoundFile): FileParts {
    const key = bound.headings ?? bound.tree;
    let byFile = this.#parts.get(key);
    if (!byFile) {
      byFile = new Map();
      this.#parts.set(key, byFile);
    }
    let parts = byFile.get(file);
    if (!parts) {
      parts = bound.headings
        ? partsOfLogs(file, bound, bound.headings)
        : partsOf(file, bound.text, bound.tree);
      byFile.set(file, parts);
    }
    return parts;
  }

  #client(
    key: string,
    own: readonly ClientPart[],
    groups: readonly GroupPart[],
    limits: MaxLimits,
  ): KeptClient {
    const inputs = [...own.map((part) => part.node), ...groups.map((part) => part.node), limits];
    const kept = this.#clients.get(key);
    if (kept && same(kept.inputs, inputs)) return kept;
    const fresh = { inputs, ...bindClient(own, groups, limits) };
    this.#clients.set(key, fresh);
    return fresh;
  }

  #program(key: string, part: ProgramPart, lookup: (key: string) => ProgramPart | undefined): KeptProgram {
    // Every program that is asked for while binding is an input, so that a change there is seen here.
    const kept = this.#programs.get(key);
    if (kept && same(kept.inputs, [part.node, ...likePrograms(part, lookup)])) return kept;
    const fresh = { inputs: [part.node, ...likePrograms(part, lookup)], ...bindProgram(part, lookup) };
    this.#programs.set(key, fresh);
    return fresh;
  }

  #allMovements(own: readonly Movement[]): ReadonlyMap<string, Movement> {
    if (this.#movements && same(this.#movementInputs, own)) return this.#movements;
    const all = new Map(builtInMovements());
    for (const movement of own) all.set(movement.key, movement);
    this.#movementInputs = own;
    this.#movements = all;
    return all;
  }
}

function partsOf(file: string, text: string, tree: FileTree): FileParts {
  const kits: Kit[] = [];
  const movements: Movement[] = [];
  const clients: ClientPart[] = [];
  const groups: GroupPart[] = [];
  const programs: ProgramPart[] = [];
  const logs: LogEntry[] = [];
  for (const node of tree.sections) {
    if (node.kind === 'kit') kits.push(bindKit(node, file));
    else if (node.kind === 'movement') movements.push(bindMovement(node, file));
    else if (node.kind === 'client') clients.push({ file, node });
    else if (node.kind === 'group') groups.push({ file, node });
    else if (node.kind === 'program') programs.push({ file, text, node });
    else logs.push(...entriesOf(node, file));
  }
  const names = namesOf(tree);
  return {
    names,
    kits,
    movements,
    clients,
    groups,
    programs,
    logs: logs.length === 0 ? null : new FileLogs(file, logs, () => logs),
    twice: programs.flatMap(twiceInProgram),
    defined: definedText(names),
  };
}

function entriesOf(node: LogNode, file: string): LogEntry[] {
  return node.clients.map((clientName) => ({
    client: clientName.key,
    clientName,
    date: node.date.iso,
    day: node.day?.key ?? null,
    node,
    place: { file, span: node.headerSpan },
  }));
}

/** The same of a file with nothing but logs, which define nothing: it is read when somebody asks for what is in it. */
function partsOfLogs(file: string, bound: BoundFile, headings: readonly LogHeading[]): FileParts {
  let names: readonly NameUse[] | null = null;
  const read = () =>
    bound.tree.sections.flatMap((node) => (node.kind === 'log' ? entriesOf(node, file) : []));
  return {
    get names() {
      names ??= namesOf(bound.tree);
      return names;
    },
    kits: [],
    movements: [],
    clients: [],
    groups: [],
    programs: [],
    logs: headings.length === 0 ? null : new FileLogs(file, headings, read),
    twice: [],
    defined: '',
  };
}

function definedText(names: readonly NameUse[]): string {
  return names
    .filter((use) => use.role === 'definition')
    .map((use) => `${use.kind} ${use.owner} / ${use.name.text}`)
    .join('\n');
}

function same(a: readonly unknown[], b: readonly unknown[]): boolean {
  return a.length === b.length && a.every((value, index) => value === b[index]);
}

function push<Value>(map: Map<string, Value[]>, key: string, value: Value): void {
  const list = map.get(key);
  if (list) list.push(value);
  else map.set(key, [value]);
}

function again(
  kind: TwiceNamed['kind'],
  name: Name,
  file: string,
  firstFile: string,
  first: Name,
): TwiceNamed {
  return {
    kind,
    text: name.text,
    place: { file, span: name.span },
    first: { file: firstFile, span: first.span },
  };
}

function keepFirst<Value extends { readonly place: TwiceNamed['place'] | null }>(
  map: Map<string, Value>,
  key: string,
  value: Value,
  kind: NameKind,
  text: string,
  twice: TwiceNamed[],
): void {
  const before = map.get(key);
  if (!before) map.set(key, value);
  else if (before.place && value.place) twice.push({ kind, text, place: value.place, first: before.place });
}

/** Blocks of one name in a program, days of one name in a block, rows of one name in a day. */
function twiceInProgram({ file, node }: ProgramPart): TwiceNamed[] {
  const found: TwiceNamed[] = [];
  const blocks = new Map<string, Name>();
  const check = (seen: Map<string, Name>, kind: TwiceNamed['kind'], name: Name, key = name.key) => {
    const before = seen.get(key);
    if (before) found.push(again(kind, name, file, file, before));
    else seen.set(key, name);
  };
  for (const block of node.blocks) {
    check(blocks, 'block', block.name);
    const days = new Map<string, Name>();
    for (const day of block.days) {
      check(days, 'day', day.name);
      const rows = new Map<string, Name>();
      for (const entry of day.entries) {
        const inner = entry.kind === 'circuit' ? entry.entries : [entry];
        for (const row of inner) {
          if (row.kind !== 'row') continue;
          check(
            rows,
            'row',
            row.movement,
            row.label ? `${row.movement.key} (${row.label.key})` : row.movement.key,
          );
        }
      }
    }
  }
  return found;
}

/** Nodes of the other programs that a program's `like` lines reach, in the order in which they are reached. */
function likePrograms(part: ProgramPart, lookup: (key: string) => ProgramPart | undefined): unknown[] {
  const reached = new Set<unknown>();
  const visit = (node: ProgramPart['node']) => {
    for (const block of node.blocks) {
      const source = block.like?.program ? lookup(block.like.program.key) : undefined;
      if (!source || reached.has(source.node) || source.node === part.node) continue;
      reached.add(source.node);
      visit(source.node);
    }
  };
  visit(part.node);
  return [...reached];
}

type Names = Pick<World, 'kits' | 'movements' | 'clients' | 'groups' | 'programs'>;

/** Keys of everything that is defined, by kind; blocks as `program / block`. */
type KnownNames = Readonly<Record<Exclude<NameUse['kind'], 'day'>, ReadonlySet<string>>>;

function knownNames(world: Names): KnownNames {
  const kits = [...world.kits.values()].map((kit) => kit.model);
  const blocks = [...world.programs.values()].flatMap(({ key, node }) =>
    node.blocks.map((block) => `${key} / ${block.name.key}`),
  );
  return {
    kit: new Set(world.kits.keys()),
    movement: new Set(world.movements.keys()),
    client: new Set(world.clients.keys()),
    group: new Set(world.groups.keys()),
    program: new Set(world.programs.keys()),
    block: new Set(blocks),
    band: new Set(kits.flatMap((kit) => kit.bands)),
    machine: new Set(kits.flatMap((kit) => Object.keys(kit.machines))),
    bar: new Set(
      kits.flatMap((kit) => kit.bars.flatMap((bar) => (bar.name ? [bar.name.toLowerCase()] : []))),
    ),
  };
}

function unknownIn(file: string, names: readonly NameUse[], world: Names, known: KnownNames): UnknownName[] {
  const found: UnknownName[] = [];
  for (const use of names) {
    if (use.role === 'definition' || isKnown(use, world, known)) continue;
    const pattern = use.kind === 'movement' && isPattern(use.name.key);
    if (pattern) continue;
    found.push({
      kind: use.kind,
      name: use.name,
      place: { file, span: use.name.span },
      candidates: candidatesFor(use, world),
    });
  }
  return found;
}

const clientsOfDays = new WeakMap<readonly NameUse[], readonly string[]>();

/** Clients on whose programs it rests whether the days that logs of a file name are known. */
function dayClients(names: readonly NameUse[]): readonly string[] {
  let keys = clientsOfDays.get(names);
  if (!keys) {
    const uses = names.filter((use) => use.kind === 'day' && use.role === 'use');
    keys = [...new Set(uses.flatMap((use) => use.clients ?? []))];
    clientsOfDays.set(names, keys);
  }
  return keys;
}

const daysOfProgram = new WeakMap<Program, ReadonlySet<string>>();

function dayKeys(program: Program): ReadonlySet<string> {
  let keys = daysOfProgram.get(program);
  if (!keys) {
    keys = new Set(program.blocks.flatMap((block) => block.days.map((day) => day.key)));
    daysOfProgram.set(program, keys);
  }
  return keys;
}

function isKnown(use: NameUse, world: Names, known: KnownNames): boolean {
  const { key } = use.name;
  if (use.kind === 'block') return known.block.has(`${use.owner} / ${key}`);
  if (use.kind !== 'day') return known[use.kind].has(key);
  return (use.clients ?? []).some((client) =>
    world.clients.get(client)?.follows.some(({ program }) => {
      const followed = world.programs.get(program);
      return followed !== undefined && dayKeys(followed).has(key);
    }),
  );
}

function candidatesFor(use: NameUse, world: Names): { key: string; text: string }[] {
  const named = (values: Iterable<{ key: string; name: string }>) =>
    [...values].map(({ key, name }) => ({ key, text: name }));
  switch (use.kind) {
    case 'kit':
      return named(world.kits.values());
    case 'movement':
      return named(world.movements.values());
    case 'client':
      return named(world.clients.values());
    case 'group':
      return named(world.groups.values());
    case 'program':
      return named(world.programs.values());
    case 'block':
      return (world.programs.get(use.owner)?.node.blocks ?? []).map(({ name }) => ({
        key: name.key,
        text: name.text,
      }));
    case 'day': {
      const programs = (use.clients ?? []).flatMap((client) => world.clients.get(client)?.follows ?? []);
      return programs.flatMap(({ program }) =>
        (world.programs.get(program)?.blocks ?? []).flatMap((block) => named(block.days)),
      );
    }
    case 'band':
      return [...world.kits.values()].flatMap((kit) =>
        kit.model.bands.map((band) => ({ key: band, text: band })),
      );
    case 'machine':
      return [...world.kits.values()].flatMap((kit) =>
        Object.entries(kit.model.machines).map(([key, machine]) => ({ key, text: machine.name })),
      );
    case 'bar':
      return [...world.kits.values()].flatMap((kit) =>
        kit.model.bars.flatMap((bar) => (bar.name ? [{ key: bar.name.toLowerCase(), text: bar.name }] : [])),
      );
  }
}
