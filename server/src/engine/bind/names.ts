import {
  type CellNode,
  type FileTree,
  type Name,
  PATTERN_NAMES,
  type RowNode,
  type SectionNode,
} from '../../../../grammar/index.js';
import type { NameKind } from '../model.js';

/** A name as it stands in one file, before it is known whether anything of that name exists. */
export interface NameUse {
  readonly kind: NameKind;
  readonly name: Name;
  readonly role: 'definition' | 'use';
  /** Blocks and days: the key of the program (and block) they belong to; log days: empty, found by the client. */
  readonly owner: string;
  /** Log days: keys of the clients whose programs may have that day. */
  readonly clients?: readonly string[];
}

/** Every name in a file, in order of place. */
export function namesOf(tree: FileTree): readonly NameUse[] {
  const found: NameUse[] = [];
  for (const section of tree.sections) collect(section, found);
  return found.sort((a, b) => a.name.span.start - b.name.span.start);
}

function collect(section: SectionNode, found: NameUse[]): void {
  const define = (kind: NameKind, name: Name, owner = '') =>
    found.push({ kind, name, role: 'definition', owner });
  const use = (kind: NameKind, name: Name | null | undefined, owner = '') => {
    if (name) found.push({ kind, name, role: 'use', owner });
  };
  switch (section.kind) {
    case 'kit':
      define('kit', section.name);
      for (const line of section.lines) {
        if (line.kind === 'bar' && line.name) define('bar', line.name);
        if (line.kind === 'machine') define('machine', line.name);
        if (line.kind === 'bands') for (const band of line.bands) define('band', band);
      }
      break;
    case 'movement':
      define('movement', section.name);
      for (const line of section.lines) {
        if (line.kind === 'easier' || line.kind === 'harder') use('movement', line.movement);
        if (line.kind === 'estimate') use('movement', line.of);
        if (line.kind === 'with') use('machine', line.machine);
        if (line.kind === 'bar') use('bar', line.bar);
      }
      break;
    case 'client':
      define('client', section.name);
      for (const line of section.lines) {
        if (line.kind === 'trains-at') use('kit', line.kit);
        if (line.kind === 'follows') use('program', line.program);
        if (line.kind === 'max') {
          use('movement', line.movement);
          use('kit', line.at);
        }
        if (line.kind === 'swap') {
          use('movement', line.movement);
          use('movement', line.to);
          for (const item of line.dose?.items ?? []) if (item.kind === 'band') use('band', item.band);
        }
        if (line.kind === 'avoid' && !isPattern(line.what.key)) use('movement', line.what);
      }
      break;
    case 'group':
      define('group', section.name);
      for (const member of section.members) use('client', member);
      for (const follows of section.follows) use('program', follows.program);
      break;
    case 'program':
      define('program', section.name);
      for (const block of section.blocks) {
        define('block', block.name, section.name.key);
        use('program', block.like?.program);
        use('block', block.like?.block, block.like?.program?.key ?? section.name.key);
        for (const day of block.days) {
          define('day', day.name, `${section.name.key} / ${block.name.key}`);
          for (const row of rowsOf(day.entries)) {
            use('movement', row.movement);
            for (const cell of row.cells) bandsOf(cell, use);
          }
        }
      }
      break;
    case 'log':
      for (const client of section.clients) use('client', client);
      if (section.day) {
        const clients = section.clients.map((client) => client.key);
        found.push({ kind: 'day', name: section.day, role: 'use', owner: '', clients });
      }
      for (const line of section.lines) {
        if (line.kind !== 'done') continue;
        use('movement', line.movement);
        use('movement', line.insteadOf?.movement);
      }
      break;
  }
}

export function isPattern(key: string): boolean {
  return (PATTERN_NAMES as readonly string[]).includes(key);
}

function rowsOf(entries: readonly { readonly kind: string }[]): RowNode[] {
  return entries.flatMap((entry) => {
    if (entry.kind === 'row') return [entry as RowNode];
    return entry.kind === 'circuit' ? rowsOf((entry as unknown as { entries: RowNode[] }).entries) : [];
  });
}

function bandsOf(cell: CellNode, use: (kind: NameKind, name: Name) => void): void {
  for (const group of cell.groups) {
    for (const item of group.items) if (item.kind === 'band') use('band', item.band);
  }
}
