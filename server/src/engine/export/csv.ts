/** A plan as a table for spreadsheets: a line for each set group. */

import Papa from 'papaparse';
import type { PlanJson } from './planSchema.js';

/** Columns in order; raised numbers of columns are added at the end, so that tables built on this keep working. */
export const CSV_COLUMNS = [
  'session',
  'date',
  'client',
  'program',
  'block',
  'week',
  'deload',
  'day',
  'kit',
  'circuit',
  'rounds',
  'movement',
  'label',
  'instead of',
  'group',
  'sets',
  'reps',
  'reps upper',
  'open reps',
  'seconds',
  'metres',
  'recovery seconds',
  'each side',
  'reserve asked',
  'percent asked',
  'target kg',
  'load kg',
  'plates each side kg',
  'bar',
  'band',
  'reserve predicted',
  'share',
  'stage',
  'rest seconds',
  'tempo',
  'height cm',
  'provisional',
  'issue',
  'start time',
] as const;

type Value = string | number | null;
const yes = (value: boolean): Value => (value ? 'yes' : 'no');

/**
 * The table as RFC 4180 text: header, CRLF line ends, quotation marks where they are needed. A text that a spreadsheet
 * would take for a formula gets an apostrophe before it; numbers stay numbers.
 */
export function planCsv(plan: PlanJson): string {
  const rows = plan.sessions.flatMap((session) =>
    session.cells.flatMap((cell) =>
      cell.groups.map((group, index): Value[] => [
        session.id,
        session.date,
        plan.client,
        session.program,
        session.block,
        session.week,
        yes(session.deload),
        session.day,
        session.kit,
        cell.circuit,
        cell.rounds,
        cell.movement,
        cell.label,
        cell.insteadOf,
        index + 1,
        group.sets,
        group.reps,
        group.repsUpper,
        yes(group.openReps),
        group.seconds,
        group.metres,
        group.offSeconds,
        yes(cell.perSide),
        group.writtenReserve,
        group.writtenPercent,
        group.targetKg,
        group.loadKg,
        group.eachSideKg === null ? null : group.eachSideKg.join(' + '),
        group.bar,
        group.band,
        group.reserve,
        group.share,
        group.stage,
        cell.restSeconds,
        cell.tempo === null ? null : cell.tempo.join(' / '),
        cell.heightCm,
        yes(group.provisional),
        group.issue,
        session.startTime,
      ]),
    ),
  );
  const text = Papa.unparse(
    { fields: [...CSV_COLUMNS], data: rows },
    { newline: '\r\n', escapeFormulae: true },
  );
  return `${text.replace(/\r\n$/, '')}\r\n`;
}
