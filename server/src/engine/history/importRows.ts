/** Rows of logged sets from a table, as log sections in the notation. All of them, or reasons why not. */

import { normaliseName, parse } from '../../../../grammar/index.js';
import { say } from '../../../../grammar/say.js';
import { isValidIsoDate } from '../dates.js';
import type { Client, IsoDate, Movement, World } from '../model.js';
import { formatNumber } from '../numbers.js';
import { nearestName } from '../rules/shared/nearest.js';
import { logsOf } from './done.js';

/** The columns, in the order in which they are documented. */
export const IMPORT_COLUMNS = [
  'date',
  'client',
  'movement',
  'instead of',
  'reps',
  'right reps',
  'seconds',
  'metres',
  'load',
  'unit',
  'reserve',
  'rpe',
  'day',
  'session rpe',
  'minutes',
  'pain',
  'note',
] as const;
export type ImportColumn = (typeof IMPORT_COLUMNS)[number];

/** One line of a table. `row` counts as a spreadsheet does: the header is row 1. */
export interface ImportRow {
  readonly row: number;
  readonly cells: Readonly<Partial<Record<ImportColumn, string>>>;
}

export interface RowProblem {
  readonly row: number;
  readonly reason: string;
}

export interface Imported {
  /** Log sections with a line break at the end; empty where there are problems. */
  readonly text: string;
  readonly sets: number;
  readonly sessions: number;
  readonly problems: readonly RowProblem[];
}

interface SetRow {
  readonly row: number;
  readonly client: Client;
  readonly date: IsoDate;
  readonly day: string;
  readonly movement: string;
  /** The row of the plan that it was done in the place of; empty where there was none. */
  readonly instead: string;
  readonly load: string;
  readonly done: string;
  readonly reserve: string;
  readonly session: Readonly<Record<'session rpe' | 'minutes' | 'pain' | 'note', string>>;
}

const MOST_LOAD_KG = 1000;

/**
 * Log sections for the rows, in order of date, sets in the order of the rows. `only` is the client of a table without
 * a client column. Any problem in any row leaves the text empty: half an import would be a false record.
 */
export function logsFromRows(
  rows: readonly ImportRow[],
  world: World,
  today: IsoDate,
  only: Client | null,
): Imported {
  const problems: RowProblem[] = [];
  const sets: SetRow[] = [];
  for (const row of rows) {
    const read = new RowReader(row, world, today, only).read();
    if ('reason' in read) problems.push(read);
    else sets.push(read);
  }
  const sections = new Map<string, SetRow[]>();
  for (const set of sets) {
    const key = JSON.stringify([set.date, set.client.key, normaliseName(set.day)]);
    sections.set(key, [...(sections.get(key) ?? []), set]);
  }
  const texts: { readonly key: string; readonly text: string }[] = [];
  for (const [key, own] of sections) {
    const text = sectionText(own, problems);
    // The notation has the last word: what it does not take is not written.
    const fault = parse(text).problems[0];
    if (fault) problems.push({ row: (own[0] as SetRow).row, reason: fault.message });
    texts.push({ key, text });
  }
  problems.sort((a, b) => a.row - b.row);
  const text = texts
    .sort((a, b) => (a.key < b.key ? -1 : 1))
    .map((each) => each.text)
    .join('\n');
  return { text: problems.length > 0 ? '' : text, sets: sets.length, sessions: sections.size, problems };
}

class RowReader {
  constructor(
    readonly source: ImportRow,
    readonly world: World,
    readonly today: IsoDate,
    readonly only: Client | null,
  ) {}

  read(): SetRow | RowProblem {
    const client = this.#client();
    if (typeof client === 'string') return this.#no(client);
    const date = this.#cell('date');
    if (!isValidIsoDate(date)) return this.#no(say`the date is "${date}"; write it like 2026-12-07`);
    if (date > this.today)
      return this.#no(say`${date} lies ahead of ${this.today}; a log says what was done`);
    if (logsOf(this.world, client.key).some((entry) => entry.date === date)) {
      return this.#no(say`${client.name} has a log of ${date} already`);
    }
    const [name, movement] = this.#movement();
    if (!movement) return this.#no(name);
    const [instead, swapped] =
      this.#cell('instead of') === '' ? ['', movement] : this.#movement('instead of');
    if (!swapped) return this.#no(instead);
    const done = this.#done();
    if ('reason' in done) return this.#no(done.reason);
    const load = this.#load(movement);
    if ('reason' in load) return this.#no(load.reason);
    const reserve = this.#reserve();
    if ('reason' in reserve) return this.#no(reserve.reason);
    const rest = {
      row: this.source.row,
      client,
      date,
      day: this.#cell('day'),
      movement: instead === '' ? name : movement.name,
      instead,
    };
    return {
      ...rest,
      load: load.text,
      done: done.text,
      reserve: reserve.text,
      session: {
        'session rpe': this.#cell('session rpe'),
        minutes: this.#cell('minutes'),
        pain: this.#cell('pain'),
        note: this.#cell('note'),
      },
    };
  }

  #cell(column: ImportColumn): string {
    return (this.source.cells[column] ?? '').trim();
  }

  #no(reason: string): RowProblem {
    return {
      row: this.source.row,
      reason: reason.endsWith('.') || reason.endsWith('?') ? reason : `${reason}.`,
    };
  }

  #client(): Client | string {
    const name = this.#cell('client');
    if (name === '') return this.only ?? say('no client is named');
    const client = this.world.clients.get(normaliseName(name));
    if (!client) return this.#unknown('client', name, [...this.world.clients.values()]);
    if (this.only && client !== this.only)
      return say`this row is about ${client.name}, and only ${this.only.name} was asked for`;
    return client;
  }

  #unknown(
    what: string,
    name: string,
    all: readonly { readonly key: string; readonly name: string }[],
  ): string {
    const near = nearestName(normaliseName(name), all);
    return say`no ${what} is called "${name}"${near ? say`; did you mean "${near.name}"?` : ''}`;
  }

  /** The name as a row has it, with its label, and the movement; the reason and null where it is not known. */
  #movement(column: 'movement' | 'instead of' = 'movement'): readonly [string, Movement | null] {
    const written = this.#cell(column);
    if (written === '') return [say('no movement is named'), null];
    const [, plain = written, label] = /^(.*?)\s*\(([^()]*)\)$/.exec(written) ?? [];
    const movement = this.world.movements.get(normaliseName(plain));
    if (!movement) return [this.#unknown('movement', plain, [...this.world.movements.values()]), null];
    return [label === undefined ? movement.name : `${movement.name} (${label})`, movement];
  }

  #done(): Read {
    const amounts = (['reps', 'seconds', 'metres'] as const).filter((column) => this.#cell(column) !== '');
    const [column] = amounts;
    if (!column || amounts.length > 1)
      return { reason: say('one of reps, seconds and metres has to be there') };
    const value = this.#number(column, 0, column === 'reps' ? 199 : 100_000);
    if ('reason' in value) return value;
    if (column === 'seconds') return { text: `${value.text}s` };
    if (column === 'metres') return { text: `${value.text}m` };
    const right = this.#cell('right reps');
    if (right === '') return whole(value, column);
    const other = this.#number('right reps', 0, 199);
    if ('reason' in other) return other;
    return whole({ text: value.text }, column, () =>
      whole(other, 'right reps', () => ({ text: `${value.text}/${other.text}` })),
    );
  }

  #load(movement: Movement): Read {
    const cell = this.#cell('load').replace(/\s+/g, '');
    const { kind } = movement.implement;
    const free = movement.liftsShare !== null || kind === 'bodyweight';
    if (cell === '' || /^bw$/i.test(cell)) {
      if (free) return { text: 'bw' };
      return kind === 'band' ? { text: '' } : { reason: say`the load of ${movement.name} is missing` };
    }
    const [, number = '', ownUnit = ''] = /^(?:bw)?([+-]?[\d.,]+)(kg|lb)?$/i.exec(cell) ?? [];
    const unit = (ownUnit || this.#cell('unit')).toLowerCase();
    if (number === '') return { reason: say`the load is "${cell}"; write a number such as 42.5` };
    if (number.includes(','))
      return { reason: say`the load is "${cell}"; write ${number.replace(',', '.')} with a point` };
    if (unit !== 'kg' && unit !== 'lb') return { reason: say`the unit is "${unit}"; it is kg or lb` };
    const value = Number(number);
    if (!Number.isFinite(value) || Math.abs(value) > MOST_LOAD_KG)
      return { reason: say`a load of ${number} ${unit} cannot be` };
    const size = `${formatNumber(Math.abs(value), 3)}${unit}`;
    if (free) return { text: value === 0 ? 'bw' : `bw${value < 0 ? '-' : '+'}${size}` };
    if (value <= 0) return { reason: say`the load is "${cell}"; it has to be more than 0` };
    return { text: kind === 'pack' ? `pack ${size}` : size };
  }

  #reserve(): Read {
    const reserve = this.#cell('reserve');
    const rpe = this.#cell('rpe');
    if (reserve !== '' && rpe !== '') return { reason: say('reserve and rpe say the same; leave one out') };
    if (reserve !== '') {
      const value = this.#number('reserve', 0, 20);
      return 'reason' in value ? value : { text: `r${value.text}` };
    }
    if (rpe === '') return { text: '' };
    const value = this.#number('rpe', 6, 10);
    return 'reason' in value ? value : { text: `rpe ${value.text}` };
  }

  #number(column: ImportColumn, least: number, most: number): Read {
    const cell = this.#cell(column);
    if (!/^\d+(\.\d+)?$/.test(cell)) return { reason: say`${column} is "${cell}"; write a number` };
    const value = Number(cell);
    if (value < least || value > most)
      return { reason: say`${column} is ${cell}; it lies between ${least} and ${most}` };
    return { text: formatNumber(value, 2) };
  }
}

type Read = { readonly text: string } | { readonly reason: string };

function whole(value: { readonly text: string }, column: string, then?: () => Read): Read {
  if (value.text.includes('.')) return { reason: say`${column} is ${value.text}; repetitions are whole` };
  return then ? then() : value;
}

function sectionText(rows: readonly SetRow[], problems: RowProblem[]): string {
  const first = rows[0] as SetRow;
  const lines = [`log ${first.client.name}, ${first.date}${first.day === '' ? '' : `, ${first.day}`}`];
  const movements = new Map<string, SetRow[]>();
  for (const row of rows) {
    const head = row.instead === '' ? `${row.movement}: ` : `swap: ${row.instead}, to ${row.movement}, `;
    movements.set(head, [...(movements.get(head) ?? []), row]);
  }
  for (const [head, own] of movements) lines.push(`  ${head}${groupsText(own)}`);
  const told = (column: keyof SetRow['session']) => {
    const values = [...new Set(rows.map((row) => row.session[column]).filter((value) => value !== ''))];
    if (values.length > 1 && column !== 'note' && column !== 'pain') {
      problems.push({
        row: first.row,
        reason: say`${column} is ${values.join(say(' and '))} for one session; it has one value.`,
      });
    }
    return values;
  };
  const [rpe] = told('session rpe');
  const [minutes] = told('minutes');
  const session = [
    ...(rpe === undefined ? [] : [`rpe ${rpe}`]),
    ...(minutes === undefined ? [] : [`${minutes}min`]),
  ];
  if (session.length > 0) lines.push(`  session: ${session.join(', ')}`);
  for (const pain of told('pain')) {
    const [, where = '', score = ''] = /^(.*?)\s+(\d+(?:\.\d+)?)(?:\/10)?$/.exec(pain) ?? [];
    if (where === '')
      problems.push({
        row: first.row,
        reason: say`pain is "${pain}"; write where and how much, such as knee 3.`,
      });
    else lines.push(`  pain: ${where} ${score}/10`);
  }
  // The notation has no escapes: a quotation mark inside a note would end it.
  for (const note of told('note')) lines.push(`  note: "${note.replace(/"/g, "'").replace(/\s+/g, ' ')}"`);
  return `${lines.join('\n')}\n`;
}

/** Sets in their order; a new load, or a told reserve, ends a group. */
function groupsText(rows: readonly SetRow[]): string {
  const groups: { load: string; sets: string[]; reserve: string }[] = [];
  for (const { load, done, reserve } of rows) {
    const open = groups[groups.length - 1];
    if (open && open.load === load && open.reserve === '') {
      open.sets.push(done);
      open.reserve = reserve;
    } else groups.push({ load, sets: [done], reserve });
  }
  return groups
    .map(({ load, sets, reserve }) => [load, ...sets, reserve].filter((part) => part !== '').join(' '))
    .join(' ; ');
}
