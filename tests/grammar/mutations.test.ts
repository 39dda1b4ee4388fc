import { describe, expect, test } from 'vitest';
import { type FileTree, LineCache, parse } from '../../grammar/index.js';
import { SAMPLES } from './samples.js';
import { type LineMeaning, lineMeanings, visitSpans } from './tree.js';

/**
 * A broken line costs that line only. Every sample is damaged line by line and character by character, and after each
 * damage: nothing throws, every span lies in the file, every name and number stands in the text where the tree says,
 * and every other line means what it meant before.
 */

/** Small repeatable random numbers (a linear congruence), so that a failure can be seen again. */
function randomFrom(seed: number): (below: number) => number {
  let state = seed;
  return (below) => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return state % below;
  };
}

const INSERTED = [
  '"',
  '|',
  ';',
  ':',
  ',',
  '-',
  ' ',
  'x',
  '7',
  '.',
  'm',
  '+',
  '%',
  '(',
  '#',
  '\u{1F3CB}',
  '\t',
  '\u00d7',
  '\u201c',
  '/',
  'r',
];

/** Damages to one line: cut at an offset from either side, a character left out, put in, doubled, or two exchanged. */
function damages(line: string, random: (below: number) => number, count: number): string[] {
  const out: string[] = [];
  for (let round = 0; round < count; round++) {
    const at = random(line.length + 1);
    const char = INSERTED[random(INSERTED.length)] ?? 'x';
    const pick = random(7);
    if (pick === 0) out.push(line.slice(0, at));
    else if (pick === 1) out.push(line.slice(at));
    else if (pick === 2) out.push(line.slice(0, at) + line.slice(at + 1));
    else if (pick === 3) out.push(line.slice(0, at) + char + line.slice(at));
    else if (pick === 4) out.push(line.slice(0, at) + char + line.slice(at + 1));
    else if (pick === 5) out.push(line.slice(0, at) + (line[at] ?? '') + line.slice(at));
    else out.push(line.slice(0, at) + (line[at + 1] ?? '') + (line[at] ?? '') + line.slice(at + 2));
  }
  return out;
}

/** Names and numbers must be written where the tree says that they are; what is not, in words. */
function notLiteral(text: string, tree: FileTree): string | null {
  let wrong: string | null = null;
  visitSpans(tree.sections, (node, span) => {
    if (!(span.start >= 0 && span.start <= span.end && span.end <= text.length))
      wrong = `span ${span.start}-${span.end}`;
    const written = text.slice(span.start, span.end).replace(/[\u2212\u2013]/g, '-');
    if (typeof node.key === 'string' && (node.text !== text.slice(span.start, span.end) || node.key === ''))
      wrong = `name ${node.key}`;
    if (typeof node.iso === 'string' && written !== node.iso) wrong = `date ${node.iso}`;
    for (const field of ['value', 'percent', 'reps', 'week', 'sets', 'cm', 'seconds', 'rightReps']) {
      const value = node[field];
      if (typeof value !== 'number') continue;
      const figures = written.match(/\d+(?:\.\d+)?/g)?.map(Number) ?? [];
      const stands = figures.some((figure) =>
        [1, 60, 1 / 60, 2.54, 100].some((factor) => Math.abs(figure * factor - Math.abs(value)) < 0.01),
      );
      if (!stands) wrong = `${field} ${value} is not in ${written}`;
    }
  });
  return wrong;
}

/** The meanings of all lines, moved by `by` behind the damaged line, without those that begin in it. */
function others(meanings: Map<number, LineMeaning>, start: number, end: number): [number, LineMeaning][] {
  return [...meanings].filter(([at]) => at < start || at > end);
}

interface Damage {
  readonly before: Map<number, LineMeaning>;
  readonly after: Map<number, LineMeaning>;
  readonly start: number;
  readonly end: number;
  readonly by: number;
  readonly opener: boolean;
}

/** What is wrong with the other lines after a damage; null when all is well. */
function complaint(damage: Damage): string | null {
  const { before, after, start, end, by } = damage;
  const moved = (at: number): number => (at >= start ? at + by : at);
  let owned = true;
  for (const [at, was] of others(before, start, end)) {
    const is = after.get(moved(at));
    // An `allow` directly below the damaged line belongs to that line.
    if (was.allow && owned && at > end) continue;
    if (at > end) owned = false;
    const under = was.path.some((opener) => opener.at >= start && opener.at <= end);
    if (damage.opener && under) {
      // The opener itself was damaged: what stood under it may be lost, but never goes to another section.
      const stray = is?.path.find(
        (opener, level) =>
          was.path[level] === undefined ||
          (moved(was.path[level].at) !== opener.at && !(opener.at >= start && opener.at <= end + by)),
      );
      if (stray !== undefined) return `${was.meaning} went to ${stray.name}`;
      continue;
    }
    if (is === undefined) return `${was.meaning} was lost`;
    if (is.meaning !== was.meaning && !(was.opener && damage.opener))
      return `${was.meaning} became ${is.meaning}`;
    if (is.path.length !== was.path.length) return `${was.meaning} moved`;
    if (is.path.some((opener, level) => opener.at !== moved(was.path[level]?.at ?? -1)))
      return `${was.meaning} changed its place`;
  }
  return null;
}

/** All that is wrong after one damage to line `index`; null when all is well. */
function damageComplaint(base: Base, index: number, damaged: string): string | null {
  const { text, starts, lines } = base;
  const start = starts[index] as number;
  const line = lines[index] as string;
  const end = start + line.length;
  const mutated = text.slice(0, start) + damaged + text.slice(end);
  // Read with the memory of the sound file, as an editor does; that this changes nothing is tested elsewhere.
  const outcome = parse(mutated, base.cache);
  const literal = notLiteral(mutated, outcome.value);
  if (literal !== null) return literal;
  for (const { span, message } of outcome.problems) {
    if (!(span.start >= 0 && span.start < span.end && span.end <= mutated.length))
      return `span of: ${message}`;
  }
  if (readsOtherwise(outcome.value, base.tree.lines, index, damaged)) return null;
  const kind = base.tree.lines[index]?.kind;
  return complaint({
    before: base.meanings,
    after: lineMeanings(outcome.value),
    start,
    end,
    by: damaged.length - line.length,
    opener: kind === 'opener' || kind === 'end',
  });
}

interface Base {
  readonly text: string;
  readonly lines: readonly string[];
  readonly starts: readonly number[];
  readonly tree: FileTree;
  readonly cache: LineCache;
  readonly meanings: Map<number, LineMeaning>;
}

function baseOf(text: string): Base {
  const lines = text.split('\n');
  const starts: number[] = [];
  let at = 0;
  for (const line of lines) {
    starts.push(at);
    at += line.length + 1;
  }
  const cache = new LineCache();
  const tree = parse(text, cache).value;
  return { text, lines, starts, tree, cache, meanings: lineMeanings(tree) };
}

/** Damages that once cost more than their own line. */
const ONCE: readonly (readonly [string, string])[] = [
  ['  ready: load all 2026-10-02, heavy row 2026-10-03', 'l 2026-10-02, heavy row 2026-10-03'],
  ['  pack: to 12kg by 1kg', 'ck: to 12kg by 1kg'],
  ['log Wren, 2026-10-19, Squat', 'l:g Wren, 2026-10-19, Squat'],
];

describe('damages that once cost more', () => {
  const text =
    'client Heron\n  ready: load all 2026-10-02, heavy row 2026-10-03\n  ready: heavy press 2026-10-20\n\nkit Hall\n  pack: to 12kg by 1kg\n  bands: light\n\nlog Wren, 2026-10-18\n  as planned\n\nlog Wren, 2026-10-19, Squat\n  as planned\n';
  test.each(ONCE)('%s', (line, damaged) => {
    const base = baseOf(text);
    expect(damageComplaint(base, base.lines.indexOf(line), damaged)).toBeNull();
  });
});

describe.each(SAMPLES)('$name', ({ name, text }) => {
  test('has no problem to begin with', () => {
    const { problems, value } = parse(text);
    expect(problems).toEqual([]);
    expect(notLiteral(text, value)).toBeNull();
  });

  test('a damaged line costs that line only', { timeout: 120_000 }, () => {
    const base = baseOf(text);
    const random = randomFrom(20261207 + text.length);
    const rounds = Number(process.env.STAVE_ROUNDS ?? 300);
    const each = Math.max(2, Math.min(20, Math.round(rounds / base.lines.length)));
    const wrong: string[] = [];
    for (const [index, line] of base.lines.entries()) {
      // A long file repeats itself: a part of its lines is damaged, another part in each file.
      if (random(base.lines.length) > rounds / 2) continue;
      for (const damaged of damages(line, random, each)) {
        const found = damageComplaint(base, index, damaged);
        if (found !== null)
          wrong.push(
            `${name}:${index + 1}: ${JSON.stringify(line)} -> ${JSON.stringify(damaged)}: ${found.slice(0, 60)} … ${found.slice(-60)}`,
          );
      }
    }
    expect(wrong).toEqual([]);
  });
});

const OPENS = /^\s*(?:kit|movement|client|group|program|block|day|circuit|log)(?=\s|$)/i;

/** Lines whose damage rightly touches others: a continuation and its row, or a damage that reads as another opener. */
function readsOtherwise(
  tree: FileTree,
  physical: FileTree['lines'],
  index: number,
  damaged: string,
): boolean {
  const was = physical[index]?.kind;
  const is = tree.lines[index]?.kind;
  if (was === 'continuation' || physical[index + 1]?.kind === 'continuation') return true;
  // Nothing, or a note, is left of an opener: nobody can see that one was there.
  if (is === 'blank' || is === 'comment') return was === 'opener' || was === 'end';
  if (is === 'continuation') return true;
  // What is left of the name of a band, at the edge, cannot be told from what is left of a day's name.
  if (was === 'row' && /^[a-z]+$/.test(damaged) && is === 'broken') return true;
  // Two letters or no letter at all are left of an opener: that is no evidence of one.
  if (was === 'opener' && damaged.replace(/[^a-z]/gi, '').length <= 2) return true;
  if (OPENS.test(damaged)) return was !== 'opener';
  return is === 'end' && was !== 'end';
}
