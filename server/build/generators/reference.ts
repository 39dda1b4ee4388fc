import { referenceMarkdown } from '../../../grammar/reference.js';

/** The notation on one page. */
export function generate(): Record<string, string> {
  return { 'grammar/reference.md': referenceMarkdown() };
}
