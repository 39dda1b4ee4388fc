import { z } from 'zod';
import { say } from '../../../grammar/say.js';
import { capitalised, dayWords } from '../engine/print/words.js';
import { explainAt } from '../engine/views/explain/explain.js';
import { emptyHtml, explainHtml } from '../engine/views/explain/explainHtml.js';
import { whatIf } from '../engine/views/explain/whatIf.js';
import { whatIfFields } from '../engine/views/explain/whatIfFields.js';
import { whatIfHtml, whatIfSummary } from '../engine/views/explain/whatIfHtml.js';
import type { Located } from './located.js';
import type { Why } from './messages.js';
import { Places } from './places.js';
import { shownClient, statusOf } from './status.js';
import { fileName } from './uris.js';
import type { Workspace } from './workspace.js';

const whyParams = z.object({
  uri: z.string(),
  view: z.enum(['why', 'if']).catch('why'),
  /** The cursor; where it stands in no cell, the page says so. */
  position: z.object({ line: z.int().min(0), character: z.int().min(0) }),
  /** Key of the client; null: the one whose loads are shown. */
  client: z.string().nullable().catch(null),
  /** The day that is explained; null: the next one. */
  day: z.iso.date().nullable().catch(null),
  /** What is written differently, by the field's id. */
  changes: z.record(z.string(), z.string()).catch({}),
});

export type WhyParams = z.infer<typeof whyParams>;

/** Reads the parameters of the request; undefined when they name no place. */
export function readWhyParams(value: unknown): WhyParams | undefined {
  return whyParams.safeParse(value).data;
}

/** The page that is asked for; in its place what to do where there is nothing to show. */
export function whyOf(workspace: Workspace, located: Located, params: WhyParams): Why {
  return params.view === 'if' ? whatIfOf(workspace, located, params) : reasonsOf(workspace, located, params);
}

/** The reasons of the cell at a position. */
function reasonsOf(workspace: Workspace, located: Located, params: WhyParams): Why {
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
      ...{ title: say('Why this load'), clients: [], client, days: [], day: null },
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
      title: [...(blocks > 1 ? [block] : []), say`week ${week}`, dayWords(date)].join(', '),
    })),
    day: explanation.date,
    body: places.hide(explainHtml(explanation, fileName)),
    spoken: `${movement}, ${name}, ${dayWords(explanation.date)}: ${groups.map(({ heading }) => heading).join('; ')}`,
  };
}

/** What would be if a max or a kit of a client were written differently. */
function whatIfOf(workspace: Workspace, located: Located, params: WhyParams): Why {
  const { scope, file } = located;
  const { session } = scope;
  const { clients, shown } = statusOf(scope, file);
  const chosen = clients.some(({ key }) => key === params.client) ? params.client : shown;
  const client = session.world().clients.get(chosen ?? '');
  const places = new Places(workspace, scope);
  const page = {
    ...{ view: 'if' as const, days: [], day: null, sources: places.uris },
    clients: clients.map(({ key, name }) => ({ key, name })),
  };
  if (!client) {
    const heading = say('No client is written here yet');
    const text = say(
      '"Stave: New Client…" (press F1) asks a few questions and writes one. Then her maxes and kits stand here.',
    );
    return {
      ...page,
      ...{ found: false, title: say('What if'), client: null, fields: [] },
      body: emptyHtml(heading, text),
      spoken: `${heading}. ${text}`,
    };
  }
  const compared = whatIf(session, client, params.changes);
  const groups = { max: say('Newest maxes'), kit: say('Kits'), more: say('Further lines of hers') };
  return {
    ...page,
    found: true,
    title: say`What if · ${client.name}`,
    client: client.key,
    fields: whatIfFields(session, client).map(({ id, group, label, written }) => ({
      ...{ id, group: groups[group], label, written },
      long: group !== 'max',
      problem: compared.problems.get(id) ?? null,
    })),
    body: places.hide(whatIfHtml(compared, fileName)),
    spoken: whatIfSummary(compared),
  };
}
