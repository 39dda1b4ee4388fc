import type { Span } from '../../../../grammar/index.js';
import { clientOffers } from '../history/history.js';
import type { Offer } from '../history/offers.js';
import type { ClientPlan, IsoDate } from '../model.js';
import type { EngineSession } from '../session.js';
import { type OfferEdits, offerEdits } from './offerEdits.js';
import { rowsOf } from './rows.js';
import { meets, sectionAt, touches } from './text.js';

/** An offer that the coach may take, or look at where nothing can be written. */
export interface OfferAction {
  readonly client: string;
  readonly offer: Offer;
  /** Worked out when it is asked for: what is written in a row is tried first. */
  readonly edits: () => OfferEdits;
}

/**
 * What the logs suggest: for the clients whose section or log a span touches, and in a row of a program for the client
 * whose loads are shown, as far as it is about that row.
 */
export function offerActions(
  session: EngineSession,
  file: string,
  span: Span,
  today: IsoDate,
  shownClient: string | null = null,
): OfferAction[] {
  const tree = session.tree(file)?.value;
  if (!tree) return [];
  const section = sectionAt(tree, span.start);
  if (!section || !meets(section.span, span)) return [];
  if (section.kind === 'client') return actionsOf(session, section.name.key, today);
  if (section.kind === 'log') return section.clients.flatMap(({ key }) => actionsOf(session, key, today));
  const placed = rowsOf(tree).find(({ row }) => touches(row.span, span.start));
  if (!placed || shownClient === null) return [];
  const program = placed.program.name.key;
  return actionsOf(
    session,
    shownClient,
    today,
    ({ about }, plan) =>
      about === placed.row.movement.key && plan.client.follows.some((line) => line.program === program),
  );
}

function actionsOf(
  session: EngineSession,
  key: string,
  today: IsoDate,
  isMeant: (offer: Offer, plan: ClientPlan) => boolean = () => true,
): OfferAction[] {
  const plan = session.plan(key);
  if (!plan) return [];
  return clientOffers(plan, session.world(), today, session.signOffCriteria(key))
    .filter((offer) => isMeant(offer, plan))
    .map((offer) => ({
      client: plan.client.name,
      offer,
      edits: () => offerEdits(session, plan, offer),
    }));
}
