import type { FileTree, Name, SectionNode, Span } from '../../../../grammar/index.js';

/** Whether an offset lies in a span; its end counts, so that a cursor right after a word still means the word. */
export function touches(span: Span, offset: number): boolean {
  return span.start <= offset && offset <= span.end;
}

/** Whether two spans share a character or touch. */
export function meets(a: Span, b: Span): boolean {
  return a.start <= b.end && b.start <= a.end;
}

/** Every name of a tree, in no order that matters. */
export function namesIn(tree: FileTree): Name[] {
  const found: Name[] = [];
  const visit = (value: unknown): void => {
    if (Array.isArray(value)) {
      for (const entry of value) visit(entry);
    } else if (isRecord(value)) {
      if (isName(value)) found.push(value);
      else for (const entry of Object.values(value)) if (typeof entry === 'object') visit(entry);
    }
  };
  visit(tree.sections);
  return found;
}

function isRecord(value: unknown): value is Record<string, unknown> {
  return typeof value === 'object' && value !== null;
}

function isName(value: Record<string, unknown>): value is Record<string, unknown> & Name {
  return typeof value.key === 'string' && typeof value.text === 'string' && isRecord(value.span);
}

/** The section that holds an offset: the last one that begins at or before it. */
export function sectionAt(tree: FileTree, offset: number): SectionNode | undefined {
  return lastBefore(tree.sections, offset);
}

/** The last of several nodes, in order of place, that begins at or before an offset. */
export function lastBefore<Node extends { readonly span: Span }>(
  nodes: readonly Node[],
  offset: number,
): Node | undefined {
  let found: Node | undefined;
  for (const node of nodes)
    if (node.span.start <= offset && (!found || node.span.start >= found.span.start)) found = node;
  return found;
}

/** The line that holds an offset, without its line break. */
export function lineSpanAt(text: string, offset: number): Span {
  const at = Math.max(0, Math.min(offset, text.length));
  let start = at;
  while (start > 0 && !isBreak(text[start - 1])) start--;
  let end = at;
  while (end < text.length && !isBreak(text[end])) end++;
  return { start, end };
}

function isBreak(char: string | undefined): boolean {
  return char === '\n' || char === '\r';
}

/** The line break that a text uses: the first one found, else `\n`. */
export function lineBreakOf(text: string): string {
  return /\r\n|\n|\r/.exec(text)?.[0] ?? '\n';
}

/** The spaces and tabs at the beginning of the line that holds an offset. */
export function indentAt(text: string, offset: number): string {
  const { start, end } = lineSpanAt(text, offset);
  return /^[ \t]*/.exec(text.slice(start, end))?.[0] ?? '';
}

/** A coach's words inside Markdown: nothing in them becomes a link, a heading, a list, HTML or emphasis. */
export function escapeMarkdown(text: string): string {
  return text
    .replace(/&/g, '&amp;')
    .replace(/</g, '&lt;')
    .replace(/[\\`*_[\]|~]/g, '\\$&')
    .replace(/\$\(/g, '\\$(')
    .replace(/^(\s*)([-+#>=])/gm, '$1\\$2')
    .replace(/^(\s*\d+)([.)])(?=\s|$)/gm, '$1\\$2')
    .replace(/\b(https?|ftp|file|command|vscode|mailto)(:)/gi, '$1&#58;')
    .replace(/\bwww\./gi, 'www&#46;');
}
