import type { Name } from './ast.js';
import { insert, nearest, problem, replace, shown } from './messages.js';
import { lineParser, type BlockHeader, type CircuitHeader, type LogHeader, type Reading } from './parser.js';
import type { Problem, Span } from './problem.js';
import type { LineMeaning, OpenerLevel, Place } from './readLine.js';
import { nameEndSlip } from './slips.js';
import { stoppedProblem } from './stopped.js';
import { words } from './tokens.js';
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
    const message = `\`${opener}\` opens something and needs a name behind it, such as \`${example}\`.`;
    return broken([problem('opener-incomplete', content, message)]);
  }
  const reading = readHeader(opener, source, value);
  if (reading.stopped !== null) {
    const found = stoppedProblem(source, value, reading.stopped.at, `\`${opener}\``, example, 'opener-incomplete', true);
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
    case 'log':
      return mapped(parser.read(parser.logHeader, source, value), (log) =>
        log.date === null ? null : { opener, log: { ...log, date: log.date } },
      );
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
    problems.push(nameEndSlip(source, header.block.name.span) ?? problem('opener-incomplete', content, 'A block says how many weeks it has. Write for example `block Keel, 5 weeks, load`.'));
  }
  if (likeChangePercent && !like) {
    problems.push(problem('syntax', likeChangePercent.span, 'A change of all targets belongs to a block made `like` another. Write `like BLOCK` before it.'));
  }
  if (likeChangePercent && (likeChangePercent.value === 0 || Math.abs(likeChangePercent.value) >= 100)) {
    problems.push(problem('out-of-range', likeChangePercent.span, 'A change is more than 0% and less than 100%.'));
  }
  for (const deload of deloadWeeks ?? []) {
    if (!weeks || deload.value <= weeks.value) continue;
    problems.push(problem('out-of-range', deload.span, `The block has ${weeks.value} weeks, so week ${deload.value} cannot be a deload.`));
  }
  return problems;
}

/** A line without a colon that is no opener: what it may have been meant for, and what it takes with it. */
export function unknownBare(source: string, content: Span, place: Place): Read {
  const written = source.slice(content.start, content.end);
  const first = /^\S+/.exec(written)?.[0] ?? '';
  const firstSpan = { start: content.start, end: content.start + first.length };
  return (
    nearEnd(written, content, place) ??
    missingColon(source, content, place) ??
    nearOpener(written, first, firstSpan) ??
    // Under an opener that could not be read nothing more is said; that opener is what has to be mended.
    (place.section === 'lost' ? { meaning: { form: 'broken' }, problems: [] } : strange(written, content, place))
  );
}

function nearEnd(written: string, content: Span, place: Place): Read | null {
  if (place.section !== 'circuit' && !(place.section === 'lost' && written.length <= 4)) return null;
  if (!/^(?:en|nd|ed|edn|ned|e|end[.,;]|ende|ends|endd|eend|ennd|finish)$/i.test(written)) return null;
  const message = `${shown(written)} is not known. Did you mean \`end\`, which closes the circuit?`;
  return { meaning: { form: 'end' }, problems: [problem('unknown-line', content, message, [replace(content, 'end')])] };
}

/** The line holds what only a row or a statement of this section holds. */
function missingColon(source: string, content: Span, place: Place): Read | null {
  if (place.section === 'none' || place.section === 'lost') return null;
  const written = source.slice(content.start, content.end);
  const at = labelEnd(source, content, place);
  if (at === null) {
    if (place.section === 'log' && nearest(written.toLowerCase(), ['as planned']) !== null) {
      return brokenLine(problem('unknown-line', content, `${shown(written)} is not known. Did you mean \`as planned\`?`, [replace(content, 'as planned')]));
    }
    return null;
  }
  const name = source.slice(content.start, at).trim();
  const message = `A colon is missing after ${shown(name)}. A line that states something is written \`${name}: …\`.`;
  const span = { start: content.start, end: content.start + name.length };
  return brokenLine(problem('missing-colon', span, message, [insert(span.end, ':', 'Put the colon there')]));
}

function brokenLine(found: Problem): Read {
  return { meaning: { form: 'broken' }, problems: [found] };
}

const ROW_WORDS: ReadonlySet<string> = new Set(['Times', 'Dose', 'Pipe', 'Reserve', 'Rpe', 'Percent', 'Bodyweight', 'ChangeMass', 'ChangePercent']);

/** Where the colon is missing: behind a label of the section, or before the first item of a cell. */
function labelEnd(source: string, content: Span, place: Place): number | null {
  const written = source.slice(content.start, content.end);
  if (place.section !== 'none' && place.section !== 'lost') {
    for (const { word } of VOCABULARY.statements[place.section]) {
      const found = new RegExp(`^${word.replace(' ', '\\s+')}(?=\\s)`, 'i').exec(written);
      if (found !== null) return content.start + found[0].length;
    }
  }
  if (place.section !== 'day' && place.section !== 'circuit' && place.section !== 'log') return null;
  if (OPENERS.some((each) => startsLike(written, each)) && !/[|]|\d\s*x/i.test(written)) return null;
  for (const part of words(written, content.start)) {
    const loads = place.section === 'log' && ['MassWord', 'Integer', 'Skipped', 'Planned'].includes(part.tokenType.name);
    if (!ROW_WORDS.has(part.tokenType.name) && !loads) continue;
    return part.startOffset > content.start ? part.startOffset : null;
  }
  return null;
}

function startsLike(written: string, opener: string): boolean {
  return written.toLowerCase().startsWith(opener);
}

/** The first word resembles an opener's: what follows belongs to nothing until the next of its level. */
function nearOpener(written: string, first: string, firstSpan: Span): Read | null {
  const word = first.toLowerCase().replace(/[.,]+$/, '');
  const glued = OPENERS.find((each) => word.length > each.length && word.startsWith(each));
  const near = nearest(word, OPENERS) as SectionKind | null;
  const part = OPENERS.filter((each) => each.startsWith(word) || (word.length > 1 && each.endsWith(word)));
  const candidates = near !== null ? [near] : glued !== undefined ? [glued] : part;
  if (candidates.length === 0) return null;
  const levels = candidates.map(levelOf);
  const level = (['section', 'block', 'day', 'circuit'] as const).find((each) => levels.includes(each)) ?? 'section';
  const only = candidates.length === 1 ? candidates[0] : undefined;
  const fixes = only === undefined ? [] : [glued === only && near === null ? insert(firstSpan.start + only.length, ' ', 'Put a space there') : replace(firstSpan, only)];
  const asked = glued !== undefined && near === null ? `${glued} ${written.slice(glued.length)}` : candidates.join('` or `');
  const message = `${shown(first)} opens nothing that is known. Did you mean \`${asked}\`? What follows is left aside until this is mended.`;
  return { meaning: { form: 'broken-opener', level }, problems: [problem('opener-incomplete', firstSpan, message, fixes)] };
}

/** Nothing known: taken for an opener whose word is missing, because adding what follows to the day before could lift a weight. */
function strange(written: string, content: Span, place: Place): Read {
  const message = `${shown(written)} says nothing that can be read. A statement has a colon after its name, text to be printed stands in quotation marks, a note for the coach after \` -- \`. What follows is left aside until this is mended.`;
  const fixes = [
    { title: 'Print it as text', safe: false, edits: [{ span: content, newText: `"${written.replace(/"/g, '')}"` }] },
    insert(content.start, '-- ', 'Make it a note for the coach'),
  ];
  return { meaning: { form: 'broken-opener', level: strangeLevel(written, place) }, problems: [problem('unknown-line', content, message, fixes)] };
}

function strangeLevel(written: string, place: Place): OpenerLevel {
  if (/\b\d+\s+weeks?\b|\bdeload\b|,\s*like\b/i.test(written)) return 'block';
  if (place.section === 'circuit') return 'circuit';
  if (place.section === 'day') return /\brounds?\b|\bevery\b/i.test(written) ? 'circuit' : 'day';
  return place.section === 'block' ? 'day' : 'section';
}
