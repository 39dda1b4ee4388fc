import type { Span } from '../../../../grammar/index.js';
import { clientOffers } from '../history/history.js';
import type { Offer } from '../history/offers.js';
import type { IsoDate } from '../model.js';
import type { EngineSession } from '../session.js';
import type { FileEdit } from './navigation.js';
import { indentAt, lineBreakOf, lineSpanAt, meets, sectionAt } from './text.js';

/** An offer as an edit that the coach may take. */
export interface OfferAction {
  readonly title: string;
  readonly offer: Offer;
  readonly edits: readonly FileEdit[];
}

/**
 * What the logs suggest for the client whose section or log a span touches: lines to be added to her section. Offers
 * without a line are advice, and are left to the review.
 */
export function offerActions(
  session: EngineSession,
  file: string,
  span: Span,
  today: IsoDate,
): OfferAction[] {
  const tree = session.tree(file)?.value;
  if (!tree) return [];
  const section = sectionAt(tree, span.start);
  if (!section || !meets(section.span, span)) return [];
  const keys =
    section.kind === 'client'
      ? [section.name.key]
      : section.kind === 'log'
        ? section.clients.map(({ key }) => key)
        : [];
  return keys.flatMap((key) => {
    const plan = session.plan(key);
    if (!plan) return [];
    return clientOffers(plan, session.world(), today, session.signOffCriteria(key)).flatMap((offer) => {
      const edit = offerEdit(session, offer);
      return edit ? [{ title: `${offer.title}: ${offer.line}`, offer, edits: [edit] }] : [];
    });
  });
}

/** The line of an offer as a line of its own, under the line that it belongs under, with that line's indent. */
function offerEdit(session: EngineSession, { line, under }: Offer): FileEdit | null {
  const text = session.text(under.file);
  if (line === null || text === undefined) return null;
  // Behind a note at the end of the line, not before it.
  const { start, end } = lineSpanAt(text, under.span.end);
  const isHeader = /^\s*client\b/i.test(text.slice(start, end));
  const indent = isHeader ? '  ' : indentAt(text, under.span.end);
  return { file: under.file, span: { start: end, end }, newText: `${lineBreakOf(text)}${indent}${line}` };
}
