import type { FileTree, Span } from '../../../../grammar/index.js';
import { spanOf, TOKEN_SPECS, words } from '../../../../grammar/tokens.js';

/** Standard token types of editors; colour themes know them. */
export const SEMANTIC_TOKEN_TYPES = [
  'namespace', // programs
  'struct', // blocks, days, circuits
  'class', // kits
  'function', // movements
  'variable', // clients and groups
  'enumMember', // bands, machines, bars, conditions
  'property', // labels
  'keyword',
  'number',
  'string',
  'comment',
  'operator',
] as const;
export type SemanticTokenType = (typeof SEMANTIC_TOKEN_TYPES)[number];

export interface SemanticToken {
  /** Lies in one line. */
  readonly span: Span;
  readonly type: SemanticTokenType;
  /** The place where a name is defined. */
  readonly definition: boolean;
}

/** Colours of a file by meaning, in order of place, none overlapping. */
export function semanticTokens(text: string, tree: FileTree): SemanticToken[] {
  const names = colouredNames(tree);
  const tokens: SemanticToken[] = [...names, ...tree.comments.map(({ span }) => plain(span, 'comment'))];
  const taken = [...tokens].sort(byPlace);
  let next = 0;
  for (const line of tree.lines) {
    if (line.kind === 'blank' || line.kind === 'comment') continue;
    while (next < taken.length && (taken[next] as SemanticToken).span.end <= line.span.start) next++;
    let at = next;
    for (const part of wordsOfLine(text, line.span)) {
      while (at < taken.length && (taken[at] as SemanticToken).span.end <= part.span.start) at++;
      const other = taken[at]?.span;
      if (other && other.start < part.span.end) continue;
      tokens.push(plain(part.span, line.kind === 'opener' && part.first ? 'keyword' : part.type));
    }
  }
  return tokens.filter((token) => token.span.end > token.span.start).sort(byPlace);
}

function byPlace(a: SemanticToken, b: SemanticToken): number {
  return a.span.start - b.span.start;
}

function plain(span: Span, type: SemanticTokenType): SemanticToken {
  return { span, type, definition: false };
}

const SCOPES: readonly (readonly [string, SemanticTokenType])[] = [
  ['string', 'string'],
  ['constant.numeric', 'number'],
  ['keyword', 'keyword'],
  ['punctuation.separator.week', 'operator'],
  ['punctuation.separator.group', 'operator'],
];

const typeOfWord = new Map<string, SemanticTokenType>();
for (const { name, scope } of TOKEN_SPECS) {
  const type = SCOPES.find(([prefix]) => scope?.startsWith(prefix))?.[1];
  if (type) typeOfWord.set(name, type);
}

interface LineWord {
  readonly span: Span;
  readonly type: SemanticTokenType;
  readonly first: boolean;
}

/** Words of a line that have a colour; all words before a colon are the label. */
function wordsOfLine(text: string, line: Span): LineWord[] {
  const parts = words(text.slice(line.start, line.end), line.start);
  const colon = parts.findIndex((part) => part.tokenType.name === 'Colon');
  return parts.flatMap((part, index) => {
    const span = spanOf(part);
    const ownType = typeOfWord.get(part.tokenType.name);
    const label = index < colon && part.tokenType.name !== 'Text';
    // The first word of a line opens something, unless it is a text to print or goes on with the row above.
    const leads = index === 0 && ownType !== 'string' && ownType !== 'operator';
    const type = label ? 'property' : leads ? 'keyword' : ownType;
    return type ? [{ span, type, first: leads }] : [];
  });
}

const BY_PROPERTY: Readonly<Record<string, SemanticTokenType>> = {
  movement: 'function',
  to: 'function',
  of: 'function',
  what: 'function',
  program: 'namespace',
  block: 'struct',
  day: 'struct',
  kit: 'class',
  at: 'class',
  clients: 'variable',
  members: 'variable',
  band: 'enumMember',
  bands: 'enumMember',
  machine: 'enumMember',
  bar: 'enumMember',
};

const BY_SECTION: Readonly<Record<string, SemanticTokenType>> = {
  program: 'namespace',
  block: 'struct',
  day: 'struct',
  circuit: 'struct',
  kit: 'class',
  movement: 'function',
  client: 'variable',
  group: 'variable',
};

function colouredNames(tree: FileTree): SemanticToken[] {
  const found: SemanticToken[] = [];
  const visit = (value: unknown, property: string, parentKind: string): void => {
    if (Array.isArray(value)) {
      for (const entry of value) visit(entry, property, parentKind);
      return;
    }
    if (typeof value !== 'object' || value === null) return;
    const node = value as Record<string, unknown>;
    if (typeof node.key === 'string' && typeof node.text === 'string') {
      const definition = property === 'name' && parentKind in BY_SECTION;
      const type = definition ? BY_SECTION[parentKind] : (BY_PROPERTY[property] ?? 'enumMember');
      found.push({ span: node.span as Span, type: type ?? 'enumMember', definition });
      return;
    }
    const kind = typeof node.kind === 'string' ? node.kind : '';
    for (const [key, entry] of Object.entries(node)) if (typeof entry === 'object') visit(entry, key, kind);
  };
  visit(tree.sections, '', '');
  return found;
}
