import { formatNumber } from './numbers.js';

/** Wording that findings and printed documents share, so that all outputs say the same. */

/** `Heron`, `Heron and Wren`, `Heron, Plover and Wren`. */
export function listOf(names: readonly string[], last = 'and'): string {
  if (names.length < 2) return names.join('');
  return `${names.slice(0, -1).join(', ')} ${last} ${names[names.length - 1]}`;
}

/** `1 week`, `3 weeks`. */
export function countOf(count: number, one: string, many = `${one}s`): string {
  return `${formatNumber(count)} ${count === 1 ? one : many}`;
}

/** The first letter as a capital; names that a coach writes in small letters stand at the start of a line so. */
export function capitalised(text: string): string {
  const first = [...text][0] ?? '';
  return first.toUpperCase() + text.slice(first.length);
}
