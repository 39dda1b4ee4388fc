/** The kinds of documents, in the order in which they are offered. */

import { later } from '../../../../grammar/say.js';
import { sessionReview, sessionRoster } from '../history/kept.js';
import type { Review } from '../history/review.js';
import type { ClientPlan, IsoDate, Session } from '../model.js';
import { buildPlanDocument } from '../print/build.js';
import { buildCards } from '../print/card.js';
import { buildFloorSheet, sessionsAt } from '../print/floor.js';
import { buildOverview } from '../print/overview.js';
import type { Paper } from '../print/paper/document.js';
import { buildReview } from '../print/review.js';
import { buildRoster } from '../print/roster.js';
import { buildYears } from '../print/years.js';
import type { DocumentInput, DocumentKind, MadeDocument } from './kind.js';

/** The ending of the name of a file in large print. */
const largeSuffix = ({ large }: DocumentInput): string => (large ? '-large' : '');

function clientPlan({ session, client }: DocumentInput): ClientPlan | undefined {
  return client === null ? undefined : session.plan(client);
}

const printing = ({ today, size, large }: DocumentInput) => ({ printedOn: today, size, large });

function paper(name: string, suffix: string, made: Paper): MadeDocument {
  return { name, suffix, drawing: { form: 'paper', paper: made } };
}

/** The dates of sessions, each once, in order. */
function datesOf(sessions: readonly Session[]): readonly IsoDate[] {
  return [...new Set(sessions.map(({ date }) => date))].sort();
}

/** The day asked for; else the next one, else the first. */
function dayOf(dates: readonly IsoDate[], { date, today }: DocumentInput): IsoDate | undefined {
  return date ?? dates.find((known) => known >= today) ?? dates[0];
}

const plan: DocumentKind = {
  id: 'plan',
  title: later('Plan'),
  about: 'client',
  formats: ['html', 'pdf', 'ics', 'csv', 'json', 'md'],
  dates: null,
  make(input) {
    const own = clientPlan(input);
    if (!own || own.sessions.length === 0) return [];
    const { session, today, size, large, mistakes } = input;
    const world = session.world();
    const document = buildPlanDocument(own, world, {
      from: null,
      until: null,
      printedOn: today,
      errors: mistakes(own),
      size,
    });
    return [
      {
        name: own.client.name,
        suffix: `plan${largeSuffix(input)}`,
        drawing: { form: 'plan', document, plan: own, world, size, large, printedOn: today },
      },
    ];
  },
};

const card: DocumentKind = {
  id: 'card',
  title: later('Session card'),
  about: 'client',
  formats: ['html', 'pdf'],
  dates: (input) => datesOf(clientPlan(input)?.sessions ?? []),
  make(input) {
    const own = clientPlan(input);
    const date = dayOf(datesOf(own?.sessions ?? []), input);
    const ofDay = own?.sessions.filter((session) => session.date === date) ?? [];
    if (!own || ofDay.length === 0) return [];
    const suffix = `card-${date}${largeSuffix(input)}`;
    return [paper(own.client.name, suffix, buildCards(own, ofDay, printing(input), input.session.world()))];
  },
};

function everyPlan({ session }: DocumentInput): readonly ClientPlan[] {
  return [...session.world().clients.keys()].sort().flatMap((key) => session.plan(key) ?? []);
}

function placedDates(plans: readonly ClientPlan[]): readonly IsoDate[] {
  return datesOf(plans.flatMap(({ sessions }) => sessions.filter(({ kit }) => kit !== null)));
}

const floor: DocumentKind = {
  id: 'floor',
  title: later('Floor sheet'),
  about: 'everyone',
  formats: ['html', 'pdf'],
  dates: (input) => placedDates(everyPlan(input)),
  make(input) {
    const plans = everyPlan(input);
    const date = dayOf(placedDates(plans), input);
    if (date === undefined) return [];
    const kits = [...input.session.world().kits.values()].sort((a, b) => (a.key < b.key ? -1 : 1));
    return kits.flatMap((kit) => {
      const sessions = sessionsAt(plans, kit.key, date);
      if (sessions.length === 0) return [];
      const suffix = `floor-${date}${largeSuffix(input)}`;
      return [paper(kit.name, suffix, buildFloorSheet(kit, sessions, { ...printing(input), date }))];
    });
  },
};

const overview: DocumentKind = {
  id: 'overview',
  title: later('Overview'),
  about: 'client',
  formats: ['html', 'pdf'],
  dates: null,
  make(input) {
    const own = clientPlan(input);
    if (!own || own.sessions.length === 0) return [];
    const made = buildOverview(own, own.sessions, input.session.world(), printing(input));
    return [paper(own.client.name, `overview${largeSuffix(input)}`, made)];
  },
};

function reviewFor({ session, client, today }: DocumentInput): Review | null {
  return client === null ? null : sessionReview(session, client, today);
}

const review: DocumentKind = {
  id: 'review',
  title: later('Review'),
  about: 'client',
  formats: ['html', 'pdf'],
  dates: null,
  make(input) {
    const found = reviewFor(input);
    if (!found) return [];
    const made = buildReview(found, { ...printing(input), from: null });
    return [paper(found.client.name, `review${largeSuffix(input)}`, made)];
  },
};

const years: DocumentKind = {
  id: 'years',
  title: later('Years'),
  about: 'client',
  formats: ['html', 'pdf'],
  dates: null,
  make(input) {
    const found = reviewFor(input);
    if (!found) return [];
    return [paper(found.client.name, `years${largeSuffix(input)}`, buildYears(found, printing(input)))];
  },
};

const roster: DocumentKind = {
  id: 'roster',
  title: later('Roster'),
  about: 'everyone',
  formats: ['html', 'pdf'],
  dates: null,
  make(input) {
    const { session, today } = input;
    const lines = sessionRoster(session, today);
    if (lines.length === 0) return [];
    return [
      paper('roster', `${today}${largeSuffix(input)}`, buildRoster(lines, { ...printing(input), today })),
    ];
  },
};

export const DOCUMENT_KINDS: readonly DocumentKind[] = [plan, card, floor, overview, review, years, roster];

/** The kind of that id; the first one for an id that nobody knows. */
export function documentKind(id: string | null): DocumentKind {
  return DOCUMENT_KINDS.find((kind) => kind.id === id) ?? plan;
}
