import { type AllowNode, type FileTree, type Outcome, type Problem, parse } from '../../../grammar/index.js';
import type { NameUse } from './bind/names.js';
import { WorldBinder } from './bind/world.js';
import { type CodedFinding, clientFindings, joinFindings, unusedAllows, worldFindings } from './findings.js';
import type {
  Client,
  ClientPlan,
  Finding,
  NameKind,
  Occurrence,
  ReasonStep,
  ResolvedCell,
  Severity,
  World,
} from './model.js';
import { resolvePlan } from './resolve/plan.js';
import { reasonsOf } from './resolve/reasons.js';
import type { RuleContext } from './ruleForm.js';
import { mergeSettings, NO_SETTINGS, type RuleSettings } from './ruleSettings.js';

export interface SessionOptions {
  /** The date of today, if the caller knows it. */
  readonly today: string | null;
  /** Severity of rules by code; what is missing has the rule's default. */
  readonly severities: Readonly<Record<string, Severity>>;
  /** Options of rules by code and key; what is missing has the option's default. */
  readonly options?: RuleSettings['options'];
  /**
   * What is set for one file alone (by a `stave.json` beside or above it), before `severities` and `options`, rule by
   * rule. Has to give the same object for the same settings.
   */
  readonly settingsFor?: (file: string) => RuleSettings | null;
}

/** The one stateful object: files in, findings and views out. Everything in it is worked out on demand and kept. */
export interface EngineSession {
  setOptions(options: SessionOptions): void;
  /** Adds or replaces a file. Cheap when the text is unchanged. `file` is any stable key: a URI or a path. */
  setFile(file: string, text: string): void;
  removeFile(file: string): void;
  files(): readonly string[];
  text(file: string): string | undefined;
  tree(file: string): Outcome<FileTree> | undefined;
  world(): World;
  /** The plan of one client by key (see `normaliseName`). */
  plan(clientKey: string): ClientPlan | undefined;
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

interface SourceFile {
  readonly text: string;
  readonly outcome: Outcome<FileTree>;
}

/** A plan with what it was worked out from, so that it is kept as long as none of that changes. */
interface KeptPlan {
  readonly inputs: readonly unknown[];
  readonly plan: ClientPlan;
  readonly cells: ReadonlyMap<string, readonly ResolvedCell[]>;
  findings: {
    readonly byFile: ReadonlyMap<string, readonly CodedFinding[]>;
    readonly used: ReadonlySet<AllowNode>;
  } | null;
}

export function createSession(options: Partial<SessionOptions> = {}): EngineSession {
  return new Session({ today: null, severities: {}, ...options });
}

class Session implements EngineSession {
  readonly #files = new Map<string, SourceFile>();
  readonly #binder = new WorldBinder();
  readonly #plans = new Map<string, KeptPlan>();
  #options: SessionOptions;
  #world: World | null = null;
  #general: ReadonlyMap<string, readonly CodedFinding[]> | null = null;

  constructor(options: SessionOptions) {
    this.#options = options;
  }

  setOptions(options: SessionOptions): void {
    this.#options = options;
    this.#general = null;
    for (const kept of this.#plans.values()) kept.findings = null;
  }

  setFile(file: string, text: string): void {
    if (this.#files.get(file)?.text === text) return;
    this.#files.set(file, { text, outcome: parse(text) });
    this.#forget();
  }

  removeFile(file: string): void {
    if (this.#files.delete(file)) this.#forget();
  }

  #forget(): void {
    this.#world = null;
    this.#general = null;
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
      // In order of name, so that "the first one counts" does not depend on the order of reading.
      const ordered = [...this.#files].sort(([a], [b]) => (a < b ? -1 : 1));
      this.#world = this.#binder.bind(new Map(ordered.map(([file, source]) => [file, source.outcome.value])));
      for (const key of this.#plans.keys()) if (!this.#world.clients.has(key)) this.#plans.delete(key);
    }
    return this.#world;
  }

  plan(clientKey: string): ClientPlan | undefined {
    const client = this.world().clients.get(clientKey);
    return client && this.#kept(client).plan;
  }

  followers(programKey: string): readonly string[] {
    return [...this.world().clients.values()]
      .filter((client) => client.follows.some((follows) => follows.program === programKey))
      .sort((a, b) => (a.key < b.key ? -1 : 1))
      .map((client) => client.key);
  }

  cellsIn(file: string): readonly ResolvedCell[] {
    return this.#allKept().flatMap((kept) => kept.cells.get(file) ?? []);
  }

  reasons(cell: ResolvedCell, group: number): readonly ReasonStep[] {
    return reasonsOf(cell, group, this.world());
  }

  findings(file: string): readonly Finding[] {
    const source = this.#files.get(file);
    if (!source) return [];
    const found = [
      ...(this.#generalFindings().get(file) ?? []),
      ...this.#allKept().flatMap((kept) => this.#clientFindings(kept).byFile.get(file) ?? []),
    ];
    const joined = joinFindings(found, this.#settings(file).severities);
    const problems = source.outcome.problems.map((problem) => fromProblem(problem, file));
    return [...problems, ...joined].sort(
      (a, b) => a.place.span.start - b.place.span.start || a.place.span.end - b.place.span.end,
    );
  }

  allFindings(): readonly Finding[] {
    return [...this.#files.keys()].sort().flatMap((file) => this.findings(file));
  }

  occurrences(kind: NameKind, key: string): readonly Occurrence[] {
    const found: Occurrence[] = [];
    for (const [file, source] of this.#files) {
      for (const use of this.#binder.names(file, source.outcome.value)) {
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
      this.#binder
        .names(file, source.outcome.value)
        .find(({ name }) => name.span.start <= offset && offset <= name.span.end);
    return use && this.#occurrence(use, file);
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

  #allKept(): readonly KeptPlan[] {
    return [...this.world().clients.values()].map((client) => this.#kept(client));
  }

  #kept(client: Client): KeptPlan {
    const world = this.world();
    const inputs = [
      client,
      world.movements,
      ...client.trainsAt.map((line) => world.kits.get(line.kit)),
      ...client.follows.map((line) => world.programs.get(line.program)),
    ];
    const kept = this.#plans.get(client.key);
    if (
      kept &&
      kept.inputs.length === inputs.length &&
      kept.inputs.every((input, at) => input === inputs[at])
    ) {
      return kept;
    }
    const plan = resolvePlan(client, world);
    const cells = new Map<string, ResolvedCell[]>();
    for (const session of plan.sessions) {
      for (const cell of session.cells) {
        const list = cells.get(cell.row.place.file);
        if (list) list.push(cell);
        else cells.set(cell.row.place.file, [cell]);
      }
    }
    const fresh: KeptPlan = { inputs, plan, cells, findings: null };
    this.#plans.set(client.key, fresh);
    return fresh;
  }

  #clientFindings(kept: KeptPlan): NonNullable<KeptPlan['findings']> {
    if (!kept.findings) {
      const findings: CodedFinding[] = [];
      const used = new Set<AllowNode>();
      // Almost always all files have the same settings, and the rules are asked once.
      for (const { files, context } of this.#contexts()) {
        const found = clientFindings(
          kept.plan,
          this.world(),
          context,
          (file) => files === null || files.has(file),
        );
        findings.push(...found.findings);
        for (const allow of found.used) used.add(allow);
      }
      kept.findings = { byFile: byFile(findings), used };
    }
    return kept.findings;
  }

  #settings(file: string): RuleSettings {
    const { severities, options = {}, settingsFor } = this.#options;
    return mergeSettings({ severities, options }, settingsFor?.(file) ?? NO_SETTINGS);
  }

  /** The options under which the rules are asked, each with the files that it is for; null: for all. */
  #contexts(): readonly { readonly files: ReadonlySet<string> | null; readonly context: RuleContext }[] {
    const { today, options = {}, settingsFor } = this.#options;
    const contextOf = (set: RuleSettings['options']): RuleContext => ({
      today,
      option: (code, option) => set[code]?.[option.key] ?? option.default,
    });
    if (!settingsFor) return [{ files: null, context: contextOf(options) }];
    const sets = new Map<string, { readonly files: Set<string>; readonly context: RuleContext }>();
    for (const file of this.#files.keys()) {
      const set = this.#settings(file).options;
      const key = JSON.stringify(set);
      const known = sets.get(key);
      if (known) known.files.add(file);
      else sets.set(key, { files: new Set([file]), context: contextOf(set) });
    }
    return [...sets.values()];
  }

  #generalFindings(): ReadonlyMap<string, readonly CodedFinding[]> {
    if (!this.#general) {
      const world = this.world();
      const used = new Set<AllowNode>();
      for (const kept of this.#allKept())
        for (const allow of this.#clientFindings(kept).used) used.add(allow);
      this.#general = byFile([
        ...this.#contexts().flatMap(({ files, context }) =>
          worldFindings(world, context).filter(({ place }) => files === null || files.has(place.file)),
        ),
        ...unusedAllows(world, used),
      ]);
    }
    return this.#general;
  }
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
