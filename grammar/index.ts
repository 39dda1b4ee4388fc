import { type Around, lookAround } from './around.js';
import type { CommentNode, FileTree, LineNode } from './ast.js';
import type { LineCache } from './lineCache.js';
import { type LogicalLine, logicalLines, physicalLines, withoutComments } from './lines.js';
import type { Outcome } from './problem.js';
import { readLine } from './readLine.js';
import { OPENERS } from './readOpener.js';
import { Assembly, lineNodes } from './toAst.js';

export * from './ast.js';
export { LineCache, SharedLines } from './lineCache.js';
export { type LogHead, logOutline } from './logOutline.js';
export { PROBLEM_CODES, type ProblemCode } from './messages.js';
export * from './problem.js';
export { KG_PER_LB, normaliseName } from './values.js';
export { type SectionKind, type StatementEntry, VOCABULARY, type VocabularyEntry } from './vocabulary.js';

/**
 * Reads one file. Never throws: what cannot be read is a problem on its characters and leaves no node, and every
 * other line keeps its meaning. With the `cache` of the file's last reading, only lines that changed are read.
 */
export function parse(text: string, cache?: LineCache): Outcome<FileTree> {
  const physical = physicalLines(text);
  const source = withoutComments(text, physical);
  const assembly = new Assembly();
  const lines: LineNode[] = [];
  cache?.begin();
  const logical = logicalLines(text, physical);
  const ends = endsAhead(source, logical);
  for (const [index, line] of logical.entries()) {
    const place = assembly.place(ends[index] ?? false);
    const around = (): Around => lookAround(source, logical, index);
    const read =
      cache === undefined
        ? readLine(source, line, place, around)
        : cache.read(text, source, line, place, around);
    const depth = assembly.add(read, read.content.start - line.span.start);
    lineNodes(lines, line, physical, read.meaning, depth);
  }
  cache?.end();
  assembly.finish();
  const comments: CommentNode[] = [];
  for (const { comment } of physical) if (comment !== null) comments.push({ span: comment });
  const problems = assembly.problems.sort((one, other) => one.span.start - other.span.start);
  return { value: { sections: assembly.sections, comments, lines: commentDepths(lines) }, problems };
}

/** For each line, whether an `end` comes behind it before the next opener. */
function endsAhead(source: string, lines: readonly LogicalLine[]): boolean[] {
  const ahead = new Array<boolean>(lines.length).fill(false);
  let end = false;
  for (let at = lines.length - 1; at >= 0; at--) {
    const line = lines[at] as LogicalLine;
    ahead[at] = end;
    if (line.kind !== 'bare') continue;
    const first = /^\s*(\S+)/.exec(source.slice(line.span.start, line.span.end))?.[1]?.toLowerCase();
    if (first === 'end') end = true;
    else if (OPENERS.some((each) => each === first)) end = false;
  }
  return ahead;
}

/** A comment or blank line is written as deep as the line that it stands above. */
function commentDepths(lines: readonly LineNode[]): LineNode[] {
  const out = [...lines];
  let below: number | null = null;
  for (let at = out.length - 1; at >= 0; at--) {
    const line = out[at] as LineNode;
    if (line.kind === 'blank') continue;
    if (line.kind === 'comment') out[at] = { ...line, depth: below ?? line.depth };
    else if (line.kind !== 'continuation') below = line.depth;
  }
  return out;
}
