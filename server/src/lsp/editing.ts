import type { Range, TextEdit } from 'vscode-languageserver-types';
import { formatText } from '../engine/views/format.js';
import { toRange, toSpan } from './convert.js';
import type { Located } from './located.js';
import { Refusal } from './refusal.js';

/** Lays out a file or some lines of it. Throws a `Refusal` when that could change what the file asks for. */
export function format({ document }: Located, range?: Range): TextEdit[] {
  const result = formatText(document.getText(), range ? { range: toSpan(document, range) } : {});
  if (result.refusedBecause !== null) throw new Refusal(result.refusedBecause);
  return result.edits.map(({ span, newText }) => ({ range: toRange(document, span), newText }));
}
