import type { Client } from '../../model.js';
import type { EngineSession } from '../../session.js';
import { indentAt, lineBreakOf, lineSpanAt } from '../text.js';

/** Where a line of a client can be added, and with what a line begins there. */
export interface ClientSpot {
  readonly file: string;
  readonly offset: number;
  /** The line break and the indentation. */
  readonly head: string;
}

/** Behind the last line of her section; null where she has none. */
export function spotBehind(session: EngineSession, client: Client): ClientSpot | null {
  const part = client.nodes[0];
  const text = part && session.text(part.file);
  if (!part || text === undefined) return null;
  const last = part.node.lines[part.node.lines.length - 1]?.span ?? part.node.headerSpan;
  const offset = lineSpanAt(text, last.end).end;
  const indent = part.node.lines.length > 0 ? indentAt(text, last.start) : '  ';
  return { file: part.file, offset, head: `${lineBreakOf(text)}${indent}` };
}
