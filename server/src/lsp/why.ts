import * as l10n from '@vscode/l10n';
import { z } from 'zod';
import { capitalised, dayWords } from '../engine/print/words.js';
import { explainAt } from '../engine/views/explain/explain.js';
import { emptyHtml, explainHtml } from '../engine/views/explain/explainHtml.js';
import type { Located } from './located.js';
import type { Why } from './messages.js';
import { Places } from './places.js';
import { shownClient } from './status.js';
import { fileName } from './uris.js';
import type { Workspace } from './workspace.js';

const whyParams = z.object({
  uri: z.string(),
  /** The cursor; where it stands in no cell, the page says so. */
  position: z.object({ line: z.int().min(0), character: z.int().min(0) }),
  /** Key of the client; null: the one whose loads are shown. */
  client: z.string().nullable().catch(null),
  /** The day that is explained; null: the next one. */
  day: z.iso.date().nullable().catch(null),
});

export type WhyParams = z.infer<typeof whyParams>;

/** Reads the parameters of the request; undefined when they name no place. */
export function readWhyParams(value: unknown): WhyParams | undefined {
  return whyParams.safeParse(value).data;
}

/** The reasons of the cell at a position, as a page; in their place what to do where there are none. */
export function whyOf(workspace: Workspace, located: Located, params: WhyParams): Why {
  const { scope, file, document } = located;
  const client = params.client ?? shownClient(located);
  const explained = explainAt(scope.session, file, document.offsetAt(params.position), {
    client,
    date: params.day,
  });
  const places = new Places(workspace, scope);
  const page = { view: 'why' as const, fields: [], sources: places.uris };
  if (!explained.ok) {
    const { heading, text } = explained;
    return {
      ...page,
      found: false,
      ...{ title: l10n.t('Why this load'), clients: [], client, days: [], day: null },
      body: emptyHtml(heading, text),
      spoken: `${heading}. ${text}`,
    };
  }
  const { explanation } = explained;
  const { movement, groups, days } = explanation;
  const name = explanation.client.name;
  const blocks = new Set(days.map(({ block }) => block)).size;
  return {
    ...page,
    found: true,
    title: `${capitalised(movement)} · ${name}`,
    clients: explanation.clients,
    client: explanation.client.key,
    days: days.map(({ date, block, week }) => ({
      date,
      title: [...(blocks > 1 ? [block] : []), l10n.t('week {0}', week), dayWords(date)].join(', '),
    })),
    day: explanation.date,
    body: places.hide(explainHtml(explanation, fileName)),
    spoken: `${movement}, ${name}, ${dayWords(explanation.date)}: ${groups.map(({ heading }) => heading).join('; ')}`,
  };
}
