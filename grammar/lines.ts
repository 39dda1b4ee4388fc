import type { Span } from './problem.js';

/** One physical line, without its line break. */
export interface PhysicalLine {
  readonly span: Span;
  /** From `--` to the end of the line; null when there is none. */
  readonly comment: Span | null;
  /** Where the written part lies: no comment, no spaces at the ends. Empty when there is nothing. */
  readonly content: Span;
}

/** One line of meaning: a physical line and the lines starting with `|` that continue it. */
export interface LogicalLine {
  readonly first: number;
  /** Index of the last physical line, inclusive. */
  readonly last: number;
  readonly span: Span;
  readonly kind: 'blank' | 'comment' | 'text' | 'stray-cells' | 'labelled' | 'bare';
  /** Offset in the file of the colon that ends the label, or -1. */
  readonly colon: number;
}

/** Where a note for the coach begins in a line (` -- ` outside quotation marks), or -1. */
export function commentStart(line: string): number {
  if (!line.includes('--')) return -1;
  let quoted = false;
  for (let at = 0; at < line.length; at++) {
    const char = line[at];
    if (char === '"') quoted = !quoted;
    if (quoted || char !== '-' || line[at + 1] !== '-') continue;
    const before = at === 0 || /\s/.test(line[at - 1] ?? '');
    const after = at + 2 >= line.length || /\s/.test(line[at + 2] ?? '');
    if (before && after) return at;
  }
  return -1;
}

/** Splits at `\n`, `\r\n` and `\r`; a byte order mark belongs to no line's content. */
export function physicalLines(text: string): PhysicalLine[] {
  const lines: PhysicalLine[] = [];
  const breaks = /\r\n|\n|\r/g;
  let start = 0;
  for (;;) {
    const found = breaks.exec(text);
    const end = found === null ? text.length : found.index;
    lines.push(physicalLine(text, start, end));
    if (found === null) return lines;
    start = breaks.lastIndex;
  }
}

function physicalLine(text: string, start: number, end: number): PhysicalLine {
  const line = text.slice(start, end);
  const at = commentStart(line);
  const written = at < 0 ? line : line.slice(0, at);
  const trimmed = written.trim();
  const contentStart = trimmed === '' ? start : start + written.indexOf(trimmed);
  return {
    span: { start, end },
    comment: at < 0 ? null : { start: start + at, end },
    content: { start: contentStart, end: contentStart + trimmed.length },
  };
}

/** The first colon outside quotation marks, or -1. */
function colonOf(line: string): number {
  const colon = line.indexOf(':');
  if (colon < 0) return -1;
  const quote = line.indexOf('"');
  return quote >= 0 && quote < colon ? colonPastQuotes(line) : colon;
}

function colonPastQuotes(line: string): number {
  let quoted = false;
  for (let at = 0; at < line.length; at++) {
    if (line[at] === '"') quoted = !quoted;
    else if (line[at] === ':' && !quoted) return at;
    else if (line[at] === '\n' || line[at] === '\r') quoted = false;
  }
  return -1;
}

/** Joins `|` lines to the row above and says what each line is by its form alone. */
export function logicalLines(text: string, physical: readonly PhysicalLine[]): LogicalLine[] {
  const lines: LogicalLine[] = [];
  for (let first = 0; first < physical.length; ) {
    const last = lastOfRow(text, physical, first);
    lines.push(logicalLine(text, physical, first, last));
    first = last + 1;
  }
  return lines;
}

function firstChar(text: string, line: PhysicalLine): string {
  return line.content.start === line.content.end ? '' : (text[line.content.start] ?? '');
}

/** A comment between a row and its continuation belongs to the row; a blank line ends it. */
function lastOfRow(text: string, physical: readonly PhysicalLine[], first: number): number {
  const head = physical[first];
  if (head === undefined) return first;
  const start = firstChar(text, head);
  if (start === '' || start === '|' || start === '"') return first;
  const written = text.slice(head.content.start, head.content.end);
  if (colonOf(written) < 0 && !written.includes('|')) return first;
  let last = first;
  for (let next = first + 1; next < physical.length; next++) {
    const line = physical[next];
    if (line === undefined) break;
    const char = firstChar(text, line);
    if (char === '' && line.comment === null) break;
    // Cells have no colon, so a line that has one is a row that begins with a stray `|`, and its own mistake.
    if (char === '|' && colonOf(text.slice(line.content.start, line.content.end)) < 0) last = next;
    else if (char !== '') break;
  }
  return last;
}

function logicalLine(
  text: string,
  physical: readonly PhysicalLine[],
  first: number,
  last: number,
): LogicalLine {
  const head = physical[first] as PhysicalLine;
  const tail = physical[last] as PhysicalLine;
  const span = { start: head.span.start, end: tail.span.end };
  const start = firstChar(text, head);
  const written = text.slice(head.content.start, head.content.end);
  const within = start === '"' ? -1 : colonOf(written);
  const colon = within < 0 ? -1 : head.content.start + within;
  return { first, last, span, colon, kind: kindOf(start, colon, head) };
}

/** The text with every comment blanked out, so that offsets stay what they are. */
export function withoutComments(text: string, physical: readonly PhysicalLine[]): string {
  const parts: string[] = [];
  let done = 0;
  for (const { comment } of physical) {
    if (comment === null) continue;
    parts.push(text.slice(done, comment.start), ' '.repeat(comment.end - comment.start));
    done = comment.end;
  }
  if (done === 0) return text;
  parts.push(text.slice(done));
  return parts.join('');
}

function kindOf(start: string, colon: number, head: PhysicalLine): LogicalLine['kind'] {
  if (start === '') return head.comment === null ? 'blank' : 'comment';
  if (start === '"') return 'text';
  if (start === '|') return 'stray-cells';
  return colon >= 0 ? 'labelled' : 'bare';
}
