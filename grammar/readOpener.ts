import { distance } from 'fastest-levenshtein';
import type { Name } from './ast.js';
import type { LogHeader } from './logRules.js';
import { problem, replace, shown } from './messages.js';
import { lineParser, type Reading } from './parser.js';
import { plainLogHeader } from './plainLines.js';
import type { Problem, Span } from './problem.js';
import type { BlockHeader, CircuitHeader } from './programRules.js';
import type { LineMeaning, OpenerLevel, Place } from './readLine.js';
import { say } from './say.js';
import { nameEndSlip } from './slips.js';
import { stoppedProblem } from './stopped.js';
import { type SectionKind, VOCABULARY } from './vocabulary.js';

export type Header =
  | { readonly opener: 'block'; readonly block: BlockHeader }
  | { readonly opener: 'circuit'; readonly circuit: CircuitHeader }
  | { readonly opener: 'log'; readonly log: LogHeader & { readonly date: NonNullable<LogHeader['date']> } }
  | { readonly opener: 'kit' | 'movement' | 'client' | 'group' | 'program' | 'day'; readonly name: Name };

interface Read {
  readonly meaning: LineMeaning;
  readonly problems: readonly Problem[];
}

export const OPENERS = Object.keys(VOCABULARY.openers) as SectionKind[];

/** What an opener's damage takes with it. */
export function levelOf(opener: SectionKind): OpenerLevel {
  return opener === 'block' || opener === 'day' || opener === 'circuit' ? opener : 'section';
}

/** A line that begins with an opener's word; null when it does not. */
export function readOpener(source: string, content: Span): Read | null {
  const written = source.slice(content.start, content.end);
  const first = /^\S+/.exec(written)?.[0] ?? '';
  const opener = OPENERS.find((each) => each === first.toLowerCase());
  if (opener === undefined) return null;
  const value = { start: content.start + first.length, end: content.end };
  const broken = (problems: readonly Problem[]): Read => ({
    meaning: { form: 'broken-opener', level: levelOf(opener) },
    problems,
  });
  const example = VOCABULARY.openers[opener].example;
  if (source.slice(value.start, value.end).trim() === '') {
    const message = say`\`${opener}\` opens something and needs a name behind it, such as \`${example}\`.`;
    return broken([problem('opener-incomplete', content, message)]);
  }
  const reading = readHeader(opener, source, value);
  if (reading.stopped !== null) {
    const found = stoppedProblem(
      source,
      value,
      reading.stopped.at,
      `\`${opener}\``,
      example,
      'opener-incomplete',
      true,
    );
    return broken([...reading.problems, found]);
  }
  const header = reading.value ?? null;
  const problems = [...reading.problems, ...(header === null ? [] : headerProblems(source, header, content))];
  if (header === null || problems.length > 0) return broken(problems);
  return { meaning: { form: 'opener', opener, header }, problems: [] };
}

function readHeader(opener: SectionKind, source: string, value: Span): Reading<Header | null> {
  const parser = lineParser();
  switch (opener) {
    case 'block':
      return mapped(parser.read(parser.blockHeader, source, value), (block) => ({ opener, block }));
    case 'circuit':
      return mapped(parser.read(parser.circuitHeader, source, value), (circuit) => ({ opener, circuit }));
    case 'log': {
      const plain = plainLogHeader(source, value);
      if (plain !== null) return { value: { opener, log: plain }, problems: [], stopped: null };
      return mapped(parser.read(parser.logHeader, source, value), (log) =>
        log.date === null ? null : { opener, log: { ...log, date: log.date } },
      );
    }
    default:
      return mapped(parser.read(parser.onlyName, source, value), (name) => ({ opener, name }));
  }
}

function mapped<From, To>(reading: Reading<From>, change: (value: From) => To): Reading<To> {
  return { ...reading, value: reading.value === undefined ? undefined : change(reading.value) };
}

function headerProblems(source: string, header: Header, content: Span): Problem[] {
  if (header.opener === 'circuit') {
    const unended = nameEndSlip(source, header.circuit.name.span);
    return unended === null ? [] : [unended];
  }
  if (header.opener !== 'block') return [];
  const { weeks, like, deloadWeeks, likeChangePercent } = header.block;
  const problems: Problem[] = [];
  if (!weeks && !like) {
    problems.push(
      nameEndSlip(source, header.block.name.span) ??
        problem(
          'opener-incomplete',
          content,
          say('A block says how many weeks it has. Write for example `block Keel, 5 weeks, load`.'),
        ),
    );
  }
  if (likeChangePercent && !like) {
    problems.push(
      problem(
        'syntax',
        likeChangePercent.span,
        say('A change of all targets belongs to a block made `like` another. Write `like BLOCK` before it.'),
      ),
    );
  }
  if (likeChangePercent && (likeChangePercent.value === 0 || Math.abs(likeChangePercent.value) >= 100)) {
    problems.push(
      problem('out-of-range', likeChangePercent.span, say('A change is more than 0% and less than 100%.')),
    );
  }
  for (const deload of deloadWeeks ?? []) {
    if (!weeks || deload.value <= weeks.value) continue;
    problems.push(
      problem(
        'out-of-range',
        deload.span,
        say`The block has ${weeks.value} weeks, so week ${deload.value} cannot be a deload.`,
      ),
    );
  }
  return problems;
}

/** How far a line is indented, in characters. */
export function indentOf(source: string, content: Span): number {
  let start = content.start;
  while (start > 0 && /[^\S\r\n]/.test(source[start - 1] as string)) start--;
  return content.start - start;
}

/** Whether a line is indented deeper than the line that opened its place, so that it was hardly meant as an opener. */
export function isInside(source: string, content: Span, place: Place): boolean {
  return place.section !== 'none' && indentOf(source, content) > place.indent;
}

/**
 * An opener with a mark too many in its first word: `"day Lower`, `|day Lower`, `d:ay Lower`. Null when it is none.
 * `loose`: the line cannot be anything else, so a beginning of an opener's word is enough.
 */
export function hiddenOpener(source: string, content: Span, place: Place, loose = false): Read | null {
  if (isInside(source, content, place)) return null;
  const written = source.slice(content.start, content.end);
  const first = /^[":|]?[^\s":|]*[":|]?[^\s":|]*/.exec(written)?.[0] ?? '';
  const bare = first.replace(/[":|]/g, '').toLowerCase();
  const second = /^\w*/.exec(written.replace(/["|:]\s*/, ''))?.[0].toLowerCase();
  const partly =
    loose && bare.length > 1
      ? OPENERS.find(
          (each) =>
            each.startsWith(bare) ||
            each.endsWith(bare) ||
            (each.length > 3 && distance(each, bare) <= 2) ||
            (each === 'log' && distance(each, bare) === 1 && /\d{4}-\d{2}-\d{2}/.test(written)),
        )
      : undefined;
  const opener = OPENERS.find((each) => each === bare) ?? OPENERS.find((each) => each === second) ?? partly;
  if (opener === undefined) return null;
  const span = { start: content.start, end: content.start + Math.max(1, first.length) };
  const message = say`${shown(first)} opens nothing that is known. Did you mean \`${opener}\`? What follows is left aside until this is mended.`;
  return {
    meaning: { form: 'broken-opener', level: levelOf(opener) },
    problems: [problem('opener-incomplete', span, message, [replace(span, opener)])],
  };
}
