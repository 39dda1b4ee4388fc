import { type CellItem, type GroupNode, parse, type RowNode } from '../../../../../grammar/index.js';
import { later, said, say } from '../../../../../grammar/say.js';
import type { ResolvedCell, ResolvedGroup, Row } from '../../model.js';
import { formatNumber, roundTo } from '../../numbers.js';
import { fromKg, type MassUnit } from '../../units.js';
import { keepLayout, tableAround } from '../onEnter.js';
import { isOwnBlock, rowsOf } from '../rows.js';
import { lineSpanAt, touches } from '../text.js';
import { type RefactorContext, type Refactoring, type RefactorResult, refuse, tried } from './refactoring.js';
import { itemTexts, rowAt, weeksOfCells, withCell } from './rowText.js';

/** What the loads of a row may rest on, as far as one can be turned into another. */
type Target = 'load' | 'percent' | 'reserve';

const TITLES: Readonly<Record<Target, string>> = {
  load: later('as fixed loads'),
  percent: later('as shares of the max'),
  reserve: later('as reps in reserve'),
};
const BASES: ReadonlySet<CellItem['kind']> = new Set(['load', 'percent', 'reserve']);
/** What is taken out where a load is stated anew. */
const REPLACED: ReadonlySet<CellItem['kind']> = new Set([
  ...BASES,
  'change-percent',
  'change-mass',
  'step',
  'weekly',
]);

/**
 * Writes the loads of a row in another way: as fixed loads, as shares of the max, as reps in reserve. Only where the
 * chosen client comes to the same loads in every week, and nobody else to higher ones.
 */
export function fixedLoads(context: RefactorContext): Refactoring[] {
  const { session, file, offset, clientKey } = context;
  const tree = session.tree(file)?.value;
  const placed = tree && rowsOf(tree).find(({ row }) => touches(row.span, offset));
  const plan = clientKey === null ? undefined : session.plan(clientKey);
  if (!placed || !plan || placed.row.cells.some(({ broken }) => broken)) return [];
  const start = placed.row.span.start;
  const cells = cellsOf(context, context.session, start);
  const written = new Set(
    placed.row.cells.flatMap(({ groups }) => groups.flatMap(({ items }) => items.map(({ kind }) => kind))),
  );
  const now = new Set(cells.flatMap(({ groups }) => groups.map(({ basis }) => basis)));
  if (![...BASES].some((kind) => written.has(kind)) && !now.has('reserve')) return [];
  const targets = (['load', 'percent', 'reserve'] as const).filter((target) =>
    cells.some((cell) =>
      cell.groups.some(
        ({ basis, loadKg }) =>
          loadKg !== null && ['load', 'percent', 'reserve'].includes(basis) && basis !== target,
      ),
    ),
  );
  return targets.map((target) => ({
    title: say`Write ${placed.row.movement.text} ${said(TITLES[target])} of ${plan.client.name}`,
    kind: 'refactor.rewrite',
    build: () => convert(context, start, cells, target),
  }));
}

/** The cells of a row for the chosen client, one for each week. */
function cellsOf(
  { file, clientKey }: RefactorContext,
  session: RefactorContext['session'],
  rowStart: number,
): ResolvedCell[] {
  const seen = new Set<number>();
  const isThis = (row: Row): boolean => row.place.file === file && row.node.span.start === rowStart;
  // The cells of other days are not worked out for this.
  return (session.plan(clientKey ?? '')?.sessions ?? [])
    .filter(({ day }) => day.rows.some(isThis))
    .flatMap(({ cells }) => cells)
    .filter((cell) => {
      if (!isThis(cell.row) || !isOwnBlock(cell) || cell.swap || seen.has(cell.week)) return false;
      seen.add(cell.week);
      return true;
    });
}

/** Reads the row in texts that are tried, and the loads of each week that they come to. */
interface Reader {
  row(text: string): RowNode | undefined;
  loads(text: string): Map<number, readonly ResolvedGroup[]>;
}

function convert(
  context: RefactorContext,
  rowStart: number,
  wanted: readonly ResolvedCell[],
  target: Target,
): RefactorResult {
  const { session, file } = context;
  const original = session.text(file) ?? '';
  const trial = session.fork();
  const reader: Reader = {
    row(text) {
      trial.setFile(file, text);
      const tree = trial.tree(file);
      return tree && rowAt(tree.value, rowStart);
    },
    loads(text) {
      trial.setFile(file, text);
      return new Map(cellsOf(context, trial, rowStart).map(({ week, groups }) => [week, groups]));
    },
  };
  let text = original;
  for (const cell of [...wanted].sort((a, b) => a.week - b.week)) {
    const row = reader.row(text);
    if (!row) return refuse(say('The row could not be read.'));
    const index = weeksOfCells(row).indexOf(cell.week);
    const node = index < 0 ? undefined : row.cells[index];
    const statesLoad = node?.groups.some(({ items }) => items.some(({ kind }) => BASES.has(kind)));
    const now = reader.loads(text).get(cell.week);
    if (!statesLoad && cell.week > 1 && sameLoads(now, cell.groups)) continue;
    const next = rewritten(text, cell, target, reader);
    if (next === null) return refuse(noWay(cell, target));
    text = next;
  }
  if (text === original) return refuse(say('The row is written like this already.'));
  const edit = smallest(original, laidOut(original, text, rowStart));
  return tried(
    session,
    { edits: [{ file, ...edit }], newFiles: [] },
    {
      // Others may come to lighter work where the loads follow their own max; never to heavier.
      intended: ({ before, raised }) => before.key.client !== context.clientKey && !raised,
    },
  );
}

/** The text with the load of one week stated in the new way; null where nothing gives the same load. */
function rewritten(text: string, cell: ResolvedCell, target: Target, reader: Reader): string | null {
  let best = text;
  for (const [group, resolved] of cell.groups.entries()) {
    const row = reader.row(best);
    if (!row) return null;
    const weeks = weeksOfCells(row);
    const at = weeks.indexOf(cell.week);
    const node = at < 0 ? undefined : row.cells[at];
    // Behind the last cell new ones can be made; between `wk` jumps there is no place.
    if (at < 0 && (weeks[weeks.length - 1] ?? 0) > cell.week) return null;
    const index = at < 0 ? row.cells.length - 1 + cell.week - (weeks[weeks.length - 1] ?? 0) : at;
    const groups = node?.groups ?? [];
    const own = groups[group];
    const related = group > 0 && own !== undefined && isOnlyChange(own);
    const states = own?.items.some(({ kind }) => BASES.has(kind)) ?? false;
    const now = reader.loads(best).get(cell.week)?.[group];
    const right = now !== undefined && sameLoad(now, resolved);
    if (resolved.loadKg === null || !['load', 'percent', 'reserve'].includes(resolved.basis)) continue;
    if (right && (related || (!states && cell.week > 1))) continue;
    let found: string | null = null;
    for (const item of candidates(resolved, cell, target)) {
      const parts = Array.from({ length: Math.max(groups.length, group + 1) }, (_, other) => {
        const each = groups[other];
        if (other !== group) return each ? itemTexts(best, each, () => false).join(' ') : '';
        const kept = each ? itemTexts(best, each, ({ kind }) => REPLACED.has(kind)) : [];
        return inOrder(kept, item).join(' ');
      });
      const changed = withCell(best, row, index, parts.join(' ; ').trim());
      const read = changed === null ? undefined : reader.loads(changed).get(cell.week)?.[group];
      if (changed === null || !read || !sameLoad(read, resolved) || read.basis !== target) continue;
      found = changed;
      break;
    }
    if (found === null) return null;
    best = found;
  }
  return best;
}

function isOnlyChange({ items }: GroupNode): boolean {
  const kinds = new Set(items.map(({ kind }) => kind));
  return (
    ![...BASES].some((kind) => kinds.has(kind)) &&
    (kinds.has('change-percent') || kinds.has('change-mass') || kinds.has('step'))
  );
}

/** The load goes behind the sets and reps, where a coach looks for it. */
function inOrder(kept: readonly string[], item: string): string[] {
  const behind = kept.findLastIndex((text) => /^(?:wk\d|\d*[x×])/i.test(text)) + 1;
  return [...kept.slice(0, behind), item, ...kept.slice(behind)];
}

/** Ways to write a load, the roundest first; which of them come to it is tried. */
function candidates(group: ResolvedGroup, cell: ResolvedCell, target: Target): string[] {
  const kg = group.loadKg ?? 0;
  if (target === 'load') return loadItems(group, cell.client.units);
  if (target === 'percent') {
    const max = group.estimatedOneRepMaxKg;
    if (max === null || max <= 0) return [];
    const percent = (kg / max) * 100;
    const found = [5, 2.5, 1, 0.5, 0.1].flatMap((step) => {
      // A load up to one per cent above the target counts as reached.
      const lowest = Math.ceil(percent / 1.01 / step - 1e-9) * step;
      return [roundTo(lowest, 1), roundTo(lowest + step, 1)];
    });
    return [...new Set(found)]
      .filter((each) => each > 0 && each <= 150)
      .map((each) => `${formatNumber(each, 1)}%`);
  }
  if (group.reserve === null) return [];
  const half = Math.floor(group.reserve * 2) / 2;
  const found = [Math.floor(half), half, half + 0.5, half - 0.5, half - 1].filter(
    (each) => each >= 0 && each <= 10,
  );
  return [...new Set(found)].map((each) => `r${formatNumber(each, 1)}`);
}

/** The load of a group as it is written, in the client's unit first; only where the number is exact. */
export function loadItems({ loadKg }: ResolvedGroup, own: MassUnit): string[] {
  if (loadKg === null) return [];
  const units = own === 'lb' ? (['lb', 'kg'] as const) : (['kg', 'lb'] as const);
  return units
    .filter((unit) => Math.abs(roundTo(fromKg(loadKg, unit), 2) - fromKg(loadKg, unit)) < 1e-6)
    .map((unit) => `${formatNumber(fromKg(loadKg, unit), 2)}${unit}`);
}

/** A text in which a cell of one group states a load in place of what it said about loads. */
export function replaceLoad(text: string, rowStart: number, index: number, item: string): string | null {
  const row = rowAt(parse(text).value, rowStart);
  const group = row?.cells[index]?.groups[0];
  const kept = group ? itemTexts(text, group, ({ kind }) => REPLACED.has(kind)) : [];
  return row ? withCell(text, row, index, inOrder(kept, item).join(' ')) : null;
}

function sameLoad(a: ResolvedGroup, b: ResolvedGroup): boolean {
  if (a.loadKg === null || b.loadKg === null) return a.loadKg === b.loadKg;
  return Math.abs(a.loadKg - b.loadKg) < 1e-9;
}

function sameLoads(a: readonly ResolvedGroup[] | undefined, b: readonly ResolvedGroup[]): boolean {
  return (
    a !== undefined &&
    a.length === b.length &&
    a.every((group, at) => sameLoad(group, b[at] as ResolvedGroup))
  );
}

function noWay(cell: ResolvedCell, target: Target): string {
  const week = cell.week;
  const name = cell.client.name;
  switch (target) {
    case 'load':
      return say`Week ${week}: no fixed load comes to the same load for ${name}, so nothing was changed.`;
    case 'percent':
      return say`Week ${week}: no share of the max comes to the same load for ${name}, so nothing was changed.`;
    case 'reserve':
      return say`Week ${week}: no reserve comes to the same load for ${name}, so nothing was changed.`;
  }
}

/** Columns that were under each other stay so. */
function laidOut(before: string, after: string, rowStart: number): string {
  const table = (text: string) => tableAround(text, parse(text).value, lineSpanAt(text, rowStart));
  const [old, now] = [table(before), table(after)];
  return old && now ? keepLayout(before, old, after, now) : after;
}

/** The one edit that makes a text of another. */
export function smallest(before: string, after: string) {
  let start = 0;
  while (start < before.length && before[start] === after[start]) start++;
  let tail = 0;
  const room = Math.min(before.length, after.length) - start;
  while (tail < room && before[before.length - 1 - tail] === after[after.length - 1 - tail]) tail++;
  return {
    span: { start, end: before.length - tail },
    newText: after.slice(start, after.length - tail),
  };
}
