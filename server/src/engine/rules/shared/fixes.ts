import type { PatternName } from '../../../../../grammar/index.js';
import { say } from '../../../../../grammar/say.js';
import { isWithin } from '../../dates.js';
import { availableLoads } from '../../kit.js';
import type { Client, FindingFix, Kit, Movement, ResolvedCell, Session } from '../../model.js';
import type { BlockWorld } from '../../ruleForm.js';
import { stageAllows } from '../../stages.js';
import { readinessOn } from './readiness.js';

/** Repairs as text edits. A repair never leaves text behind that the notation does not take. */

/** Adds a line to a client, at the end of the section that was written first. Null when there is none. */
export function addClientLine(client: Client, line: string, title: string): FindingFix | null {
  const section = client.nodes[0];
  if (!section) return null;
  const end = section.node.span.end;
  return {
    title,
    safe: false,
    edits: [{ file: section.file, span: { start: end, end }, newText: `\n  ${line}` }],
  };
}

/** Adds a max line to fill in, as a note, so that no weight is invented. */
export function maxForm(client: Client, name: string, date: string): FindingFix | null {
  return addClientLine(
    client,
    say`-- max: ${name}, LOADkg x5 r2, ${date} -- fill in a set that was done, then take the first two dashes away`,
    say`${client.name}: add a max line to fill in`,
  );
}

/** Adds a screening line to fill in, as a note, so that no date is invented. Null where the client has one. */
export function screeningForm(client: Client): FindingFix | null {
  if (client.screened !== null) return null;
  return addClientLine(
    client,
    say('-- screened: DATE -- fill in the day of the screening, then take the first two dashes away'),
    say`${client.name}: add a line to fill in once she is screened`,
  );
}

/**
 * Adds a row to fill in at the end of a day, as a note, so that nobody trains what nobody chose: the first movement of
 * some patterns that the kit has and her sign-offs cover. Null where there is none.
 */
export function rowForm(
  world: BlockWorld,
  session: Session,
  patterns: readonly PatternName[],
  dose: string,
): FindingFix | null {
  const { client, kit, date, day } = session;
  for (const movement of world.movements.values()) {
    if (!patterns.includes(movement.pattern) || movement.implement.kind === 'machine') continue;
    if (kit === null || !kitHas(kit, movement) || isAvoided(client, movement, date)) continue;
    if (!stageAllows(readinessOn(client, movement.pattern, date).stage, movement.stage)) continue;
    const { end } = day.node.span;
    const row = say`-- ${movement.name}: ${dose} -- complete this row, then take the first two dashes away`;
    return {
      title: say`Add a row to fill in on the day "${day.name}": ${movement.name}`,
      safe: false,
      edits: [{ file: day.place.file, span: { start: end, end }, newText: `\n  ${row}` }],
    };
  }
  return null;
}

function isAvoided(client: Client, movement: Movement, date: string): boolean {
  return client.avoids.some(
    ({ what, from, until }) =>
      (what === movement.key || what === movement.pattern) && isWithin(date, from, until),
  );
}

/**
 * Swaps the movement of a cell for an easier one that the kit has, for this client alone and only as long as the cells
 * last. Sets, reps and effort stay as the row has them. Null when no such movement is within what she may do, or none
 * that `suits`.
 */
export function swapAtKit(
  world: BlockWorld,
  cells: readonly ResolvedCell[],
  why: string,
  suits: (movement: Movement) => boolean = () => true,
): FindingFix | null {
  const first = cells[0];
  const last = cells[cells.length - 1];
  if (!first?.movement || !last || first.swap) return null;
  const { client, kit, date } = first;
  const mayDo = (key: string): boolean => {
    const movement = world.movements.get(key);
    if (!movement || !kitHas(kit, movement) || !suits(movement)) return false;
    if (movement.implement.kind === 'machine') return false;
    return (
      !isAvoided(client, movement, date) &&
      stageAllows(readinessOn(client, movement.pattern, date).stage, movement.stage)
    );
  };
  const easier = easierWithin(world, first.movement.key, mayDo);
  if (easier === null) return null;
  return addClientLine(
    client,
    `swap: ${first.row.movementName.text}, to ${easier}, from ${date} until ${last.date}, "${why}"`,
    say`${client.name}: ${easier} instead of ${first.movement.name} until ${last.date}`,
  );
}

/**
 * Swaps the movement of a cell for its easier one, for this client alone and only as long as the cells last, with a
 * dose that her sign-off covers. Null when no easier movement within her stage is known.
 */
export function swapForEasier(
  world: BlockWorld,
  cells: readonly ResolvedCell[],
  allowed: 'learn' | 'load',
  covers: (movementKey: string) => boolean,
): FindingFix | null {
  const first = cells[0];
  const last = cells[cells.length - 1];
  if (!first?.movement || !last || first.swap) return null;
  const easier = easierWithin(world, first.movement.key, covers);
  if (easier === null) return null;
  const dose = allowed === 'load' ? '3x8 r4' : '3x10 r5';
  const until = last.date === first.date ? first.date : last.date;
  return addClientLine(
    first.client,
    `swap: ${first.row.movementName.text}, to ${easier}, ${dose}, from ${first.date} until ${until}, "${say('not signed off yet')}"`,
    say`${first.client.name}: ${easier} instead of ${first.movement.name}, ${dose}, until ${until}`,
  );
}

/** Whether a kit has what a movement is done with; where nothing is known of the kit, nothing speaks against it. */
export function kitHas(kit: Kit | null, movement: Movement | undefined): boolean {
  if (kit === null || !movement) return movement !== undefined;
  if (movement.implement.kind === 'band') return kit.model.bands.length > 0;
  return availableLoads(kit.model, movement.implement).length > 0;
}

/** The nearest easier movement that `covers` accepts, by name. */
export function easierWithin(
  world: BlockWorld,
  movementKey: string,
  covers: (key: string) => boolean,
): string | null {
  const seen = new Set<string>([movementKey]);
  let key = world.movements.get(movementKey)?.easier ?? null;
  while (key !== null && !seen.has(key)) {
    seen.add(key);
    const movement = world.movements.get(key);
    if (!movement) return null;
    if (covers(key)) return movement.name;
    key = movement.easier;
  }
  return null;
}

/** Keeps the fixes that exist. */
export function fixesOf(...fixes: readonly (FindingFix | null)[]): readonly FindingFix[] {
  return fixes.filter((fix) => fix !== null);
}

/**
 * Whether a fix only adds a form to fill in (`-- max: …`), and the same form stands there already because it was taken
 * before. `textOf` gives the text of a file.
 */
export function standsAlready(fix: FindingFix, textOf: (file: string) => string): boolean {
  return fix.edits.every(({ file, span, newText }) => {
    const form = newText.trim();
    if (span.start !== span.end || !form.startsWith('--')) return false;
    const text = textOf(file);
    const before = text.slice(0, span.start).split('\n').reverse();
    const after = text.slice(span.start).split('\n').slice(1);
    return [before, after].some((lines) => {
      const end = lines.findIndex((line) => line.trim() !== '' && !line.trim().startsWith('--'));
      return lines.slice(0, end < 0 ? undefined : end).some((line) => line.trim() === form);
    });
  });
}
