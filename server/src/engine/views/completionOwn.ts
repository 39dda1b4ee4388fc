import { normaliseName } from '../../../../grammar/index.js';
import { plannedRowNames } from './completionLog.js';
import type { Cursor } from './completionParts.js';

/** More choices than these are no help; the coach types the name and is offered what fits. */
const MOST_CHOICES = 40;

/**
 * A line of a client or group as a snippet whose places to fill in offer what there is: her kits, the programs, the
 * movements that her program asks for. Null for lines that have nothing of the kind. Dates and numbers are not made up.
 */
export function ownSnippet(cursor: Cursor, word: string): string | null {
  const world = cursor.session.world();
  const kits = [...world.kits.values()].map(({ name }) => name);
  const programs = [...world.programs.values()].map(({ name }) => name);
  const client = world.clients.get(normaliseName(cursor.context.names.client ?? ''));
  const unit = client?.units ?? 'kg';
  switch (word) {
    case 'trains at':
      return kits.length === 0 ? null : `trains at: ${choice(1, kits, 'kit')}$0`;
    case 'follows': {
      const days = [...world.clients.values()].flatMap(({ follows }) =>
        follows.flatMap(({ on }) => (on.length > 0 ? [on.join(' ')] : [])),
      );
      if (programs.length === 0) return null;
      return `follows: ${choice(1, programs, 'program')}, from \${2:date}, on ${choice(3, days, 'mon thu')}$0`;
    }
    case 'max':
      return `max: ${choice(1, movementsOf(cursor), 'movement')}, \${2:load}${unit} x\${3:reps} r\${4:reserve}, \${5:date}$0`;
    case 'swap':
      if (cursor.context.section === 'log') {
        const rows = plannedRowNames(cursor);
        return `swap: ${choice(1, rows, 'movement')}, to \${2:movement}, \${3:sets}, "\${4:why}"$0`;
      }
      return `swap: ${choice(1, movementsOf(cursor), 'movement')}, to \${2:movement}, from \${3:date}, "\${4:why}"$0`;
    case 'avoid':
      return `avoid: ${choice(1, movementsOf(cursor), 'movement or pattern')}, from \${2:date}, "\${3:why}"$0`;
    case 'mass':
      return `mass: \${1:mass}${unit}, \${2:date}$0`;
    default:
      return null;
  }
}

/** The movements that the client's programs ask for, in the order of the program; those without a max first. */
function movementsOf({ session, context }: Cursor): string[] {
  const world = session.world();
  const client = world.clients.get(normaliseName(context.names.client ?? ''));
  const keys = new Set(
    (client?.follows ?? []).flatMap(({ program }) =>
      (world.programs.get(program)?.blocks ?? []).flatMap(({ days }) =>
        days.flatMap(({ rows }) => rows.map(({ movement }) => movement)),
      ),
    ),
  );
  const known = new Set(client?.maxes.map(({ movement }) => movement));
  const names = (list: readonly string[]) => list.flatMap((key) => world.movements.get(key)?.name ?? []);
  const all = [...keys];
  return [...names(all.filter((key) => !known.has(key))), ...names(all.filter((key) => known.has(key)))];
}

/** A place to fill in that offers some words, the most frequent ones only once; a hint where there are none. */
function choice(stop: number, words: readonly string[], hint: string): string {
  const distinct = [...new Set(words)];
  const [only] = distinct;
  if (only === undefined || distinct.length > MOST_CHOICES) return `\${${stop}:${hint}}`;
  if (distinct.length === 1) return `\${${stop}:${plain(only)}}`;
  return `\${${stop}|${distinct.map(plain).join(',')}|}`;
}

function plain(text: string): string {
  return text.replace(/[\\$},|]/g, '\\$&');
}
