import type { CodeAction, CodeActionContext, Range } from 'vscode-languageserver-types';
import { CodeActionKind, CodeActionTriggerKind } from 'vscode-languageserver-types';
import { say } from '../../../grammar/say.js';
import type { Offer } from '../engine/history/offers.js';
import type { Place } from '../engine/model.js';
import { type OfferAction, offerActions } from '../engine/views/offers.js';
import type { ActionOptions } from './actions.js';
import { toSpan } from './convert.js';
import { workspaceEdit } from './edits.js';
import { isThere, type Located, toLocation } from './located.js';
import { shownClient } from './status.js';
import type { Workspace } from './workspace.js';

/**
 * What the logs suggest, each as an action that writes it, and what all of it rests on as a list to go to. An offer
 * that no line can say is an action that leads to what it rests on.
 */
export function offered(
  workspace: Workspace,
  located: Located,
  range: Range,
  context: CodeActionContext,
  options: ActionOptions,
): CodeAction[] {
  const { scope, file, document } = located;
  const { session } = scope;
  const today = session.today();
  if (today === null) return [];
  const found = offerActions(session, file, toSpan(document, range), today, shownClient(located));
  // What is written in a row is tried on a copy first; not with every move of the cursor.
  const automatic = context.triggerKind === CodeActionTriggerKind.Automatic;
  const kind = CodeActionKind.RefactorRewrite;
  const actions = found.flatMap((each): CodeAction[] => {
    if (automatic && each.offer.line === null) return [];
    const { offer } = each;
    const result = each.edits();
    if (result.ok) {
      const edit = workspaceEdit(workspace, scope, result.edits, options.versioned);
      return [{ title: `${offer.title}: ${result.text}`, kind, edit }];
    }
    const why = `${offer.why} ${result.because}`;
    const title = say`${offer.title}: see what it rests on`;
    return listAction(workspace, located, title, [{ offer, why }], options.listCommand);
  });
  return [...actions, ...restsActions(workspace, located, found, options.listCommand)];
}

/** For each client one list of what all of her offers rest on. */
function restsActions(
  workspace: Workspace,
  located: Located,
  found: readonly OfferAction[],
  command: string | undefined,
): CodeAction[] {
  const clients = [...new Set(found.map(({ client }) => client))];
  return clients.flatMap((client) => {
    const own = found
      .filter((each) => each.client === client)
      .map(({ offer }) => ({ offer, why: offer.why }));
    return listAction(workspace, located, say`${client}: see what the offers rest on`, own, command);
  });
}

function listAction(
  workspace: Workspace,
  { scope }: Located,
  title: string,
  offers: readonly { readonly offer: Offer; readonly why: string }[],
  command: string | undefined,
): CodeAction[] {
  const entries = offers
    .flatMap(({ offer, why }) => {
      const entry = (label: string, detail: string, place: Place) => {
        const location = toLocation(workspace, scope, place);
        return location && { heading: offer.title, label, detail, ...location };
      };
      return [
        entry(why, offer.source, offer.next?.cell.row.place ?? offer.under),
        ...offer.rests.map(({ message, place }) => entry(message, '', place)),
      ];
    })
    .filter(isThere);
  if (command === undefined || entries.length === 0) return [];
  return [
    {
      title,
      kind: CodeActionKind.RefactorRewrite,
      command: { title, command, arguments: [title, entries] },
    },
  ];
}
