/**
 * What the logs suggest, as plain data: a new max line, the next load, a step back, a sign-off. Nothing is written by
 * itself; every offer names the lines that it rests on.
 */

import { PATTERN_NAMES, type PatternName, type StageName } from '../../../../grammar/index.js';
import { say } from '../../../../grammar/say.js';
import { addDays, daysBetween } from '../dates.js';
import type {
  Client,
  ClientPlan,
  IsoDate,
  Movement,
  Place,
  RelatedLine,
  ResolvedCell,
  World,
} from '../model.js';
import { signedOff } from '../resolve/strength.js';
import { countOf } from '../rules/shared/words.js';
import { compareStages } from '../stages.js';
import { formatMass } from '../units.js';
import type { SessionDone } from './done.js';
import { type EstimatesByMovement, type StrengthVerdict, verdictOf } from './estimates.js';
import { countsFrom, maxLine, underMaxes } from './maxLine.js';
import { DEFAULT_SIGN_OFF, type SignOffCriteria } from './signOffCriteria.js';
import { stepOffers } from './steps.js';

export type OfferKind = 'max' | 'next-load' | 'step-back' | 'sign-off';

export interface Offer {
  readonly kind: OfferKind;
  /** A movement key, or a pattern for a sign-off. */
  readonly about: string;
  /** In a few words, what taking it does. */
  readonly title: string;
  /** Why, with the numbers. */
  readonly why: string;
  /** Published source of the rule, or "common practice, no source". */
  readonly source: string;
  readonly rests: readonly RelatedLine[];
  /** A line for the client's section; null where there is only advice. */
  readonly line: string | null;
  /** The line goes under the one that stands here. */
  readonly under: Place;
  /** The next session of a row whose load is fixed, and the load that it would get; null where a line says it. */
  readonly next: { readonly cell: ResolvedCell; readonly loadKg: number } | null;
}

/** Patterns for which a stage means little. */
const OUT_OF_REACH: Readonly<Record<StageName, readonly PatternName[]>> = {
  learn: [],
  load: ['other'],
  heavy: ['other', 'brace', 'rotate', 'carry'],
};

export interface OfferInput {
  readonly plan: ClientPlan;
  readonly world: World;
  readonly done: readonly SessionDone[];
  readonly estimates: EstimatesByMovement;
  /** What was logged after this day is not looked at. */
  readonly today: IsoDate;
  readonly criteria?: readonly SignOffCriteria[];
}

/** All offers for a client on a day, the most careful first: steps back, new maxes, next loads, sign-offs. */
export function offersFor(input: OfferInput): readonly Offer[] {
  const verdicts = verdictsFor(input);
  const steps = stepOffers(input);
  const maxes = verdicts.flatMap((verdict) => maxOffer(input, verdict) ?? []);
  const back = steps.filter(({ kind }) => kind === 'step-back');
  // A movement that should step back is not offered more in the same breath.
  const held = new Set(back.map(({ about }) => about));
  const next = steps.filter(({ kind, about }) => kind === 'next-load' && !held.has(about));
  return [...back, ...maxes, ...next, ...signOffOffers(input)];
}

/** The verdict on each movement with estimates, by name; machines by the kit of her newest set. */
export function verdictsFor({ plan, world, estimates, today }: OfferInput): readonly StrengthVerdict[] {
  return [...estimates.keys()].sort().flatMap((key) => {
    const movement = world.movements.get(key);
    const own = estimates.get(key) ?? [];
    const kit = own[own.length - 1]?.set.kit ?? null;
    return (movement && verdictOf(plan.client, movement, own, addDays(today, 1), kit, world)) ?? [];
  });
}

/** A new max line where the logs show more or less than the plan takes. It is a set that was done, rounded down. */
function maxOffer({ plan, world, done, today }: OfferInput, verdict: StrengthVerdict): Offer | null {
  const { movement, current, supports } = verdict;
  if (supports !== 'more' && supports !== 'less') return null;
  const { client } = plan;
  const planKg = verdict.plan?.kg ?? null;
  // The set nearest to the robust value from below: never more than the median shows.
  const sets = current.rests.filter(({ kg, set }) => set.from === 'log' && kg <= current.kg + 1e-9);
  const best = sets.reduce<(typeof sets)[number] | null>(
    (kept, each) =>
      !kept || each.kg > kept.kg || (each.kg === kept.kg && each.date > kept.date) ? each : kept,
    null,
  );
  if (!best) return null;
  if (planKg !== null && supports === 'more' && best.kg <= planKg) return null;
  const from = countsFrom(plan, done, best.date, today);
  const line = maxLine(movement, best.set, best.date, world, from);
  const kg = (value: number) => formatMass(value, client.units);
  const against =
    planKg === null
      ? say('The plan knows no max of it')
      : say`The plan takes ${kg(planKg)} (${verdict.plan?.use.entry.date ?? ''})`;
  const shown = say`sets of ${countOf(current.rests.length, 'day')} show ${kg(current.kg)} (${kg(current.lowKg)} to ${kg(current.highKg)})`;
  const nearest =
    from === null
      ? say('The line is a set that was done, the nearest from below.')
      : say`The line is a set that was done, the nearest from below; it counts from ${from} on, so that nothing changes that is over.`;
  return {
    kind: 'max',
    about: movement.key,
    title: say`${client.name}: new max line for ${movement.name} from ${best.date}`,
    why:
      supports === 'more'
        ? say`${against}; ${shown}, more than the plan by over one standard error. ${nearest}`
        : say`${against}; ${shown}, less than the plan by over one standard error. ${nearest}`,
    source:
      "The client's curve; error of a told reserve 0.95 reps (Halperin et al., Sports Med 2022;52(2):377-390), of the curve 3.3 % (Kemmler et al., J Strength Cond Res 2006;20(4)). Weighted median over 8 weeks: own method.",
    rests: [
      ...(verdict.plan
        ? [{ place: verdict.plan.use.entry.place, message: say('The max line that the plan takes.') }]
        : []),
      ...current.rests.map(({ date, kg: own, set }) => ({
        place: set.place,
        message: say`${date}: shows ${kg(own)}.`,
      })),
    ],
    line,
    under: underMaxes(client, movement.key),
    next: null,
  };
}

// ---------------------------------------------------------------- sign-offs

function signOffOffers({ plan, done, today, criteria = DEFAULT_SIGN_OFF }: OfferInput): readonly Offer[] {
  const { client } = plan;
  const logged = done.filter(({ date }) => date <= today);
  const byPattern = new Map<PatternName, SessionDone[]>();
  for (const session of logged) {
    const patterns = new Set(
      session.movements
        .filter(({ status, movement }) => movement && (status === 'done' || status === 'as-planned'))
        .map(({ movement }) => (movement as Movement).pattern),
    );
    for (const pattern of patterns) byPattern.set(pattern, [...(byPattern.get(pattern) ?? []), session]);
  }
  const offers: Offer[] = [];
  for (const [pattern, all] of [...byPattern].sort(([a], [b]) => (a < b ? -1 : 1))) {
    const ready = signedOff(client, pattern, addDays(today, 1));
    const takenBack = client.signOffs.some(
      (each) =>
        (each.pattern === pattern || each.pattern === 'all') &&
        each.date < (ready.signOff?.date ?? '') &&
        compareStages(each.stage, ready.stage) > 0,
    );
    // After a sign-off was taken back only what came later counts.
    const sessions = takenBack ? all.filter(({ date }) => date > (ready.signOff?.date ?? '')) : all;
    const next = nextStage(pattern, ready.stage, criteria);
    if (next && isMet(next, sessions, logged, ready.signOff?.date ?? null, today)) {
      offers.push(signOffOffer(client, pattern, next, sessions, today));
    }
  }
  return offers;
}

/** One step at a time: the stage right above the one that she has. */
function nextStage(
  pattern: PatternName,
  has: StageName,
  criteria: readonly SignOffCriteria[],
): SignOffCriteria | undefined {
  return criteria
    .filter(({ stage }) => compareStages(stage, has) > 0 && !OUT_OF_REACH[stage].includes(pattern))
    .sort((a, b) => compareStages(a.stage, b.stage))[0];
}

/** Whether there is a pattern for which a sign-off may come to be offered. */
export function hasSignOffAhead(
  client: Client,
  today: IsoDate,
  criteria: readonly SignOffCriteria[] = DEFAULT_SIGN_OFF,
): boolean {
  return PATTERN_NAMES.some((pattern) =>
    nextStage(pattern, signedOff(client, pattern, addDays(today, 1)).stage, criteria),
  );
}

function isMet(
  asked: SignOffCriteria,
  sessions: readonly SessionDone[],
  logged: readonly SessionDone[],
  since: IsoDate | null,
  today: IsoDate,
): boolean {
  const first = sessions[0];
  if (!first || sessions.length < asked.sessions) return false;
  if (daysBetween(first.date, today) < asked.weeks * 7) return false;
  const pain = logged.some(
    ({ date, pains }) =>
      daysBetween(date, today) <= asked.painFreeDays && pains.some(({ score }) => score >= asked.painFrom),
  );
  if (pain) return false;
  const notes = logged.filter(({ date }) => since === null || date > since).flatMap(({ notes }) => notes);
  return techniqueNotes(notes, asked.techniqueWords) >= asked.techniqueNotes;
}

/** Notes in which one of the words stands as a word of its own, in any script. */
function techniqueNotes(notes: readonly string[], words: readonly string[]): number {
  const wanted = new Set(words);
  return notes.filter((note) =>
    note
      .toLowerCase()
      .split(/[^\p{L}\p{M}\p{N}]+/u)
      .some((word) => wanted.has(word)),
  ).length;
}

function signOffOffer(
  client: Client,
  pattern: PatternName,
  asked: SignOffCriteria,
  sessions: readonly SessionDone[],
  today: IsoDate,
): Offer {
  const first = sessions[0] as SessionDone;
  const last = sessions[sessions.length - 1] as SessionDone;
  const weeks = Math.floor(daysBetween(first.date, today) / 7);
  const newest = client.signOffs[client.signOffs.length - 1];
  return {
    kind: 'sign-off',
    about: pattern,
    title: say`${client.name}: sign off ${asked.stage} for ${pattern}`,
    why: [
      say`${countOf(sessions.length, 'session')} with ${pattern} work over ${countOf(weeks, 'week')}, no pain of ${asked.painFrom} or more of 10 noted in the last ${asked.painFreeDays} days.`,
      ...(asked.techniqueNotes > 0 ? [say`Notes on technique: ${asked.techniqueNotes} or more.`] : []),
      say('You decide, having seen her move; the calendar never does.'),
    ].join(' '),
    source: say('Common practice, no source; the numbers can be set (signOff in stave.json).'),
    rests: [
      { place: first.place, message: say`${first.date}: the first session with ${pattern} work.` },
      { place: last.place, message: say`${last.date}: the last one.` },
    ],
    line: `ready: ${asked.stage} ${pattern} ${today}`,
    under: newest?.place ?? client.place,
    next: null,
  };
}
