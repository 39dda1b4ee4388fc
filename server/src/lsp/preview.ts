import { z } from 'zod';
import { said, say } from '../../../grammar/say.js';
import { panelParts, sheetStyles } from '../engine/documents/draw.js';
import type { DocumentInput, DocumentKind } from '../engine/documents/kind.js';
import { DOCUMENT_KINDS, documentKind } from '../engine/documents/kinds.js';
import { mistakesIn } from '../engine/documents/mistakes.js';
import { fullDayWords } from '../engine/print/words.js';
import type { Preview, PreviewKind, StatusClient } from './messages.js';
import { Places } from './places.js';
import { statusOf } from './status.js';
import type { Scope, Workspace } from './workspace.js';

/** What the extension asks with. What makes no sense has its default. */
const previewParams = z.object({
  /** Any file of the folder, or the folder itself. */
  uri: z.string(),
  /** Key of the client; null: the one whose loads are shown. */
  client: z.string().nullable().catch(null),
  /** Kind of document; null: the first one. */
  kind: z.string().nullable().catch(null),
  options: z
    .object({
      large: z.boolean().catch(false),
      /** Null: the one of the settings. */
      size: z.enum(['a4', 'letter']).nullable().catch(null),
      date: z.iso.date().nullable().catch(null),
    })
    .catch({ large: false, size: null, date: null }),
});

export type PreviewParams = z.infer<typeof previewParams>;

/** Reads the parameters of the request; undefined when they name no file. */
export function readPreviewParams(value: unknown): PreviewParams | undefined {
  return previewParams.safeParse(value).data;
}

/** The kinds of documents for a list to choose from, in the coach's language. */
export function kindsToChoose(): readonly PreviewKind[] {
  return DOCUMENT_KINDS.map(({ id, title, about, dates, formats }) => ({
    id,
    title: said(title),
    aboutClient: about === 'client',
    hasDates: dates !== null,
    formats,
  }));
}

/** What the panel shows: a document drawn as it is printed, or why there is none and what to do. */
export function previewOf(workspace: Workspace, scope: Scope, today: string, params: PreviewParams): Preview {
  const { session } = scope;
  const status = statusOf(scope, workspace.keyOf(params.uri));
  const { clients } = status;
  const known = clients.some(({ key }) => key === params.client);
  const client = known ? params.client : status.shown;
  const kind = documentKind(params.kind);
  const choice = { kinds: kindsToChoose(), clients, kind: kind.id, client };
  if (clients.length === 0)
    return { ...choice, dates: [], date: null, notice: null, page: null, empty: noClient() };
  const plan = kind.about === 'client' && client !== null ? session.plan(client) : undefined;
  const mistakes = mistakesIn(session);
  const errors = plan ? mistakes(plan) : 0;
  const size = params.options.size ?? scope.settings.plan.size;
  const input: DocumentInput = { session, client, today, ...params.options, size, mistakes };
  const all = kind.dates?.(input) ?? [];
  const date = kind.dates === null ? null : params.options.date;
  const day = date !== null && all.includes(date) ? date : null;
  const made = kind.make({ ...input, date: day });
  const dates = all.map((each) => ({ date: each, title: fullDayWords(each) }));
  const shown = { ...choice, dates, date: day };
  if (made.length === 0)
    return { ...shown, notice: null, page: null, empty: nothingToShow(kind, clients, client) };
  const parts = made.map(({ drawing }) => panelParts(drawing));
  const places = new Places(workspace, scope);
  return {
    ...shown,
    notice: errors === 0 ? null : mistakesWords(errors),
    empty: null,
    page: {
      title: parts[0]?.title ?? said(kind.title),
      css: sheetStyles([...new Set(parts.map(({ css }) => css))].join('\n')),
      body: parts.map(({ body }) => places.hide(body)).join('\n'),
      sources: places.uris,
    },
  };
}

function mistakesWords(count: number): string {
  return count === 1
    ? say('The files have a mistake. Loads that rest on it are left blank.')
    : say`The files have ${count} mistakes. Loads that rest on them are left blank.`;
}

function noClient(): NonNullable<Preview['empty']> {
  return {
    heading: say('No client is written here yet'),
    text: say(
      '"Stave: New Client…" (press F1) asks a few questions and writes one. By hand, a line such as "client Heron" opens one; below it, "trains at:" says where she trains and "follows:" which program. Then her plan stands here.',
    ),
  };
}

function nothingToShow(
  kind: DocumentKind,
  clients: readonly StatusClient[],
  client: string | null,
): NonNullable<Preview['empty']> {
  if (kind.about === 'everyone') {
    return {
      heading: say('Nobody trains at a known place'),
      text: say(
        'A line "trains at:" under a client names a kit, and "follows:" gives her sessions dates. Then everyone who trains there on a day stands here.',
      ),
    };
  }
  const name = clients.find(({ key }) => key === client)?.name ?? '';
  return {
    heading: say`${name} has no sessions`,
    text: say(
      'A line under her name gives her some: "follows: PROGRAM, from 2026-12-07, on mon thu". Look also whether an absence covers all of them, or choose another client above.',
    ),
  };
}
