import type { CodeLens } from 'vscode-languageserver-types';
import { z } from 'zod';
import { say } from '../../../grammar/say.js';
import { type LensEntry, type LensTarget, lenses, lensWords } from '../engine/views/lenses.js';
import { toRange } from './convert.js';
import { isThere, type Located, toLocation } from './located.js';
import { shownClient } from './status.js';
import type { Workspace } from './workspace.js';

/** What a lens carries to the client and back. */
const lensData = z.object({
  uri: z.string(),
  kind: z.enum(['program', 'block', 'client', 'kit', 'unshown']),
  key: z.string(),
});

/** Commands of the client that a click on a lens runs; undefined where it has none. */
export interface LensCommands {
  /** Shows a list of places. */
  readonly list: string | undefined;
  /** Asks whose loads to show. */
  readonly choose: string | undefined;
}

/** Where lenses stand; their words are asked for one by one, when they come into view. */
export function codeLenses(located: Located): CodeLens[] {
  const { scope, file, document } = located;
  const found = lenses(scope.session, file, scope.settings.lenses);
  return found.flatMap(({ span, target }) => {
    const range = toRange(document, span);
    const own = { range, data: { uri: document.uri, ...target } };
    if (target.kind !== 'program' || !unshown(located, target.key)) return [own];
    return [own, { range, data: { uri: document.uri, kind: 'unshown', key: target.key } }];
  });
}

/**
 * Name of the client whose loads a file shows, where she does not follow a program that others follow: its cells then
 * have no loads beside them, which looks like something broken.
 */
function unshown(located: Located, program: string): string | undefined {
  const { session } = located.scope;
  const shown = shownClient(located);
  const followers = session.followers(program);
  if (shown === null || followers.length === 0 || followers.includes(shown)) return undefined;
  return session.world().clients.get(shown)?.name;
}

/** The address of the file that a lens belongs to; undefined for one that is not ours. */
export function lensUri(lens: CodeLens): string | undefined {
  return lensData.safeParse(lens.data).data?.uri;
}

/**
 * A lens with its words. A click lists what it counts, where the client has a command for that. A lens without
 * anything to say gets an empty line, which editors show as nothing.
 */
export function resolveLens(
  workspace: Workspace,
  located: Located | undefined,
  lens: CodeLens,
  commands: LensCommands,
): CodeLens {
  const data = lensData.safeParse(lens.data).data;
  if (located && data?.kind === 'unshown') return unshownLens(lens, unshown(located, data.key), commands);
  const target = data as (LensTarget & { uri: string }) | undefined;
  const words =
    located &&
    target &&
    lensWords(located.scope.session, located.file, target, located.scope.session.today());
  if (!located || !words) return { range: lens.range, command: { title: '', command: '' } };
  const entries = words.entries.map((entry) => listed(workspace, located, entry)).filter(isThere);
  const command = entries.length > 0 ? (commands.list ?? '') : '';
  return {
    range: lens.range,
    command: { title: words.title, command, ...(command !== '' && { arguments: [words.title, entries] }) },
  };
}

function unshownLens(lens: CodeLens, name: string | undefined, { choose }: LensCommands): CodeLens {
  if (name === undefined) return { range: lens.range, command: { title: '', command: '' } };
  const why = say`No loads here: ${name} does not follow this program.`;
  const title = choose === undefined ? why : `${why} ${say('Choose another client…')}`;
  return { range: lens.range, command: { title, command: choose ?? '' } };
}

function listed(workspace: Workspace, { scope }: Located, { heading, label, detail, place }: LensEntry) {
  const location = toLocation(workspace, scope, place);
  return location && { heading: headings(heading), label, detail, ...location };
}

function headings(heading: LensEntry['heading']): string {
  const words: Record<LensEntry['heading'], string> = {
    clients: say('clients'),
    findings: say('findings'),
    sessions: say('next sessions'),
    offers: say('what the logs suggest'),
  };
  return words[heading];
}
