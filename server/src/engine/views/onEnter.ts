import { type FileTree, parse, type Span, type TextEdit } from '../../../../grammar/index.js';
import { applyEdits, formatText } from './format.js';
import { lineBreakOf, lineSpanAt, meets } from './text.js';

export interface EnterOptions {
  /** Whether a finished row puts the columns of its table under each other, where they were before. */
  readonly align: boolean;
}

/**
 * What happens when a line was ended: the new line gets the indentation that the formatter would give it, and where the
 * table above was aligned but for the finished row, it is aligned again. `offset` is where the cursor stands.
 */
export function onEnter(text: string, offset: number, { align }: EnterOptions): TextEdit[] {
  const line = lineSpanAt(text, offset);
  const edits: TextEdit[] = [];
  const written = text.slice(line.start, line.end);
  const indent = '  '.repeat(depthOfNext(text, line));
  const now = /^[ \t]*/.exec(written)?.[0] ?? '';
  if (now !== indent && !/^\s*\|/.test(written))
    edits.push({ span: { start: line.start, end: line.start + now.length }, newText: indent });
  edits.push(...openerAbove(text, line));
  if (align) edits.push(...alignAbove(text, line));
  return edits.sort((a, b) => a.span.start - b.span.start);
}

/** How deep a line would stand there: what is written, or a statement or row where nothing is written yet. */
function depthOfNext(text: string, line: Span): number {
  const written = text.slice(line.start, line.end).trim();
  const probe = written === '' ? 'a: 3x6' : written;
  const tree = parse(text.slice(0, line.start) + probe + text.slice(line.end)).value;
  const depth = tree.lines.find(({ span }) => span.start === line.start)?.depth ?? 0;
  // Behind an opener a statement comes next; at the top of a file nothing does.
  return tree.sections.length === 0 ? 0 : depth;
}

/** The finished line at its depth, where it opens or ends something: `day` stands less deep than the rows above it. */
function openerAbove(text: string, line: Span): TextEdit[] {
  if (line.start === 0) return [];
  const above = lineSpanAt(text, line.start - lineBreakOf(text).length);
  const node = parse(text).value.lines.find(({ span }) => span.start === above.start);
  if (node?.kind !== 'opener' && node?.kind !== 'end') return [];
  const now = /^[ \t]*/.exec(text.slice(above.start, above.end))?.[0] ?? '';
  const wanted = '  '.repeat(node.depth);
  return now === wanted
    ? []
    : [{ span: { start: above.start, end: above.start + now.length }, newText: wanted }];
}

/** Puts the columns of the table above a line under each other, if those of its other rows were. */
export function alignAbove(text: string, line: Span): TextEdit[] {
  if (line.start === 0) return [];
  const finished = lineSpanAt(text, line.start - lineBreakOf(text).length);
  const tree = parse(text).value;
  const table = tableAround(text, tree, finished);
  if (!table) return [];
  // Neither the finished row nor what stands in the new line says how the table was laid out.
  const without = text.slice(0, finished.start) + text.slice(line.end);
  const shrunk = { start: table.start, end: table.end - (line.end - finished.start) };
  if (shrunk.end > shrunk.start && formatText(without, { range: shrunk }).edits.length > 0) return [];
  return formatText(text, { range: table }).edits.filter(({ span }) => !meets(span, line));
}

/** The lines that share their columns with a row: from its opener to the next one. Null where the line is no row. */
export function tableAround(text: string, tree: FileTree, row: Span): Span | null {
  const at = tree.lines.findIndex(({ span }) => span.start === row.start);
  const kind = tree.lines[at]?.kind;
  if (kind !== 'row' && kind !== 'continuation') return null;
  const opens = (index: number): boolean => {
    const each = tree.lines[index];
    if (each?.kind !== 'opener') return false;
    return !/^\s*circuit\b/i.test(text.slice(each.span.start, each.span.end));
  };
  let first = at;
  while (first > 0 && !opens(first - 1)) first--;
  let last = at;
  while (last < tree.lines.length - 1 && !opens(last + 1)) last++;
  const start = tree.lines[first]?.span.start ?? row.start;
  return { start, end: tree.lines[last]?.span.end ?? row.end };
}

/** The text laid out again in a range, where it was laid out before; else as it is. */
export function keepLayout(before: string, range: Span, after: string, newRange: Span): string {
  if (formatText(before, { range }).edits.length > 0) return after;
  return applyEdits(after, formatText(after, { range: newRange }).edits);
}
