import type { TextEdit } from '../../../../grammar/index.js';
import type { EngineSession } from '../session.js';
import { loadItems, replaceLoad, smallest } from './refactor/fixedLoads.js';
import { tried } from './refactor/refactoring.js';
import { isOwnBlock, rowsOf, writtenSpan } from './rows.js';

/**
 * The edit that writes the load of a hint into its cell, or null where the written load would mean something else: only
 * loads that follow from a fixed load stay the same when they are written out. It is tried for everybody who follows
 * the program, in all weeks.
 */
export function insertLoad(
  session: EngineSession,
  file: string,
  offset: number,
  clientKey: string | null,
): TextEdit | null {
  const tree = session.tree(file)?.value;
  const text = session.text(file);
  if (!tree || text === undefined || clientKey === null) return null;
  const placed = rowsOf(tree).find(({ row }) =>
    row.cells.some((cell) => writtenSpan(text, cell).end === offset),
  );
  const node = placed?.row.cells.find((cell) => writtenSpan(text, cell).end === offset);
  if (!placed || !node || node.groups.length > 1) return null;
  const cells = (session.plan(clientKey)?.sessions ?? [])
    .flatMap((each) => each.cells)
    .filter(
      (cell) =>
        cell.row.place.file === file &&
        cell.row.node.span.start === placed.row.span.start &&
        cell.cellIndex === node.index &&
        isOwnBlock(cell),
    );
  const first = cells[0];
  const group = first?.groups[0];
  if (!first || !group || first.groups.length > 1 || group.basis !== 'load' || first.deload || first.swap)
    return null;
  if (cells.some((cell) => cell.groups[0]?.loadKg !== group.loadKg)) return null;
  const [item] = loadItems(group, first.client.units);
  // In another unit than hers the hint would stay beside it.
  if (item === undefined || !item.endsWith(first.client.units)) return null;
  const changed = replaceLoad(text, placed.row.span.start, node.index, item);
  if (changed === null || changed === text) return null;
  const edit = smallest(text, changed);
  return tried(session, { edits: [{ file, ...edit }], newFiles: [] }).ok ? edit : null;
}
