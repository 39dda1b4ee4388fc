import { normaliseName } from '../../grammar/index.js';
import type { Finding, ResolvedCell, ResolvedGroup } from '../../server/src/engine/model.js';
import { createSession, type EngineSession } from '../../server/src/engine/session.js';

/** A session over one text. */
export function open(text: string, today: string | null = null): EngineSession {
  const session = createSession({ today, severities: {} });
  session.setFile('a.stave', text);
  return session;
}

/** Kits that most tests train in. */
export const KIT = `
kit Boathouse
  bar: 15kg
  plates: 1.25kg x2, 2.5kg x2, 5kg x4, 10kg x4, 20kg x4
  dumbbells: 2kg to 20kg by 2kg
  kettlebells: 8kg, 12kg
  pack: to 16kg by 1kg
  bands: light, medium
  machine leg press: 20kg to 120kg by 5kg
`;

/** Movements of our own, so that no test rests on the built-in catalogue. */
export const MOVEMENTS = `
movement lift
  pattern: squat
  with: barbell
movement bells
  pattern: press
  with: dumbbells
movement dip
  pattern: push
  with: bodyweight
  lifts: 100% of mass
movement plank
  pattern: brace
  with: bodyweight
movement leg press
  pattern: squat
  with: machine leg press
movement pull
  pattern: row
  with: band
movement walk
  pattern: carry
  with: kettlebell
movement step
  pattern: lunge
  with: pack
`;

export interface Setting {
  readonly weeks?: number;
  /** After the number of weeks: `, heavy, deload 4`. */
  readonly block?: string;
  /** Lines of the client beside kit, sign-off and `follows`. */
  readonly client?: string;
  /** The `follows` line. */
  readonly follows?: string;
  /** Where she trains; the empty text for nowhere. */
  readonly at?: string;
  /** The sign-off. */
  readonly ready?: string;
  /** Lines of the block before its day. */
  readonly before?: string;
  /** Anything else: kits, movements, programs. */
  readonly more?: string;
}

/**
 * A workspace of one client, Heron, and one program of one block and one day, whose rows are given. Its max of `lift`
 * is a true single of 100 kg, so that shares read as kilograms. The first session is on Monday 2026-12-07.
 */
export function workspace(rows: string, setting: Setting = {}): string {
  const {
    weeks = 4,
    block = '',
    client = 'max: lift, 100kg x1, 2026-11-30',
    at = 'trains at: Boathouse',
  } = setting;
  const { follows = 'follows: Test, from 2026-12-07, on mon', ready = 'heavy all 2020-01-01' } = setting;
  return `${KIT}${MOVEMENTS}${setting.more ?? ''}
client Heron
  ${at}
  ${ready === '' ? '' : `ready: ${ready}`}
  ${client}
  ${follows}
program Test
block One, ${weeks} weeks${block}
${setting.before ?? ''}
day A
${rows}
`;
}

/** Cells of one client in order of date; of one row (`movement` or `movement (label)`) where it is named. */
export function cellsOf(session: EngineSession, client = 'heron', row?: string): readonly ResolvedCell[] {
  const plan = session.plan(normaliseName(client));
  if (!plan) throw new Error(`There is no client ${client}.`);
  return plan.sessions
    .flatMap((each) => each.cells)
    .filter((cell) => row === undefined || cell.row.key === normaliseName(row));
}

/** Cells of the only row of `workspace(rows)`, by week. Problems of the notation fail the test at once. */
export function resolve(rows: string, setting: Setting = {}, row?: string): readonly ResolvedCell[] {
  const session = open(workspace(rows, setting));
  const problems = session.tree('a.stave')?.problems ?? [];
  if (problems.length > 0) throw new Error(problems.map((problem) => problem.message).join('\n'));
  return cellsOf(session, 'heron', row);
}

/** Loads in kilograms, a list of groups for each cell; one number where there is one group. */
export function loads(cells: readonly ResolvedCell[]): (number | null | (number | null)[])[] {
  return cells.map((cell) => {
    const each = cell.groups.map((group) => group.loadKg);
    return each.length === 1 ? (each[0] as number | null) : each;
  });
}

/** Targets in kilograms to three decimals. */
export function targets(cells: readonly ResolvedCell[]): (number | null | (number | null)[])[] {
  return cells.map((cell) => {
    const each = cell.groups.map((group) => rounded(group.targetKg));
    return each.length === 1 ? (each[0] as number | null) : each;
  });
}

export function rounded(value: number | null | undefined, decimals = 3): number | null {
  return value === null || value === undefined ? null : Number(value.toFixed(decimals));
}

/** `4x6 r2`, `3x30s`, `2x6-8 r3`: what is asked for, without the load. */
export function work(group: ResolvedGroup): string {
  const amount =
    group.seconds !== null
      ? `${group.seconds}s`
      : group.metres !== null
        ? `${group.metres}m`
        : group.openReps
          ? 'max'
          : group.repsUpper !== null && group.repsUpper !== group.reps
            ? `${group.reps}-${group.repsUpper}`
            : String(group.reps);
  const off = group.offSeconds === null ? '' : ` off ${group.offSeconds}s`;
  const reserve = group.writtenReserve === null ? '' : ` r${group.writtenReserve}`;
  return `${group.sets}x${amount}${off}${reserve}`;
}

/** The work of every cell, groups parted by ` ; `. */
export function works(cells: readonly ResolvedCell[]): string[] {
  return cells.map((cell) => cell.groups.map(work).join(' ; '));
}

/** The group at `index` of a cell, which has to be there. */
export function group(cell: ResolvedCell | undefined, index = 0): ResolvedGroup {
  const found = cell?.groups[index];
  if (!found) throw new Error(`There is no group ${index}.`);
  return found;
}

export function codes(findings: readonly Finding[]): string[] {
  return findings.map((finding) => finding.code);
}
