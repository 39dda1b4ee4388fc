import stringWidth from 'string-width';
import {
  type FileTree,
  type LineNode,
  type Outcome,
  parse,
  type Span,
  type TextEdit,
} from '../../../../grammar/index.js';
import { later, said } from '../../../../grammar/say.js';
import { meaningOf, problemCodes } from './meaning.js';
import { meets, namesIn } from './text.js';

export interface FormatResult {
  readonly edits: readonly TextEdit[];
  /** In plain words, when nothing was formatted because the result could mean something else. */
  readonly refusedBecause: string | null;
}

const REFUSED = later(
  'Nothing was formatted: another layout could change what this file asks for. The text is left as it is.',
);
const INDENT = '  ';

/**
 * Lays out a file: indentation by nesting, week columns under each other within a day, single spaces, `×` and long
 * dashes in their plain form, capitals of items lowered. Lines with a mistake stay as they are. The result is read
 * again, and when it would not mean the same, nothing is changed. Edits are as small as they can be, one a line.
 */
export function formatText(text: string, options: { readonly range?: Span } = {}): FormatResult {
  const before = parse(text);
  for (const plainForms of [true, false]) {
    const all = editsFor(text, before, plainForms);
    const edits = options.range ? all.filter((edit) => meets(edit.line, options.range as Span)) : all;
    if (edits.length === 0) return { edits: [], refusedBecause: null };
    const after = parse(applyEdits(text, edits));
    if (sameMeaning(before, after)) {
      return { edits: edits.map(({ span, newText }) => ({ span, newText })), refusedBecause: null };
    }
  }
  return { edits: [], refusedBecause: said(REFUSED) };
}

/** The text after edits that do not overlap. */
export function applyEdits(text: string, edits: readonly TextEdit[]): string {
  let result = '';
  let at = 0;
  for (const edit of [...edits].sort((a, b) => a.span.start - b.span.start)) {
    result += text.slice(at, edit.span.start) + edit.newText;
    at = edit.span.end;
  }
  return result + text.slice(at);
}

interface LineEdit extends TextEdit {
  readonly line: Span;
}

function editsFor(text: string, parsed: Outcome<FileTree>, plainForms: boolean): LineEdit[] {
  const names = namesIn(parsed.value)
    .map((name) => name.span)
    .sort((a, b) => a.start - b.start);
  const errors = parsed.problems
    .filter((problem) => problem.severity === 'error')
    .map((problem) => problem.span);
  const lines = parsed.value.lines.map((node) => readLine(text, node, names, errors, plainForms));
  alignColumns(lines);
  return lines.flatMap((line) => {
    if (line.layout === null) return [];
    const edit = smallestEdit(text, line.node.span, render(line.layout));
    return edit ? [{ ...edit, line: line.node.span }] : [];
  });
}

// ---------------------------------------------------------------- one line

/** `head` is what stands before the week columns: indentation and label, or all of a line that has no columns. */
interface Layout {
  head: string;
  /** Week columns; null where the line has none. */
  cells: string[] | null;
  /** Where the columns begin, and the width of each, counted in columns of the screen. */
  start: number;
  widths: number[];
  comment: string;
}

interface Line {
  readonly node: LineNode;
  readonly opener: string | null;
  /** Null: the line stays as it is. */
  readonly layout: Layout | null;
}

const COLUMN_LABELS = /^(?:effort|rounds)\s*:/i;

function readLine(
  text: string,
  node: LineNode,
  names: readonly Span[],
  errors: readonly Span[],
  plainForms: boolean,
): Line {
  const whole = text.slice(node.span.start, node.span.end);
  const written = whole.trim();
  const opener = node.kind === 'opener' ? (/^\S+/.exec(written)?.[0]?.toLowerCase() ?? '') : null;
  const damaged = node.kind === 'broken' || errors.some((span) => meets(span, node.span));
  if (damaged) return { node, opener, layout: null };
  const pieces = piecesOf(text, node.span, names, plainForms);
  const comment = pieces.comment;
  const columns = node.kind === 'row' || node.kind === 'continuation' || COLUMN_LABELS.test(written);
  const indent = node.kind === 'blank' ? '' : INDENT.repeat(Math.max(0, node.depth));
  const layout: Layout = { head: indent, cells: null, start: 0, widths: [], comment };
  if (!columns) {
    layout.head = indent + join(pieces.list);
  } else if (node.kind === 'continuation') {
    layout.cells = cellsOf(pieces.list);
    layout.head = '';
  } else {
    const colon = pieces.list.findIndex((piece) => piece.text === ':' && piece.mark);
    if (colon < 0) return { node, opener, layout: null };
    layout.head = indent + join(pieces.list.slice(0, colon + 1));
    layout.cells = cellsOf(pieces.list.slice(colon + 1));
  }
  return { node, opener, layout };
}

interface Piece {
  readonly text: string;
  readonly mark: boolean;
  readonly spaceBefore: boolean;
}

/** Cuts a line into names, quoted text, marks and words. Names and text keep their characters. */
function piecesOf(
  text: string,
  line: Span,
  names: readonly Span[],
  plainForms: boolean,
): { list: Piece[]; comment: string } {
  const list: Piece[] = [];
  let name = firstIndexFrom(names, line.start);
  let at = line.start;
  let spaced = false;
  while (at < line.end) {
    const char = text[at] as string;
    if (/\s|\ufeff/.test(char)) {
      spaced = true;
      at++;
      continue;
    }
    while (name < names.length && (names[name] as Span).start < at) name++;
    const span = names[name];
    let end = at + 1;
    let piece: string;
    let mark = false;
    if (span && span.start === at && span.end > at && span.end <= line.end) {
      end = span.end;
      piece = text.slice(at, end).trim().replace(/\s+/g, ' ');
    } else if (char === '"') {
      const close = text.indexOf('"', at + 1);
      end = close < 0 || close >= line.end ? line.end : close + 1;
      piece = text.slice(at, end);
    } else if (isCommentStart(text, at, line)) {
      return { list, comment: text.slice(at, line.end).trimEnd() };
    } else if ('|;,:'.includes(char)) {
      piece = char;
      mark = true;
    } else {
      const limit = span && span.start > at ? Math.min(span.start, line.end) : line.end;
      while (end < limit && !/[\s|;,:"]/.test(text[end] as string)) end++;
      piece = plainForms ? plainForm(text.slice(at, end)) : text.slice(at, end);
    }
    list.push({ text: piece, mark, spaceBefore: spaced });
    spaced = false;
    at = end;
  }
  return { list, comment: '' };
}

function firstIndexFrom(spans: readonly Span[], start: number): number {
  let low = 0;
  let high = spans.length;
  while (low < high) {
    const middle = (low + high) >>> 1;
    if ((spans[middle] as Span).start < start) low = middle + 1;
    else high = middle;
  }
  return low;
}

function isCommentStart(text: string, at: number, line: Span): boolean {
  if (text[at] !== '-' || text[at + 1] !== '-' || at + 2 > line.end) return false;
  const edgeBefore = at === line.start || /\s/.test(text[at - 1] as string);
  return edgeBefore && (at + 2 === line.end || /\s/.test(text[at + 2] as string));
}

function plainForm(word: string): string {
  return word.replace(/×/g, 'x').replace(/[–−]/g, '-').toLowerCase();
}

function join(pieces: readonly Piece[]): string {
  let line = '';
  let labelled = false;
  let glue = '';
  for (const piece of pieces) {
    const ends = piece.mark && (piece.text === ',' || (piece.text === ':' && !labelled));
    if (piece.mark && piece.text === ':') labelled = true;
    const parts = piece.mark && (piece.text === ';' || piece.text === '|');
    const space = ends ? '' : parts || glue === 'space' ? ' ' : piece.spaceBefore ? ' ' : '';
    line += (line === '' ? '' : space) + piece.text;
    glue = ends || parts ? 'space' : '';
  }
  return line;
}

function cellsOf(pieces: readonly Piece[]): string[] {
  const cells: Piece[][] = [[]];
  for (const piece of pieces) {
    if (piece.mark && piece.text === '|') cells.push([]);
    else cells[cells.length - 1]?.push(piece);
  }
  return cells.map(join);
}

// ---------------------------------------------------------------- columns

/** Lines share their columns from one opener to the next; a circuit shares the columns of its day. */
function alignColumns(lines: readonly Line[]): void {
  let group: Layout[] = [];
  let inLog = false;
  for (const line of lines) {
    if (line.opener !== null && line.opener !== 'circuit') {
      align(group, !inLog);
      group = [];
      inLog = line.opener === 'log';
    }
    if (line.layout?.cells) group.push(line.layout);
  }
  align(group, !inLog);
}

function align(layouts: readonly Layout[], share: boolean): void {
  if (!share) {
    for (const layout of layouts) measure([layout]);
  } else {
    measure(layouts);
  }
}

function measure(layouts: readonly Layout[]): void {
  const start = Math.max(
    0,
    ...layouts.map((layout) => (layout.head === '' ? 0 : stringWidth(layout.head) + 1)),
  );
  const widths: number[] = [];
  for (const { cells } of layouts) {
    // The last cell of a line has no mark after it and so makes no column wider.
    cells?.slice(0, -1).forEach((cell, column) => {
      widths[column] = Math.max(widths[column] ?? 0, stringWidth(cell));
    });
  }
  for (const layout of layouts) {
    layout.start = start;
    layout.widths = widths;
  }
}

function render(layout: Layout): string {
  let line = layout.head;
  if (layout.cells) {
    line = pad(line, layout.start);
    layout.cells.forEach((cell, column) => {
      if (column > 0) line += ' | ';
      line += column === (layout.cells?.length ?? 0) - 1 ? cell : pad(cell, layout.widths[column] ?? 0);
    });
    line = line.trimEnd();
  }
  if (layout.comment === '') return line;
  return line.trim() === '' ? line + layout.comment : `${line} ${layout.comment}`;
}

function pad(text: string, width: number): string {
  return text + ' '.repeat(Math.max(0, width - stringWidth(text)));
}

// ---------------------------------------------------------------- edits and the check

function smallestEdit(text: string, line: Span, wanted: string): TextEdit | null {
  const found = text.slice(line.start, line.end);
  // A mark at the very beginning of some files says how they are encoded; it is no part of the first line.
  const skip = line.start === 0 && found.startsWith('\ufeff') ? 1 : 0;
  const old = found.slice(skip);
  if (old === wanted) return null;
  const shorter = Math.min(old.length, wanted.length);
  let head = 0;
  while (head < shorter && old[head] === wanted[head]) head++;
  let tail = 0;
  while (tail < shorter - head && old[old.length - 1 - tail] === wanted[wanted.length - 1 - tail]) tail++;
  const start = line.start + skip + head;
  return {
    span: { start, end: line.start + skip + old.length - tail },
    newText: wanted.slice(head, wanted.length - tail),
  };
}

/** Two readings ask for the same when their trees are equal but for places and spaces inside names. */
function sameMeaning(before: Outcome<FileTree>, after: Outcome<FileTree>): boolean {
  return (
    meaningOf(before.value) === meaningOf(after.value) &&
    before.value.comments.length === after.value.comments.length &&
    problemCodes(before) === problemCodes(after)
  );
}
