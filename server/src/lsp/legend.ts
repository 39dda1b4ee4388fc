import type { SemanticTokenType } from '../engine/views/semanticTokens.js';

/**
 * The kinds of coloured text, in the order of the numbers that go over the wire. Said in the greeting, so it stands
 * here rather than with the code that finds them, which loads later.
 */
export const semanticTokenTypes = [
  'namespace',
  'struct',
  'class',
  'function',
  'variable',
  'enumMember',
  'property',
  'keyword',
  'number',
  'string',
  'comment',
  'operator',
] as const satisfies readonly SemanticTokenType[];

export const semanticTokenModifiers = ['definition'] as const;
