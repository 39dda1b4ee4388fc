/** Plain text for a terminal. */
import pc from 'picocolors';
import stringWidth from 'string-width';
import type { Io } from './io.js';

/** Breaks text between words at `width` columns; a word longer than a line stands alone. */
export function wrapText(text: string, width: number, indent = ''): string {
  const room = Math.max(10, width - stringWidth(indent));
  const lines: string[] = [];
  let line = '';
  for (const word of text.split(/\s+/).filter((part) => part !== '')) {
    if (line !== '' && stringWidth(line) + 1 + stringWidth(word) > room) {
      lines.push(line);
      line = word;
    } else line = line === '' ? word : `${line} ${word}`;
  }
  if (line !== '') lines.push(line);
  return lines.map((part) => indent + part).join('\n');
}

/** Text filled with spaces up to `width` columns; longer text stays whole. */
export function padText(text: string, width: number): string {
  return text + ' '.repeat(Math.max(0, width - stringWidth(text)));
}

export { visible } from '../engine/views/concise.js';

/** Colours of the terminal; all plain where nobody looks. */
export function coloursOf(io: Io): ReturnType<typeof pc.createColors> {
  return pc.createColors(io.colour);
}

/** `1 file`, `3 files`. */
export function counted(count: number, one: string, many = `${one}s`): string {
  return `${count} ${count === 1 ? one : many}`;
}
