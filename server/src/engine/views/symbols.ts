import type {
  BlockNode,
  CircuitNode,
  DayNode,
  FileTree,
  LogNode,
  MovementNode,
  Name,
  RowNode,
  SectionNode,
  Span,
} from '../../../../grammar/index.js';
import { say } from '../../../../grammar/say.js';
import type { NameKind } from '../model.js';
import type { EngineSession } from '../session.js';

export type SymbolKind =
  | 'kit'
  | 'movement'
  | 'client'
  | 'group'
  | 'program'
  | 'block'
  | 'day'
  | 'circuit'
  | 'row'
  | 'log';

export interface DocumentSymbol {
  readonly name: string;
  readonly detail: string;
  readonly kind: SymbolKind;
  readonly span: Span;
  /** What is selected when the symbol is chosen; lies inside `span`. */
  readonly selectionSpan: Span;
  readonly children: readonly DocumentSymbol[];
}

export interface WorkspaceSymbol {
  readonly name: string;
  readonly kind: NameKind;
  /** What it stands in, for example the program of a block. */
  readonly container: string;
  readonly file: string;
  readonly span: Span;
}

/** The outline of a file. */
export function documentSymbols(tree: FileTree): DocumentSymbol[] {
  return tree.sections.map(sectionSymbol);
}

function symbol(
  kind: SymbolKind,
  name: Name,
  span: Span,
  detail = '',
  children: readonly DocumentSymbol[] = [],
): DocumentSymbol {
  return { name: name.text, detail, kind, span, selectionSpan: within(name.span, span), children };
}

function within(inner: Span, outer: Span): Span {
  const start = Math.min(Math.max(inner.start, outer.start), outer.end);
  return { start, end: Math.min(Math.max(inner.end, start), outer.end) };
}

function sectionSymbol(section: SectionNode): DocumentSymbol {
  switch (section.kind) {
    case 'program':
      return symbol(
        'program',
        section.name,
        section.span,
        section.aim?.value ?? '',
        section.blocks.map(blockSymbol),
      );
    case 'log':
      return logSymbol(section);
    case 'movement':
      return symbol('movement', section.name, section.span, movementDetail(section));
    case 'group':
      return symbol(
        'group',
        section.name,
        section.span,
        section.members.map((member) => member.text).join(', '),
      );
    default:
      return symbol(section.kind, section.name, section.span);
  }
}

function movementDetail(section: MovementNode): string {
  const pattern = section.lines.find((line) => line.kind === 'pattern');
  return pattern?.kind === 'pattern' ? pattern.pattern.value : '';
}

function logSymbol(log: LogNode): DocumentSymbol {
  const day = log.day === null ? '' : `, ${log.day.text}`;
  return {
    name: `${log.clients.map((client) => client.text).join(', ')}, ${log.date.iso}${day}`,
    detail: 'log',
    kind: 'log',
    span: log.span,
    selectionSpan: within(log.headerSpan, log.span),
    children: [],
  };
}

function blockSymbol(block: BlockNode): DocumentSymbol {
  const parts = [
    block.weeks === null ? '' : `${block.weeks.value} ${block.weeks.value === 1 ? 'week' : 'weeks'}`,
    block.stage?.value ?? '',
    block.like === null ? '' : `like ${block.like.block.text}`,
  ];
  const detail = parts.filter((part) => part !== '').join(', ');
  return symbol('block', block.name, block.span, detail, block.days.map(daySymbol));
}

function daySymbol(day: DayNode): DocumentSymbol {
  return symbol('day', day.name, day.span, '', day.entries.flatMap(entrySymbols));
}

function entrySymbols(entry: DayNode['entries'][number]): DocumentSymbol[] {
  if (entry.kind === 'row') return [rowSymbol(entry)];
  return entry.kind === 'circuit' ? [circuitSymbol(entry)] : [];
}

function circuitSymbol(circuit: CircuitNode): DocumentSymbol {
  const detail = circuit.rounds === null ? '' : say`${circuit.rounds.value} rounds`;
  const rows = circuit.entries.filter((entry) => entry.kind === 'row');
  return symbol('circuit', circuit.name, circuit.span, detail, rows.map(rowSymbol));
}

function rowSymbol(row: RowNode): DocumentSymbol {
  return {
    name: row.movement.text,
    detail: row.label?.text ?? '',
    kind: 'row',
    span: row.span,
    selectionSpan: within(row.nameSpan, row.span),
    children: [],
  };
}

/** Kits, movements, clients, groups, programs, blocks and days of all files whose name holds every word of the query. */
export function workspaceSymbols(session: EngineSession, query: string): WorkspaceSymbol[] {
  const words = query
    .toLowerCase()
    .split(/\s+/)
    .filter((word) => word !== '');
  const found: WorkspaceSymbol[] = [];
  const world = session.world();
  for (const file of session.files()) {
    if (world.holdsLogsOnly(file)) continue;
    for (const section of session.tree(file)?.value.sections ?? []) collect(section, file, found);
  }
  return found.filter(({ name }) => words.every((word) => name.toLowerCase().includes(word)));
}

function collect(section: SectionNode, file: string, found: WorkspaceSymbol[]): void {
  if (section.kind === 'log') return;
  const { kind, name } = section;
  found.push({ name: name.text, kind, container: '', file, span: name.span });
  if (section.kind !== 'program') return;
  for (const block of section.blocks) {
    found.push({ name: block.name.text, kind: 'block', container: name.text, file, span: block.name.span });
    for (const day of block.days) {
      const container = `${name.text} / ${block.name.text}`;
      found.push({ name: day.name.text, kind: 'day', container, file, span: day.name.span });
    }
  }
}
