// The one stateful object: files in, findings and views out. (API fixed; implementation follows.)
import type { FileTree, Outcome } from '../../../grammar/index.js';
import type { ClientPlan, Finding, NameKind, Occurrence, ReasonStep, ResolvedCell, Severity, World } from './model.js';

export interface SessionOptions {
  /** The date of today, if the caller knows it. */
  readonly today: string | null;
  /** Severity of rules by code; what is missing has the rule's default. */
  readonly severities: Readonly<Record<string, Severity>>;
}

export interface EngineSession {
  setOptions(options: SessionOptions): void;
  /** Adds or replaces a file. Cheap when the text is unchanged. `file` is any stable key: a URI or a path. */
  setFile(file: string, text: string): void;
  removeFile(file: string): void;
  files(): readonly string[];
  text(file: string): string | undefined;
  tree(file: string): Outcome<FileTree> | undefined;
  world(): World;
  /** The plan of one client by key (see `normaliseName`), resolved on demand and cached. */
  plan(clientKey: string): ClientPlan | undefined;
  /** Clients who follow a program, in order of name. */
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

export declare function createSession(options?: Partial<SessionOptions>): EngineSession;
