import type { PatternName } from '../../../../grammar/index.js';

/** A place for a row in the starter program, and the ways to fill it, the wished one first. */
export interface Slot {
  /** 0 or 1. */
  readonly block: number;
  /** 0 or 1: which of `DAYS`. */
  readonly day: number;
  /** Her own lifts stand between what comes `first` and the `rest`. */
  readonly place: 'first' | 'lift' | 'rest';
  readonly rows: readonly string[];
}

export const DAYS = ['One', 'Two'] as const;

const ROW_ONE = ['band row: 2x10 band light', 'pack row: 2x10 pack 2kg', 'high inverted row: 2x6'];
const ROW_TWO = [
  'band row: 2x12 band light | | band medium x10',
  'pack row: 2x10 pack 3kg',
  'high inverted row: 2x8',
];
const PULL_ONE = ['band pull-down: 2x10 band light', 'pack row: 2x10 pack 2kg', 'dead hang: 2x10s'];
const PULL_TWO = [
  'band pull-down: 2x12 band light | | band medium x10',
  'pack row: 2x10 pack 3kg',
  'dead hang: 2x15s',
];
const CARRY_ONE = ['pack carry: 2x20m pack 2kg', 'suitcase carry: 2x20m 4kg /side'];
const CARRY_TWO = ['pack carry: 2x30m pack 3kg | | pack 4kg', 'suitcase carry: 2x30m 4kg /side'];

/**
 * What every beginner gets around her own lifts: bodyweight, bands and a backpack. Which movements, how many of them
 * and how they grow is common practice, no source.
 */
export const FIRST_ROWS: readonly Slot[] = [
  ...slots(0, 0, 'first', [
    ['chair sit-to-stand: 2x8 height 50cm | x10'],
    ['counter push-up: 2x6 height 95cm | x8'],
  ]),
  ...slots(0, 0, 'rest', [ROW_ONE, ['dead bug: 2x6 /side | x8'], CARRY_ONE]),
  ...slots(0, 1, 'first', [['wall hip hinge: 2x8 | x10'], ['step-up: 2x6 /side height 15cm']]),
  ...slots(0, 1, 'rest', [PULL_ONE, ['bird dog: 2x6 /side | x8'], ['brisk hill walk: 1x10min | 1x12min']]),
  ...slots(1, 0, 'first', [['counter squat: 2x10 | | 3x'], ['counter push-up: 2x8 height 90cm | x10']]),
  ...slots(1, 0, 'rest', [ROW_TWO, ['dead bug: 2x8 /side'], CARRY_TWO]),
  ...slots(1, 1, 'first', [['hip bridge: 2x10 | | 3x'], ['supported split squat: 2x6 /side | | x8']]),
  ...slots(1, 1, 'rest', [
    PULL_TWO,
    ['knee side plank: 2x15s /side | | x20s'],
    ['brisk hill walk: 1x15min | | 1x20min'],
  ]),
];

/**
 * Rows of the first block that are written to failure on purpose: the finding that a coach meets in her first ten
 * minutes. Mild ones, with a pattern that she is still learning, so that one of them always fits.
 */
export const LESSONS: readonly { readonly pattern: PatternName; readonly row: string }[] = [
  { pattern: 'push', row: 'counter push-up: 2xmax r0 height 95cm' },
  { pattern: 'squat', row: 'chair sit-to-stand: 2xmax r0 height 50cm' },
  { pattern: 'hinge', row: 'wall hip hinge: 2xmax r0' },
  { pattern: 'lunge', row: 'step-up: 2xmax r0 /side height 15cm' },
];

function slots(
  block: number,
  day: number,
  place: Slot['place'],
  ways: readonly (readonly string[])[],
): readonly Slot[] {
  return ways.map((rows) => ({ block, day, place, rows }));
}
