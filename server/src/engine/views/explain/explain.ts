import { later, said, say } from '../../../../../grammar/say.js';
import type { IsoDate, Place, ReasonKind, ReasonStep, ResolvedCell } from '../../model.js';
import type { EngineSession } from '../../session.js';
import { byClientName, isOwnBlock, type PlacedRow, rowsOf } from '../rows.js';
import { touches } from '../text.js';
import { doseText, issueText, loadText, platesText, reserveText, shareText } from '../words.js';
import { type SourceLine, sourceLine } from './sourceLine.js';

/** One step of the reasons, as a page shows it. */
export interface ExplainedStep {
  readonly kind: ReasonKind;
  /** `Max`, `Formula`, `Kit and load`. */
  readonly heading: string;
  /** Empty where heading and value say it all. */
  readonly text: string;
  /** The number that comes out of it; null where none does. */
  readonly value: string | null;
  readonly lines: readonly SourceLine[];
  /** Where its formula was published, or that it was not; null where it uses none. */
  readonly source: string | null;
}

export interface ExplainedGroup {
  /** `4 × 5 at 47.5 kg`. */
  readonly heading: string;
  /** Plates, reserve and share, each in a few words. */
  readonly facts: readonly string[];
  readonly steps: readonly ExplainedStep[];
}

/** Why one client comes to the load of one cell on one day. */
export interface Explanation {
  readonly client: { readonly key: string; readonly name: string };
  readonly movement: string;
  readonly program: string;
  readonly block: string;
  readonly day: string;
  /** Inside the block, from 1. */
  readonly week: number;
  readonly deload: boolean;
  readonly date: IsoDate;
  /** The row as it is written. */
  readonly row: SourceLine;
  readonly groups: readonly ExplainedGroup[];
  /** Everybody who does this row, by name. */
  readonly clients: readonly { readonly key: string; readonly name: string }[];
  /** Every day on which she does it, in order. */
  readonly days: readonly { readonly date: IsoDate; readonly block: string; readonly week: number }[];
}

/** What there is to explain at a place, or why there is nothing and what to try. */
export type Explained =
  | { readonly ok: true; readonly explanation: Explanation }
  | { readonly ok: false; readonly heading: string; readonly text: string };

export interface ExplainWish {
  /** Key of the client; null or somebody who does not do the row: the first by name. */
  readonly client: string | null;
  /** A day on which she does it; null or another day: the next one for which the cell at the offset stands. */
  readonly date: IsoDate | null;
}

const HEADINGS: Readonly<Record<ReasonKind, string>> = {
  swap: later('Movement'),
  max: later('Max'),
  formula: later('Formula'),
  error: later('How sure'),
  estimate: later('Estimate'),
  missing: later('What is missing'),
  deload: later('Deload'),
  share: later('What is asked'),
  change: later('Change'),
  note: later('Note'),
  target: later('Target'),
  load: later('Kit and load'),
  left: later('What it leaves'),
  provisional: later('Provisional'),
};

/** The reasons of the cell at an offset. On the name of a row: those of its first week. */
export function explainAt(
  session: EngineSession,
  file: string,
  offset: number,
  { client, date }: ExplainWish,
): Explained {
  const tree = session.tree(file)?.value;
  const placed = tree && rowsOf(tree).find(({ row }) => touches(row.span, offset));
  if (!placed)
    return nothing(
      say('No cell here'),
      say('Put the cursor into a cell of a program: what stands between two | of a row.'),
    );
  const { row } = placed;
  const node = row.cells.find(({ span }) => touches(span, offset)) ?? row.cells[0];
  if (!node || node.broken)
    return nothing(
      say('This cell cannot be read'),
      say('There is a mistake in it, so nothing is worked out from it. Mend what is underlined first.'),
    );
  const all = session
    .cellsIn(file)
    .filter((cell) => cell.row.node.span.start === row.span.start)
    .sort(ownFirst);
  if (all.length === 0) return nothing(say('No load to explain'), emptyText(session, placed));
  const clients = [...new Map(all.map((cell) => [cell.client.key, cell.client])).values()];
  const chosen = clients.find(({ key }) => key === client) ?? clients[0];
  const own = all.filter((cell) => cell.client === chosen);
  const isLast = row.cells[row.cells.length - 1] === node;
  const here = own.filter(({ cellIndex }) => cellIndex === node.index || (isLast && cellIndex === null));
  const today = session.today() ?? '';
  const cell =
    own.find((each) => each.date === date) ??
    here.find((each) => isOwnBlock(each) && each.date >= today) ??
    here[0];
  if (!cell)
    return nothing(
      say('Left out this week'),
      say`${chosen?.name ?? ''} does not do ${row.movement.text} in this week. The cells beside it have loads.`,
    );
  return { ok: true, explanation: explanationOf(session, cell, clients, own) };
}

function explanationOf(
  session: EngineSession,
  cell: ResolvedCell,
  clients: readonly { readonly key: string; readonly name: string }[],
  own: readonly ResolvedCell[],
): Explanation {
  return {
    client: { key: cell.client.key, name: cell.client.name },
    movement: cell.movement?.name ?? cell.row.movementName.text,
    program: cell.program.name,
    block: cell.block.name,
    day: cell.day.name,
    week: cell.week,
    deload: cell.deload,
    date: cell.date,
    row: sourceLine(session, { file: cell.row.place.file, span: cell.place.span }),
    groups: cell.groups.map((_, index) => groupOf(session, cell, index)),
    clients: clients.map(({ key, name }) => ({ key, name })),
    days: own
      .map(({ date, block, week }) => ({ date, block: block.name, week }))
      .sort((a, b) => (a.date < b.date ? -1 : 1)),
  };
}

function groupOf(session: EngineSession, cell: ResolvedCell, index: number): ExplainedGroup {
  const group = cell.groups[index] as ResolvedCell['groups'][number];
  const { units } = cell.client;
  const dose = doseText(group) + (cell.perSide ? ` ${say('each side')}` : '');
  const load = loadText(group, units);
  const plates = platesText(group, units);
  const reserve = reserveText(group);
  const share = shareText(group);
  const bar = group.bar === null ? '' : say` (${group.bar} bar)`;
  const facts = [
    plates === ''
      ? ''
      : group.eachSideKg?.length === 0
        ? say`bare bar${bar}`
        : say`${plates} each side${bar}`,
    reserve === '' ? '' : say`${reserve} in reserve`,
    share === '' ? '' : say`${share} of the max`,
    group.provisional ? say('provisional') : '',
    group.issue === null ? '' : issueText(group.issue),
  ];
  return {
    heading: load === '' ? say`${dose}, no load` : say`${dose} at ${load}`,
    facts: facts.filter((fact) => fact !== ''),
    steps: session.reasons(cell, index).map((step) => stepOf(session, step)),
  };
}

function stepOf(
  session: EngineSession,
  { kind, text, value, place, more, source }: ReasonStep,
): ExplainedStep {
  const places: readonly Place[] = place === null ? [] : [place, ...more];
  const heading = said(HEADINGS[kind]);
  return {
    kind,
    heading,
    text: text === `${heading}: ${value}.` ? '' : text,
    value,
    lines: places.map((each) => sourceLine(session, each)),
    source,
  };
}

function ownFirst(a: ResolvedCell, b: ResolvedCell): number {
  const owned = Number(isOwnBlock(b)) - Number(isOwnBlock(a));
  return owned !== 0 ? owned : byClientName(a, b);
}

function emptyText(session: EngineSession, { program }: PlacedRow): string {
  return session.followers(program.name.key).length === 0
    ? say`Nobody follows ${program.name.text} yet. A line such as "follows: ${program.name.text}, from 2026-12-07, on mon thu" under a client changes that.`
    : say('Nobody comes to this row: it is left out, or lies beyond the weeks of its block.');
}

function nothing(heading: string, text: string): Explained {
  return { ok: false, heading, text };
}
