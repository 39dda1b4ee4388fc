import type { LogNode } from '../../../grammar/index.js';
import type { PlannedFor } from './history/done.js';
import type {
  Block,
  Client,
  ClientPlan,
  Day,
  Finding,
  FindingFix,
  LogEntry,
  Place,
  Program,
  RelatedLine,
  ResolvedCell,
  Severity,
  UnknownName,
  World,
} from './model.js';

/**
 * One rule of the trade: a file of its own in `rules/`. The reference pages, the settings of the manifest and
 * the text of `stave explain` are generated from these parts; a test fails when one is missing.
 */
export interface Rule {
  readonly code: string;
  readonly title: string;
  readonly severity: Severity;
  /** What it finds, in a sentence or two. */
  readonly what: string;
  /** Why that matters to the person who trains. */
  readonly why: string;
  /** Published source, or "common practice, no source". */
  readonly source: string;
  /** A small workspace in the notation that has the finding … */
  readonly example: string;
  /** … and the same without it. */
  readonly better: string;
  /** What to do, and what the quick fix does where there is one. */
  readonly fix: string;
  /** Why no quick fix is offered; a rule has this, or a `fix` that speaks of a quick fix. */
  readonly noFix?: string;
  /** Extra caution for rules on which somebody's safety rests. */
  readonly caution?: string;
  /** Numbers that a coach may set, beside the severity. */
  readonly options?: readonly RuleOption[];
  /** Whether it looks at logs, so that `allow` works in a log and its client too. */
  readonly inLogs?: boolean;
  /** Looks at names and sections, and not into logs: once for the workspace, after every change. */
  readonly checkWorld?: (world: World, context: RuleContext) => readonly RawFinding[];
  /** Looks at the names of one file that are defined nowhere. */
  readonly checkNames?: (unknown: readonly UnknownName[]) => readonly RawFinding[];
  /**
   * Looks at the logs of one client, in order of date. Only these, her section (null when there is none), the movements
   * and what was planned for a line may be read, as the findings are kept while they stay the same. `planned` takes her
   * plan to be worked out, so it is asked only where nothing else can tell.
   */
  readonly checkLogs?: (
    logs: readonly LogEntry[],
    client: Client | null,
    world: Pick<World, 'movements'>,
    context: RuleContext,
    planned: PlannedFor,
  ) => readonly RawFinding[];
  /**
   * Looks at what one client does in one block; findings of several clients at one place become one. What is found is
   * kept, and moved with the text, as long as the block and everything else that may be read here stay the same: so
   * nothing of other blocks may be looked at, nor of other clients.
   */
  readonly checkBlock?: (part: BlockPlan, world: BlockWorld, context: RuleContext) => readonly RawFinding[];
  /** The same for what needs the whole plan. Asked again after every change of it, so it has to be quick. */
  readonly checkPlan?: (plan: ClientPlan, world: World, context: RuleContext) => readonly RawFinding[];
}

/** What one client does in one block: her sessions of it in order of date. */
export type BlockPlan = Pick<ClientPlan, 'client' | 'sessions'>;

/** What a rule may read besides the block: of kits those of its cells, and of clients the one of the plan. */
export type BlockWorld = Pick<World, 'movements'>;

/** Whether a rule looks at what clients do, so that `allow` works in clients and programs. */
export function looksAtPlans(rule: Rule): boolean {
  return rule.checkPlan !== undefined || rule.checkBlock !== undefined;
}

/** A number of a rule that can be set, with the unit in its name: `maxPercent`, `restSeconds`. */
export interface RuleOption {
  readonly key: string;
  readonly default: number;
  /** Smallest and largest value that make sense. */
  readonly least: number;
  readonly most: number;
  /** What it is, in a few words, with its unit. */
  readonly what: string;
}

export interface RuleContext {
  /** The date of today if the caller knows it, `YYYY-MM-DD`. */
  readonly today: string | null;
  /** The number that is set for a rule, else the option's default. */
  option(code: string, option: RuleOption): number;
}

/** What a rule returns, before severity, `allow` lines and the joining of clients. */
export interface RawFinding {
  readonly place: Place;
  /** What is wrong, the same for each client, e.g. `Heavy work before the sign-off for squat.` */
  readonly headline: string;
  /** Who and when, e.g. `Heron: 3 × 6 at 45 kg on 2026-12-07 (week 1); signed off for "load" since 2026-06-01.` */
  readonly detail: string;
  /** What to try. */
  readonly advice: string;
  readonly client: string | null;
  /** The cell it stands on, for `allow` at row, day, block, program, client. */
  readonly cell: ResolvedCell | null;
  /** Without a cell: the part of a program that it is about, so that `allow` works there too. */
  readonly scope?: { readonly program: Program; readonly block: Block | null; readonly day: Day | null };
  /** The log that it is about, so that `allow` works there too. */
  readonly log?: LogNode;
  readonly related: readonly RelatedLine[];
  readonly fixes: readonly FindingFix[];
  readonly severity?: Finding['severity'];
}
