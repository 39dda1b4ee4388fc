/** What the engine makes of a row of intervals, for the tests of the published protocols. */
import { expect } from 'vitest';
import { cellSeconds } from '../../server/src/engine/science/duration.js';
import { around, found, sessionOf, syntaxProblems } from '../rules/check.js';

const client = 'screened: 2026-11-01\n  ready: heavy all 2026-06-01';

export interface Intervals {
  /** Seconds of the first session, recoveries and the last one too. */
  readonly seconds: number | null;
  /** Seconds of work in it. */
  readonly workSeconds: number;
  /** Whether `sprint-dose` tells of too much in the first two weeks. */
  readonly told: boolean;
}

/** Reads `8x20s off 10s`, or the cells of several weeks. */
export function intervals(cells: string): Intervals {
  const text = around({ client, row: `hill sprint: ${cells}` });
  expect(syntaxProblems(text)).toEqual([]);
  const cell = sessionOf(text).plan('heron')?.sessions[0]?.cells[0];
  return {
    seconds: cell ? cellSeconds(cell) : null,
    workSeconds: (cell?.groups ?? []).reduce(
      (sum, { sets, seconds }) => sum + (sets ?? 0) * (seconds ?? 0),
      0,
    ),
    told: found(text, 'sprint-dose').length > 0,
  };
}
