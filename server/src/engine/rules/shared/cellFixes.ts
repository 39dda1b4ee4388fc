import type { CellItem, GroupNode, Span } from '../../../../../grammar/index.js';
import { say } from '../../../../../grammar/say.js';
import type { FindingFix, ResolvedCell, ResolvedGroup } from '../../model.js';
import { formatNumber } from '../../numbers.js';

/** Repairs inside a cell. Each touches only what is written in that cell, so that carried-over items stay as they are. */

type Item<Kind extends CellItem['kind']> = Extract<CellItem, { kind: Kind }>;

/** The group as it is written in the cell that a state ends with; null where it comes from an earlier cell. */
function writtenGroup(cell: ResolvedCell, group: ResolvedGroup): GroupNode | null {
  // What she does comes from her swap, not from the row.
  if (cell.swap?.dose) return null;
  const { span } = cell.place;
  const written = cell.row.node.cells.find(
    (each) => !each.broken && each.span.start === span.start && each.span.end === span.end,
  );
  return written?.groups[cell.groups.indexOf(group)] ?? null;
}

function itemOf<Kind extends CellItem['kind']>(group: GroupNode | null, kind: Kind): Item<Kind> | null {
  return (group?.items.find((item) => item.kind === kind) as Item<Kind> | undefined) ?? null;
}

function edit(cell: ResolvedCell, title: string, span: Span, newText: string): FindingFix {
  return { title, safe: false, edits: [{ file: cell.row.place.file, span, newText }] };
}

/** Puts the load that the kit makes in place of one that it does not. Null where the load is not written here in kg. */
export function writeLoad(cell: ResolvedCell, group: ResolvedGroup, loadKg: number): FindingFix | null {
  const load = itemOf(writtenGroup(cell, group), 'load');
  if (load?.mass.unit !== 'kg') return null;
  const text = `${formatNumber(loadKg, 3)}kg`;
  return Number(formatNumber(loadKg, 3)) === loadKg
    ? edit(cell, say`Change to "${text}"`, load.mass.span, text)
    : null;
}

/** Takes the load out of a group that also states its reserve, so that each client's own is worked out. */
export function takeLoadAway(cell: ResolvedCell, group: ResolvedGroup): FindingFix | null {
  const written = writtenGroup(cell, group);
  const load = itemOf(written, 'load') ?? itemOf(written, 'percent');
  const reserve = itemOf(written, 'reserve');
  const dose = itemOf(written, 'dose');
  if (!written || !load || !reserve || !dose) return null;
  const at = written.items.indexOf(load);
  const before = written.items[at - 1];
  const after = written.items[at + 1];
  const span = before
    ? { start: before.span.end, end: load.span.end }
    : { start: load.span.start, end: after?.span.start ?? load.span.end };
  return edit(cell, say('Take the load away and keep the reserve'), span, '');
}

/** `3x8` becomes `3x8-12`: the load stays that of the lower end. Null where no plain reps are written here. */
export function writeRange(cell: ResolvedCell, group: ResolvedGroup, more: number): FindingFix | null {
  const dose = itemOf(writtenGroup(cell, group), 'dose');
  if (dose?.amount?.kind !== 'reps' || dose.amount.reps.kind !== 'count' || more < 1) return null;
  const { lower, upper } = dose.amount.reps;
  if (lower !== upper) return null;
  const { end } = dose.span;
  return edit(
    cell,
    say`Write ${lower} to ${lower + more} reps with this load`,
    { start: end, end },
    `-${lower + more}`,
  );
}

/** Leaves more in reserve. Null where the reserve is not written here, or leaves as much already. */
export function writeReserve(cell: ResolvedCell, group: ResolvedGroup, reserve: number): FindingFix | null {
  const item = itemOf(writtenGroup(cell, group), 'reserve');
  if (!item || item.reserve >= reserve) return null;
  return edit(cell, say`Change to "r${reserve}"`, item.span, `r${reserve}`);
}

/** The edit that puts fewer sets in a group. Null where its sets are not written here as a plain number, or are no more. */
export function setsEdit(
  cell: ResolvedCell,
  group: ResolvedGroup,
  sets: number,
): FindingFix['edits'][number] | null {
  const dose = itemOf(writtenGroup(cell, group), 'dose');
  if (!dose || dose.sets === null || dose.sets <= sets || sets < 1) return null;
  const { row } = cell;
  const at = dose.span.start - row.place.span.start;
  const written = String(dose.sets);
  // `04x6` is not touched: the wrong digit would be put in.
  if (!new RegExp(`^${written}\\s*[x×]`, 'i').test(row.text.slice(at))) return null;
  const span = { start: dose.span.start, end: dose.span.start + written.length };
  return { file: row.place.file, span, newText: String(sets) };
}

/** Fewer sets. Null where they are not written here. */
export function writeSets(cell: ResolvedCell, group: ResolvedGroup, sets: number): FindingFix | null {
  const one = setsEdit(cell, group, sets);
  if (!one) return null;
  const title = sets === 1 ? say('Write 1 set') : say`Write ${sets} sets`;
  return { title, safe: false, edits: [one] };
}

/** Rests longer. Null where the rest is not written here. */
export function writeRest(cell: ResolvedCell, group: ResolvedGroup, seconds: number): FindingFix | null {
  const one = restEdit(cell, group, seconds);
  return one && { title: say`Change to "${one.newText}"`, safe: false, edits: [one] };
}

function restText(seconds: number): string {
  return seconds % 60 === 0 ? `rest ${seconds / 60}min` : `rest ${seconds}s`;
}

/** Gives a group the reserve that it does not state. Null where its sets and reps are not written here. */
export function addReserve(cell: ResolvedCell, group: ResolvedGroup, reserve: number): FindingFix | null {
  const dose = itemOf(writtenGroup(cell, group), 'dose');
  if (!dose) return null;
  const { end } = dose.span;
  return edit(cell, say`Write "r${reserve}"`, { start: end, end }, ` r${reserve}`);
}

/** Lowers a written change such as `+15%`. Null where no larger one is written here. */
export function writeChange(cell: ResolvedCell, group: ResolvedGroup, percent: number): FindingFix | null {
  const item = itemOf(writtenGroup(cell, group), 'change-percent');
  if (!item || item.percent <= percent || percent < 1) return null;
  const text = `+${formatNumber(percent)}%`;
  return edit(cell, say`Change to "${text}"`, item.span, text);
}

/** The edit that asks for more reps. Null where plain reps are not written here, or are as many already. */
export function repsEdit(
  cell: ResolvedCell,
  group: ResolvedGroup,
  reps: number,
): FindingFix['edits'][number] | null {
  const dose = itemOf(writtenGroup(cell, group), 'dose');
  if (dose?.amount?.kind !== 'reps' || dose.amount.reps.kind !== 'count') return null;
  if (dose.amount.reps.upper >= reps) return null;
  return { file: cell.row.place.file, span: dose.span, newText: `${dose.sets ?? ''}x${reps}` };
}

/** The edit that rests longer. Null where no shorter rest is written here. */
export function restEdit(
  cell: ResolvedCell,
  group: ResolvedGroup,
  seconds: number,
): FindingFix['edits'][number] | null {
  const item = itemOf(writtenGroup(cell, group), 'rest');
  if (!item || item.seconds >= seconds) return null;
  return { file: cell.row.place.file, span: item.span, newText: restText(seconds) };
}
