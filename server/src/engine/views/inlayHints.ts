import type { CellNode, DayNode, Span } from '../../../../grammar/index.js';
import { say } from '../../../../grammar/say.js';
import type { ResolvedCell, ResolvedGroup } from '../model.js';
import { formatNumber } from '../numbers.js';
import type { EngineSession } from '../session.js';
import { fromKg } from '../units.js';
import { alignHints, type RowHints } from './alignHints.js';
import { cellsByRow, isOwnBlock, type PlacedRow, rowsOf, writtenSpan } from './rows.js';
import { meets } from './text.js';
import { cellText, doseText, platesText, reserveText, shareText } from './words.js';

export interface HintOptions {
  /** The client whose loads are shown; null: the first follower by name. */
  readonly clientKey: string | null;
  readonly loads: boolean;
  readonly reserve: boolean;
  readonly plates: boolean;
  /** Share of the estimated one-repetition maximum. */
  readonly share?: boolean;
  /** Sets and reps of a deload week, which are worked out and not written. */
  readonly deload?: boolean;
  /** Make the hints of a column equally wide, with blanks where a cell has none. */
  readonly align?: boolean;
}

export interface Hint {
  readonly offset: number;
  readonly label: string;
  /** Plain text, one line a date; null for one that only takes a place. Worked out for the one that is pointed at. */
  readonly tooltip: (() => string) | null;
  readonly kind: 'load' | 'reserve' | 'plates' | 'share' | 'deload';
}

/** The editor cuts off hints when those of one line get long. */
const LONGEST = 19;

/**
 * What is worked out for the cells of a file between two offsets, to be shown beside them: the load (`= 45 kg`,
 * `~ 45 kg` where provisional, `= ?` where there should be one and is none), the predicted reserve and the plates.
 * Rows of a program that the chosen client does not follow have no hints.
 */
export function inlayHints(session: EngineSession, file: string, span: Span, options: HintOptions): Hint[] {
  const tree = session.tree(file)?.value;
  const text = session.text(file);
  if (!tree || text === undefined) return [];
  const byProgram = new Map<string, Map<number, ResolvedCell[]>>();
  const hintsOfRow = ({ program, row }: PlacedRow): RowHints => {
    let byRow = byProgram.get(program.name.key);
    if (!byRow) {
      byRow = cellsByRow(ofOneClient(session, file, program.name.key, options.clientKey));
      byProgram.set(program.name.key, byRow);
    }
    const resolved = byRow.get(row.span.start) ?? [];
    const byCell = new Map<number, readonly Hint[]>();
    for (const node of row.cells) {
      const cells = resolved.filter((cell) => cell.cellIndex === node.index);
      if (node.broken || cells.length === 0) continue;
      byCell.set(node.index, hintsOf(node, cells, writtenSpan(text, node).end, options));
    }
    return { row, byCell };
  };
  // A column is as wide as its widest hint, in view or not, so that nothing jumps while the page is moved.
  const days = new Map<DayNode, PlacedRow[]>();
  for (const placed of rowsOf(tree)) days.set(placed.day, [...(days.get(placed.day) ?? []), placed]);
  return [...days.values()].flatMap((rows) => {
    if (!rows.some(({ row }) => meets(row.span, span))) return [];
    const hints = rows.map(hintsOfRow);
    const all = options.align
      ? alignHints(text, hints)
      : hints.flatMap(({ byCell }) => [...byCell.values()].flat());
    return all.filter(({ offset }) => meets({ start: offset, end: offset }, span));
  });
}

/** The cells of the chosen client, or of the first follower who has any, in order of date. */
function ofOneClient(
  session: EngineSession,
  file: string,
  programKey: string,
  clientKey: string | null,
): ResolvedCell[] {
  for (const key of clientKey === null ? session.followers(programKey) : [clientKey]) {
    const cells = (session.plan(key)?.sessions ?? [])
      .filter(({ program }) => program.key === programKey)
      .flatMap((each) => each.cells.filter((cell) => cell.row.place.file === file && isOwnBlock(cell)));
    if (cells.length > 0) return cells;
  }
  return [];
}

function hintsOf(
  node: CellNode,
  cells: readonly ResolvedCell[],
  offset: number,
  options: HintOptions,
): Hint[] {
  const tooltip = () => cells.map(tooltipLine).join('\n');
  const hints: Hint[] = [];
  const add = (kind: Hint['kind'], label: string): void => {
    if (label !== '') hints.push({ offset, label: shorten(label), tooltip, kind });
  };
  if (options.deload) add('deload', deloadLabel(cells));
  if (options.loads && !saysTheSame(node, cells)) add('load', loadLabel(cells));
  if (options.reserve) add('reserve', distinctText(cells, reserveText, 'r '));
  if (options.share) add('share', distinctText(cells, shareText, ''));
  if (options.plates)
    add(
      'plates',
      distinctText(cells, (group, cell) => platesText(group, cell.client.units), ''),
    );
  return hints;
}

/** The sets and reps of derived deloads; empty in other weeks. */
function deloadLabel(cells: readonly ResolvedCell[]): string {
  const deloads = cells.filter(({ deload }) => deload);
  return deloads.length < cells.length ? '' : distinctText(deloads, doseText, '');
}

function tooltipLine(cell: ResolvedCell): string {
  const deload = cell.deload ? say(', deload') : '';
  const swap = cell.swap === null ? '' : say` ${cell.movement?.name ?? cell.swap.toName.text} instead,`;
  return say`${cell.client.name}, week ${cell.week}${deload}, ${cell.date}:${swap} ${cellText(cell)}`;
}

/** A hint that repeats the load written in the same cell would only be noise. */
function saysTheSame(node: CellNode, cells: readonly ResolvedCell[]): boolean {
  return cells.every((cell) => {
    if (cell.swap !== null || cell.groups.length !== node.groups.length) return false;
    return cell.groups.every((group, index) => {
      const written = node.groups[index]?.items.find((item) => item.kind === 'load' || item.kind === 'pack');
      const same = written !== undefined && Math.abs(written.mass.kg - (group.loadKg ?? Number.NaN)) < 1e-9;
      return same && written.mass.unit === cell.client.units && group.issue === null;
    });
  });
}

function loadLabel(cells: readonly ResolvedCell[]): string {
  const unit = cells[0]?.client.units ?? 'kg';
  const texts = distinct(cells.map((cell) => joined(cell.groups.map((group) => loadNumber(group, unit)))));
  const body = texts.filter((label) => label !== '').join(' / ');
  if (body === '') return '';
  const known = /\d/.test(body);
  const provisional = cells.some((cell) =>
    cell.groups.some((group) => group.provisional && group.loadKg !== null),
  );
  const sign = provisional ? '~' : '=';
  const swapped = cells.some((cell) => cell.swap !== null) ? say(' (swap)') : '';
  const whole = `${sign} ${body}${known ? ` ${unit}` : ''}${swapped}`;
  // Rather without its unit than cut off: that a swap is meant must be seen.
  return whole.length <= LONGEST ? whole : `${sign} ${body}${swapped}`;
}

/** The number alone; `?` where a load should be and is none; empty where none is wanted. */
function loadNumber(group: ResolvedGroup, unit: 'kg' | 'lb'): string {
  if (group.loadKg === null) {
    const wanted = group.issue !== null && group.issue !== 'broken' && group.issue !== 'lightest-used';
    return wanted ? '?' : '';
  }
  const number = formatNumber(fromKg(Math.abs(group.loadKg), unit), 2);
  if (group.basis !== 'bodyweight') return number;
  return group.loadKg === 0 ? '' : `${group.loadKg < 0 ? '-' : '+'}${number}`;
}

function distinctText(
  cells: readonly ResolvedCell[],
  read: (group: ResolvedGroup, cell: ResolvedCell) => string,
  prefix: string,
): string {
  const texts = distinct(cells.map((cell) => joined(cell.groups.map((group) => read(group, cell)))));
  const body = texts.filter((label) => label !== '').join(' / ');
  return body === '' ? '' : prefix + body;
}

/** Groups side by side; a load that is the same in all is written once. */
function joined(texts: readonly string[]): string {
  const said = texts.filter((entry) => entry !== '');
  return distinct(said).length <= 1 ? (said[0] ?? '') : said.join('; ');
}

function distinct(texts: readonly string[]): string[] {
  return [...new Set(texts)];
}

function shorten(label: string): string {
  return label.length <= LONGEST ? label : `${label.slice(0, LONGEST - 1).trimEnd()}…`;
}
