// biome-ignore-all lint/suspicious/noTemplateCurlyInString: these are tab stops of snippets.
import { say } from '../../../../../grammar/say.js';
import type { Client, IsoDate, ResolvedCell } from '../../model.js';
import { isOwnBlock, rowsOf } from '../rows.js';
import { touches } from '../text.js';
import { spotBehind } from './clientSpot.js';
import { type RefactorContext, type Refactoring, refuse, tried } from './refactoring.js';

/** A line that an editor can write with places to fill in. */
export interface SwapSnippet {
  readonly title: string;
  readonly file: string;
  readonly offset: number;
  readonly snippet: string;
}

interface Subject {
  readonly client: Client;
  readonly cell: ResolvedCell;
  readonly from: IsoDate;
  readonly easier: string | null;
  readonly harder: string | null;
}

/** The row under the cursor as the chosen client comes to it next. Null where she does not, or swaps it already. */
function subjectAt({ session, file, offset, clientKey, today }: RefactorContext): Subject | null {
  const tree = session.tree(file)?.value;
  const placed = tree && rowsOf(tree).find(({ row }) => touches(row.span, offset));
  const plan = clientKey === null ? undefined : session.plan(clientKey);
  if (!placed || !plan || plan.client.nodes.length === 0) return null;
  const cells = plan.sessions
    .flatMap((each) => each.cells)
    .filter((cell) => cell.row.place.file === file && cell.row.node.span.start === placed.row.span.start);
  const own = cells.filter(isOwnBlock);
  const cell = own.find(({ date }) => today === null || date >= today);
  if (!cell?.movement || cell.swap) return null;
  const from = today !== null && own.some(({ date }) => date < today) ? today : cell.date;
  const nameOf = (key: string | null): string | null =>
    key === null ? null : (session.world().movements.get(key)?.name ?? null);
  const { easier, harder } = cell.movement;
  return { client: plan.client, cell, from, easier: nameOf(easier), harder: nameOf(harder) };
}

/** Swap the movement under the cursor for an easier or a harder one, for one client, from her next session on. */
export function swapMovement(context: RefactorContext): Refactoring[] {
  const subject = subjectAt(context);
  if (!subject) return [];
  const { session } = context;
  const { client, cell, from } = subject;
  const name = cell.row.movementName.text;
  const choices = [
    { to: subject.easier, word: say('easier') },
    { to: subject.harder, word: say('harder') },
  ];
  return choices.flatMap(({ to, word }): Refactoring[] => {
    if (to === null) return [];
    return [
      {
        title: say`Swap ${name} for ${to} (${word}) for ${client.name}, from ${from}`,
        kind: 'refactor.rewrite',
        build: () => {
          const spot = spotBehind(context.session, client);
          if (!spot) return refuse(say('Her section could not be found.'));
          const before = `${spot.head}swap: ${name}, to ${to}, from ${from}, "`;
          const start = spot.offset + before.length;
          return tried(
            session,
            {
              edits: [
                {
                  file: spot.file,
                  span: { start: spot.offset, end: spot.offset },
                  newText: `${before}why"`,
                },
              ],
              newFiles: [],
              select: { file: spot.file, span: { start, end: start + 'why'.length } },
            },
            {
              intended: ({ before: work }) =>
                work.key.client === client.key &&
                work.cell.row.movement === cell.row.movement &&
                work.cell.date >= from,
            },
          );
        },
      },
    ];
  });
}

/** The same line with places to fill in: what instead, from when, why. */
export function swapSnippet(context: RefactorContext): SwapSnippet | null {
  const subject = subjectAt(context);
  const spot = subject && spotBehind(context.session, subject.client);
  if (!subject || !spot) return null;
  const { cell, client, from, easier, harder } = subject;
  const others = [...context.session.world().movements.values()]
    .filter(({ pattern, key }) => pattern === cell.movement?.pattern && key !== cell.movement.key)
    .map(({ name }) => name);
  const choices = [...new Set([easier, harder, ...others])].filter((name) => name !== null);
  const escaped = (text: string): string => text.replace(/[\\$},|]/g, '\\$&');
  const to = choices.length === 0 ? '${1:movement}' : `\${1|${choices.map(escaped).join(',')}|}`;
  const name = cell.row.movementName.text;
  return {
    title: say`Swap ${name} for ${client.name}…`,
    file: spot.file,
    offset: spot.offset,
    snippet: `${spot.head}swap: ${escaped(name)}, to ${to}, from \${2:${from}}, "\${3:why}"`,
  };
}
