// biome-ignore-all lint/suspicious/noTemplateCurlyInString: these are tab stops of snippets.

import { type SectionKind, type Span, VOCABULARY } from '../../../../grammar/index.js';
import { say } from '../../../../grammar/say.js';
import type { EngineSession } from '../session.js';
import { cellCompletions } from './completionCell.js';
import { dayOfDateItems, isDate, loggedDayItems, plannedLineItems } from './completionLog.js';
import { movementItems } from './completionMovements.js';
import { ownSnippet } from './completionOwn.js';
import {
  type CompletionItem,
  type Cursor,
  item,
  nameItems,
  restOfWord,
  statementItems,
} from './completionParts.js';
import { valueCompletions } from './completionValue.js';
import { contextAt, isSilent } from './context.js';
import { lineSpanAt } from './text.js';

export type { CompletionItem } from './completionParts.js';

/**
 * What can be written at an offset. On an empty line: the statements of the section and what may open next; after a
 * label: the names or words that it takes; in a cell: items. Nothing in notes and quoted text, and no numbers or
 * dates are made up: they are places to fill in.
 */
export function completions(session: EngineSession, file: string, offset: number): CompletionItem[] {
  const tree = session.tree(file)?.value;
  const text = session.text(file);
  if (!tree || text === undefined || offset < 0 || offset > text.length) return [];
  const line = lineSpanAt(text, offset);
  const written = text.slice(line.start, line.end);
  const before = written.slice(0, offset - line.start);
  if (isSilent(written, before.length)) return [];
  const cursor: Cursor = {
    session,
    file,
    text,
    offset,
    line,
    before,
    context: contextAt(text, tree, offset),
  };
  if (/^\s*\|/.test(before)) return cellCompletions(cursor, before.slice(before.lastIndexOf('|') + 1), false);
  const colon = before.indexOf(':');
  if (colon >= 0)
    return afterLabel(cursor, before.slice(0, colon).trim().toLowerCase(), before.slice(colon + 1));
  const opener = /^\s*(\S+)\s(.*)$/.exec(before);
  const word = opener?.[1]?.toLowerCase() ?? '';
  if (opener && Object.hasOwn(VOCABULARY.openers, word))
    return afterOpener(cursor, word as SectionKind, opener[2] ?? '');
  return lineStart(cursor);
}

/** Statements behind which something is offered at once. */
const OFFERED_BEHIND: ReadonlySet<string> = new Set(['session', 'pain']);

/** Which openers may follow inside which section. */
const NEXT: Readonly<Record<SectionKind | 'top', readonly SectionKind[]>> = {
  top: ['program', 'client', 'kit', 'movement', 'group', 'log'],
  kit: [],
  movement: [],
  client: [],
  group: [],
  log: [],
  program: ['block'],
  block: ['day', 'block'],
  day: ['circuit', 'day', 'block'],
  circuit: [],
};

const OPENER_SNIPPETS: Readonly<Record<SectionKind, string>> = {
  program:
    'program ${1:name}\n  aim: ${2|strength,power,size,endurance,health,skill|}\n\nblock ${3:name}, ${4:weeks} weeks, ${5|learn,load,heavy|}\nday ${6:name}\n  $0',
  block: 'block ${1:name}, ${2:weeks} weeks, ${3|learn,load,heavy|}\nday ${4:name}\n  $0',
  day: 'day ${1:name}\n  $0',
  circuit: 'circuit ${1:name}, ${2:rounds} rounds\n  $0\nend',
  client: 'client ${1:name}\n  born: ${2:year}\n  trains at: ${3:kit}\n  $0',
  kit: 'kit ${1:name}\n  bar: ${2:mass}kg\n  plates: $0',
  movement:
    'movement ${1:name}\n  pattern: ${2|squat,hinge,lunge,push,press,pull,row,carry,rotate,brace,jump,sprint,other|}\n  with: ${3|barbell,dumbbell,dumbbells,kettlebell,pack,band,bodyweight|}\n  $0',
  group: 'group ${1:name}\n  members: $0',
  log: 'log ${1:client}, ${2:date}, ${3:day}\n  as planned$0',
};

function lineStart(cursor: Cursor): CompletionItem[] {
  const { context } = cursor;
  const typed = cursor.before.trimStart();
  const replace: Span = { start: cursor.offset - typed.length, end: labelEnd(cursor) };
  const items: CompletionItem[] = [];
  if (context.section === 'day' || context.section === 'circuit') {
    items.push(...movementItems(cursor, replace, hasColonAfter(cursor) ? '' : ': '));
    if (context.section === 'circuit')
      items.push(item('end', 'keyword', say('Ends the circuit.'), replace, 'end'));
  }
  if (context.section === 'log') {
    if (!hasColonAfter(cursor)) items.push(...plannedLineItems(cursor, replace));
    items.push(
      item('as planned', 'keyword', say('Everything was done as it was written.'), replace, 'as planned'),
    );
  }
  if (context.section !== null)
    items.push(
      ...statementItems(VOCABULARY.statements[context.section], replace, hasColonAfter(cursor), (word) =>
        ownSnippet(cursor, word),
      ).map((each) =>
        OFFERED_BEHIND.has(each.label) && each.insert.endsWith(': $0') ? { ...each, goesOn: true } : each,
      ),
    );
  // Behind what a log is mostly made of: what was in no plan.
  if (context.section === 'log')
    items.push(...movementItems(cursor, replace, hasColonAfter(cursor) ? '' : ': '));
  const openers = new Set<SectionKind>([
    ...(context.section === null ? [] : NEXT[context.section]),
    ...NEXT.top,
  ]);
  for (const kind of openers) {
    const { help, example } = VOCABULARY.openers[kind];
    items.push({ ...item(kind, 'opener', help, replace, OPENER_SNIPPETS[kind], true), example });
    if (kind === 'log') items.push(...logItems(cursor, typed, replace));
  }
  return items;
}

/** The end of what is being replaced: the label up to its colon, else the rest of the word. */
function labelEnd(cursor: Cursor): number {
  const after = cursor.text.slice(cursor.offset, cursor.line.end);
  const label = /^([^:|,;"]*?)\s*:/.exec(after)?.[1];
  return cursor.offset + (label ?? restOfWord(after)).length;
}

function hasColonAfter(cursor: Cursor): boolean {
  return cursor.text.slice(cursor.offset, cursor.line.end).includes(':');
}

function afterLabel(cursor: Cursor, label: string, typed: string): CompletionItem[] {
  const { section } = cursor.context;
  const inDay = section === 'day' || section === 'circuit' || section === 'block';
  if (inDay && label !== 'effort' && label !== 'rounds' && label !== 'allow') {
    const cells = typed.split('|');
    return cellCompletions(cursor, cells[cells.length - 1] ?? '', cells.length === 1);
  }
  return valueCompletions(cursor, label, typed);
}

function afterOpener(cursor: Cursor, kind: SectionKind, typed: string): CompletionItem[] {
  const parts = typed.split(',');
  const part = (parts[parts.length - 1] ?? '').trimStart();
  const replace: Span = { start: cursor.offset - part.length, end: labelEnd(cursor) };
  const world = cursor.session.world();
  if (kind === 'log') {
    return logHeader(
      cursor,
      parts.map((each) => each.trim()),
      replace,
    );
  }
  if (kind === 'client' && parts.length === 1) {
    return nameItems(
      [...world.clients.values()].map(({ name }) => name),
      'client',
      replace,
    );
  }
  if (kind === 'day') return nameItems(dayNames(cursor), 'day', replace);
  if (kind === 'circuit' && parts.length > 1) {
    return [
      item('rounds', 'keyword', say('How many rounds.'), replace, '${1:3} rounds', true),
      item('rest', 'keyword', say('Rest between rounds.'), replace, 'rest ${1:90}s', true),
      item('minutes', 'keyword', say('As many rounds as fit.'), replace, '${1:12}min', true),
      item('every', 'keyword', say('A round starts this often.'), replace, 'every ${1:2}min', true),
    ];
  }
  return kind === 'block' && parts.length > 1 ? blockWords(cursor, part, replace) : [];
}

/** Clients, then their open days, then the days of a date; a client or a date that stands there is offered no more. */
function logHeader(cursor: Cursor, parts: readonly string[], replace: Span): CompletionItem[] {
  const before = parts.slice(0, -1);
  if (before.some(isDate)) {
    const own = dayOfDateItems(cursor, before, replace);
    const others = nameItems(dayNames(cursor), 'day', replace);
    return [...own, ...others.filter(({ label }) => own.every((each) => each.label !== label))];
  }
  const written = new Set(before.map((part) => part.toLowerCase()));
  const names = [...cursor.session.world().clients.values()]
    .map(({ name }) => name)
    .filter((name) => !written.has(name.toLowerCase()));
  const isEnd = cursor.text.slice(replace.end, cursor.line.end).trim() === '';
  return [
    ...(before.length > 0 ? loggedDayItems(cursor, before, replace) : []),
    ...names.map(
      (name): CompletionItem => ({
        ...item(name, 'client', '', replace, isEnd ? `${name}, ` : name),
        ...(isEnd ? { goesOn: true } : {}),
      }),
    ),
  ];
}

/** `log Heron` for each client, where `log` is being typed: her open days are offered behind it. */
function logItems({ session }: Cursor, typed: string, replace: Span): CompletionItem[] {
  if (typed === '' || !'log'.startsWith(typed.toLowerCase())) return [];
  return [...session.world().clients.values()].map(
    ({ name }): CompletionItem => ({
      ...item(`log ${name}`, 'opener', say('What was done on a date.'), replace, `log ${name}, `),
      goesOn: true,
    }),
  );
}

function blockWords(cursor: Cursor, part: string, replace: Span): CompletionItem[] {
  const blocks = [...cursor.session.world().programs.values()].flatMap((program) =>
    program.blocks.map((block) =>
      program.name.toLowerCase() === cursor.context.names.program?.toLowerCase()
        ? block.name
        : `${program.name} / ${block.name}`,
    ),
  );
  const like = /^like\s+/i.exec(part);
  if (like) return nameItems(blocks, 'block', { start: replace.start + like[0].length, end: replace.end });
  return [
    item('weeks', 'keyword', say('How long the block is.'), replace, '${1:4} weeks', true),
    item('learn', 'keyword', say('Stage: many repetitions, much in reserve.'), replace, 'learn'),
    item('load', 'keyword', say('Stage: between learning and heavy.'), replace, 'load'),
    item(
      'heavy',
      'keyword',
      say('Stage: loads that could be lifted eight times or fewer. Needs the sign-off.'),
      replace,
      'heavy',
    ),
    item('deload', 'keyword', say('Which weeks are lighter.'), replace, 'deload ${1:4}', true),
    item('like', 'keyword', say('Takes over the days and rows of another block.'), replace, 'like $1', true),
  ];
}

function dayNames(cursor: Cursor): string[] {
  const names = new Set<string>();
  for (const program of cursor.session.world().programs.values()) {
    const own = cursor.context.names.program;
    if (own !== undefined && program.name.toLowerCase() !== own.toLowerCase()) continue;
    for (const block of program.blocks) for (const day of block.days) names.add(day.name);
  }
  return [...names];
}
