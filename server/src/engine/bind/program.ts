import type {
  AllowNode,
  BlockNode,
  CircuitNode,
  DayNode,
  ProgramNode,
  RowNode,
  Span,
} from '../../../../grammar/index.js';
import { say } from '../../../../grammar/say.js';
import type {
  Block,
  Circuit,
  Day,
  DayEntry,
  FindingFix,
  Place,
  PlacedAllow,
  Program,
  Row,
  StructureProblem,
} from '../model.js';
import { type LikeStep, likeCircle } from './circles.js';
import { effortByWeek, roundsByWeek, rowWeeks } from './weeks.js';

interface Source {
  readonly file: string;
  readonly text: string;
}

/** One `program` section and the file it stands in. */
export interface ProgramPart extends Source {
  readonly node: ProgramNode;
}

export type ProgramLookup = (key: string) => ProgramPart | undefined;

type CircuitEntry = Extract<DayEntry, { kind: 'circuit' }>['entries'][number];

/** A row with the file it was written in, before weeks are known. */
interface LooseRow {
  readonly file: string;
  readonly text: string;
  readonly node: RowNode;
  readonly key: string;
}

type LooseEntry =
  | { readonly kind: 'row'; readonly row: LooseRow }
  | { readonly kind: 'text'; readonly text: string }
  | { readonly kind: 'circuit'; readonly node: CircuitNode; readonly entries: readonly LooseEntry[] };

interface LooseDay {
  readonly file: string;
  readonly node: DayNode;
  readonly effort: DayNode['effort'];
  readonly entries: readonly LooseEntry[];
  readonly allows: readonly PlacedAllow[];
}

interface LooseBlock {
  readonly weeks: number;
  readonly stage: Block['stage'];
  readonly deloadWeeks: ReadonlySet<number>;
  readonly factor: number;
  readonly effort: BlockNode['effort'];
  readonly days: readonly LooseDay[];
  readonly sources: Block['sources'];
}

export function placedAllows(allows: readonly AllowNode[], file: string): PlacedAllow[] {
  return allows.map((node) => ({
    code: node.code.value,
    reason: node.reason.text,
    place: { file, span: node.span },
    node,
  }));
}

/** `movement` or `movement (label)`: what a row is known by in its day. */
export function rowKey(node: RowNode): string {
  return node.label ? `${node.movement.key} (${node.label.key})` : node.movement.key;
}

/** A row that is only `-`: in a `like` block it takes the row of that name away. */
function isRemoval(node: RowNode): boolean {
  const cell = node.cells[0];
  const items = cell?.groups.flatMap((group) => group.items) ?? [];
  return node.cells.length === 1 && !cell?.broken && items.length === 1 && items[0]?.kind === 'left-out';
}

function looseEntries(
  entries: DayNode['entries'] | CircuitNode['entries'],
  { file, text }: Source,
): LooseEntry[] {
  return entries.map((entry): LooseEntry => {
    if (entry.kind === 'row') {
      const written = text.slice(entry.span.start, entry.span.end);
      return { kind: 'row', row: { file, text: written, node: entry, key: rowKey(entry) } };
    }
    if (entry.kind === 'printed-text') return { kind: 'text', text: entry.text.text };
    return { kind: 'circuit', node: entry, entries: looseEntries(entry.entries, { file, text }) };
  });
}

function looseDay(node: DayNode, source: Source): LooseDay {
  const { file } = source;
  return {
    file,
    node,
    effort: node.effort,
    entries: looseEntries(node.entries, source),
    allows: placedAllows(node.allows, file),
  };
}

/** Replaces or removes the rows that are written again; returns the rows that found no older one. */
function override(
  entries: readonly LooseEntry[],
  written: Map<string, LooseEntry & { kind: 'row' }>,
): LooseEntry[] {
  return entries.flatMap((entry): LooseEntry[] => {
    if (entry.kind === 'text') return [entry];
    if (entry.kind === 'circuit') return [{ ...entry, entries: override(entry.entries, written) }];
    const again = written.get(entry.row.key);
    if (!again) return [entry];
    written.delete(entry.row.key);
    return isRemoval(again.row.node) ? [] : [again];
  });
}

function mergeDay(older: LooseDay, node: DayNode, source: Source): LooseDay {
  const { file } = source;
  const own = looseDay(node, source);
  const written = new Map<string, LooseEntry & { kind: 'row' }>();
  for (const entry of own.entries) if (entry.kind === 'row') written.set(entry.row.key, entry);
  const kept = override(older.entries, written);
  const added = own.entries.filter((entry) => entry.kind !== 'row' || written.get(entry.row.key) === entry);
  return {
    file,
    node,
    effort: node.effort ?? older.effort,
    entries: [...kept, ...added.filter((entry) => entry.kind !== 'row' || !isRemoval(entry.row.node))],
    allows: [...older.allows, ...own.allows],
  };
}

function mergeDays(older: readonly LooseDay[], nodes: readonly DayNode[], source: Source): LooseDay[] {
  const own = new Map(nodes.map((node) => [node.name.key, node]));
  const merged = older.map((day) => {
    const again = own.get(day.node.name.key);
    own.delete(day.node.name.key);
    return again ? mergeDay(day, again, source) : day;
  });
  return [...merged, ...[...own.values()].map((node) => looseDay(node, source))];
}

/** Number of the last week that a row or the deload list of an older block writes something for. */
function lastWrittenWeek(days: readonly LooseDay[], deloadWeeks: ReadonlySet<number>): number {
  const ofEntries = (entries: readonly LooseEntry[]): number[] =>
    entries.flatMap((entry) => {
      if (entry.kind === 'text') return [];
      if (entry.kind === 'circuit') return ofEntries(entry.entries);
      const { cells } = rowWeeks(entry.row.node, 200);
      return [cells.findLastIndex((cell) => cell !== null && cell.groups.length > 0) + 1];
    });
  return Math.max(0, ...deloadWeeks, ...days.flatMap((day) => ofEntries(day.entries)));
}

/**
 * Works out the blocks of a program, following `like`. A block whose `like` goes in a circle, names nothing known or
 * drops written weeks is left out and becomes a problem, so that no client trains by half a block.
 */
export function bindProgram(
  part: ProgramPart,
  lookup: ProgramLookup,
): { program: Program; problems: readonly StructureProblem[] } {
  const problems: StructureProblem[] = [];
  const loosen = (node: BlockNode, owner: ProgramPart, path: readonly LikeStep[]): LooseBlock | null => {
    const place: Place = { file: owner.file, span: node.name.span };
    const report = (problem: Pick<StructureProblem, 'kind' | 'message'> & Partial<StructureProblem>) => {
      if (path.length === 0) problems.push({ place, related: [], fixes: [], ...problem });
      return null;
    };
    const deloads = new Set(node.deloadWeeks.map((week) => week.value));
    if (!node.like) {
      if (!node.weeks) {
        return report({
          kind: 'no-weeks',
          message: say`The block "${node.name.text}" does not say how many weeks it has. Write, for example, "block ${node.name.text}, 4 weeks".`,
        });
      }
      return {
        weeks: node.weeks.value,
        stage: node.stage?.value ?? null,
        deloadWeeks: deloads,
        factor: 1,
        effort: node.effort,
        days: node.days.map((day) => looseDay(day, owner)),
        sources: [{ file: owner.file, text: owner.text, node }],
      };
    }
    const likePlace: Place = { file: owner.file, span: node.like.span };
    const source = node.like.program ? lookup(node.like.program.key) : owner;
    const block = source?.node.blocks.find((candidate) => candidate.name.key === node.like?.block.key);
    if (!source || !block) return null; // an unknown name, found as such
    const steps = [...path, { file: owner.file, node }];
    if (steps.some((step) => step.node === block)) {
      problems.push(likeCircle(steps, block));
      return null;
    }
    const older = loosen(block, source, steps);
    if (!older) return null;
    const weeks = node.weeks?.value ?? older.weeks;
    const deloadWeeks = node.deloadWeeks.length > 0 ? deloads : older.deloadWeeks;
    const needed = lastWrittenWeek(older.days, node.deloadWeeks.length > 0 ? new Set() : older.deloadWeeks);
    if (weeks < needed) {
      return report({
        kind: 'like-drops-weeks',
        message: say`The block "${node.name.text}" has ${weeks} weeks, but "${block.name.text}", which it is like, writes something for week ${needed}. Give it ${needed} weeks or more, or write its rows out.`,
        place: likePlace,
        fixes: node.weeks ? [moreWeeks(node.weeks.span, owner.file, needed)] : [],
      });
    }
    return {
      weeks,
      stage: node.stage?.value ?? older.stage,
      deloadWeeks,
      factor: older.factor * (1 + (node.likeChangePercent?.value ?? 0) / 100),
      effort: node.effort ?? older.effort,
      days: mergeDays(older.days, node.days, owner),
      sources: [{ file: owner.file, text: owner.text, node }, ...older.sources],
    };
  };
  const blocks = part.node.blocks.flatMap((node, index): Block[] => {
    const loose = loosen(node, part, []);
    return loose ? [bindBlock(node, index, loose, part.file)] : [];
  });
  const program: Program = {
    key: part.node.name.key,
    name: part.node.name.text,
    aim: part.node.aim?.value ?? null,
    node: part.node,
    place: { file: part.file, span: part.node.name.span },
    blocks,
  };
  return { program, problems };
}

function moreWeeks(span: Span, file: string, weeks: number): FindingFix {
  return { title: say`Give it ${weeks} weeks`, safe: false, edits: [{ file, span, newText: String(weeks) }] };
}

function bindBlock(node: BlockNode, index: number, loose: LooseBlock, file: string): Block {
  const { weeks, deloadWeeks } = loose;
  const blockEffort = effortByWeek(loose.effort, weeks, deloadWeeks);
  const days = loose.days.map((day, dayIndex): Day => {
    const effort = day.effort ? effortByWeek(day.effort, weeks, deloadWeeks) : blockEffort;
    const rows: Row[] = [];
    const bindRow = (row: LooseRow, circuit: Circuit | null, circuitAllows: readonly PlacedAllow[]) => {
      const bound: Row = {
        key: row.key,
        movement: row.node.movement.key,
        movementName: row.node.movement,
        label: row.node.label?.text ?? null,
        circuit,
        effortByWeek: effort,
        node: row.node,
        text: row.text,
        place: { file: row.file, span: row.node.span },
        allows: [...placedAllows(row.node.allows, row.file), ...circuitAllows],
      };
      rows.push(bound);
      return bound;
    };
    const entries = day.entries.map((entry): DayEntry => {
      if (entry.kind === 'text') return entry;
      if (entry.kind === 'row') return { kind: 'row', row: bindRow(entry.row, null, []) };
      const circuit: Circuit = {
        name: entry.node.name.text,
        roundsByWeek: roundsByWeek(
          entry.node.rounds?.value ?? null,
          entry.node.roundsByWeek,
          weeks,
          deloadWeeks,
        ),
        seconds: entry.node.seconds?.value ?? null,
        everySeconds: entry.node.everySeconds?.value ?? null,
        restSeconds: entry.node.restSeconds?.value ?? null,
      };
      const allows = placedAllows(entry.node.allows, day.file);
      const inner = entry.entries.flatMap((item): CircuitEntry[] => {
        if (item.kind === 'row') return [{ kind: 'row', row: bindRow(item.row, circuit, allows) }];
        return item.kind === 'text' ? [item] : [];
      });
      return { kind: 'circuit', circuit, entries: inner };
    });
    return {
      key: day.node.name.key,
      name: day.node.name.text,
      index: dayIndex,
      entries,
      rows,
      allows: day.allows,
      node: day.node,
      place: { file: day.file, span: day.node.name.span },
    };
  });
  return {
    key: node.name.key,
    name: node.name.text,
    index,
    weeks,
    stage: loose.stage,
    deloadWeeks,
    likeFactor: loose.factor,
    days,
    allows: placedAllows(node.allows, file),
    texts: node.texts.map((text) => text.text.text),
    sources: loose.sources,
    node,
    place: { file, span: node.name.span },
  };
}
