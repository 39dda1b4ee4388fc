import { distance } from 'fastest-levenshtein';
import { type Around, holdsValues, leavings, looksLikeBlock } from './around.js';
import { insert, nearest, problem, replace, shown } from './messages.js';
import type { Fix, Problem, Span } from './problem.js';
import type { LineMeaning, OpenerLevel, Place } from './readLine.js';
import { indentOf, isInside, levelOf, OPENERS } from './readOpener.js';
import { say } from './say.js';
import { words } from './tokens.js';
import { type SectionKind, VOCABULARY } from './vocabulary.js';

interface Read {
  readonly meaning: LineMeaning;
  readonly problems: readonly Problem[];
}

/**
 * A line without a colon that is no opener: what it may have been meant for, and what it takes with it. If it was an
 * opener, what follows must not be added to the section before, because that could lift a weight; if it was not, it
 * may cost no more than itself.
 */
export function unknownBare(source: string, content: Span, place: Place, around: Around): Read {
  const end = nearEnd(source, content, place);
  if (end !== null) return end;
  const inside =
    isInside(source, content, place) &&
    indentOf(source, content) >= Math.min(around.siblingIndent, place.indent + 8);
  const written = source.slice(content.start, content.end);
  const near =
    inside || holdsValues(written, place.section) ? null : nearOpener(written, content, place, around);
  // A mistyped word of three letters or more is the best evidence there is.
  if (near?.sure) return near.read;
  const block = !inside && looksLikeBlock(written) && !holdsValues(written, place.section);
  const colon = block ? null : missingColon(source, content, place, around);
  if (colon !== null) return colon;
  if (inside) return insideLine(source, content, place);
  const level = leavings(source, content, place, around);
  if (near !== null && level !== null && near.level === level) return near.read;
  // Under an opener that could not be read nothing more is said; that opener is what has to be mended.
  if (place.section === 'lost') return { meaning: { form: 'broken' }, problems: [] };
  const rest = level === null ? '' : say(' What follows is left aside until this is mended.');
  const problems = [
    problem(
      'unknown-line',
      content,
      `${strangeMessage(written)}${rest}`,
      strangeFixes(written, content, level === null ? place : null),
    ),
  ];
  return { meaning: level === null ? { form: 'broken' } : { form: 'broken-opener', level }, problems };
}

/** A line that cannot be read and stands among the lines of its section: it costs itself, unless it was a circuit. */
function insideLine(source: string, content: Span, place: Place): Read {
  if (place.section === 'lost') return { meaning: { form: 'broken' }, problems: [] };
  const written = source.slice(content.start, content.end);
  const first = /^\S+/.exec(written)?.[0] ?? '';
  const circuit =
    place.section === 'day' &&
    (place.endAhead ||
      nearest(first, ['circuit']) !== null ||
      /,\s*(?:\d+\s+rounds?|every\b|\d+min\b)/i.test(written));
  if (!circuit)
    return brokenLine(
      problem('unknown-line', content, strangeMessage(written), strangeFixes(written, content, place)),
    );
  const span = { start: content.start, end: content.start + first.length };
  const message = say`${shown(first)} opens nothing that is known. Did you mean \`circuit\`? What follows up to \`end\` is left aside until this is mended.`;
  return {
    meaning: { form: 'broken-opener', level: 'circuit' },
    problems: [problem('opener-incomplete', span, message, [replace(span, 'circuit')])],
  };
}

/**
 * A mistyped `end` of a circuit. Where the circuit's own `end` is still to come, the line was something else.
 */
export function nearEnd(source: string, content: Span, place: Place): Read | null {
  const written = source.slice(content.start, content.end);
  if (
    (place.endAhead && place.section === 'circuit') ||
    (place.section !== 'circuit' && place.section !== 'lost') ||
    written.length > 6
  )
    return null;
  const letters = written.replace(/[^a-z]/gi, '').toLowerCase();
  if (!['e', 'n', 'd', 'en', 'nd', 'ed', 'edn', 'ned'].includes(letters) && distance(letters, 'end') > 1)
    return null;
  const message = say`${shown(written)} is not known. Did you mean \`end\`, which closes the circuit?`;
  return {
    meaning: { form: 'end' },
    problems: [problem('unknown-line', content, message, [replace(content, 'end')])],
  };
}

/** The line holds what only a row or a statement of this section holds. */
function missingColon(source: string, content: Span, place: Place, around: Around): Read | null {
  if (place.section === 'none' || place.section === 'lost') return null;
  const written = source.slice(content.start, content.end);
  const at = labelEnd(source, content, place);
  if (at === null) {
    if (place.section === 'log' && nearest(written.toLowerCase(), ['as planned']) !== null) {
      return brokenLine(
        problem('unknown-line', content, say`${shown(written)} is not known. Did you mean \`as planned\`?`, [
          replace(content, 'as planned'),
        ]),
      );
    }
    return null;
  }
  if (at === content.start && around.blankAbove) return null;
  if (at === content.start) {
    const message = say(
      'This line begins with what belongs in a cell, and has no movement. Start it with `|` to go on with the row above, or with the name of a movement and a colon.',
    );
    return brokenLine(
      problem('missing-colon', content, message, [
        insert(content.start, '| ', say('Go on with the row above')),
      ]),
    );
  }
  const name = source.slice(content.start, at).trim();
  const message = say`A colon is missing after ${shown(name)}. A line that states something is written \`${name}: …\`.`;
  const span = { start: content.start, end: content.start + name.length };
  return brokenLine(
    problem('missing-colon', span, message, [insert(span.end, ':', say('Put the colon there'))]),
  );
}

function brokenLine(found: Problem): Read {
  return { meaning: { form: 'broken' }, problems: [found] };
}

const ROW_WORDS: ReadonlySet<string> = new Set([
  'Times',
  'Dose',
  'Pipe',
  'Reserve',
  'Rpe',
  'Percent',
  'Bodyweight',
  'ChangeMass',
  'ChangePercent',
]);

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
    const loads =
      place.section === 'log' && ['MassWord', 'Integer', 'Skipped', 'Planned'].includes(part.tokenType.name);
    if (!ROW_WORDS.has(part.tokenType.name) && !loads) continue;
    return part.startOffset;
  }
  return null;
}

function startsLike(written: string, opener: string): boolean {
  return written.toLowerCase().startsWith(opener);
}

/** The first word resembles an opener's. `sure`: enough of it is left to be told from anything else. */
function nearOpener(
  written: string,
  content: Span,
  place: Place,
  around: Around,
): { read: Read; level: OpenerLevel; sure: boolean } | null {
  const first = /^\S+/.exec(written)?.[0] ?? '';
  const firstSpan = { start: content.start, end: content.start + first.length };
  const word = first.toLowerCase().replace(/[.,]+$/, '');
  if (!/[a-z]/.test(word)) return null;
  const near = nearestOpener(word, place);
  const glued = OPENERS.find(
    (each) => fits(each, place) && word.length > each.length && word.startsWith(each),
  );
  const part = OPENERS.filter((each) => fits(each, place) && (each.startsWith(word) || each.endsWith(word)));
  const candidates = near !== null ? [near] : glued !== undefined ? [glued] : part;
  if (candidates.length === 0) return null;
  const levels = candidates.map(levelOf);
  const level =
    (['section', 'block', 'day', 'circuit'] as const).find((each) => levels.includes(each)) ?? 'section';
  const only = candidates.length === 1 ? candidates[0] : undefined;
  const fixes: Fix[] = [];
  if (only !== undefined) {
    fixes.push(
      glued === only && near === null
        ? insert(firstSpan.start + only.length, ' ', say('Put a space there'))
        : replace(firstSpan, only),
    );
  }
  const asked =
    glued !== undefined && near === null
      ? `${glued} ${written.slice(glued.length)}`
      : candidates.join('` or `');
  const message = say`${shown(first)} opens nothing that is known. Did you mean \`${asked}\`? What follows is left aside until this is mended.`;
  const read: Read = {
    meaning: { form: 'broken-opener', level },
    problems: [problem('opener-incomplete', firstSpan, message, fixes)],
  };
  const short = only === 'kit' || only === 'log';
  const apart = around.blankAbove || place.section === 'none' || /\d{4}-\d{2}-\d{2}/.test(written);
  // A line with weeks in it was a block, whatever its first word resembles.
  const block = level === 'section' && looksLikeBlock(written);
  return { read, level, sure: !block && word.length >= 3 && (!short || apart) };
}

/** Whether an opener can stand here at all. */
function fits(opener: SectionKind, place: Place): boolean {
  const { section } = place;
  if (section === 'lost' || section === 'none') return true;
  if (opener === 'circuit') return section === 'day' || section === 'circuit';
  if (opener === 'day') return section === 'day' || section === 'circuit' || section === 'block';
  return (
    opener !== 'block' ||
    section === 'program' ||
    section === 'block' ||
    section === 'day' ||
    section === 'circuit'
  );
}

/** The opener that a word is a slip of: one letter off for short ones, two for longer ones. */
function nearestOpener(word: string, place: Place): SectionKind | null {
  const near = nearest(
    word,
    OPENERS.filter((each) => fits(each, place)),
  ) as SectionKind | null;
  return near !== null &&
    near.length === 3 &&
    distance(word, near) > 1 &&
    [...word].sort().join() !== [...near].sort().join()
    ? null
    : near;
}

function strangeMessage(written: string): string {
  return say`${shown(written)} says nothing that can be read. A statement has a colon after its name, text to be printed stands in quotation marks, a note for the coach after \` -- \`.`;
}

/**
 * Text is offered where it can stand. Nothing is offered for a line that hides what follows, which would then be read
 * as it is.
 */
function strangeFixes(written: string, content: Span, place: Place | null): Fix[] {
  if (place === null) return [];
  const printed = ['program', 'block', 'day', 'circuit'].includes(place.section);
  return [
    ...(printed ? [replace(content, `"${written.replace(/"/g, '')}"`, false, say('Print it as text'))] : []),
    insert(content.start, '-- ', say('Make it a note for the coach')),
  ];
}
