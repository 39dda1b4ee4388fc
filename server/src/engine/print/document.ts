/** The printed plan of one client as plain data. HTML and PDF are two ways to draw the same document. */

import { say } from '../../../../grammar/say.js';
import type { Caution } from './cautions.js';
import type { SourcePlace } from './source.js';
import type { Work } from './work.js';

export interface PlanDocument {
  /** `Plan for Heron`. */
  readonly title: string;
  readonly client: string;
  readonly programs: string;
  /** `7 December 2026 to 10 January 2027`. */
  readonly dates: string;
  readonly facts: readonly { readonly label: string; readonly value: string }[];
  readonly care: readonly string[];
  readonly cautions: readonly Caution[];
  readonly howToRead: readonly { readonly term: string; readonly meaning: string }[];
  /** What the reader has to know before using the plan: no sessions in these dates, mistakes in the files. */
  readonly notices: readonly string[];
  readonly weeks: readonly WeekSheet[];
  /** `Heron · Harbour winter · printed 25 November 2026`, beside the page number on every page. */
  readonly footer: string;
}

export interface WeekSheet {
  /** `Keel, week 1 of 5`. */
  readonly heading: string;
  readonly dates: string;
  /** Program, where the client follows more than one. */
  readonly program: string | null;
  /** `Lighter week: …`, `Back after a break: …`. */
  readonly notes: readonly string[];
  /** The coach's printed texts of program and block. */
  readonly texts: readonly string[];
  readonly days: readonly DaySheet[];
  /** Size of the text in points: a fuller week is set smaller, so that it stays on one page. */
  readonly fontPt: number;
  /** The block's opener. */
  readonly source?: SourcePlace | null;
}

export interface DaySheet {
  /** `Lower`. */
  readonly name: string;
  /** `Monday 7 December · 18:00 · Boathouse`. */
  readonly when: string;
  readonly entries: readonly EntrySheet[];
  /** The week's heading again, where the day begins the week's next page. */
  readonly continued?: string;
  readonly source?: SourcePlace | null;
}

export type EntrySheet =
  | { readonly kind: 'movement'; readonly movement: MovementSheet }
  | { readonly kind: 'text'; readonly text: string }
  | {
      readonly kind: 'circuit';
      /** `Circuit: Legs`. */
      readonly heading: string;
      /** `3 rounds, rest 90 s after each round`. */
      readonly how: string;
    };

export interface MovementSheet {
  readonly name: string;
  readonly inCircuit: boolean;
  /** Label, swap, height, tempo, rest. */
  readonly details: readonly string[];
  readonly cue: string | null;
  /** `Easier: box squat`. */
  readonly easier?: string | null;
  readonly texts: readonly string[];
  readonly steps: readonly string[];
  readonly warmUp: string | null;
  readonly rest: string | null;
  readonly work: readonly WorkSheet[];
  /** The cell, or the row's end where this week has none of its own. */
  readonly source?: SourcePlace | null;
}

export interface WorkSheet extends Work {
  /** Empty boxes to write in. */
  readonly boxes: number;
  /** What was done or planned the time before, line by line; empty where there is nothing to compare with. */
  readonly last?: readonly string[];
}

/** A piece of what stands under the row of a movement. */
export interface UnderPiece {
  readonly kind: 'coach' | 'plain' | 'cue';
  readonly text: string;
}

/** Between two pieces of a line. */
export const BETWEEN = ' · ';

/** What stands under the name of a movement: its label, height and tempo, and the rest between its sets. */
export function besideWords({ details, rest }: MovementSheet): string | null {
  const words = [...details, ...(rest === null ? [] : [say`rest ${rest}`])];
  return words.length === 0 ? null : words.join(BETWEEN);
}

/** What is told of last time, in as few lines as there can be: what it was, then when. */
export function lastLines({ last = [] }: WorkSheet): readonly string[] {
  if (last.length < 2) return last;
  // In a narrow column `3 × 8` would be broken at its sign.
  const what = last.slice(0, -1).join(BETWEEN).replaceAll(' × ', '\u00a0×\u00a0');
  return [what, last[last.length - 1] as string];
}

/**
 * What stands under the row of a movement over the whole width, line by line: what there is to say of its load, what the
 * coach wrote, how to warm up, how to do it and what is easier, then the steps of a test. Beside the sets it would make the row three times as high.
 */
export function underLines(movement: MovementSheet): readonly (readonly UnderPiece[])[] {
  const notes = [...new Set(movement.work.map(({ note }) => note))].filter((note) => note !== null);
  const first: UnderPiece[] = [
    ...notes.map((text) => ({ kind: 'plain', text }) as const),
    ...movement.texts.map((text) => ({ kind: 'coach', text }) as const),
  ];
  if (movement.warmUp !== null) first.push({ kind: 'plain', text: movement.warmUp });
  if (movement.cue !== null) first.push({ kind: 'cue', text: movement.cue });
  if (movement.easier) first.push({ kind: 'plain', text: movement.easier });
  const steps = movement.steps.map((text): readonly UnderPiece[] => [{ kind: 'plain', text }]);
  return [first, ...steps].filter((line) => line.length > 0);
}

/** The columns of a day's table. */
export const columns = () => [
  say('Movement'),
  say('Sets × reps'),
  say('Load'),
  say('Last time'),
  say('What you did'),
];
/** The rest of a movement, said once, beside its first sets: where no line stands under its name. */
export function restWords({ rest }: MovementSheet, group: number): string | null {
  return rest === null || group > 0 ? null : say`rest ${rest}`;
}

/** Lines to fill in after a session. */
export const sessionLines = () => [say('Effort, 1 to 10'), say('Minutes'), say('Pain, where')] as const;
