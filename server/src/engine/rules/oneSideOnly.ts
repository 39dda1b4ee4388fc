import { say } from '../../../../grammar/say.js';
import type { ClientPlan, Day, FindingFix, LogEntry, ResolvedCell, Row } from '../model.js';
import type { RawFinding, Rule } from '../ruleForm.js';
import { cellsWhere, rowRuns } from './shared/cells.js';
import { fixesOf } from './shared/fixes.js';
import { onCell } from './shared/found.js';
import { BOATHOUSE, clientLines, winter, workspace } from './shared/sample.js';
import { countOf, spanText } from './shared/words.js';

const CODE = 'one-side-only';

type Side = 'left' | 'right';
const OTHER: Readonly<Record<Side, Side>> = { left: 'right', right: 'left' };

/** Whole sentences for each side, for languages that bend the word. */
const WORDS = {
  left: {
    done: (name: string) => say`Only the left side of ${name} was done.`,
    counts: (client: string, date: string, reps: string) =>
      say`${client}, ${date}: ${reps} on the left, none on the right.`,
    planned: (name: string) => say`Only the left side of ${name} is planned.`,
    missing: (client: string, when: string) =>
      say`${client}: ${when}, and no row for the left side that day.`,
    add: () => say('Add the row for the left side, or write "/side" in one row for both.'),
  },
  right: {
    done: (name: string) => say`Only the right side of ${name} was done.`,
    counts: (client: string, date: string, reps: string) =>
      say`${client}, ${date}: ${reps} on the right, none on the left.`,
    planned: (name: string) => say`Only the right side of ${name} is planned.`,
    missing: (client: string, when: string) =>
      say`${client}: ${when}, and no row for the right side that day.`,
    add: () => say('Add the row for the right side, or write "/side" in one row for both.'),
  },
} as const;
const SIDE_WORD = /\b(left|right)\b/gi;

/** Name and label of a row as one text, in small letters. */
function nameOf(row: Row): string {
  return `${row.movementName.text} (${row.label ?? ''})`.toLowerCase();
}

/** The side that a row names; null for none or both. */
function sideOf(row: Row): Side | null {
  const sides = new Set(nameOf(row).match(SIDE_WORD));
  const [side] = sides;
  return sides.size === 1 ? (side as Side) : null;
}

const sidesOfDay = new WeakMap<Day, boolean>();

/** Whether a row of a day names a side. Hardly any does. */
function namesSide(day: Day): boolean {
  let known = sidesOfDay.get(day);
  if (known === undefined) {
    known = day.rows.some((row) => sideOf(row) !== null);
    sidesOfDay.set(day, known);
  }
  return known;
}

/** The name that the row of the other side has. */
function counterpartOf(row: Row): string {
  return nameOf(row).replace(SIDE_WORD, (side) => OTHER[side as Side]);
}

/** Names of the rows that a client does on each date, in whichever program. */
function namesByDate(plan: ClientPlan): ReadonlyMap<string, ReadonlySet<string>> {
  const byDate = new Map<string, Set<string>>();
  for (const { date, cells } of plan.sessions) {
    const names = byDate.get(date) ?? new Set<string>();
    byDate.set(date, names);
    for (const cell of cells) if (cell.groups.length > 0) names.add(nameOf(cell.row));
  }
  return byDate;
}

/** Movements of a log of which one side has no repetition at all, though both were counted. */
function findingsOf(entry: LogEntry): readonly RawFinding[] {
  // A pain or a note tells why, and a pain has rules of its own.
  if (entry.node.lines.some(({ kind }) => kind === 'pain' || kind === 'note')) return [];
  const done = new Map<string, { name: string; left: number; right: number; place: RawFinding['place'] }>();
  for (const line of entry.node.lines) {
    if (line.kind !== 'done') continue;
    const key = line.movement.key;
    const place = { file: entry.place.file, span: line.span };
    const sum = done.get(key) ?? { name: line.movement.text, left: 0, right: 0, place };
    for (const { reps, rightReps } of line.groups.flatMap((group) => group.sets)) {
      sum.left += reps ?? 0;
      sum.right += rightReps ?? reps ?? 0;
    }
    done.set(key, sum);
  }
  return [...done.values()].flatMap(({ name, left, right, place }): RawFinding[] => {
    if ((left === 0) === (right === 0)) return [];
    const side: Side = left === 0 ? 'right' : 'left';
    return [
      {
        place,
        headline: WORDS[side].done(name),
        detail: WORDS[side].counts(entry.clientName.text, entry.date, countOf(left + right, 'rep')),
        advice: say('Ask why, and write it down as a note or as a pain in this log; or correct the numbers.'),
        client: entry.client,
        cell: null,
        log: entry.node,
        related: [],
        fixes: [],
      },
    ];
  });
}

/** `split squat (left): 2x8` becomes `split squat: 2x8 /side`, where no row of the day has that name already. */
function bothSides(cell: ResolvedCell): FindingFix | null {
  const { row, day } = cell;
  const { node } = row;
  const items = node.cells[0]?.groups[0]?.items ?? [];
  const last = items.at(-1);
  if (!last || !node.label || !/^(left|right)$/i.test(node.label.text.trim())) return null;
  if (day.rows.some((other) => other !== row && other.movement === row.movement)) return null;
  const { file } = row.place;
  return {
    title: say('Write one row for both sides, with "/side"'),
    safe: false,
    edits: [
      { file, span: node.nameSpan, newText: node.movement.text },
      { file, span: { start: last.span.end, end: last.span.end }, newText: ' /side' },
    ],
  };
}

function ofRow(cells: readonly ResolvedCell[], side: Side): RawFinding {
  const first = cells[0] as ResolvedCell;
  return onCell(first, {
    headline: WORDS[side].planned(first.row.movementName.text),
    detail: WORDS[OTHER[side]].missing(first.client.name, spanText(cells)),
    advice: WORDS[OTHER[side]].add(),
    fixes: fixesOf(bothSides(first)),
  });
}

const files = (rows: readonly string[]) =>
  workspace(BOATHOUSE, clientLines('Wren', []), winter('Keel, 2 weeks', { Lower: rows }));

export const oneSideOnly: Rule = {
  code: CODE,
  title: 'One side only',
  severity: 'info',
  what: 'A row is named or labelled left or right, and the same day has no such row for the other side; or a log counts repetitions for one side of a movement and none for the other (8/0), without a pain or a note that says why. A side that does fewer is left alone: small differences are usual, and no limit for them is agreed on.',
  why: 'A side that is left out is mostly a forgotten row or a slip in the log. Where it is meant, after an injury, whoever takes over should read why.',
  source: 'Common practice, no source.',
  example: files(['bodyweight squat (left): 2x8', 'front plank: 2x20s']),
  better: files(['bodyweight squat (left): 2x8', 'bodyweight squat (right): 2x8', 'front plank: 2x20s']),
  fix: 'Add the other side, or say why it is left out: an "allow" line for a row, a note in a log. The quick fix makes one row for both sides.',
  inLogs: true,
  checkLogs: (logs, client) => (client ? logs.flatMap(findingsOf) : []),
  checkPlan(plan) {
    const findings: RawFinding[] = [];
    if (!plan.sessions.some(({ day }) => namesSide(day))) return findings;
    let names: ReturnType<typeof namesByDate> | null = null;
    for (const run of rowRuns(plan)) {
      const side = sideOf(run.row);
      if (side === null) continue;
      names ??= namesByDate(plan);
      const other = counterpartOf(run.row);
      const alone = cellsWhere(
        run.cells,
        (_, cell) => !cell.perSide && !names?.get(cell.date)?.has(other),
      ).map(({ cell }) => cell);
      if (alone.length > 0) findings.push(ofRow(alone, side));
    }
    return findings;
  },
};
