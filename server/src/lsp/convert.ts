import type { TextDocument } from 'vscode-languageserver-textdocument';
import type { Range } from 'vscode-languageserver-types';
import type { Span } from '../../../grammar/index.js';

/** A span as the protocol's range: lines and UTF-16 units, both from 0. */
export function toRange(document: TextDocument, span: Span): Range {
  return { start: document.positionAt(span.start), end: document.positionAt(span.end) };
}

/** The protocol's range as a span. */
export function toSpan(document: TextDocument, range: Range): Span {
  return { start: document.offsetAt(range.start), end: document.offsetAt(range.end) };
}
