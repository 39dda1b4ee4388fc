/** A session as lines of plain text, for a calendar entry or anything else that has no tables. */

import { say } from '../../../../grammar/say.js';
import type { DaySheet, EntrySheet, MovementSheet, WorkSheet } from '../print/document.js';

/** `3 × 6, leave 2 in reserve, 45 kg, each side 10 + 5 kg`. */
export function workLine(work: WorkSheet): string {
  const load = work.load ?? (work.chooseLoad ? say('load: choose on the day') : null);
  const parts = [work.dose, work.effort, load, work.plates];
  return [parts.filter((part) => part !== null && part !== '').join(', '), work.note]
    .filter((part) => part !== null && part !== '')
    .join('. ');
}

function movementLines(movement: MovementSheet): string[] {
  const indent = movement.inCircuit ? '  ' : '';
  const title = [movement.name, ...movement.details].join(', ');
  const rest = movement.rest === null ? [] : [say`rest ${movement.rest}`];
  const under = [...movement.texts, movement.warmUp, ...movement.steps, ...rest, movement.cue];
  return [
    `${indent}${title}: ${movement.work.map(workLine).join(say('; then '))}`,
    ...under.filter((text) => text !== null && text !== '').map((text) => `${indent}  ${text}`),
  ];
}

function entryLines(entry: EntrySheet): string[] {
  if (entry.kind === 'movement') return movementLines(entry.movement);
  return [entry.kind === 'text' ? entry.text : `${entry.heading}: ${entry.how}`];
}

/** All of a session, line by line, in the words of the printed plan. */
export function sessionLines(day: DaySheet): readonly string[] {
  return day.entries.flatMap(entryLines);
}
