import type { CodeLens } from 'vscode-languageserver-types';
import { z } from 'zod';
import { say } from '../../../grammar/say.js';
import { type LensEntry, type LensTarget, lenses, lensWords } from '../engine/views/lenses.js';
import { toRange } from './convert.js';
import { isThere, type Located, toLocation } from './located.js';
import type { Workspace } from './workspace.js';

/** What a lens carries to the client and back. */
const lensData = z.object({
  uri: z.string(),
  kind: z.enum(['program', 'block', 'client', 'kit']),
  key: z.string(),
});

/** Where lenses stand; their words are asked for one by one, when they come into view. */
export function codeLenses({ scope, file, document }: Located): CodeLens[] {
  return lenses(scope.session, file, scope.settings.lenses).map(({ span, target }) => ({
    range: toRange(document, span),
    data: { uri: document.uri, ...target },
  }));
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
  listCommand: string | undefined,
): CodeLens {
  const target = lensData.safeParse(lens.data).data as (LensTarget & { uri: string }) | undefined;
  const words =
    located &&
    target &&
    lensWords(located.scope.session, located.file, target, located.scope.session.today());
  if (!located || !words) return { range: lens.range, command: { title: '', command: '' } };
  const entries = words.entries.map((entry) => listed(workspace, located, entry)).filter(isThere);
  const command = entries.length > 0 ? (listCommand ?? '') : '';
  return {
    range: lens.range,
    command: { title: words.title, command, ...(command !== '' && { arguments: [words.title, entries] }) },
  };
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
