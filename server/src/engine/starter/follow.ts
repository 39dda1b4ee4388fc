import { normaliseName } from '../../../../grammar/index.js';
import type { IsoDate, Place } from '../model.js';
import { documentFileStem } from '../print/fileName.js';
import type { EngineSession } from '../session.js';
import { free, type StarterFile } from './client.js';
import { laidOut } from './laidOut.js';
import { followsLine, LESSON_CODE, type StarterDays, starterProgram, type Waiting } from './program.js';
import { seedPrograms } from './seeds.js';

/** Id of the program that is made for the client; the shipped ones go by their names. */
export const MADE_FOR_HER = '';

/** A program that a client can be given, and what to write for it. */
export interface StarterChange {
  readonly name: string;
  /** The file of the program; null where it is written already. */
  readonly file: StarterFile | null;
  /** Where the line that follows it goes, and that line with the line break before it. */
  readonly at: Place;
  readonly line: string;
  /** Movements of her sets that the program leaves out. */
  readonly waiting: readonly Waiting[];
}

/**
 * Gives a client a program to start from: `MADE_FOR_HER`, or a shipped one by its name. Null where there is no such
 * client or program. `taken` has the paths of files that are there.
 */
export function starterChange(
  session: EngineSession,
  clientKey: string,
  program: string,
  days: StarterDays,
  taken: ReadonlySet<string> = new Set(),
): StarterChange | null {
  const client = session.world().clients.get(clientKey);
  const section = client?.nodes[0];
  if (!client || !section) return null;
  const made =
    program === MADE_FOR_HER ? starterProgram(session, clientKey, days) : shipped(session, program);
  if (!made) return null;
  const path = `programs/${documentFileStem(made.name, '').replace(/-$/, '').toLowerCase()}.stave`;
  const text = session.text(section.file) ?? '';
  const end = section.node.span.end;
  const lineBreak = text.includes('\r\n') ? '\r\n' : '\n';
  return {
    name: made.name,
    file: made.text === null ? null : { path: free(path, taken), text: made.text },
    at: { file: section.file, span: { start: end, end } },
    line: `${lineBreak}  ${followsLine(made.name, days)}`,
    waiting: made.waiting,
  };
}

function shipped(session: EngineSession, program: string) {
  const seed = seedPrograms().find(({ key }) => key === normaliseName(program));
  if (!seed) return null;
  const known = session.world().programs.has(seed.key);
  return { name: seed.name, text: known ? null : laidOut(`${seed.text}\n`), waiting: [] };
}

/** Where a coach can look first: a cell that has a load, and a finding to solve. */
export interface FirstPlaces {
  readonly load: Place | null;
  readonly finding: Place | null;
  /** Code of the finding. */
  readonly code: string | null;
}

/** The first cell of a client with a load in kilograms (else any load), and the warning of the starter program. */
export function firstPlaces(session: EngineSession, clientKey: string | null, today: IsoDate): FirstPlaces {
  const plan = clientKey === null ? undefined : session.plan(clientKey);
  const cells = (plan?.sessions ?? []).filter(({ date }) => date >= today).flatMap((each) => each.cells);
  const load =
    cells.find((cell) =>
      cell.groups.some(({ estimatedOneRepMaxKg: max, loadKg }) => max !== null && loadKg !== null),
    ) ?? cells.find((cell) => cell.groups.some(({ loadKg }) => loadKg !== null && loadKg > 0));
  const found = session
    .allFindings()
    .filter(({ severity }) => severity === 'warning' || severity === 'error');
  const finding = found.find(({ code }) => code === LESSON_CODE) ?? found[0];
  return { load: load?.place ?? null, finding: finding?.place ?? null, code: finding?.code ?? null };
}
