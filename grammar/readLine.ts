import type { Around } from './around.js';
import { nearEnd, unknownBare } from './damaged.js';
import type { LogicalLine } from './lines.js';
import { problem, remove, shown } from './messages.js';
import type { Problem, Span } from './problem.js';
import { type Header, hiddenOpener, readOpener } from './readOpener.js';
import { readStatement } from './readStatement.js';
import { say } from './say.js';
import type { Placed } from './statementValues.js';
import type { SectionKind } from './vocabulary.js';

/** Where a line stands, as far as its reading depends on it. */
export interface Place {
  /** `none`: before the first section. `lost`: under an opener that could not be read. */
  readonly section: SectionKind | 'none' | 'lost';
  /** Inside a block that is `like` another. */
  readonly like: boolean;
  /**
   * How far the line that opened this place is indented. Indentation has no meaning; it is evidence only where a line
   * cannot be read and could have been an opener or something inside.
   */
  readonly indent: number;
  /** In a day or a circuit: an `end` comes before the next opener. */
  readonly endAhead: boolean;
}

/** What one line says. */
export type LineMeaning =
  | { readonly form: 'blank' | 'comment' | 'end' }
  | { readonly form: 'opener'; readonly opener: SectionKind; readonly header: Header }
  /** An opener that cannot be read: what follows belongs to nothing until the next opener of this level or above. */
  | { readonly form: 'broken-opener'; readonly level: OpenerLevel }
  | { readonly form: 'statement'; readonly node: Placed }
  | { readonly form: 'broken' };

/** How much a broken opener takes with it. */
export type OpenerLevel = 'section' | 'block' | 'day' | 'circuit';

export interface ReadLine {
  readonly meaning: LineMeaning;
  readonly problems: readonly Problem[];
  /** The written part: no comment, no spaces at the ends. */
  readonly content: Span;
}

/** The span of a part without the spaces at its ends. */
export function trimmedSpan(source: string, start: number, end: number): Span {
  const raw = source.slice(start, end);
  const trimmed = raw.trim();
  const from = trimmed === '' ? start : start + raw.indexOf(trimmed);
  return { start: from, end: from + trimmed.length };
}

/**
 * Reads one line. `source` is the file with its comments blanked out; `around` is asked only about a line that cannot
 * be read.
 */
export function readLine(source: string, line: LogicalLine, place: Place, around: () => Around): ReadLine {
  if (line.kind === 'blank' || line.kind === 'comment') {
    return {
      meaning: { form: line.kind },
      problems: [],
      content: { start: line.span.start, end: line.span.start },
    };
  }
  const content = trimmedSpan(source, line.span.start, line.span.end);
  const { meaning, problems } = meaningOf(source, line, content, place, around);
  return { meaning, problems, content };
}

function meaningOf(
  source: string,
  line: LogicalLine,
  content: Span,
  place: Place,
  around: () => Around,
): Omit<ReadLine, 'content'> {
  switch (line.kind) {
    case 'text':
      return readText(source, content, place);
    case 'stray-cells':
      return (
        hiddenOpener(source, content, place) ??
        nearEnd(source, content, place) ?? {
          meaning: { form: 'broken' },
          problems: [
            problem(
              'out-of-place',
              { start: content.start, end: content.start + 1 },
              say(
                'A line that starts with `|` continues the row above, and there is no row above. Put it directly under its row.',
              ),
            ),
          ],
        }
      );
    case 'labelled':
      return readStatement(source, content, line.colon, place);
    default:
      return readBare(source, content, place, around);
  }
}

function readText(source: string, content: Span, place: Place): Omit<ReadLine, 'content'> {
  const close = source.indexOf('"', content.start + 1);
  if (close < 0 || close >= content.end) {
    const hidden = hiddenOpener(source, content, place, true) ?? nearEnd(source, content, place);
    if (hidden !== null) return hidden;
    const message = say('This text has no closing quotation mark. Put a " where the text ends.');
    const fix = {
      title: say('Close the text at the end of the line'),
      safe: false,
      edits: [{ span: { start: content.end, end: content.end }, newText: '"' }],
    };
    return { meaning: { form: 'broken' }, problems: [problem('quote-open', content, message, [fix])] };
  }
  const rest = trimmedSpan(source, close + 1, content.end);
  if (rest.end > rest.start) {
    const message = say`A line of text ends with its quotation mark. Found ${shown(source.slice(rest.start, rest.end))} behind it.`;
    return {
      meaning: { form: 'broken' },
      problems: [problem('syntax', rest, message, [remove(rest, say('Leave it out'))])],
    };
  }
  const text = { text: source.slice(content.start + 1, close), span: content };
  return {
    meaning: { form: 'statement', node: { kind: 'printed-text', text, span: content } },
    problems: [],
  };
}

function readBare(
  source: string,
  content: Span,
  place: Place,
  around: () => Around,
): Omit<ReadLine, 'content'> {
  const written = source.slice(content.start, content.end);
  if (/^end$/i.test(written)) return { meaning: { form: 'end' }, problems: [] };
  if (place.section === 'log' && /^as\s+planned$/i.test(written)) {
    return { meaning: { form: 'statement', node: { kind: 'as-planned', span: content } }, problems: [] };
  }
  return readOpener(source, content) ?? unknownBare(source, content, place, around());
}
