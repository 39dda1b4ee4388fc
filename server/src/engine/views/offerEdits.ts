/** The edits that take an offer: a line in the client's section, or the next cell of a row with a fixed load. */
import { say } from '../../../../grammar/say.js';
import type { Offer } from '../history/offers.js';
import type { ClientPlan } from '../model.js';
import type { EngineSession } from '../session.js';
import type { FileEdit } from './navigation.js';
import { loadItems, replaceLoad, smallest } from './refactor/fixedLoads.js';
import { tried } from './refactor/refactoring.js';
import { rowAt, weeksOfCells } from './refactor/rowText.js';
import { isOwnBlock } from './rows.js';
import { indentAt, lineBreakOf, lineSpanAt } from './text.js';

/** What taking an offer writes, or in plain words why nothing can be written. */
export type OfferEdits =
  | { readonly ok: true; readonly text: string; readonly edits: readonly FileEdit[] }
  | { readonly ok: false; readonly because: string };

/** The line of an offer as a line of its own, under the line that it belongs under, with that line's indent. */
export function lineEdit(session: EngineSession, { line, under }: Offer): OfferEdits | null {
  const text = session.text(under.file);
  if (line === null || text === undefined) return null;
  // Behind a note at the end of the line, not before it.
  const { start, end } = lineSpanAt(text, under.span.end);
  const isHeader = /^\s*client\b/i.test(text.slice(start, end));
  const indent = isHeader ? '  ' : indentAt(text, under.span.end);
  const newText = `${lineBreakOf(text)}${indent}${line}`;
  return { ok: true, text: line, edits: [{ file: under.file, span: { start: end, end }, newText }] };
}

/**
 * The next cell of the row states the load that is offered. Tried on a copy: nothing of anybody else changes, nor of
 * any session before it.
 */
export function cellEdit(session: EngineSession, plan: ClientPlan, offer: Offer): OfferEdits | null {
  const { next } = offer;
  if (!next) return null;
  const { cell, loadKg } = next;
  const { file } = cell.row.place;
  const text = session.text(file);
  const group = cell.groups[0];
  if (text === undefined || !group) return null;
  if (!isOwnBlock(cell))
    return refuse(say('The row is written in another block, which this one is like. Change it there.'));
  const start = cell.row.node.span.start;
  const tree = session.tree(file)?.value;
  const row = tree && rowAt(tree, start);
  const [item] = loadItems({ ...group, loadKg }, plan.client.units);
  if (!row || item === undefined) return null;
  const weeks = weeksOfCells(row);
  const last = weeks[weeks.length - 1] ?? 0;
  const at = weeks.indexOf(cell.week);
  if (at < 0 && last > cell.week)
    return refuse(
      say`Week ${cell.week} has no cell of its own in this row. Write \`${item}\` where it begins.`,
    );
  const index = at < 0 ? row.cells.length - 1 + cell.week - last : at;
  if (cell.groups.length > 1)
    return refuse(say`The row has several set groups. Write \`${item}\` in the one that is meant.`);
  const changed = replaceLoad(text, start, index, item);
  if (changed === null) return null;
  const edits = [{ file, ...smallest(text, changed) }];
  const result = tried(
    session,
    { edits, newFiles: [] },
    { intended: ({ before }) => before.key.client === plan.client.key && before.cell.date >= cell.date },
  );
  if (!result.ok) return refuse(result.because);
  return { ok: true, text: say`${cell.row.movementName.text}, week ${cell.week}: ${item}`, edits };
}

function refuse(because: string): OfferEdits {
  return { ok: false, because };
}

/** What can be written for an offer on a day. */
export function offerEdits(session: EngineSession, plan: ClientPlan, offer: Offer): OfferEdits {
  return (
    lineEdit(session, offer) ??
    cellEdit(session, plan, offer) ??
    refuse(say('It is advice: no line of the files says it.'))
  );
}
