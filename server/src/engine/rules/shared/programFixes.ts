import { say } from '../../../../../grammar/say.js';
import { addDays } from '../../dates.js';
import type { ClientPlan, FindingFix, Follows } from '../../model.js';

/**
 * Moves the first day of a program by whole weeks, so that its weekdays stay. Null where it would not move, or where the
 * line is a group's and others would come along.
 */
export function startWeeksLater({ client }: ClientPlan, follows: Follows, weeks: number): FindingFix | null {
  if (weeks === 0 || follows.group !== null) return null;
  const from = addDays(follows.from, weeks * 7);
  return {
    title: say`${client.name}: begin ${follows.programName.text} on ${from}`,
    safe: false,
    edits: [{ file: follows.place.file, span: follows.node.from.span, newText: from }],
  };
}
