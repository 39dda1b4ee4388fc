import type { LogicalLine } from './lines.js';
import type { Span } from './problem.js';
import type { OpenerLevel, Place } from './readLine.js';
import { OPENERS } from './readOpener.js';
import { words } from './tokens.js';
import { normaliseName } from './values.js';
import { type SectionKind, VOCABULARY } from './vocabulary.js';

/** What stands above and below a line that cannot be read: the evidence for what it was. */
export interface Around {
  /** The line above is blank or a comment, or there is none. */
  readonly blankAbove: boolean;
  /** The opener with which the next line begins. */
  readonly nextOpener: SectionKind | null;
  /** What the next line has before its colon. */
  readonly nextLabel: string | null;
  /** What is said below, up to the next opener, was said above since the last one: a second section begins here. */
  readonly repeats: boolean;
  /** The smallest indentation of the statements and rows beside it, up to the openers above and below. */
  readonly siblingIndent: number;
}

/** Looks at the lines beside line `index`. */
export function lookAround(source: string, lines: readonly LogicalLine[], index: number): Around {
  const above = lines[index - 1];
  const blankAbove = above === undefined || above.kind === 'blank' || above.kind === 'comment';
  const said = new Set<string>();
  let siblingIndent = Number.POSITIVE_INFINITY;
  const sibling = (line: LogicalLine): void => {
    const written = source.slice(line.span.start, line.span.end);
    siblingIndent = Math.min(siblingIndent, written.length - written.trimStart().length);
  };
  for (let at = index - 1; at >= 0; at--) {
    const line = lines[at] as LogicalLine;
    if (openerOf(source, line) !== null) break;
    const label = labelOf(source, line);
    if (label === null) continue;
    said.add(label);
    sibling(line);
  }
  let next: LogicalLine | null = null;
  let repeats = false;
  for (let at = index + 1; at < lines.length; at++) {
    const line = lines[at] as LogicalLine;
    if (line.kind === 'blank' || line.kind === 'comment' || line.kind === 'text') continue;
    next ??= line;
    if (openerOf(source, line) !== null) break;
    const label = labelOf(source, line);
    if (label === null) continue;
    sibling(line);
    if (said.has(label) && !OFTEN.has(label)) repeats = true;
  }
  const nextOpener = next === null ? null : openerOf(source, next);
  const nextLabel = next === null ? null : labelOf(source, next);
  return { blankAbove, nextOpener, nextLabel, repeats, siblingIndent };
}

function openerOf(source: string, line: LogicalLine): SectionKind | null {
  if (line.kind !== 'bare') return null;
  const first = /^\s*(\S+)/.exec(source.slice(line.span.start, line.span.end))?.[1]?.toLowerCase();
  return OPENERS.find((each) => each === first) ?? null;
}

function labelOf(source: string, line: LogicalLine): string | null {
  return line.kind === 'labelled' ? normaliseName(source.slice(line.span.start, line.colon)) : null;
}

/** Statements that stand more than once in one section. */
const OFTEN: ReadonlySet<string> = new Set(
  OPENERS.flatMap((section) =>
    VOCABULARY.statements[section].filter((each) => each.many && section !== 'kit').map((each) => each.word),
  ),
);

/** Words that stand in statements and rows, never in an opener. */
const NEVER_IN_OPENERS: ReadonlySet<string> = new Set([
  'MassWord',
  'ChangeMass',
  'Times',
  'Dose',
  'Reserve',
  'Percent',
  'Bodyweight',
  'Metres',
  'Length',
  'Pair',
  'Text',
  'OpenText',
  'Pipe',
  'Semi',
  'DecimalComma',
  'SpacedDose',
  'SpacedUnit',
  'MonthWord',
  'WeekWord',
  'PerSide',
  'From',
  'Until',
]);

/** Whether a line holds what no opener holds. */
export function holdsValues(written: string, section: Place['section']): boolean {
  // `l|g Wren`: a mark in the middle of the first word is a slip of the finger.
  const mended = written.replace(/^(\p{L}+)["|;](?=\p{L}|\s)/u, '$1_');
  return words(mended, 0).some(
    (part) =>
      NEVER_IN_OPENERS.has(part.tokenType.name) ||
      (part.tokenType.name === 'DateWord' && section !== 'log' && !/^l?o?g?\s+\p{L}/iu.test(written)),
  );
}

/**
 * What a line that cannot be read takes with it when it may be what is left of an opener; null when it more likely is
 * what is left of a statement or a row, and costs no more than itself.
 */
export function leavings(source: string, content: Span, place: Place, around: Around): OpenerLevel | null {
  const written = source.slice(content.start, content.end);
  const { section } = place;
  if (section === 'none') return 'section';
  if (holdsValues(written, section)) return null;
  // An `end` is still to come: in a circuit this line was no opener, in a day it was the circuit's.
  if (place.endAhead) return section === 'circuit' ? null : 'circuit';
  if (looksLikeBlock(written)) return 'block';
  if (around.nextOpener === 'block')
    return around.blankAbove && /^\p{L}[^.!?]{2,}$/u.test(written) ? 'section' : null;
  if (around.nextLabel !== null && strangeHere(around.nextLabel, section)) return 'section';
  const inProgram = section === 'day' || section === 'circuit' || section === 'block';
  if (!inProgram) return sectionBegins(written, section, around) ? 'section' : null;
  if (around.nextOpener === 'day') return around.blankAbove ? 'block' : null;
  if (around.nextOpener !== null && around.nextOpener !== 'circuit') return null;
  if (/\b\d+\s+rounds?\b|\bevery\s+\d/i.test(written)) return 'circuit';
  return isCellRest(written) && !around.blankAbove ? null : 'day';
}

/** Whether a line has what only the opener of a block has. */
export function looksLikeBlock(written: string): boolean {
  return /\b\d+\s+weeks?\b|\bdeload\s+\d|,\s*(?:learn|load|heavy)\b|\blike\s+\S|^[^|;]*,\s*[+-]\d+(?:\.\d+)?%$/i.test(
    written,
  );
}

/** Whether a kit, movement, client, group or log may begin here: something is said again, or a name stands apart. */
function sectionBegins(written: string, section: Place['section'], around: Around): boolean {
  if (around.repeats) return true;
  if (!around.blankAbove || around.nextOpener !== null) return false;
  return section === 'log' || /^\p{Lu}[^.!?]*$/u.test(written);
}

/** Whether a label belongs to another section and cannot be a row here. */
function strangeHere(label: string, section: Place['section']): boolean {
  if (section === 'lost' || section === 'none' || section === 'log') return false;
  if (VOCABULARY.statements[section].some((each) => each.word === label)) return false;
  if (section === 'kit' && /^(?:bar|machine) /.test(label)) return false;
  return OPENERS.some((other) => VOCABULARY.statements[other].some((each) => each.word === label));
}

const CELL_ENDS = [
  'kg',
  'lb',
  'min',
  's',
  'm',
  'cm',
  'in',
  '%',
  'warm',
  'weekly',
  '/side',
  'stop',
  'up',
  'down',
  'max',
  'deload',
  'tempo',
  'rest',
  'height',
];

/** What may be left of the cells of a row when its beginning is cut off. */
function isCellRest(written: string): boolean {
  return words(written, 0).every((part, index) => {
    const word = part.image.toLowerCase();
    return (
      part.tokenType.name !== 'Word' ||
      (index === 0 && (CELL_ENDS.some((end) => end.endsWith(word)) || /^[\d.,+\-x/%]+[a-z%]*$/.test(word)))
    );
  });
}
