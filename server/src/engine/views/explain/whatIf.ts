import type { Client, Finding, IsoDate, ResolvedCell, ResolvedGroup, World } from '../../model.js';
import type { EngineSession } from '../../session.js';
import type { FileEdit } from '../navigation.js';
import { sameWork, type Work, worksOf } from '../refactor/trial.js';
import { doseText, loadText, reserveText } from '../words.js';
import { type SourceLine, sourceLine } from './sourceLine.js';
import { type Changes, overlayOf } from './whatIfFields.js';

/** So many others at a changed kit, the first by name, have their plans compared too. */
const MOST_OTHERS = 30;

/** How a cell moves: heavier, lighter, other work, or the same work that leaves more or less. */
export type Move = 'up' | 'down' | 'other' | 'effort' | 'new' | 'gone';

export interface ComparedCell {
  readonly date: IsoDate;
  /** `45 kg`, or with sets and reps where those differ; null where there is no such cell. */
  readonly before: string | null;
  readonly after: string | null;
  /** `2.6`: predicted reserve, of the first group. */
  readonly leftBefore: string;
  readonly leftAfter: string;
  readonly move: Move | null;
}

export interface ComparedRow {
  readonly day: string;
  /** The row's movement, with its label. */
  readonly name: string;
  readonly line: SourceLine;
  /** By week from 1; a day may come several times in a week. */
  readonly weeks: readonly (readonly ComparedCell[])[];
}

/** A block in which something moves; rows in which nothing does are left out. */
export interface ComparedBlock {
  readonly program: string;
  readonly block: string;
  readonly deloadWeeks: ReadonlySet<number>;
  readonly rows: readonly ComparedRow[];
}

export interface ComparedFinding {
  readonly severity: Finding['severity'];
  readonly code: string;
  readonly message: string;
  /** In the files as they are. */
  readonly line: SourceLine;
}

/** A finding that stays on its line and says something else. */
export interface ChangedFinding {
  readonly before: ComparedFinding;
  readonly after: ComparedFinding;
}

/** What would be if something else were written, beside what is. */
export interface WhatIf {
  readonly client: Client;
  /** Whether anything is written differently. */
  readonly changed: boolean;
  /** What was compared. */
  readonly sessions: number;
  readonly cells: number;
  readonly from: IsoDate | null;
  readonly until: IsoDate | null;
  readonly files: readonly string[];
  readonly counts: Readonly<Record<Move, number>>;
  readonly blocks: readonly ComparedBlock[];
  readonly come: readonly ComparedFinding[];
  readonly go: readonly ComparedFinding[];
  readonly change: readonly ChangedFinding[];
  /** Others who train at a kit that was changed, with how many of their cells move. */
  readonly others: readonly { readonly name: string; readonly moved: number }[];
  /** Others whose plans were not compared, because there are too many. */
  readonly othersLeft: number;
  /** Changes that could not be read and were left out, by the field's id. */
  readonly problems: ReadonlyMap<string, string>;
}

/** Compares a client's plan as it is with what it would be. Nothing is written anywhere. */
export function whatIf(session: EngineSession, client: Client, changes: Changes): WhatIf {
  const { session: after, edits, problems } = overlayOf(session, client, changes);
  const now = worksOf(session, [client.key]);
  const then = worksOf(after, [client.key]);
  const dates = [...now.values(), ...then.values()].map(({ cell }) => cell.date).sort();
  const counts: Record<Move, number> = { up: 0, down: 0, other: 0, effort: 0, new: 0, gone: 0 };
  const pairs = [...new Set([...now.keys(), ...then.keys()])].map((key) => {
    const pair = comparedCell(now.get(key), then.get(key));
    if (pair.compared.move) counts[pair.compared.move] += 1;
    return pair;
  });
  const files = filesOf(session, client, edits);
  const found = findingsApart(session, after, files, edits);
  const others = othersAt(session.world(), client, edits);
  const shared = others.slice(0, MOST_OTHERS);
  return {
    client,
    changed: edits.length > 0,
    sessions: session.plan(client.key)?.sessions.length ?? 0,
    cells: now.size,
    from: dates[0] ?? null,
    until: dates[dates.length - 1] ?? null,
    files,
    counts,
    blocks: edits.length === 0 ? [] : blocksOf(session, pairs),
    ...found,
    others: shared.map(({ key, name }) => ({ name, moved: movedOf(session, after, key) })),
    othersLeft: others.length - shared.length,
    problems,
  };
}

interface Pair {
  readonly cell: ResolvedCell;
  readonly compared: ComparedCell;
}

function comparedCell(before: Work | undefined, after: Work | undefined): Pair {
  const cell = (before ?? after)?.cell as ResolvedCell;
  const a = before?.cell.groups ?? [];
  const b = after?.cell.groups ?? [];
  // Where sets and reps are the same, the load alone is said.
  const same =
    before && after && doses(a) === doses(b) && before.cell.movement?.key === after.cell.movement?.key;
  return {
    cell,
    compared: {
      date: cell.date,
      before: before ? wordsOf(before.cell, !same) : null,
      after: after ? wordsOf(after.cell, !same) : null,
      leftBefore: a[0] ? reserveText(a[0]) : '',
      leftAfter: b[0] ? reserveText(b[0]) : '',
      move: moveOf(before, after),
    },
  };
}

function moveOf(before: Work | undefined, after: Work | undefined): Move | null {
  if (!before) return 'new';
  if (!after) return 'gone';
  if (sameWork(before.cell, after.cell)) {
    const left = ({ groups }: ResolvedCell) => groups.map(reserveText).join();
    return left(before.cell) === left(after.cell) ? null : 'effort';
  }
  const [from, to] = [before.loadKg, after.loadKg];
  if (from === null || to === null || Math.abs(to - from) < 1e-9) return 'other';
  return to > from ? 'up' : 'down';
}

const doses = (groups: readonly ResolvedGroup[]): string => groups.map(doseText).join(' ; ');

/** `45 kg`; with sets and reps, and with the movement after a swap. */
function wordsOf(cell: ResolvedCell, whole: boolean): string {
  const { units } = cell.client;
  const groups = cell.groups.map((group) => {
    const load = loadText(group, units);
    if (!whole) return load === '' ? '–' : load;
    return [doseText(group), load].filter((part) => part !== '').join(' · ');
  });
  const swapped = whole && cell.swap ? `${cell.movement?.name ?? ''}: ` : '';
  return swapped + groups.join(' ; ');
}

// ---------------------------------------------------------------- by block, row and week

function blocksOf(session: EngineSession, pairs: readonly Pair[]): ComparedBlock[] {
  const blocks = new Map<string, Map<string, Pair[]>>();
  for (const pair of pairs) {
    const { program, block, day, row } = pair.cell;
    const key = `${program.key}\n${block.key}`;
    const rows = blocks.get(key) ?? new Map<string, Pair[]>();
    blocks.set(key, rows);
    const rowKey = `${day.key}\n${row.key}`;
    rows.set(rowKey, [...(rows.get(rowKey) ?? []), pair]);
  }
  return [...blocks.values()].flatMap((rows): ComparedBlock[] => {
    const moving = [...rows.values()].filter((own) => own.some(({ compared }) => compared.move));
    const { program, block } = moving[0]?.[0]?.cell ?? {};
    if (!program || !block) return [];
    return [
      {
        program: program.name,
        block: block.name,
        deloadWeeks: block.deloadWeeks,
        rows: moving.map((own) => rowOf(session, own, block.weeks)),
      },
    ];
  });
}

function rowOf(session: EngineSession, pairs: readonly Pair[], weeks: number): ComparedRow {
  const { cell } = pairs[0] as Pair;
  const { row, day } = cell;
  const last = Math.max(weeks, ...pairs.map((pair) => pair.cell.week));
  return {
    day: day.name,
    name: row.label === null ? row.movementName.text : `${row.movementName.text} (${row.label})`,
    line: sourceLine(session, row.place),
    weeks: Array.from({ length: last }, (_, index) =>
      pairs.filter((pair) => pair.cell.week === index + 1).map(({ compared }) => compared),
    ),
  };
}

// ---------------------------------------------------------------- findings

/** Every file in which a line of hers stands, or that was changed. */
function filesOf(session: EngineSession, client: Client, edits: readonly FileEdit[]): string[] {
  const { programs, logsByClient } = session.world();
  const files = new Set<string>([...client.nodes.map(({ file }) => file), ...edits.map(({ file }) => file)]);
  for (const { program, place } of client.follows) {
    files.add(place.file);
    const found = programs.get(program);
    if (!found) continue;
    files.add(found.place.file);
    for (const { days } of found.blocks)
      for (const { rows } of days) for (const row of rows) files.add(row.place.file);
  }
  for (const file of logsByClient.get(client.key)?.files ?? []) files.add(file);
  return [...files].sort();
}

function findingsApart(
  session: EngineSession,
  after: EngineSession,
  files: readonly string[],
  edits: readonly FileEdit[],
): Pick<WhatIf, 'come' | 'go' | 'change'> {
  if (edits.length === 0) return { come: [], go: [], change: [] };
  const now = files.flatMap((file) => session.findings(file));
  const then = files.flatMap((file) => after.findings(file));
  const line = ({ place }: Finding, moved: boolean): SourceLine => {
    const own = edits.filter(({ file }) => file === place.file);
    const start = moved ? offsetBefore(own, place.span.start) : place.span.start;
    return sourceLine(session, { file: place.file, span: { start, end: start } });
  };
  const told = (finding: Finding, moved: boolean): ComparedFinding => ({
    severity: finding.severity,
    code: finding.code,
    message: finding.message,
    line: line(finding, moved),
  });
  return apart(
    without(then, now).map((finding) => told(finding, true)),
    without(now, then).map((finding) => told(finding, false)),
  );
}

/** Of findings that come and go, those of the same rule on the same line are one that says something else. */
function apart(
  come: readonly ComparedFinding[],
  go: readonly ComparedFinding[],
): Pick<WhatIf, 'come' | 'go' | 'change'> {
  const key = ({ code, line }: ComparedFinding): string => `${code}\n${line.place.file}\n${line.line}`;
  const left = [...go];
  const change: ChangedFinding[] = [];
  const fresh = come.filter((after) => {
    const at = left.findIndex((before) => key(before) === key(after));
    if (at < 0) return true;
    change.push(...left.splice(at, 1).map((before) => ({ before, after })));
    return false;
  });
  return { come: fresh, go: left, change };
}

/** Findings that are in the first list more often than in the second, by what they say. */
function without(findings: readonly Finding[], others: readonly Finding[]): Finding[] {
  const key = ({ code, message, place }: Finding): string => `${code}\n${place.file}\n${message}`;
  const left = new Map<string, number>();
  for (const other of others) left.set(key(other), (left.get(key(other)) ?? 0) + 1);
  return findings.filter((finding) => {
    const count = left.get(key(finding)) ?? 0;
    left.set(key(finding), count - 1);
    return count <= 0;
  });
}

/** Where an offset of a changed text lies in the text as it is; inside a change, where that begins. */
function offsetBefore(edits: readonly FileEdit[], offset: number): number {
  let shift = 0;
  for (const { span, newText } of [...edits].sort((a, b) => a.span.start - b.span.start)) {
    const start = span.start + shift;
    if (offset < start) break;
    if (offset <= start + newText.length) return span.start;
    shift += newText.length - (span.end - span.start);
  }
  return offset - shift;
}

// ---------------------------------------------------------------- others

/** Others who train at a kit that was changed, by name. */
function othersAt({ clients, kits }: World, client: Client, edits: readonly FileEdit[]): Client[] {
  const changed = new Set(
    [...kits.values()]
      .filter(({ place, node }) =>
        edits.some(
          ({ file, span }) =>
            file === place.file && node.span.start <= span.start && span.end <= node.span.end,
        ),
      )
      .map(({ key }) => key),
  );
  return [...clients.values()]
    .filter((other) => other.key !== client.key && other.trainsAt.some(({ kit }) => changed.has(kit)))
    .sort((a, b) => (a.name < b.name ? -1 : 1));
}

function movedOf(session: EngineSession, after: EngineSession, key: string): number {
  const then = worksOf(after, [key]);
  return [...worksOf(session, [key])].filter(([text, work]) => {
    const other = then.get(text);
    return !other || !sameWork(work.cell, other.cell);
  }).length;
}
