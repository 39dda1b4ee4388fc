/** A finding as one line that people can read and other programs can take apart. */
import type { Finding } from '../model.js';

export interface ConciseFinding {
  readonly file: string;
  /** Counted from 1, as people do. */
  readonly line: number;
  /** Counted from 1, in UTF-16 units. */
  readonly column: number;
  readonly severity: Finding['severity'];
  readonly code: string;
  readonly message: string;
}

/** `file:line:column: severity code message`, without a line break at its end. */
export function conciseLine({ file, line, column, severity, code, message }: ConciseFinding): string {
  return `${visible(file)}:${line}:${column}: ${severity} ${code} ${oneLine(message)}`;
}

/** The text without line breaks. */
export function oneLine(text: string): string {
  return visible(text.replace(/\s*[\r\n]+\s*/g, ' '));
}

/** Text from a file, safe for a terminal: whatever could move the cursor or hide text becomes a sign that is seen. */
export function visible(text: string): string {
  return text.replace(/\p{Cc}/gu, (character) => (character === '\t' ? ' ' : '\ufffd'));
}
