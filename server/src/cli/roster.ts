/** `stave roster`: one line a client, the most urgent first. */
import { sessionRoster } from '../engine/history/kept.js';
import type { RosterLine } from '../engine/history/roster.js';
import { cellText } from '../engine/views/words.js';
import { readWorkspace, type Workspace } from './files.js';
import { placeOf } from './found.js';
import { EXIT, type Io } from './io.js';
import { type FileOptions, writeDocument } from './plan.js';
import { at, todayOption } from './review.js';
import { coloursOf, visible } from './text.js';

export const ROSTER_FORMATS = ['text', 'json'] as const;

export interface RosterOptions {
  readonly format: (typeof ROSTER_FORMATS)[number];
  readonly today: string | null;
  readonly in: string | null;
  /** Files to write; null: the text or JSON goes to standard output. */
  readonly files?: FileOptions | null;
}

export async function roster(paths: readonly string[], options: RosterOptions, io: Io): Promise<number> {
  const today = todayOption(options.today, io);
  if (options.files) {
    const { in: lookIn, files } = options;
    return writeDocument(paths, { document: 'roster', for: null, in: lookIn, ...files }, { ...io, today });
  }
  const workspace = await readWorkspace(paths, { ...io, today }, { lookIn: options.in });
  const lines = sessionRoster(workspace.session, today);
  if (options.format === 'json') {
    io.out(
      `${JSON.stringify({ version: 1, today, clients: lines.map((line) => lineJson(line, workspace)) }, null, 2)}\n`,
    );
  } else if (lines.length === 0) io.out('No client is written in these files.\n');
  else io.out(lines.map((line) => `${lineText(line, workspace, io)}\n`).join(''));
  return EXIT.clean;
}

/** One line: name, where she is, the next session with its loads, what needs a decision and where it is written. */
function lineText({ client, at: where, next, needs }: RosterLine, workspace: Workspace, io: Io): string {
  const colour = coloursOf(io);
  const position = where
    ? `${where.program.name} · ${where.block.name}, week ${where.week} of ${where.block.weeks}`
    : 'no program';
  const session = next
    ? `${next.date} ${next.day.name}: ${next.cells.map((cell) => `${cell.movement?.name ?? cell.row.movementName.text} ${loadsOf(cell)}`).join(', ')}`
    : 'no session ahead';
  const decide = needs.map((need) => `${need.text} (${at(workspace, need.place)})`).join('; ');
  const parts = [colour.bold(visible(client.name)), visible(position), visible(session)];
  return [...parts, decide === '' ? 'nothing to decide' : colour.yellow(visible(decide))].join(' | ');
}

/** Sets, reps and load; reasons and reserve are left to `stave loads`. */
function loadsOf(cell: Parameters<typeof cellText>[0]): string {
  return cellText({
    ...cell,
    groups: cell.groups.map((group) => ({
      ...group,
      reserve: null,
      share: null,
      eachSideKg: null,
      provisionalReason: null,
    })),
  });
}

function lineJson({ client, at: where, next, lastLogged, needs }: RosterLine, workspace: Workspace): object {
  return {
    client: client.name,
    program: where?.program.name ?? null,
    block: where?.block.name ?? null,
    week: where?.week ?? null,
    weeks: where?.block.weeks ?? null,
    lastLogged,
    next: next && {
      date: next.date,
      day: next.day.name,
      deload: next.deload,
      work: next.cells.map((cell) => ({
        movement: cell.movement?.name ?? cell.row.movementName.text,
        groups: cell.groups.map(({ sets, reps, seconds, metres, loadKg }) => ({
          sets,
          reps,
          seconds,
          metres,
          loadKg,
        })),
      })),
    },
    needs: needs.map(({ kind, urgency, text, place }) => {
      const { file, line, column } = placeOf(workspace, place);
      return { kind, urgency, text, file, line, column };
    }),
  };
}
