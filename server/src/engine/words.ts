import { filled, say } from '../../../grammar/say.js';
import { formatNumber } from './numbers.js';

/** Wording that findings and printed documents share, so that all outputs say the same. */

/** `Heron`, `Heron and Wren`, `Heron, Plover and Wren`. */
export function listOf(names: readonly string[], last: 'and' | 'or' = 'and'): string {
  if (names.length < 2) return names.join('');
  const [before, end] = [names.slice(0, -1).join(', '), names[names.length - 1] ?? ''];
  return last === 'or' ? say`${before} or ${end}` : say`${before} and ${end}`;
}

/** `1 week`, `3 weeks`: of one thing and of several, whose keys are `{0} week` and `{0} weeks`. */
export function countOf(count: number, one: string, many = `${one}s`): string {
  return filled(`{0} ${count === 1 ? one : many}`, formatNumber(count));
}

/** The first letter as a capital; names that a coach writes in small letters stand at the start of a line so. */
export function capitalised(text: string): string {
  const first = [...text][0] ?? '';
  return first.toUpperCase() + text.slice(first.length);
}
