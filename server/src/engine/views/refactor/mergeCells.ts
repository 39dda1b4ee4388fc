import type { CellItem, CellNode, GroupNode } from '../../../../../grammar/index.js';
import { formatNumber } from '../../numbers.js';

/** What is for its own week only and is not carried. */
const ONE_WEEK: ReadonlySet<CellItem['kind']> = new Set(['left-out', 'test', 'text', 'week']);
const BASES: ReadonlySet<CellItem['kind']> = new Set([
  'reserve',
  'percent',
  'load',
  'bodyweight',
  'pack',
  'band',
]);
const CHANGES: ReadonlySet<CellItem['kind']> = new Set(['change-percent', 'change-mass', 'step', 'weekly']);

/**
 * The text of a cell that says what two cells after one another say for the weeks behind them. `first` null: only the
 * second; `second` null: only what of the first is carried. `week` is a jump to write at the front.
 */
export function mergedCell(
  text: string,
  first: CellNode | null,
  second: CellNode | null,
  week: number | null,
): string {
  const groups = Math.max(first?.groups.length ?? 0, second?.groups.length ?? 0);
  const merged = Array.from({ length: groups }, (_, index) =>
    mergedGroup(text, first?.groups[index], second?.groups[index]).join(' '),
  );
  const content = merged.join(' ; ').trim();
  const plain = content.replace(/^(?:;\s*)+$/, '');
  return [week === null ? '' : `wk${week}`, plain].filter((part) => part !== '').join(' ');
}

function mergedGroup(text: string, first: GroupNode | undefined, second: GroupNode | undefined): string[] {
  const later = second?.items.filter(({ kind }) => kind !== 'week') ?? [];
  const earlier = first?.items.filter(({ kind }) => !ONE_WEEK.has(kind)) ?? [];
  const written = (item: CellItem): string => text.slice(item.span.start, item.span.end);
  if (later.some(({ kind }) => kind === 'stop')) return later.map(written);
  const out: string[] = [];
  const dose = mergedDose(
    earlier.find(({ kind }) => kind === 'dose'),
    later.find(({ kind }) => kind === 'dose'),
    written,
  );
  if (dose !== '') out.push(dose);
  out.push(...mergedLoad(earlier, later, written));
  const isWork = ({ kind }: CellItem): boolean => kind === 'dose' || BASES.has(kind) || CHANGES.has(kind);
  const said = new Set(later.map(aboutOf));
  out.push(...earlier.filter((item) => !isWork(item) && !said.has(aboutOf(item))).map(written));
  out.push(...later.filter((item) => !isWork(item)).map(written));
  return out;
}

/** `rest 2min` and `no rest` are about the same. */
function aboutOf(item: CellItem): string {
  return item.kind === 'no' ? item.what : item.kind;
}

/** `4x6` and then `x5` is `4x5`. */
function mergedDose(
  first: CellItem | undefined,
  second: CellItem | undefined,
  written: (item: CellItem) => string,
): string {
  if (!first || !second) return second ? written(second) : first ? written(first) : '';
  const parts = (item: CellItem) => /^(\d*)[x×](.*)$/i.exec(written(item));
  const [before, after] = [parts(first), parts(second)];
  if (!before || !after) return written(second);
  return `${after[1] || before[1]}x${after[2] || before[2]}`;
}

function mergedLoad(
  earlier: readonly CellItem[],
  later: readonly CellItem[],
  written: (item: CellItem) => string,
): string[] {
  const bases = (items: readonly CellItem[]) => items.filter(({ kind }) => BASES.has(kind));
  const changes = (items: readonly CellItem[]) => items.filter(({ kind }) => CHANGES.has(kind));
  if (bases(later).length > 0) return [...bases(later), ...changes(later)].map(written);
  const [change] = changes(later);
  if (!change) return [...bases(earlier), ...changes(earlier)].map(written);
  const [base] = bases(earlier);
  const [before] = changes(earlier);
  if (base) return [changed(base, change, written), ...bases(earlier).slice(1).map(written)];
  if (before?.kind === 'change-percent' && change.kind === 'change-percent') {
    const both = ((1 + before.percent / 100) * (1 + change.percent / 100) - 1) * 100;
    return [`${signed(both, 4)}%`, ...changes(later).slice(1).map(written)];
  }
  if (
    before?.kind === 'change-mass' &&
    change.kind === 'change-mass' &&
    before.mass.unit === change.mass.unit
  ) {
    const both = before.mass.value + change.mass.value;
    return both === 0 ? [] : [`${signed(both, 2)}${change.mass.unit}`];
  }
  // No one item says both; the check tells whether that matters.
  return changes(later).map(written);
}

/** A load or share with a change made to it: `45kg` and `+2.5kg` is `47.5kg`. */
function changed(base: CellItem, change: CellItem, written: (item: CellItem) => string): string {
  if (base.kind === 'load' && change.kind === 'change-mass' && base.mass.unit === change.mass.unit)
    return `${formatNumber(base.mass.value + change.mass.value, 2)}${base.mass.unit}`;
  if (change.kind === 'change-percent') {
    const factor = 1 + change.percent / 100;
    if (base.kind === 'percent') return `${formatNumber(base.percent * factor, 4)}%`;
    if (base.kind === 'load') return `${formatNumber(base.mass.value * factor, 4)}${base.mass.unit}`;
  }
  return `${written(base)} ${written(change)}`;
}

function signed(value: number, decimals: number): string {
  return `${value < 0 ? '-' : '+'}${formatNumber(Math.abs(value), decimals)}`;
}
