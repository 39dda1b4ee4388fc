import { normaliseName, parse } from '../../../../grammar/index.js';
import { say } from '../../../../grammar/say.js';
import { builtInMovements } from '../catalogue.js';
import { isValidIsoDate } from '../dates.js';
import type { IsoDate, Movement } from '../model.js';
import { nearestName } from '../rules/shared/nearest.js';

// What a coach answers when a client is added, read and checked. Nothing is guessed: what does not read is a problem
// that says what was found and how it is written.

/** An answer that reads, or why it does not. */
export type Read<Value> =
  | { readonly value: Value; readonly problem: null }
  | { readonly value: null; readonly problem: string };

/** A set that was done, as a `max:` line. */
export interface DoneSet {
  /** What stands after `max:`, such as `back squat, 40kg x8 r2, 2026-11-23`. */
  readonly line: string;
  /** How it was read, for the coach. */
  readonly words: string;
  readonly movement: Movement;
  readonly date: IsoDate;
}

/** A name by which a client is known here. `taken` has the keys of those who are there already. */
export function readAlias(text: string, taken: ReadonlySet<string>): Read<string> {
  const alias = text.trim().replace(/\s+/g, ' ');
  if (alias === '') return wrong(say('A client needs a name here. A short alias will do, such as Heron.'));
  const [section] = parse(`client ${alias}\n`).value.sections;
  if (
    section?.kind !== 'client' ||
    section.name.text !== alias ||
    parse(`client ${alias}\n`).problems.length > 0
  )
    return wrong(
      say`"${alias}" cannot be a name. Leave out commas, colons, semicolons, bars, quotes and "--".`,
    );
  if (taken.has(normaliseName(alias)))
    return wrong(say`There is a client "${alias}" already. Take another alias.`);
  return right(alias);
}

/** A year of birth, or a year and month; empty where it is not to be written down. */
export function readBorn(text: string, today: IsoDate): Read<string | null> {
  const born = text.trim();
  if (born === '') return right(null);
  const year = Number(/^(\d{4})(?:-(?:0[1-9]|1[0-2]))?$/.exec(born)?.[1]);
  const thisYear = Number(today.slice(0, 4));
  if (Number.isNaN(year))
    return wrong(say`"${born}" is no year. Write it like 1968, or 1968-03 with the month.`);
  if (year < thisYear - 110 || year > thisYear - 10)
    return wrong(say`${year} would make her ${thisYear - year} years old. Look at the year again.`);
  return right(born);
}

/** Load, reps and effort after the name of a movement; each may be missing, so that it can be asked for. */
const SET =
  /^(?<name>.*?[^\d\s])(?:\s+(?<load>bw(?:[+-]\d+(?:\.\d+)?(?:kg|lb))?|\d+(?:\.\d+)?\s?(?:kg|lb)))?(?:\s+(?:\d+\s?[x×]\s?)?[x×]?\s?(?<reps>\d+))?(?:\s*(?<effort>r\s?\d+(?:\.\d+)?|rpe\s?\d+(?:\.\d+)?))?(?:\s+(?<date>\d{4}-\d{2}-\d{2}))?$/i;

/**
 * A set as a coach would say it: `back squat 40kg 8 r2`, with or without commas, with `x8` or `3x8` for the reps, and
 * with its day; without one it was done today. Without an effort nothing was left, which is the careful reading.
 */
export function readSet(
  text: string,
  today: IsoDate,
  movements: ReadonlyMap<string, Movement> = builtInMovements(),
): Read<DoneSet> {
  const comma = /(\d+),(\d+\s?(?:kg|lb))/i.exec(text);
  if (comma) return wrong(say`Write the load with a point: ${`${comma[1]}.${comma[2]}`}`);
  const plain = text.replace(/,/g, ' ').replace(/\s+/g, ' ').trim();
  const unitless = /^(.*[^\d\s]) (\d+(?:\.\d+)?) (?:\d+ ?[x×] ?|[x×])?\d+(?: ?r(?:pe)? ?\d+)?$/i.exec(plain);
  if (unitless && !/(?:kg|lb|bw\S*)$/i.test(unitless[1] ?? ''))
    return wrong(say`Write the unit beside the load: ${`${unitless[2]}kg`}`);
  const parts = SET.exec(plain)?.groups;
  if (!parts?.name) return wrong(say`Write a set like this: ${'back squat 40kg 8 r2'}`);
  const found = movementOf(parts.name, movements);
  if (found.value === null) return found;
  const movement = found.value;
  const { name, implement } = movement;
  if (implement.kind === 'band')
    return wrong(say('A band has no kilograms to work from. Take a set of another movement.'));
  const load = parts.load ?? (implement.kind === 'bodyweight' ? 'bw' : null);
  if (load === null) return wrong(say`How heavy? For example: ${`${name} ${exampleLoad(movement)} 8 r2`}`);
  if (!parts.reps) return wrong(say`How many reps? For example: ${`${name} ${load} 8 r2`}`);
  const reps = Number(parts.reps);
  if (reps < 1 || reps > 20)
    return wrong(say`${reps} reps tell too little of her strength. Take a set of 1 to 20, best of 5 to 10.`);
  const date = parts.date ?? today;
  if (!isValidIsoDate(date) || date > today)
    return wrong(say`${date} is no day until today. Write the day of the set like ${today}.`);
  const effort = parts.effort?.toLowerCase().replace(/\s+/g, '').replace(/^rpe/, 'rpe ');
  const line = `${name}, ${load.toLowerCase().replace(/\s/g, '')} x${reps}${effort ? ` ${effort}` : ''}, ${date}`;
  const { problems } = parse(`client A\n  max: ${line}\n`);
  if (problems[0]) return wrong(problems[0].message);
  return right({
    line,
    words: wordsOf(name, load, reps, effort, date === today ? say('today') : date),
    movement,
    date,
  });
}

function wordsOf(name: string, load: string, reps: number, effort: string | undefined, done: string): string {
  const shown = /^bw$/i.test(load) ? say('bodyweight') : load;
  if (effort?.startsWith('rpe')) return say`${name}, ${shown}, ${reps} reps, ${effort}, done ${done}`;
  const left = effort?.slice(1) ?? '0';
  if (left === '0') return say`${name}, ${shown}, ${reps} reps with nothing left in reserve, done ${done}`;
  return say`${name}, ${shown}, ${reps} reps with ${left} left in reserve, done ${done}`;
}

/** A likely load for the example of a message. */
function exampleLoad({ implement }: Movement): string {
  return implement.kind === 'barbell' || implement.kind === 'machine' ? '40kg' : '8kg';
}

function movementOf(text: string, movements: ReadonlyMap<string, Movement>): Read<Movement> {
  const key = normaliseName(text);
  const found = movements.get(key) ?? movements.get(key.replace(/s$/, ''));
  if (found) return right(found);
  const all = [...movements.values()];
  const alike = all.filter((movement) => ` ${movement.key} `.includes(` ${key} `));
  if (alike.length > 1)
    return wrong(
      say`Which one? There are ${alike
        .slice(0, 4)
        .map(({ name }) => name)
        .join(', ')} and more.`,
    );
  const near = alike[0] ?? nearestName(key, all);
  return wrong(
    near
      ? say`There is no movement "${text}". Did you mean "${near.name}"?`
      : say`There is no movement "${text}". Begin with its name, for example: ${'goblet squat 8kg 10 r3'}`,
  );
}

function right<Value>(value: Value): Read<Value> {
  return { value, problem: null };
}

function wrong(problem: string): { readonly value: null; readonly problem: string } {
  return { value: null, problem };
}
