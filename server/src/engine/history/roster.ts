/** The roster: one line a client, with where she is, what comes next and what needs a decision today. */
import { say } from '../../../../grammar/say.js';
import { daysBetween } from '../dates.js';
import type { Client, ClientPlan, IsoDate, Place, Session, World } from '../model.js';
import { formatNumber } from '../numbers.js';
import type { RuleContext } from '../ruleForm.js';
import { HOLD_FROM, PAIN_CODE, STOP_ABOVE } from '../rules/painReported.js';
import { SCREENING_CODE, VALID_DAYS } from '../rules/screeningOld.js';
import { countOf } from '../rules/shared/words.js';
import type { SessionDone } from './done.js';
import { type History, recentHistory } from './history.js';
import { type Offer, offersFor } from './offers.js';
import type { SignOffCriteria } from './signOffCriteria.js';

export type NeedKind =
  | 'pain'
  | 'step-back'
  | 'missed'
  | 'screening'
  | 'max-stale'
  | 'max-offer'
  | 'next-load'
  | 'program-ends'
  | 'no-program'
  | 'sign-off'
  | 'deload';

/** Something that needs a decision. 0 is the most urgent. */
export interface Need {
  readonly kind: NeedKind;
  readonly urgency: number;
  readonly text: string;
  /** The line to go to. */
  readonly place: Place;
}

export interface RosterLine {
  readonly client: Client;
  /** The session that she is at: the last one up to today, else the first one to come. */
  readonly at: Session | null;
  /** The first session from today on without a log. */
  readonly next: Session | null;
  readonly lastLogged: IsoDate | null;
  /** Most urgent first. */
  readonly needs: readonly Need[];
}

/** Days for which pain in a log asks for a decision. Common practice, no source. */
const PAIN_DAYS = 14;
const ENDS_IN_DAYS = 14;
const DELOAD_IN_DAYS = 7;

/** Numbers of rules that the roster goes by too, so that both say the same. */
export interface RosterNumbers {
  readonly painHold: number;
  /** Above this score: stop and refer. */
  readonly painStop: number;
  readonly screeningDays: number;
}

/** The numbers that are set, else the rules' defaults. */
export function rosterNumbers(context: Pick<RuleContext, 'option'> = DEFAULTS): RosterNumbers {
  return {
    painHold: context.option(PAIN_CODE, HOLD_FROM),
    painStop: context.option(PAIN_CODE, STOP_ABOVE),
    screeningDays: context.option(SCREENING_CODE, VALID_DAYS),
  };
}

const DEFAULTS: Pick<RuleContext, 'option'> = { option: (_code, option) => option.default };

/** What is set for one client; what is missing has its default. */
export interface RosterSettings {
  readonly criteria?: readonly SignOffCriteria[];
  readonly numbers?: RosterNumbers;
}

/** A line for each client who follows a program or has a log, the most urgent first, then by next session and name. */
export function rosterOf(
  plans: Iterable<ClientPlan>,
  world: World,
  today: IsoDate,
  settingsOf?: (clientKey: string) => RosterSettings,
): readonly RosterLine[] {
  const lines: RosterLine[] = [];
  for (const plan of plans) lines.push(rosterLine(plan, world, today, settingsOf?.(plan.client.key)));
  return lines.sort(byUrgency);
}

/** The order of the roster: the most urgent first, then by next session and name. */
export function byUrgency(a: RosterLine, b: RosterLine): number {
  const first = (line: RosterLine) => line.needs[0]?.urgency ?? 99;
  if (first(a) !== first(b)) return first(a) - first(b);
  const date = (line: RosterLine) => line.next?.date ?? '9999';
  if (date(a) !== date(b)) return date(a) < date(b) ? -1 : 1;
  return a.client.key < b.client.key ? -1 : 1;
}

export function rosterLine(
  plan: ClientPlan,
  world: World,
  today: IsoDate,
  { criteria, numbers = rosterNumbers() }: RosterSettings = {},
  history: History = recentHistory(plan, world, today, criteria),
): RosterLine {
  const done = history.done.filter(({ date }) => date <= today);
  const logged = new Set(done.flatMap(({ session }) => session ?? []));
  const next = plan.sessions.find((session) => session.date >= today && !logged.has(session)) ?? null;
  const at = plan.sessions.findLast(({ date }) => date <= today) ?? plan.sessions[0] ?? null;
  const offers = offersFor({
    plan,
    world,
    done,
    estimates: history.estimates,
    today,
    ...(criteria ? { criteria } : {}),
  });
  const needs = [
    ...painNeeds(done, today, numbers),
    ...missedNeeds(plan, logged, done, today),
    ...screeningNeeds(plan.client, today, numbers),
    ...staleNeeds(plan.client, next),
    ...programNeeds(plan, today),
    ...deloadNeeds(next, today),
    ...offers.map(offerNeed),
  ].sort((a, b) => a.urgency - b.urgency);
  return { client: plan.client, at, next, lastLogged: done[done.length - 1]?.date ?? null, needs };
}

function painNeeds(
  done: readonly SessionDone[],
  today: IsoDate,
  { painHold, painStop }: RosterNumbers,
): Need[] {
  const recent = done
    .filter(({ date }) => daysBetween(date, today) <= PAIN_DAYS)
    .flatMap(({ pains }) => pains);
  return recent
    .filter(({ score }) => score >= Math.min(painHold, painStop + 1))
    .map(({ where, score, date, place }) => ({
      kind: 'pain',
      urgency: score > painStop ? 0 : 1,
      text: say`pain ${formatNumber(score, 1)}/10 in ${where} on ${date}: ${score > painStop ? say('stop and refer') : say('hold, easier movement')}`,
      place,
    }));
}

/** The last two sessions that should have been, neither of them logged, of a client who is logged at all. */
function missedNeeds(
  plan: ClientPlan,
  logged: ReadonlySet<Session>,
  done: readonly SessionDone[],
  today: IsoDate,
): Need[] {
  const past = plan.sessions.filter(({ date }) => date < today).slice(-2);
  const last = past[past.length - 1];
  if (done.length === 0 || past.length < 2 || !last || daysBetween(last.date, today) > ENDS_IN_DAYS)
    return [];
  if (past.some((session) => logged.has(session))) return [];
  // A log on another day that answers no session still says that she was there.
  if (done.some(({ date }) => date >= (past[0] as Session).date)) return [];
  return [
    {
      kind: 'missed',
      urgency: 3,
      text: say`no log of the last two sessions (${past.map(({ date }) => date).join(', ')})`,
      place: plan.client.place,
    },
  ];
}

function screeningNeeds(client: Client, today: IsoDate, { screeningDays }: RosterNumbers): Need[] {
  if (client.screened === null) {
    return [{ kind: 'screening', urgency: 3, text: say('no screening is written'), place: client.place }];
  }
  const days = daysBetween(client.screened, today);
  if (days <= screeningDays) return [];
  return [
    {
      kind: 'screening',
      urgency: 3,
      text: say`screening of ${client.screened} has run out`,
      place: client.place,
    },
  ];
}

function staleNeeds(client: Client, next: Session | null): Need[] {
  const found = new Map<string, Need>();
  for (const cell of next?.cells ?? []) {
    for (const { max, loadKg } of cell.groups) {
      if (!max || loadKg === null || max.ageDays <= client.limits.staleDays || found.has(max.entry.movement))
        continue;
      found.set(max.entry.movement, {
        kind: 'max-stale',
        urgency: 4,
        text: say`max of ${max.entry.movementName.text} is ${Math.floor(max.ageDays / 7)} weeks old`,
        place: max.entry.place,
      });
    }
  }
  const needs = [...found.values()];
  const [first] = needs;
  if (!first || needs.length < 3) return needs;
  return [
    {
      ...first,
      text: say`${countOf(needs.length, 'max', 'maxes')} of the next session are over ${formatNumber(client.limits.staleDays / 7, 1)} weeks old`,
      place: first.place ?? client.place,
    },
  ];
}

function programNeeds(plan: ClientPlan, today: IsoDate): Need[] {
  const last = plan.sessions[plan.sessions.length - 1];
  const line = plan.client.follows[plan.client.follows.length - 1];
  const place = line?.place ?? plan.client.place;
  if (!last || last.date < today) {
    return [
      {
        kind: 'no-program',
        urgency: 5,
        text: last ? say`program ended on ${last.date}` : say('follows no program'),
        place,
      },
    ];
  }
  const days = daysBetween(today, last.date);
  return days > ENDS_IN_DAYS
    ? []
    : [{ kind: 'program-ends', urgency: 5, text: say`program ends on ${last.date}`, place }];
}

function deloadNeeds(next: Session | null, today: IsoDate): Need[] {
  if (!next?.deload || daysBetween(today, next.date) > DELOAD_IN_DAYS) return [];
  return [{ kind: 'deload', urgency: 7, text: say('deload week'), place: next.block.place }];
}

const OFFER_NEEDS: Readonly<Record<Offer['kind'], { readonly kind: NeedKind; readonly urgency: number }>> = {
  'step-back': { kind: 'step-back', urgency: 2 },
  max: { kind: 'max-offer', urgency: 4 },
  'next-load': { kind: 'next-load', urgency: 6 },
  'sign-off': { kind: 'sign-off', urgency: 5 },
};

function offerNeed(offer: Offer): Need {
  const text = offer.title.slice(offer.title.indexOf(': ') + 2);
  return {
    ...OFFER_NEEDS[offer.kind],
    text,
    place: offer.rests[offer.rests.length - 1]?.place ?? offer.under,
  };
}
