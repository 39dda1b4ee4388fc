// biome-ignore-all lint/suspicious/noTemplateCurlyInString: these are tab stops of snippets.

import {
  AIM_NAMES,
  CONDITION_NAMES,
  CURVE_NAMES,
  EQUIPMENT_NAMES,
  PATTERN_NAMES,
  type Span,
  STAGE_NAMES,
} from '../../../../grammar/index.js';
import { later, said, say } from '../../../../grammar/say.js';
import { timeWords } from '../print/words.js';
import { looksAtPlans, type Rule } from '../ruleForm.js';
import { RULES } from '../rules/index.js';
import { cellCompletions } from './completionCell.js';
import {
  painItems,
  plannedRowNames,
  plannedSetsItems,
  plannedValueItems,
  sessionItems,
} from './completionLog.js';
import { movementItems } from './completionMovements.js';
import {
  type CompletionItem,
  type Cursor,
  item,
  nameItems,
  restOfName,
  restOfWord,
} from './completionParts.js';

/** What stands after a label that is no row: names of the workspace or words of a closed list. */
export function valueCompletions(cursor: Cursor, label: string, typed: string): CompletionItem[] {
  const parts = typed.split(',');
  const part = (parts[parts.length - 1] ?? '').trimStart();
  const after = cursor.text.slice(cursor.offset, cursor.line.end);
  const start = cursor.offset - part.length;
  const value: Value = {
    cursor,
    part,
    index: parts.length - 1,
    replace: { start, end: cursor.offset + restOfName(after).length },
    word: {
      start: cursor.offset - (/\S*$/.exec(part)?.[0] ?? '').length,
      end: cursor.offset + restOfWord(after).length,
    },
  };
  if (label === 'allow') return value.index === 0 && !/\s/.test(part) ? ruleItems(value) : [];
  const read = READERS[cursor.context.section ?? '']?.[label];
  if (read) return read(value);
  if (label === 'swap' && cursor.context.section === 'log') return swapDone(value, parts[0] ?? '');
  if (cursor.context.section === 'log' && label === 'session')
    return typed.trim() === '' ? sessionItems(cursor, value.replace) : [];
  if (cursor.context.section === 'log' && label === 'pain')
    return /\d/.test(typed) ? [] : painItems(cursor, value.replace);
  if (cursor.context.section === 'log' && !['session', 'pain', 'note'].includes(label))
    return [...plannedValueItems(cursor, label, value.replace), ...doneItems(value)];
  return [];
}

interface Value {
  readonly cursor: Cursor;
  /** What is typed since the last comma. */
  readonly part: string;
  /** How many commas stand before it. */
  readonly index: number;
  /** The whole name that the cursor stands in. */
  readonly replace: Span;
  /** The word that the cursor stands in. */
  readonly word: Span;
}

type Read = (value: Value) => CompletionItem[];

function words(list: readonly string[], detail = ''): Read {
  return (value) => (value.index === 0 ? nameItems(list, 'keyword', value.replace, detail) : []);
}

const WEEKDAYS = ['mon', 'tue', 'wed', 'thu', 'fri', 'sat', 'sun'] as const;

/** `from DATE`, `until DATE`, `on mon`: dates are the coach's to write. */
function clause(
  value: Value,
  offers: readonly (readonly [string, string, string])[],
  timed = false,
): CompletionItem[] {
  if (/^on\s/i.test(value.part)) {
    const days = nameItems(WEEKDAYS, 'keyword', value.word);
    // A time may stand behind a weekday, and nothing but weekdays before the first one.
    return timed && /[a-z]{3}\s+\S*$/i.test(value.part.replace(/^on\s+/i, ''))
      ? [...days, ...timeItems(value)]
      : days;
  }
  if (timed && /^every\s+\d+\s+days?\s+\S*$/i.test(value.part)) return timeItems(value);
  if (/\s/.test(value.part)) return [];
  return offers.map(([word, detail, insert]) =>
    item(word, 'keyword', said(detail), value.word, insert, true),
  );
}

/** Times that other clients have; else one of the evening, to show how a time is written. */
function timeItems({ cursor, word }: Value): CompletionItem[] {
  const known = [...cursor.session.world().clients.values()].flatMap(({ follows }) =>
    follows.flatMap(({ startMinutes }) => [...startMinutes.values()]),
  );
  const minutes = [...new Set(known.length === 0 ? [18 * 60] : known)].sort((a, b) => a - b);
  return nameItems(minutes.map(timeWords), 'keyword', word, say('When the session begins.'));
}

const FROM = ['from', later('From this date on.'), 'from ${1:date}'] as const;
const UNTIL = ['until', later('Up to and with this date.'), 'from ${1:date} until ${2:date}'] as const;
const ON = ['on', later('On these weekdays.'), 'on $0'] as const;
const WHY = ['"why"', later('The reason.'), '"${1:why}"'] as const;

const movements: Read = (value) => movementItems(value.cursor, value.replace, '');

const kits: Read = ({ cursor, replace }) =>
  nameItems(
    [...cursor.session.world().kits.values()].map(({ name }) => name),
    'kit',
    replace,
  );

const clients: Read = ({ cursor, replace }) =>
  nameItems(
    [...cursor.session.world().clients.values()].map(({ name }) => name),
    'client',
    replace,
  );

const follows: Read = (value) => {
  if (value.index === 0) {
    const programs = [...value.cursor.session.world().programs.values()].map(({ name }) => name);
    return nameItems(programs, 'program', value.replace);
  }
  return clause(
    value,
    [
      FROM,
      ON,
      ['every', later('A session every so many days.'), 'every ${1:3} days'],
      ['supervised', later('The coach stands by.'), 'supervised'],
      ['alongside', later('Does not end the program before it.'), 'alongside'],
    ],
    true,
  );
};

const equipment: Read = ({ cursor, replace }) => {
  const machines = [...cursor.session.world().kits.values()].flatMap(({ model }) =>
    Object.values(model.machines),
  );
  return [
    ...nameItems(EQUIPMENT_NAMES, 'keyword', replace),
    ...nameItems(
      machines.map(({ name }) => `machine ${name}`),
      'machine',
      replace,
    ),
  ];
};

const ready: Read = (value) => {
  if (/\s/.test(value.part)) {
    const second = value.part.trimStart().split(/\s+/).length === 2;
    return second ? nameItems([...PATTERN_NAMES, 'all'], 'keyword', value.word) : [];
  }
  return nameItems(STAGE_NAMES, 'keyword', value.word, say('stage that is signed off'));
};

const swap: Read = (value) => {
  if (value.index === 0) return movements(value);
  return swappedTo(value, say('What is done instead.')) ?? clause(value, [FROM, UNTIL, WHY]);
};

/** `to NAME` of a swap; null behind it. */
function swappedTo(value: Value, help: string): CompletionItem[] | null {
  const to = /^to\s+/i.exec(value.part);
  if (to)
    return movementItems(value.cursor, { ...value.replace, start: value.replace.start + to[0].length }, '');
  return value.index === 1 ? clause(value, [['to', help, 'to $0']]) : null;
}

/** A swap in a log: a row of the day, what was done instead, its sets, and why. */
function swapDone(value: Value, row: string): CompletionItem[] {
  if (value.index === 0) {
    const rows = plannedRowNames(value.cursor);
    return rows.length === 0
      ? movements(value)
      : nameItems(rows, 'movement', value.replace, say('in the plan'));
  }
  return (
    swappedTo(value, say('What was done instead.')) ?? [
      ...plannedSetsItems(value.cursor, row, value.replace),
      ...clause(value, [WHY]),
    ]
  );
}

/** Behind the date of the set. */
const max: Read = (value) => {
  if (value.index === 0) return movements(value);
  const at = /^at\s+/i.exec(value.part);
  if (at) return kits({ ...value, replace: { ...value.replace, start: value.replace.start + at[0].length } });
  if (value.index < 3) return [];
  return clause(value, [
    ['at', later('The kit whose machine it was.'), 'at $0'],
    ['from', later('Counts only from this day on; what was planned before stays.'), 'from ${1:date}'],
  ]);
};

const estimate: Read = (value) => {
  const of = /^.*?\bof\s+/i.exec(value.part);
  if (!of) return [];
  return movementItems(value.cursor, { ...value.replace, start: value.replace.start + of[0].length }, '');
};

const bars: Read = ({ cursor, replace }) => {
  const named = [...cursor.session.world().kits.values()].flatMap(({ model }) =>
    model.bars.flatMap((bar) => bar.name ?? []),
  );
  return nameItems(named, 'bar', replace);
};

const READERS: Readonly<Record<string, Readonly<Record<string, Read>>>> = {
  movement: {
    pattern: words(PATTERN_NAMES),
    with: equipment,
    bar: bars,
    stage: words(STAGE_NAMES),
    easier: movements,
    harder: movements,
    estimate,
  },
  client: {
    units: words(['kg', 'lb']),
    condition: words(CONDITION_NAMES),
    rounding: words(['down', 'nearest']),
    curve: (value) =>
      value.index === 0 ? nameItems(CURVE_NAMES, 'keyword', value.replace) : clause(value, [FROM]),
    'trains at': (value) => (value.index === 0 ? kits(value) : clause(value, [ON, FROM])),
    ready,
    max,
    avoid: (value) =>
      value.index === 0
        ? [
            ...movements(value),
            ...nameItems(PATTERN_NAMES, 'keyword', value.replace, say('every movement of this pattern')),
          ]
        : clause(value, [FROM, UNTIL, WHY]),
    swap,
    follows,
    away: (value) =>
      value.index === 0
        ? []
        : clause(value, [
            ['back at', later('Shares of the target in the first weeks back.'), 'back at ${1:percent}%'],
            ['keep dates', later('The program goes on meanwhile.'), 'keep dates'],
          ]),
  },
  group: { members: clients, follows },
  program: { aim: words(AIM_NAMES) },
};

function ruleItems(value: Value): CompletionItem[] {
  const { section } = value.cursor.context;
  const ofLogs = section === 'log' || section === 'client' || section === 'group';
  const ofPlans = section !== 'log';
  const takes = (rule: Rule) => (ofLogs && rule.inLogs === true) || (ofPlans && looksAtPlans(rule));
  return RULES.filter(takes).map((rule) =>
    item(rule.code, 'rule', rule.title, value.word, `${rule.code} "\${1:why}"`, true),
  );
}

/** What was done: as planned, skipped, or a load and its sets. */
function doneItems(value: Value): CompletionItem[] {
  if (/\S\s/.test(value.part)) return [];
  return [
    item('as planned', 'keyword', say('Done as it was written.'), value.word, 'as planned'),
    item('skipped', 'keyword', say('Not done, and why.'), value.word, 'skipped "${1:why}"', true),
    ...cellCompletions(value.cursor, value.part, true).filter(({ insert }) => /^(band|pack)/.test(insert)),
  ];
}
