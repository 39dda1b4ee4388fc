import type {
  AimName,
  AllowNode,
  BlockNode,
  ClientNode,
  ConditionName,
  CurveName,
  DayNode,
  FollowsNode,
  GroupNode,
  GroupSectionNode,
  KitNode,
  LogNode,
  MassUnit,
  MovementNode,
  Name,
  PatternName,
  ProgramNode,
  RowNode,
  Span,
  StageName,
  Weekday,
} from '../../../grammar/index.js';
import type { Implement, KitModel } from './kit.js';
import type { MaxLimits } from './resolve/limits.js';

/** A place in the workspace. `file` is the key under which the session was given the text (a URI or a path). */
export interface Place {
  readonly file: string;
  readonly span: Span;
}

/** A date as `YYYY-MM-DD`. Dates compare as strings. */
export type IsoDate = string;

// ---------------------------------------------------------------- bound names

export interface Movement {
  readonly key: string;
  readonly name: string;
  readonly pattern: PatternName;
  readonly implement: Implement;
  /** Least stage of the client in this pattern before she does this movement at all. */
  readonly stage: StageName;
  readonly easier: string | null;
  readonly harder: string | null;
  readonly estimate: { readonly share: number; readonly of: string } | null;
  /** Share of body mass that is lifted, for bodyweight movements. */
  readonly liftsShare: number | null;
  readonly cue: string | null;
  /** Null for the built-in catalogue. */
  readonly place: Place | null;
  readonly node: MovementNode;
}

export interface Kit {
  readonly key: string;
  readonly name: string;
  readonly model: KitModel;
  readonly place: Place;
  readonly node: KitNode;
}

export interface MaxEntry {
  readonly movement: string;
  readonly movementName: Name;
  /** External load; for bodyweight movements the added (negative: assisting) load. */
  readonly loadKg: number;
  readonly bodyweight: boolean;
  readonly reps: number;
  readonly reserve: number;
  readonly date: IsoDate;
  readonly kit: string | null;
  /** Counts from this day on; null: from the day after its date. */
  readonly from: IsoDate | null;
  readonly place: Place;
}

export interface Dated<Value> {
  readonly value: Value;
  /** Null: from the beginning. */
  readonly from: IsoDate | null;
  readonly place: Place;
}

export interface SignOff {
  readonly stage: StageName;
  readonly pattern: PatternName | 'all';
  readonly date: IsoDate;
  readonly place: Place;
}

export interface Swap {
  readonly movement: string;
  readonly to: string;
  readonly toName: Name;
  readonly dose: GroupNode | null;
  readonly from: IsoDate | null;
  readonly until: IsoDate | null;
  readonly reason: string | null;
  readonly place: Place;
}

export interface Avoid {
  /** A movement key or a pattern. */
  readonly what: string;
  readonly from: IsoDate | null;
  readonly until: IsoDate | null;
  readonly reason: string | null;
  readonly place: Place;
}

export interface Away {
  readonly from: IsoDate;
  readonly to: IsoDate;
  readonly backShares: readonly number[];
  readonly keepDates: boolean;
  readonly place: Place;
}

export interface Follows {
  readonly program: string;
  readonly programName: Name;
  readonly from: IsoDate;
  readonly on: readonly Weekday[];
  /** Minutes after midnight of the weekdays that have a time; one that has none is not in it. */
  readonly startMinutes: ReadonlyMap<Weekday, number>;
  readonly everyDays: number | null;
  readonly supervised: boolean;
  readonly alongside: boolean;
  readonly place: Place;
  readonly node: FollowsNode;
  /** The group whose line this is, or null for the client's own. */
  readonly group: string | null;
}

export interface PlacedAllow {
  readonly code: string;
  readonly reason: string;
  readonly place: Place;
  readonly node: AllowNode;
}

/** All `client` sections of one name, merged. */
export interface Client {
  readonly key: string;
  readonly name: string;
  readonly nodes: readonly { readonly file: string; readonly node: ClientNode }[];
  readonly born: string | null;
  readonly heightCm: number | null;
  readonly masses: readonly { readonly kg: number; readonly date: IsoDate | null; readonly place: Place }[];
  readonly units: MassUnit;
  readonly liftingSince: string | null;
  readonly screened: IsoDate | null;
  readonly conditions: readonly { readonly name: ConditionName; readonly place: Place }[];
  readonly trainsAt: readonly {
    readonly kit: string;
    readonly on: readonly Weekday[];
    readonly from: IsoDate | null;
    readonly place: Place;
  }[];
  readonly curves: readonly Dated<CurveName>[];
  readonly rounding: 'down' | 'nearest';
  readonly care: readonly string[];
  readonly signOffs: readonly SignOff[];
  readonly maxes: readonly MaxEntry[];
  readonly avoids: readonly Avoid[];
  readonly swaps: readonly Swap[];
  readonly follows: readonly Follows[];
  readonly aways: readonly Away[];
  readonly allows: readonly PlacedAllow[];
  /** What is set for the folder in which her first section stands. */
  readonly limits: MaxLimits;
  readonly place: Place;
}

export interface Program {
  readonly key: string;
  readonly name: string;
  readonly aim: AimName | null;
  readonly node: ProgramNode;
  readonly place: Place;
  readonly blocks: readonly Block[];
}

/** A block after `like` was followed. Every row knows the file and node where it was written. */
export interface Block {
  readonly key: string;
  readonly name: string;
  readonly index: number;
  readonly weeks: number;
  readonly stage: StageName | null;
  /** Weeks inside the block, from 1. */
  readonly deloadWeeks: ReadonlySet<number>;
  /** Product of the `like … +x%` factors; multiplies targets that do not come from a fixed load. */
  readonly likeFactor: number;
  readonly days: readonly Day[];
  readonly allows: readonly PlacedAllow[];
  readonly texts: readonly string[];
  /** Everything that it follows from: its own lines, and those of the blocks that it is like, the nearest first. */
  readonly sources: readonly BlockSource[];
  readonly node: BlockNode;
  readonly place: Place;
}

/** A block as written, and the file that it is written in. */
export interface BlockSource {
  readonly file: string;
  /** The text of the file. */
  readonly text: string;
  readonly node: BlockNode;
}

export interface Day {
  readonly key: string;
  readonly name: string;
  readonly index: number;
  readonly entries: readonly DayEntry[];
  readonly rows: readonly Row[];
  readonly allows: readonly PlacedAllow[];
  readonly node: DayNode;
  readonly place: Place;
}

export type DayEntry =
  | { readonly kind: 'row'; readonly row: Row }
  | {
      readonly kind: 'circuit';
      readonly circuit: Circuit;
      readonly entries: readonly (
        | { readonly kind: 'row'; readonly row: Row }
        | { readonly kind: 'text'; readonly text: string }
      )[];
    }
  | { readonly kind: 'text'; readonly text: string };

export interface Circuit {
  readonly name: string;
  /** Rounds of each week of the block, index 0 is week 1; null where timed or not said. Deloads are taken off already. */
  readonly roundsByWeek: readonly (number | null)[];
  readonly seconds: number | null;
  readonly everySeconds: number | null;
  readonly restSeconds: number | null;
}

export interface Row {
  /** Movement key and label, unique in its day. */
  readonly key: string;
  readonly movement: string;
  readonly movementName: Name;
  readonly label: string | null;
  readonly circuit: Circuit | null;
  /** Reserve of the block's or day's `effort:` line by week (index 0 is week 1), null where none. */
  readonly effortByWeek: readonly (number | null)[];
  readonly node: RowNode;
  /** The row as written. */
  readonly text: string;
  /** Where the row is written; another file for rows that come by `like`. */
  readonly place: Place;
  readonly allows: readonly PlacedAllow[];
}

export interface Group {
  readonly key: string;
  readonly name: string;
  readonly members: readonly Name[];
  readonly node: GroupSectionNode;
  readonly place: Place;
}

export interface LogEntry {
  readonly client: string;
  readonly clientName: Name;
  readonly date: IsoDate;
  readonly day: string | null;
  readonly node: LogNode;
  readonly place: Place;
}

/** The logs of one client. Files with nothing but logs are read when `all` is asked for. */
export interface ClientLogs {
  /** In which files they stand. */
  readonly files: readonly string[];
  /** In order of date. */
  readonly all: readonly LogEntry[];
  /** Those of a day and later, in order of date. Files with older ones alone are not read. */
  since(date: IsoDate): readonly LogEntry[];
}

/** Every name of the workspace, bound. */
export interface World {
  readonly kits: ReadonlyMap<string, Kit>;
  readonly movements: ReadonlyMap<string, Movement>;
  readonly clients: ReadonlyMap<string, Client>;
  readonly groups: ReadonlyMap<string, Group>;
  readonly programs: ReadonlyMap<string, Program>;
  /** By client. The same object as before while no file with a log of hers changes. */
  readonly logsByClient: ReadonlyMap<string, ClientLogs>;
  /** The logs of a file, in order of place. */
  readonly logsIn: (file: string) => readonly LogEntry[];
  /** Whether a file holds nothing but plain logs, so that it defines no name and need not be read for one. */
  readonly holdsLogsOnly: (file: string) => boolean;
  /** Names in a file that are defined nowhere. */
  readonly unknownIn: (file: string) => readonly UnknownName[];
  /** A kit, movement, program, block or day defined again, and single-valued client lines that differ. */
  readonly twiceNamed: readonly TwiceNamed[];
  /** Blocks whose `like` goes in a circle or drops written weeks, estimate circles: what cannot be worked out. */
  readonly structureProblems: readonly StructureProblem[];
}

export type NameKind =
  | 'kit'
  | 'movement'
  | 'client'
  | 'group'
  | 'program'
  | 'block'
  | 'day'
  | 'band'
  | 'machine'
  | 'bar';

/** A name where it stands. */
export interface Occurrence {
  readonly kind: NameKind;
  /** Blocks: `program / block`; days: `program / block / day`; bands, machines and bars: the plain name. */
  readonly key: string;
  readonly role: 'definition' | 'use';
  readonly place: Place;
}

export interface UnknownName {
  readonly kind: NameKind | 'movement or pattern';
  readonly name: Name;
  readonly place: Place;
  /** Keys that would have been right, for "did you mean". */
  readonly candidates: readonly { readonly key: string; readonly text: string }[];
}

export interface TwiceNamed {
  readonly kind: NameKind | 'client line' | 'row';
  readonly text: string;
  readonly place: Place;
  readonly first: Place;
}

export interface StructureProblem {
  readonly kind: 'like-circle' | 'like-drops-weeks' | 'estimate-circle' | 'easier-circle' | 'no-weeks';
  readonly message: string;
  readonly place: Place;
  readonly related: readonly RelatedLine[];
  readonly fixes: readonly FindingFix[];
}

// ---------------------------------------------------------------- resolved plan

/** Why no load (or no better one) stands in a group. */
export type LoadIssue =
  | 'no-max' // no max line and no estimate
  | 'estimate-too-heavy' // only an estimate, and the work is heavy: estimates are never used there
  | 'beyond-curve' // more repetitions than the curve covers
  | 'no-mass' // bodyweight movement and no body mass known
  | 'no-kit' // the client trains nowhere that day
  | 'kit-lacks' // the kit has no such implement (no bar, no band of that name, no machine)
  | 'too-light' // even the lightest load is above the target: no load given
  | 'lightest-used' // the lightest load is above the target but allowed
  | 'unknown-movement'
  | 'broken'; // a mistake in this or an earlier cell of the row

export interface ResolvedGroup {
  readonly sets: number | null;
  /** Lower end of a range. Null for open reps, time and distance. */
  readonly reps: number | null;
  readonly repsUpper: number | null;
  readonly openReps: boolean;
  readonly seconds: number | null;
  readonly metres: number | null;
  /** Recovery of intervals. */
  readonly offSeconds: number | null;
  readonly basis: 'reserve' | 'percent' | 'load' | 'bodyweight' | 'pack' | 'band' | 'none';
  /** Reserve as written (or from `effort:`), after a deload's two more. Null where none is written. */
  readonly writtenReserve: number | null;
  readonly writtenPercent: number | null;
  /** Before the kit. Barbell, dumbbell (each one), machine: the load. Bodyweight: the added load (negative: assisting). */
  readonly targetKg: number | null;
  /** What the kit can make. Bodyweight without an added load: null. */
  readonly loadKg: number | null;
  /** Plates for one side, heaviest first; null where there is no bar. An empty list is the bare bar. */
  readonly eachSideKg: readonly number[] | null;
  /** Name of a lighter bar, when it is not the main one. */
  readonly bar: string | null;
  readonly band: string | null;
  readonly estimatedOneRepMaxKg: number | null;
  /** Predicted repetitions in reserve of `loadKg`. */
  readonly reserve: number | null;
  /** The reserve is larger than the curve can tell (printed with `>`). */
  readonly reserveBeyond: boolean;
  /** `loadKg` (with the lifted share of body mass) as a share of the e1RM, 0 to 1. */
  readonly share: number | null;
  readonly provisional: boolean;
  /** In plain words, when provisional. */
  readonly provisionalReason: string | null;
  /** Stage of this work by what it is (language: Stages). */
  readonly stage: StageName;
  readonly issue: LoadIssue | null;
  /** Max line or the estimate that the load rests on. */
  readonly max: MaxUse | null;
}

export interface MaxUse {
  readonly kind: 'max' | 'estimate';
  readonly entry: MaxEntry;
  readonly repsToFailure: number;
  readonly ageDays: number;
}

/** One movement of one client on one date. */
export interface ResolvedCell {
  readonly client: Client;
  readonly program: Program;
  readonly block: Block;
  readonly day: Day;
  readonly row: Row;
  /** The movement done: another than the row's after a `swap`. */
  readonly movement: Movement | null;
  readonly swap: Swap | null;
  /** Inside the block, from 1. */
  readonly week: number;
  readonly date: IsoDate;
  readonly deload: boolean;
  /** Share of the target in the first weeks back from an absence, else 1. */
  readonly backShare: number;
  readonly kit: Kit | null;
  readonly groups: readonly ResolvedGroup[];
  readonly perSide: boolean;
  readonly restSeconds: number | null;
  readonly tempo: readonly [number, number, number] | null;
  readonly heightCm: number | null;
  readonly warm: boolean;
  readonly test: { readonly reps: number } | null;
  readonly texts: readonly string[];
  /** The cell as written that this week's state ends with (the span of the hint); an empty cell's own place, or the row's end. */
  readonly place: Place;
  /** The cell as it was written for this week, null where the row has fewer cells. */
  readonly cellIndex: number | null;
}

/** One training session of one client. */
export interface Session {
  readonly client: Client;
  readonly program: Program;
  readonly block: Block;
  readonly day: Day;
  readonly week: number;
  readonly date: IsoDate;
  readonly deload: boolean;
  readonly kit: Kit | null;
  readonly supervised: boolean;
  /** When it begins, in minutes after midnight where she trains; null where no time is written. */
  readonly startMinute: number | null;
  readonly cells: readonly ResolvedCell[];
}

/** Everything of one client, in order of date. */
export interface ClientPlan {
  readonly client: Client;
  readonly sessions: readonly Session[];
  /** Sessions that an absence took from a week that goes on. */
  readonly missed: readonly {
    readonly date: IsoDate;
    readonly day: Day;
    readonly block: Block;
    readonly program: Program;
    readonly week: number;
  }[];
  /** Days of a program that no weekday is left for. */
  readonly unreachedDays: readonly { readonly follows: Follows; readonly block: Block; readonly day: Day }[];
}

/** What a step of the reasons is about, in the order in which they come. */
export type ReasonKind =
  | 'swap'
  | 'max'
  | 'formula'
  | 'error'
  | 'estimate'
  | 'missing'
  | 'deload'
  | 'share'
  | 'change'
  | 'note'
  | 'target'
  | 'load'
  | 'left'
  | 'provisional';

/** One step of the reasons of a load, in plain words, with the line it rests on. */
export interface ReasonStep {
  readonly kind: ReasonKind;
  readonly text: string;
  /** The number that comes out of this step, in the client's unit; null where none does. */
  readonly value: string | null;
  readonly place: Place | null;
  /** Further lines that it rests on. */
  readonly more: readonly Place[];
  /** Where a formula or a number of the trade was published, or that it was not; null where none is used. */
  readonly source: string | null;
}

// ---------------------------------------------------------------- findings

export type Severity = 'error' | 'warning' | 'info' | 'hint' | 'off';

export interface FindingFix {
  readonly title: string;
  readonly safe: boolean;
  readonly edits: readonly { readonly file: string; readonly span: Span; readonly newText: string }[];
}

export interface RelatedLine {
  readonly place: Place;
  readonly message: string;
}

/** Something that the coach should know. Syntax problems become findings too, so that every output shows one list. */
export interface Finding {
  readonly code: string;
  readonly severity: Exclude<Severity, 'off'>;
  readonly message: string;
  readonly place: Place;
  readonly related: readonly RelatedLine[];
  readonly fixes: readonly FindingFix[];
}
