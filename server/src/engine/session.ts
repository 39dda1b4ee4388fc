import {
  type FileTree,
  LineCache,
  logOutline,
  type Outcome,
  type Problem,
  parse,
  SharedLines,
} from '../../../grammar/index.js';
import type { NameUse } from './bind/names.js';
import { WorldBinder } from './bind/world.js';
import { BlockFindings } from './blockFindings.js';
import {
  blockFindings,
  type CodedFinding,
  joinFindings,
  logFindings,
  mayAllow,
  nameFindings,
  planFindings,
  type Sifted,
  unusedAllows,
  type Wanted,
  worldFindings,
} from './findings.js';
import { cellsByFile, clientsByFile, followerCounts } from './followers.js';
import { plannedFor } from './history/done.js';
import { criteriaUnder, type SignOffCriteria } from './history/signOffCriteria.js';
import type {
  Client,
  ClientPlan,
  Finding,
  NameKind,
  Occurrence,
  Place,
  ReasonStep,
  ResolvedCell,
  Severity,
  World,
} from './model.js';
import type { MaxLimits } from './resolve/limits.js';
import { type PlanMemory, resolvePlan } from './resolve/plan.js';
import { reasonsOf } from './resolve/reasons.js';
import { RuleAsking } from './ruleAsking.js';
import type { RuleContext } from './ruleForm.js';
import type { RuleSettings } from './ruleSettings.js';
import { standsAlready } from './rules/shared/fixes.js';
import { mayStandIn, type SortedFiles, SourceFile, sortedFiles } from './sourceFiles.js';

export interface SessionOptions {
  /** The date of today, if the caller knows it. */
  readonly today: string | null;
  /** Severity of rules by code; what is missing has the rule's default. */
  readonly severities: Readonly<Record<string, Severity>>;
  /** Options of rules by code and key; what is missing has the option's default. */
  readonly options?: RuleSettings['options'];
  /** When sign-offs are offered; what is missing has its default. */
  readonly signOff?: RuleSettings['signOff'];
  /**
   * What is set for one file alone (by a `stave.json` beside or above it), before `severities` and `options`, rule by
   * rule. Has to give the same object for the same settings.
   */
  readonly settingsFor?: (file: string) => RuleSettings | null;
}

/** The one stateful object: files in, findings and views out. Everything in it is worked out on demand and kept. */
export interface EngineSession {
  setOptions(options: SessionOptions): void;
  /** The date of today, if the caller told it. */
  today(): string | null;
  /** Adds or replaces a file. Cheap when the text is unchanged. `file` is any stable key: a URI or a path. */
  setFile(file: string, text: string): void;
  removeFile(file: string): void;
  /**
   * A session with the same files and options that goes its own way from here. What is worked out already is shared, so
   * that it costs little; what is done to one of the two is never seen in the other.
   */
  fork(): EngineSession;
  files(): readonly string[];
  text(file: string): string | undefined;
  tree(file: string): Outcome<FileTree> | undefined;
  world(): World;
  /** The plan of one client by key (see `normaliseName`). */
  plan(clientKey: string): ClientPlan | undefined;
  /**
   * Everything that a client's plan is worked out from: while these are the same objects, so is all that follows from
   * them. Her logs are no part of it.
   */
  inputs(clientKey: string): readonly unknown[];
  /** The numbers of the rules that hold for a client: as they are set where her section stands. */
  ruleContext(clientKey: string): RuleContext;
  /** When sign-offs are offered for a client: as it is set where her section stands. */
  signOffCriteria(clientKey: string): readonly SignOffCriteria[];
  /** Keys of the clients who follow a program, in order of name. */
  followers(programKey: string): readonly string[];
  /** All resolved cells of all clients whose row is written in this file. */
  cellsIn(file: string): readonly ResolvedCell[];
  /** The chain of reasons of one group of a cell. */
  reasons(cell: ResolvedCell, group: number): readonly ReasonStep[];
  /** Findings whose place is in this file, syntax problems included, in order of place. */
  findings(file: string): readonly Finding[];
  allFindings(): readonly Finding[];
  /** Every place where a name is defined or used, for definition, references and rename. */
  occurrences(kind: NameKind, key: string): readonly Occurrence[];
  /** The name at an offset. */
  nameAt(file: string, offset: number): Occurrence | undefined;
}

/** A plan with what it was worked out from, so that it is kept as long as none of that changes. */
interface KeptPlan {
  readonly inputs: readonly unknown[];
  readonly plan: ClientPlan;
  /** What the next plan of this client can take over. */
  readonly memory: PlanMemory;
  /** By file, found when somebody asks. */
  cells: ReadonlyMap<string, readonly ResolvedCell[]> | null;
  /** At most so many. */
  readonly cellCount: number;
}

/** What the rules found in a plan. It is kept much longer than the plan, which takes far more room. */
interface KeptFindings {
  readonly inputs: readonly unknown[];
  readonly byFile: ReadonlyMap<string, readonly CodedFinding[]>;
  /** Where the `allow` lines stand that silenced something. */
  readonly used: readonly Place[];
}

/**
 * Plans are kept until so many cells are in memory; then those that were not asked for longest are forgotten, and
 * worked out again when somebody asks. A year of three days a week has about 800 cells.
 */
const MOST_CELLS = 30_000;

export function createSession(options: Partial<SessionOptions> = {}): EngineSession {
  return new Session({ today: null, severities: {}, ...options });
}

class Session implements EngineSession {
  readonly #files = new Map<string, SourceFile>();
  #binder = new WorldBinder();
  /** By client, the one asked for last at the end. */
  readonly #plans = new Map<string, KeptPlan>();
  readonly #found = new Map<string, KeptFindings>();
  readonly #foundInBlocks = new BlockFindings();
  readonly #foundInLogs = new Map<string, KeptFindings & { readonly restsOnPlan: boolean }>();
  #asking: RuleAsking | null = null;
  readonly #limits = new Map<string, MaxLimits>();
  #skipped: { readonly key: string; readonly codes: ReadonlySet<string> } | null = null;
  #options: SessionOptions;
  /** While files are read for the first time; let go of when they are bound. */
  #sharedLines = new SharedLines();
  #world: World | null = null;
  #sorted: SortedFiles | null = null;
  #general: ReadonlyMap<string, readonly CodedFinding[]> | null = null;
  #clientsByFile: ReadonlyMap<string, readonly Client[]> | null = null;
  #followerCounts: ReadonlyMap<string, number> | null = null;

  constructor(options: SessionOptions) {
    this.#options = options;
  }

  setOptions(options: SessionOptions): void {
    this.#options = options;
    this.#asking = null;
    this.#skipped = null;
    // Loads rest on some of the numbers. What does not is bound and worked out as before.
    this.#forget();
    this.#found.clear();
    this.#foundInBlocks.clear();
    this.#foundInLogs.clear();
  }

  setFile(file: string, text: string): void {
    if (this.#files.get(file)?.text === text) return;
    const before = this.#files.get(file);
    const lines = before ? (before.lines ?? new LineCache()) : null;
    const read = (whole: string) => parse(whole, lines ?? new LineCache(this.#sharedLines));
    this.#files.set(file, new SourceFile(text, read, before ? null : logOutline(text), lines));
    if (!before) this.#filesChanged();
    else if (mayAllow(before.text) || mayAllow(text)) this.#skipped = null;
    if (before?.headings) this.#sorted = null;
    this.#forget();
  }

  today(): string | null {
    return this.#options.today;
  }

  removeFile(file: string): void {
    if (!this.#files.delete(file)) return;
    this.#filesChanged();
    this.#forget();
  }

  fork(): EngineSession {
    const copy = new Session(this.#options);
    copy.#world = this.world();
    copy.#binder = this.#binder.fork();
    copy.#sorted = this.#sorted;
    for (const [file, source] of this.#files) copy.#files.set(file, source.fork());
    for (const [key, limits] of this.#limits) copy.#limits.set(key, limits);
    for (const [key, kept] of this.#plans) copy.#plans.set(key, kept);
    for (const [key, kept] of this.#found) copy.#found.set(key, kept);
    for (const [key, kept] of this.#foundInLogs) copy.#foundInLogs.set(key, kept);
    return copy;
  }

  #filesChanged(): void {
    this.#sorted = null;
    this.#asking = null;
    this.#skipped = null;
  }

  #forget(): void {
    this.#world = null;
    this.#general = null;
    this.#clientsByFile = null;
    this.#followerCounts = null;
  }

  files(): readonly string[] {
    return [...this.#files.keys()];
  }

  text(file: string): string | undefined {
    return this.#files.get(file)?.text;
  }

  tree(file: string): Outcome<FileTree> | undefined {
    return this.#files.get(file)?.outcome;
  }

  world(): World {
    if (!this.#world) {
      this.#sharedLines = new SharedLines();
      this.#sorted ??= sortedFiles(this.#files);
      const { edited, logs } = this.#sorted;
      const files = new Map(edited.map((file) => [file, this.#files.get(file) as SourceFile]));
      this.#world = this.#binder.bind(files, logs, (file) => this.#rulesAsked().limitsOf(file));
      for (const kept of [this.#plans, this.#found, this.#foundInBlocks]) {
        for (const key of kept.keys()) if (!this.#world.clients.has(key)) kept.delete(key);
      }
      for (const key of this.#foundInLogs.keys()) {
        if (!this.#world.logsByClient.has(key)) this.#foundInLogs.delete(key);
      }
    }
    return this.#world;
  }

  plan(clientKey: string): ClientPlan | undefined {
    const client = this.world().clients.get(clientKey);
    const kept = client && this.#kept(client);
    this.#forgetOldest(1);
    return kept?.plan;
  }

  inputs(clientKey: string): readonly unknown[] {
    const client = this.world().clients.get(clientKey);
    return client ? this.#inputs(client) : [];
  }

  ruleContext(clientKey: string): RuleContext {
    return this.#rulesAsked().contextOf(this.world().clients.get(clientKey)?.place.file ?? '');
  }

  signOffCriteria(clientKey: string): readonly SignOffCriteria[] {
    const file = this.world().clients.get(clientKey)?.place.file ?? '';
    return criteriaUnder(this.#rulesAsked().settingsOf(file).signOff);
  }

  followers(programKey: string): readonly string[] {
    return [...this.world().clients.values()]
      .filter((client) => client.follows.some((follows) => follows.program === programKey))
      .sort((a, b) => (a.key < b.key ? -1 : 1))
      .map((client) => client.key);
  }

  cellsIn(file: string): readonly ResolvedCell[] {
    const kept = this.#clientsOf(file).map((client) => this.#kept(client));
    this.#forgetOldest(kept.length);
    return kept.flatMap((each) => {
      each.cells ??= cellsByFile(each.plan);
      return each.cells.get(file) ?? [];
    });
  }

  reasons(cell: ResolvedCell, group: number): readonly ReasonStep[] {
    return reasonsOf(cell, group, this.world());
  }

  findings(file: string): readonly Finding[] {
    const source = this.#files.get(file);
    if (!source) return [];
    const clients = this.#clientsOf(file);
    const own = clients.map((client) => this.#clientFindings(client));
    const inLogs = this.#loggedIn(source.outcome.value).map((key) => this.#logFindings(key));
    const found = [
      ...(this.#generalFindings().get(file) ?? []),
      ...this.#nameFindings(file),
      ...inLogs.flatMap((each) => each.byFile.get(file) ?? []),
    ];
    if (mayAllow(source.text)) {
      // A line of a client may silence what stands in a log elsewhere.
      const ofClients = clients.map((client) => this.#logFindings(client.key));
      const used = [...own, ...inLogs, ...ofClients].flatMap((each) => each.used);
      found.push(...unusedAllows(this.world(), used, file, source.text));
    }
    found.push(...own.flatMap((each) => each.byFile.get(file) ?? []));
    const joined = joinFindings(found, this.#rulesAsked().settingsOf(file).severities);
    const textOf = (key: string) => this.#files.get(key)?.text ?? '';
    const offered = joined.map((finding) =>
      finding.fixes.some((fix) => standsAlready(fix, textOf))
        ? { ...finding, fixes: finding.fixes.filter((fix) => !standsAlready(fix, textOf)) }
        : finding,
    );
    const problems = source.outcome.problems.map((problem) => fromProblem(problem, file));
    return [...problems, ...offered].sort(
      (a, b) => a.place.span.start - b.place.span.start || a.place.span.end - b.place.span.end,
    );
  }

  allFindings(): readonly Finding[] {
    return [...this.#files.keys()].sort().flatMap((file) => this.findings(file));
  }

  occurrences(kind: NameKind, key: string): readonly Occurrence[] {
    const found: Occurrence[] = [];
    const inLogs = mayStandIn(key);
    for (const [file, source] of this.#files) {
      if (source.headings !== null && !inLogs(source.text)) continue;
      for (const use of this.#namesIn(file, source)) {
        if (use.kind !== kind) continue;
        const occurrence = this.#occurrence(use, file);
        if (occurrence.key === key) found.push(occurrence);
      }
    }
    return found;
  }

  nameAt(file: string, offset: number): Occurrence | undefined {
    const source = this.#files.get(file);
    const use =
      source &&
      this.#namesIn(file, source).find(({ name }) => name.span.start <= offset && offset <= name.span.end);
    return use && this.#occurrence(use, file);
  }

  #namesIn(file: string, source: SourceFile): readonly NameUse[] {
    return this.#binder.names(file, source);
  }

  /** Blocks are known by program and name; days of one name in a program are one, as `like` and logs take them. */
  #occurrence(use: NameUse, file: string): Occurrence {
    const { key } = use.name;
    const place = { file, span: use.name.span };
    if (use.kind === 'block') return { kind: use.kind, key: `${use.owner} / ${key}`, role: use.role, place };
    if (use.kind === 'day') {
      const program = use.role === 'definition' ? use.owner.split(' / ')[0] : this.#programWithDay(use);
      return { kind: use.kind, key: `${program ?? ''} / ${key}`, role: use.role, place };
    }
    return { kind: use.kind, key, role: use.role, place };
  }

  #programWithDay(use: NameUse): string | undefined {
    const world = this.world();
    return (use.clients ?? [])
      .flatMap((client) => world.clients.get(client)?.follows ?? [])
      .map((follows) => world.programs.get(follows.program))
      .find((program) => program?.blocks.some((block) => block.days.some((day) => day.key === use.name.key)))
      ?.key;
  }

  /** Clients of whom something stands in a file: her own lines, or rows of a program that she follows. */
  #clientsOf(file: string): readonly Client[] {
    this.#clientsByFile ??= clientsByFile(this.world());
    return this.#clientsByFile.get(file) ?? [];
  }

  /** Keys of the clients who have a log in a file, in the order in which clients are written. */
  #loggedIn(tree: FileTree): readonly string[] {
    const keys = new Set(
      tree.sections.flatMap((section) =>
        section.kind === 'log' ? section.clients.map(({ key }) => key) : [],
      ),
    );
    if (keys.size < 2) return [...keys];
    const { clients } = this.world();
    return [...[...clients.keys()].filter((key) => keys.delete(key)), ...keys];
  }

  /** Everything that a client's plan is worked out from. */
  #inputs(client: Client): readonly unknown[] {
    const { programs } = this.world();
    return [client, ...this.#around(client), ...client.follows.map((line) => programs.get(line.program))];
  }

  /** What she trains with. */
  #around(client: Client): readonly unknown[] {
    const { movements, kits } = this.world();
    return [movements, ...client.trainsAt.map((line) => kits.get(line.kit))];
  }

  /** What rules on a plan may say of others: the names of all kits, and whether anybody else follows her programs. */
  #others(client: Client): readonly unknown[] {
    const { kits, clients } = this.world();
    this.#followerCounts ??= followerCounts(clients.values());
    const counts = this.#followerCounts;
    return [
      [...kits.values()].map(({ name }) => name).join('\n'),
      ...client.follows.map(({ program }) => (counts.get(program) ?? 0) > 1),
    ];
  }

  #kept(client: Client): KeptPlan {
    const inputs = this.#inputs(client);
    const before = this.#plans.get(client.key);
    this.#plans.delete(client.key);
    if (before && same(before.inputs, inputs)) {
      this.#plans.set(client.key, before);
      return before;
    }
    const { plan, memory } = resolvePlan(client, this.world(), before?.memory);
    const cellCount = plan.sessions.reduce((sum, { day }) => sum + day.rows.length, 0);
    const fresh: KeptPlan = { inputs, plan, memory, cells: null, cellCount };
    this.#plans.set(client.key, fresh);
    return fresh;
  }

  /** Forgets plans until the cells that stay fit, but never the last `needed` that were asked for. */
  #forgetOldest(needed: number): void {
    let cells = 0;
    for (const kept of this.#plans.values()) cells += kept.cellCount;
    for (const [key, kept] of this.#plans) {
      if (cells <= MOST_CELLS || this.#plans.size <= needed) return;
      this.#plans.delete(key);
      this.#foundInBlocks.forgetRead(key);
      cells -= kept.cellCount;
    }
  }

  #clientFindings(client: Client): KeptFindings {
    const ofBlocks = [client, ...this.#around(client), this.#rulesSkipped().key];
    const inputs = [...this.#inputs(client), ...ofBlocks, ...this.#others(client)];
    const before = this.#found.get(client.key);
    if (before && same(before.inputs, inputs)) return before;
    const world = this.world();
    const { plan } = this.#kept(client);
    const inBlocks = this.#foundInBlocks.of(plan, ofBlocks, (part) =>
      joined(this.#asked((context, wanted) => blockFindings(part, world, context, wanted))),
    );
    const ofPlan = this.#asked((context, wanted) => planFindings(plan, world, context, wanted));
    const fresh = { inputs, ...foundIn([...inBlocks, ...ofPlan]) };
    this.#found.set(client.key, fresh);
    // What was read is of use while her program is edited, and takes room until then.
    if (!before) this.#foundInBlocks.forgetRead(client.key);
    this.#forgetOldest(1);
    return fresh;
  }

  #logFindings(clientKey: string): KeptFindings {
    const { clients, movements, logsByClient } = this.world();
    const client = clients.get(clientKey) ?? null;
    const logs = logsByClient.get(clientKey);
    const own = [client, logs, movements, this.#rulesSkipped().key];
    const withPlan = client ? [...own, ...this.#inputs(client)] : own;
    const before = this.#foundInLogs.get(clientKey);
    if (before && same(before.inputs, before.restsOnPlan ? withPlan : own)) return before;
    const all = logs?.all ?? [];
    let restsOnPlan = false;
    const planned = (planOf: Client) =>
      plannedFor(() => {
        restsOnPlan = true;
        return this.#kept(planOf).plan;
      }, all);
    const ask = client ? planned(client) : () => null;
    const found = this.#asked((context, wanted) =>
      logFindings(all, client, { movements }, context, wanted, ask),
    );
    const fresh = { inputs: restsOnPlan ? withPlan : own, restsOnPlan, ...foundIn(found) };
    this.#foundInLogs.set(clientKey, fresh);
    this.#forgetOldest(1);
    return fresh;
  }

  /** Asks rules under the options of all files. */
  #asked(ask: (context: RuleContext, wanted: Wanted) => Sifted): readonly Sifted[] {
    return this.#rulesAsked().contexts.map(({ files, context }) => ask(context, this.#wanted(files)));
  }

  #wanted(files: ReadonlySet<string> | null): Wanted {
    const { codes } = this.#rulesSkipped();
    return { isAsked: (file) => files === null || files.has(file), isSkipped: (code) => codes.has(code) };
  }

  #rulesAsked(): RuleAsking {
    this.#asking ??= new RuleAsking(this.#options, this.#files.keys(), this.#limits);
    return this.#asking;
  }

  /** Rules that are off and that no `allow` line can name: for those it is told whether there is something to allow. */
  #rulesSkipped(): { readonly key: string; readonly codes: ReadonlySet<string> } {
    if (!this.#skipped) {
      const allowing = [...this.#files.values()].filter(({ text }) => mayAllow(text));
      const codes = [...this.#rulesAsked().off].filter(
        (code) => !allowing.some(({ text }) => text.includes(code)),
      );
      this.#skipped = { key: codes.join(), codes: new Set(codes) };
    }
    return this.#skipped;
  }

  #nameFindings(file: string): readonly CodedFinding[] {
    return this.#rulesAsked().contexts.flatMap(({ files }) =>
      nameFindings(this.world().unknownIn(file), this.#wanted(files)),
    );
  }

  /** What is found in names and sections, whoever trains by them. */
  #generalFindings(): ReadonlyMap<string, readonly CodedFinding[]> {
    this.#general ??= byFile(
      this.#rulesAsked().contexts.flatMap(({ files, context }) =>
        worldFindings(this.world(), context, this.#wanted(files)),
      ),
    );
    return this.#general;
  }
}

function joined(sifted: readonly Sifted[]): Sifted {
  if (sifted.length === 1) return sifted[0] as Sifted;
  return {
    findings: sifted.flatMap(({ findings }) => findings),
    used: sifted.flatMap(({ used }) => used),
  };
}

function foundIn(sifted: readonly Sifted[]): Omit<KeptFindings, 'inputs'> {
  const { findings, used } = joined(sifted);
  return { byFile: byFile(findings), used };
}

function same(a: readonly unknown[], b: readonly unknown[]): boolean {
  return a.length === b.length && a.every((value, index) => value === b[index]);
}

function byFile(findings: readonly CodedFinding[]): Map<string, CodedFinding[]> {
  const found = new Map<string, CodedFinding[]>();
  for (const finding of findings) {
    const list = found.get(finding.place.file);
    if (list) list.push(finding);
    else found.set(finding.place.file, [finding]);
  }
  return found;
}

/** A problem of the notation, in the form of every other finding. */
function fromProblem(problem: Problem, file: string): Finding {
  return {
    code: problem.code,
    severity: problem.severity,
    message: problem.message,
    place: { file, span: problem.span },
    related: [],
    fixes: problem.fixes.map((fix) => ({
      title: fix.title,
      safe: fix.safe,
      edits: fix.edits.map((edit) => ({ file, ...edit })),
    })),
  };
}
