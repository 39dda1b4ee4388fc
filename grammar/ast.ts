import type { Span } from './problem.js';

/**
 * The tree of one file. Every node carries the span of its characters. A node exists only when it was written
 * in full: nothing is ever filled in for a damaged line, which becomes a problem and leaves no node.
 */

/** A name as written. `key` is what names are compared by: lower case, single spaces, no space at the ends. */
export interface Name {
  readonly text: string;
  readonly key: string;
  readonly span: Span;
}

export type MassUnit = 'kg' | 'lb';

/** A mass as written; `kg` is the same in kilograms. Signed where the notation allows a sign. */
export interface Mass {
  readonly value: number;
  readonly unit: MassUnit;
  readonly kg: number;
  readonly span: Span;
}

export interface Num {
  readonly value: number;
  readonly span: Span;
}

/** A whole date, `YYYY-MM-DD`, that exists in the calendar. */
export interface DateNode {
  readonly iso: string;
  readonly span: Span;
}

/** A year, a month or a day: `1979`, `1979-03`, `1979-03-14`. */
export interface PartialDateNode {
  readonly text: string;
  readonly span: Span;
}

/** The characters between the quotation marks; the span includes the marks. */
export interface TextNode {
  readonly text: string;
  readonly span: Span;
}

export interface Word<Values extends string = string> {
  readonly value: Values;
  readonly span: Span;
}

export type Weekday = 'mon' | 'tue' | 'wed' | 'thu' | 'fri' | 'sat' | 'sun';
export type StageName = 'learn' | 'load' | 'heavy';
export const STAGE_NAMES = ['learn', 'load', 'heavy'] as const;
export const PATTERN_NAMES = [
  'squat',
  'hinge',
  'lunge',
  'push',
  'press',
  'pull',
  'row',
  'carry',
  'rotate',
  'brace',
  'jump',
  'sprint',
  'other',
] as const;
export type PatternName = (typeof PATTERN_NAMES)[number];
export const CURVE_NAMES = [
  'brzycki',
  'epley',
  'mayhew',
  'lombardi',
  'wathan',
  'oconner',
  'kemmler',
  'table',
] as const;
export type CurveName = (typeof CURVE_NAMES)[number];
export const CONDITION_NAMES = [
  'osteopenia',
  'osteoporosis',
  'high blood pressure',
  'knee osteoarthritis',
  'hip osteoarthritis',
  'back pain',
  'pelvic floor',
  'postpartum',
  'pregnancy',
  'diabetes',
  'heart condition',
  'hypermobility',
  'shoulder pain',
] as const;
export type ConditionName = (typeof CONDITION_NAMES)[number];
export const AIM_NAMES = ['strength', 'power', 'size', 'endurance', 'health', 'skill'] as const;
export type AimName = (typeof AIM_NAMES)[number];

// ---------------------------------------------------------------- cells

/** `x6`, `x6-8`, `xmax`. `upper` equals `lower` for a plain number of reps. */
export type Reps =
  | { readonly kind: 'count'; readonly lower: number; readonly upper: number }
  | { readonly kind: 'open' };

export type CellItem =
  /** `4x6`, `4x`, `x6`, `3x6-8`, `3xmax`, `3x30s`, `4x20m`: at least one of sets and the amount is there. */
  | {
      readonly kind: 'dose';
      readonly sets: number | null;
      readonly amount: Amount | null;
      readonly span: Span;
    }
  /** `off 100s`: recovery of intervals. */
  | { readonly kind: 'off'; readonly seconds: number; readonly span: Span }
  /** `r2`, or `rpe 8` (reserve 2). */
  | {
      readonly kind: 'reserve';
      readonly reserve: number;
      readonly writtenAs: 'r' | 'rpe';
      readonly span: Span;
    }
  | { readonly kind: 'percent'; readonly percent: number; readonly span: Span }
  | { readonly kind: 'load'; readonly mass: Mass; readonly span: Span }
  /** `bw` (added is null), `bw+5kg`, `bw-15kg` (added.kg is -15). */
  | { readonly kind: 'bodyweight'; readonly added: Mass | null; readonly span: Span }
  | { readonly kind: 'pack'; readonly mass: Mass; readonly span: Span }
  | { readonly kind: 'band'; readonly band: Name; readonly span: Span }
  /** `+2%`, `-5%`: signed. */
  | { readonly kind: 'change-percent'; readonly percent: number; readonly span: Span }
  /** `+2.5kg`, `-5lb`: signed. */
  | { readonly kind: 'change-mass'; readonly mass: Mass; readonly span: Span }
  | { readonly kind: 'step'; readonly direction: 'up' | 'down'; readonly span: Span }
  | { readonly kind: 'weekly'; readonly span: Span }
  | { readonly kind: 'side'; readonly span: Span }
  | { readonly kind: 'rest'; readonly seconds: number; readonly span: Span }
  | { readonly kind: 'tempo'; readonly tempo: readonly [number, number, number]; readonly span: Span }
  | { readonly kind: 'height'; readonly cm: number; readonly span: Span }
  | { readonly kind: 'warm'; readonly span: Span }
  | {
      readonly kind: 'no';
      readonly what: 'side' | 'rest' | 'tempo' | 'height' | 'warm' | 'deload';
      readonly span: Span;
    }
  /** `test x5`: work up to the heaviest 5 that leave one. */
  | { readonly kind: 'test'; readonly reps: number; readonly span: Span }
  /** `wk5`: this cell is week 5. */
  | { readonly kind: 'week'; readonly week: number; readonly span: Span }
  /** `-`: left out this week; in a set group after `;`, this group is dropped. */
  | { readonly kind: 'left-out'; readonly span: Span }
  | { readonly kind: 'stop'; readonly span: Span }
  | { readonly kind: 'text'; readonly text: string; readonly span: Span };

export type CellItemKind = CellItem['kind'];

export type Amount =
  | { readonly kind: 'reps'; readonly reps: Reps }
  | { readonly kind: 'seconds'; readonly seconds: number }
  | { readonly kind: 'metres'; readonly metres: number };

/** The items between two `;`. */
export interface GroupNode {
  readonly items: readonly CellItem[];
  readonly span: Span;
}

/**
 * The characters between two `|`, without the spaces at their ends unless there is nothing else. An empty cell has no
 * groups. `broken` cells held a mistake and mean nothing.
 */
export interface CellNode {
  readonly groups: readonly GroupNode[];
  readonly span: Span;
  readonly broken: boolean;
  /** Position among the cells as written, from 0 (not the week: `wk5` moves it). */
  readonly index: number;
}

export interface RowNode {
  readonly kind: 'row';
  /** The movement, without the label in brackets. */
  readonly movement: Name;
  /** The label of a movement that stands twice in a day, `pause` in `back squat (pause): …`. */
  readonly label: Name | null;
  /** Movement and label as written, the span before the colon. */
  readonly nameSpan: Span;
  readonly cells: readonly CellNode[];
  /** `back squat: -` alone: in a `like` block the row is removed. Derived by the reader of the tree, not stored. */
  readonly allows: readonly AllowNode[];
  readonly span: Span;
}

/** `effort: r3 | r2 | r1`; one entry a week, null where a cell is empty (as the week before). */
export interface EffortNode {
  readonly kind: 'effort';
  readonly cells: readonly ({ readonly reserve: number; readonly span: Span } | null)[];
  readonly span: Span;
}

/** `rounds: 2 | | 3`. */
export interface RoundsNode {
  readonly kind: 'rounds';
  readonly cells: readonly (Num | null)[];
  readonly span: Span;
}

export interface AllowNode {
  readonly kind: 'allow';
  readonly code: Word;
  readonly reason: TextNode;
  readonly span: Span;
}

// ---------------------------------------------------------------- programs

export interface CircuitNode {
  readonly kind: 'circuit';
  readonly name: Name;
  readonly rounds: Num | null;
  /** `12min`: as many rounds as fit. */
  readonly seconds: Num | null;
  /** `every 2min`. */
  readonly everySeconds: Num | null;
  readonly restSeconds: Num | null;
  readonly roundsByWeek: RoundsNode | null;
  readonly entries: readonly (RowNode | PrintedTextNode)[];
  readonly allows: readonly AllowNode[];
  /** Lines in here that could not be read and left no node: what is here is not all that was written. */
  readonly damaged: readonly Span[];
  readonly headerSpan: Span;
  readonly span: Span;
}

/** A line that is only `"text"`: printed where it stands. */
export interface PrintedTextNode {
  readonly kind: 'printed-text';
  readonly text: TextNode;
  readonly span: Span;
}

export interface DayNode {
  readonly kind: 'day';
  readonly name: Name;
  readonly effort: EffortNode | null;
  readonly entries: readonly (RowNode | CircuitNode | PrintedTextNode)[];
  readonly allows: readonly AllowNode[];
  /** Lines in here that could not be read and left no node: what is here is not all that was written. */
  readonly damaged: readonly Span[];
  readonly headerSpan: Span;
  readonly span: Span;
}

export interface BlockNode {
  readonly kind: 'block';
  readonly name: Name;
  readonly weeks: Num | null;
  readonly stage: Word<StageName> | null;
  readonly deloadWeeks: readonly Num[];
  /** `like Keel` or `like PROGRAM / Keel`. */
  readonly like: { readonly program: Name | null; readonly block: Name; readonly span: Span } | null;
  /** `+2.5%` after `like`: signed. */
  readonly likeChangePercent: Num | null;
  readonly effort: EffortNode | null;
  readonly days: readonly DayNode[];
  readonly texts: readonly PrintedTextNode[];
  readonly allows: readonly AllowNode[];
  /** Lines in here that could not be read and left no node: what is here is not all that was written. */
  readonly damaged: readonly Span[];
  readonly headerSpan: Span;
  readonly span: Span;
}

export interface ProgramNode {
  readonly kind: 'program';
  readonly name: Name;
  readonly aim: Word<AimName> | null;
  readonly blocks: readonly BlockNode[];
  readonly texts: readonly PrintedTextNode[];
  readonly allows: readonly AllowNode[];
  /** Lines in here that could not be read and left no node: what is here is not all that was written. */
  readonly damaged: readonly Span[];
  readonly headerSpan: Span;
  readonly span: Span;
}

// ---------------------------------------------------------------- kits and movements

/** `2kg to 20kg by 2kg`, or single masses with counts (`3kg x2`). */
export type StockNode =
  | { readonly kind: 'range'; readonly from: Mass; readonly to: Mass; readonly by: Mass; readonly span: Span }
  | { readonly kind: 'pieces'; readonly mass: Mass; readonly count: Num | null; readonly span: Span };

export type KitLine =
  | { readonly kind: 'bar'; readonly name: Name | null; readonly mass: Mass; readonly span: Span }
  | { readonly kind: 'plates'; readonly stock: readonly StockNode[]; readonly span: Span }
  | { readonly kind: 'dumbbells'; readonly stock: readonly StockNode[]; readonly span: Span }
  | { readonly kind: 'kettlebells'; readonly stock: readonly StockNode[]; readonly span: Span }
  /** `pack: to 16kg by 1kg`. */
  | { readonly kind: 'pack'; readonly to: Mass; readonly by: Mass; readonly span: Span }
  | { readonly kind: 'bands'; readonly bands: readonly Name[]; readonly span: Span }
  | {
      readonly kind: 'machine';
      readonly name: Name;
      readonly stock: readonly StockNode[];
      readonly fitsCm: readonly [number, number] | null;
      readonly span: Span;
    };

export interface KitNode {
  readonly kind: 'kit';
  readonly name: Name;
  readonly lines: readonly KitLine[];
  /** Lines in here that could not be read and left no node: what is here is not all that was written. */
  readonly damaged: readonly Span[];
  readonly headerSpan: Span;
  readonly span: Span;
}

export const EQUIPMENT_NAMES = [
  'barbell',
  'dumbbell',
  'dumbbells',
  'kettlebell',
  'pack',
  'band',
  'bodyweight',
] as const;
export type EquipmentName = (typeof EQUIPMENT_NAMES)[number];

export type MovementLine =
  | { readonly kind: 'pattern'; readonly pattern: Word<PatternName>; readonly span: Span }
  /** `with: barbell`, `with: machine leg press` (machine holds the name after `machine`). */
  | {
      readonly kind: 'with';
      readonly equipment: Word<EquipmentName | 'machine'>;
      readonly machine: Name | null;
      readonly span: Span;
    }
  | { readonly kind: 'bar'; readonly bar: Name; readonly span: Span }
  | { readonly kind: 'stage'; readonly stage: Word<StageName>; readonly span: Span }
  | { readonly kind: 'easier'; readonly movement: Name; readonly span: Span }
  | { readonly kind: 'harder'; readonly movement: Name; readonly span: Span }
  /** `estimate: 80% of back squat`. */
  | { readonly kind: 'estimate'; readonly percent: Num; readonly of: Name; readonly span: Span }
  /** `lifts: 65% of mass`. */
  | { readonly kind: 'lifts'; readonly percent: Num; readonly span: Span }
  | { readonly kind: 'cue'; readonly text: TextNode; readonly span: Span };

export interface MovementNode {
  readonly kind: 'movement';
  readonly name: Name;
  readonly lines: readonly MovementLine[];
  /** Lines in here that could not be read and left no node: what is here is not all that was written. */
  readonly damaged: readonly Span[];
  readonly headerSpan: Span;
  readonly span: Span;
}

// ---------------------------------------------------------------- clients, groups, logs

/** When a session begins on a weekday, as the clock on the wall says. */
export interface DayTime {
  readonly day: Weekday;
  /** Minutes after midnight, 0 to 1439. */
  readonly minute: number;
  readonly span: Span;
}

export interface FollowsNode {
  readonly kind: 'follows';
  readonly program: Name;
  readonly from: DateNode;
  /** `on mon thu`; empty when `every` is given or nothing was said. */
  readonly on: readonly Word<Weekday>[];
  /** `mon 18:00`: for the weekdays that a time was written for; `every 3 days 18:00`: for each of them. */
  readonly times: readonly DayTime[];
  /** `every 3 days`. */
  readonly everyDays: Num | null;
  readonly supervised: boolean;
  readonly alongside: boolean;
  readonly span: Span;
}

export type ClientLine =
  | { readonly kind: 'born'; readonly date: PartialDateNode; readonly span: Span }
  | { readonly kind: 'height'; readonly cm: Num; readonly span: Span }
  | { readonly kind: 'mass'; readonly mass: Mass; readonly date: DateNode | null; readonly span: Span }
  | { readonly kind: 'units'; readonly unit: Word<MassUnit>; readonly span: Span }
  | { readonly kind: 'lifting-since'; readonly date: PartialDateNode; readonly span: Span }
  | { readonly kind: 'screened'; readonly date: DateNode; readonly span: Span }
  | { readonly kind: 'condition'; readonly condition: Word<ConditionName>; readonly span: Span }
  | {
      readonly kind: 'trains-at';
      readonly kit: Name;
      readonly on: readonly Word<Weekday>[];
      readonly from: DateNode | null;
      readonly span: Span;
    }
  | {
      readonly kind: 'curve';
      readonly curve: Word<CurveName>;
      readonly from: DateNode | null;
      readonly span: Span;
    }
  | { readonly kind: 'rounding'; readonly rounding: Word<'down' | 'nearest'>; readonly span: Span }
  | { readonly kind: 'care'; readonly text: TextNode; readonly span: Span }
  | { readonly kind: 'ready'; readonly signOffs: readonly SignOffNode[]; readonly span: Span }
  | {
      readonly kind: 'max';
      readonly movement: Name;
      /** External load, or for `bw`, the added load with `bodyweight` true (negative: assisted). */
      readonly load: Mass | null;
      readonly bodyweight: boolean;
      readonly reps: Num;
      readonly reserve: number;
      readonly date: DateNode;
      readonly at: Name | null;
      /** `from 2026-12-14`: counts from this day on; what was planned before stays as it was. */
      readonly from: DateNode | null;
      readonly span: Span;
    }
  | {
      readonly kind: 'avoid';
      /** A movement or a pattern. */
      readonly what: Name;
      readonly from: DateNode | null;
      readonly until: DateNode | null;
      readonly reason: TextNode | null;
      readonly span: Span;
    }
  | {
      readonly kind: 'swap';
      readonly movement: Name;
      readonly to: Name;
      /** A dose and effort of its own, or null: the row's sets, reps and effort hold. */
      readonly dose: GroupNode | null;
      readonly from: DateNode | null;
      readonly until: DateNode | null;
      readonly reason: TextNode | null;
      readonly span: Span;
    }
  | FollowsNode
  | {
      readonly kind: 'away';
      readonly from: DateNode;
      readonly to: DateNode;
      /** `back at 80% 90%`: shares of the target in the first weeks back. */
      readonly backPercent: readonly Num[];
      readonly keepDates: boolean;
      readonly span: Span;
    }
  | AllowNode;

export interface SignOffNode {
  readonly stage: Word<StageName>;
  /** A pattern, or `all`. */
  readonly pattern: Word<PatternName | 'all'>;
  readonly date: DateNode;
  readonly span: Span;
}

export interface ClientNode {
  readonly kind: 'client';
  readonly name: Name;
  readonly lines: readonly ClientLine[];
  /** Lines in here that could not be read and left no node: what is here is not all that was written. */
  readonly damaged: readonly Span[];
  readonly headerSpan: Span;
  readonly span: Span;
}

export interface GroupSectionNode {
  readonly kind: 'group';
  readonly name: Name;
  readonly members: readonly Name[];
  readonly follows: readonly FollowsNode[];
  readonly allows: readonly AllowNode[];
  /** Lines in here that could not be read and left no node: what is here is not all that was written. */
  readonly damaged: readonly Span[];
  readonly headerSpan: Span;
  readonly span: Span;
}

/** One set that was done, or several alike. */
export interface DoneSet {
  readonly reps: number | null;
  /** `8/7`: the right side. */
  readonly rightReps: number | null;
  readonly seconds: number | null;
  readonly metres: number | null;
  readonly span: Span;
}

export interface DoneGroup {
  /** `45kg`, `pack 8kg`, `bw+5kg` as in a cell; null: as planned. */
  readonly load: CellItem | null;
  readonly sets: readonly DoneSet[];
  readonly reserve: number | null;
  readonly span: Span;
}

export type LogLine =
  | { readonly kind: 'as-planned'; readonly span: Span }
  | {
      readonly kind: 'done';
      /** What was done; after a swap, not what the plan has. */
      readonly movement: Name;
      readonly label: Name | null;
      readonly nameSpan: Span;
      /** `swap: back squat, to leg press, "rack taken"`: what the plan has. Without groups its sets were done. */
      readonly insteadOf: SwappedRow | null;
      readonly groups: readonly DoneGroup[];
      readonly asPlanned: boolean;
      /** `skipped "knee"`. */
      readonly skipped: { readonly reason: TextNode | null } | null;
      readonly span: Span;
    }
  | { readonly kind: 'session'; readonly rpe: Num | null; readonly minutes: Num | null; readonly span: Span }
  | { readonly kind: 'pain'; readonly where: Name; readonly score: Num; readonly span: Span }
  | { readonly kind: 'note'; readonly text: TextNode; readonly span: Span };

/** The row of the plan in whose place something else was done. */
export interface SwappedRow {
  readonly movement: Name;
  readonly label: Name | null;
  readonly reason: TextNode | null;
}

export interface LogNode {
  readonly kind: 'log';
  readonly clients: readonly Name[];
  readonly date: DateNode;
  readonly day: Name | null;
  readonly lines: readonly LogLine[];
  readonly allows: readonly AllowNode[];
  /** Lines in here that could not be read and left no node: what is here is not all that was written. */
  readonly damaged: readonly Span[];
  readonly headerSpan: Span;
  readonly span: Span;
}

// ---------------------------------------------------------------- files

export type SectionNode = KitNode | MovementNode | ClientNode | GroupSectionNode | ProgramNode | LogNode;

/** A note for the coach alone, ` -- …` to the end of the line. */
export interface CommentNode {
  readonly span: Span;
}

/** How each physical line was classified; formatter and editor features read this, the engine does not. */
export type LineKind =
  | 'blank'
  | 'comment'
  | 'opener'
  | 'end'
  | 'statement'
  | 'row'
  | 'continuation'
  | 'text'
  | 'broken';

export interface LineNode {
  readonly kind: LineKind;
  /** Without the line break. */
  readonly span: Span;
  /** Nesting for the formatter: 0 section, 1 inside a section, … */
  readonly depth: number;
}

export interface FileTree {
  readonly sections: readonly SectionNode[];
  readonly comments: readonly CommentNode[];
  readonly lines: readonly LineNode[];
}
