/**
 * Curves: which share of the estimated one-repetition maximum (e1RM) can be lifted n times, and back.
 *
 * Every curve has share(1) = 1, because a true single is the maximum itself, and falls strictly. A published form
 * that gives something else at one repetition is kept from two on and joined to 1 by a straight line. Above the
 * maximum (share over 1, fewer than one repetition) every curve goes on along the straight line through one and two
 * repetitions: nothing is published there, and a load above the maximum must show a reserve that falls.
 */

import { CURVE_NAMES, type CurveName } from '../../../grammar/ast.js';

export { CURVE_NAMES, type CurveName };

export const DEFAULT_CURVE: CurveName = 'brzycki';

export interface Curve {
  readonly name: CurveName;
  /** Name as printed. */
  readonly title: string;
  /** Where the form was published, and what it was studied on. */
  readonly source: string;
  /** Most repetitions to failure for which the curve is used. */
  readonly domainMaxReps: number;
  /**
   * Share of the e1RM that can be lifted `reps` times to failure (any real number, 1 gives exactly 1).
   * NaN beyond `domainMaxReps`: no load may be derived there.
   */
  share(reps: number): number;
  /**
   * Repetitions to failure at a `share` of the e1RM, the inverse of `share`. Below 1 (down to negative numbers) for a
   * share above 1; Infinity, meaning "beyond", for more than `domainMaxReps`; null when `share` is not a number.
   */
  reps(share: number): number | null;
}

/** A published form, from its first usable repetition on: falling, with its inverse there. */
interface Form {
  name: CurveName;
  title: string;
  source: string;
  domainMaxReps: number;
  /** Repetitions from which the form holds: 1, or 2 when it has to be joined to share(1) = 1. */
  from: 1 | 2;
  share(reps: number): number;
  reps(share: number): number;
}

/** Room for binary noise at the edge of the domain, so that share(20) does not count as beyond 20. */
const NOISE = 1e-12;

function makeCurve(form: Form): Curve {
  const { domainMaxReps, from } = form;
  const fall = 1 - form.share(2);
  const shareAtFrom = from === 1 ? 1 : form.share(from);
  const shareAtEnd = form.share(domainMaxReps);
  return {
    name: form.name,
    title: form.title,
    source: form.source,
    domainMaxReps,
    share(reps) {
      if (!(reps <= domainMaxReps + NOISE)) return Number.NaN;
      if (reps === 1) return 1;
      return reps < from ? 1 - fall * (reps - 1) : form.share(reps);
    },
    reps(share) {
      if (Number.isNaN(share)) return null;
      if (share === 1) return 1;
      if (share > shareAtFrom) return 1 + (1 - share) / fall;
      if (share < shareAtEnd - NOISE) return Infinity;
      return Math.min(domainMaxReps, form.reps(share));
    },
  };
}

/** A form share = 1 / (1 + reps / divisor), the straight lines of Epley and O'Conner. */
function linearMultiplier(divisor: number): Pick<Form, 'from' | 'share' | 'reps'> {
  return {
    from: 2,
    share: (reps) => divisor / (divisor + reps),
    reps: (share) => divisor / share - divisor,
  };
}

/** A form share = (floor + span e^(-rate reps)) / 100, as Mayhew and Wathan published them. */
function exponential(floor: number, span: number, rate: number): Pick<Form, 'from' | 'share' | 'reps'> {
  return {
    from: 2,
    share: (reps) => (floor + span * Math.exp(-rate * reps)) / 100,
    reps: (share) => Math.log(span / (100 * share - floor)) / rate,
  };
}

/**
 * Kemmler's multiplier 1RM / load. Its slope 0.0104 + 0.0038 r - 0.0001752 r² is positive up to r = 24.1, so the
 * share falls over the whole domain. Studied from 3 to 20 repetitions; two is read off the same polynomial.
 */
function kemmlerMultiplier(reps: number): number {
  return 0.988 + reps * (0.0104 + reps * (0.0019 - reps * 0.0000584));
}

/** Repetitions between 2 and 20 for a multiplier of Kemmler's polynomial, by halving (it rises there). */
function kemmlerReps(share: number): number {
  const multiplier = 1 / share;
  let low = 2;
  let high = 20;
  for (let step = 0; step < 52; step += 1) {
    const middle = (low + high) / 2;
    if (kemmlerMultiplier(middle) < multiplier) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}

/** Percent of the 1RM for 1 to 12 repetitions. 11 is not in the chart: the mean of its neighbours. */
const LOAD_CHART = [100, 95, 93, 90, 87, 85, 83, 80, 77, 75, 72.5, 70];

function chartShare(reps: number): number {
  const below = Math.min(Math.floor(reps), LOAD_CHART.length - 1);
  const left = LOAD_CHART[below - 1] as number;
  const right = LOAD_CHART[below] as number;
  return (left + (right - left) * (reps - below)) / 100;
}

function chartReps(share: number): number {
  // Noise may put the last row a hair below the chart.
  const percent = Math.max(share * 100, LOAD_CHART[LOAD_CHART.length - 1] as number);
  const right = Math.max(
    1,
    LOAD_CHART.findIndex((value) => value <= percent),
  );
  const rightPercent = LOAD_CHART[right] as number;
  const leftPercent = LOAD_CHART[right - 1] as number;
  return right + (leftPercent - percent) / (leftPercent - rightPercent);
}

const USUAL_DOMAIN = 20;

const CURVES: Readonly<Record<CurveName, Curve>> = {
  brzycki: makeCurve({
    name: 'brzycki',
    title: 'Brzycki',
    source: 'Brzycki M. J Health Phys Educ Rec Dance 1993;64(1):88-90, in the form load × 36 / (37 - reps)',
    domainMaxReps: USUAL_DOMAIN,
    from: 1,
    share: (reps) => (37 - reps) / 36,
    reps: (share) => 37 - 36 * share,
  }),
  epley: makeCurve({
    name: 'epley',
    title: 'Epley',
    source:
      'Epley B. Poundage chart. Boyd Epley Workout, 1985, in the form load × (1 + reps / 30); joined between 1 and 2',
    domainMaxReps: USUAL_DOMAIN,
    ...linearMultiplier(30),
  }),
  mayhew: makeCurve({
    name: 'mayhew',
    title: 'Mayhew',
    source: 'Mayhew JL et al. J Appl Sport Sci Res 1992;6(4):200-206; joined between 1 and 2',
    domainMaxReps: USUAL_DOMAIN,
    ...exponential(52.2, 41.9, 0.055),
  }),
  lombardi: makeCurve({
    name: 'lombardi',
    title: 'Lombardi',
    source: 'Lombardi VP. Beginning Weight Training, 1989',
    domainMaxReps: USUAL_DOMAIN,
    from: 1,
    share: (reps) => reps ** -0.1,
    reps: (share) => share ** -10,
  }),
  wathan: makeCurve({
    name: 'wathan',
    title: 'Wathan',
    source:
      'Wathen D. Load assignment. In: Essentials of Strength Training and Conditioning, 1994; joined between 1 and 2',
    domainMaxReps: USUAL_DOMAIN,
    ...exponential(48.8, 53.8, 0.075),
  }),
  oconner: makeCurve({
    name: 'oconner',
    title: "O'Conner",
    source: "O'Conner B, Simmons J, O'Shea P. Weight Training Today, 1989; joined between 1 and 2",
    domainMaxReps: USUAL_DOMAIN,
    ...linearMultiplier(40),
  }),
  kemmler: makeCurve({
    name: 'kemmler',
    title: 'Kemmler (trained postmenopausal women)',
    source:
      'Kemmler WK et al. J Strength Cond Res 2006;20(4); 3 to 20 repetitions studied; joined between 1 and 2',
    domainMaxReps: 20,
    from: 2,
    share: (reps) => 1 / kemmlerMultiplier(reps),
    reps: kemmlerReps,
  }),
  table: makeCurve({
    name: 'table',
    title: 'NSCA load chart',
    source: 'NSCA Training Load Chart: 1 to 10 and 12 repetitions; 11 and parts of a repetition interpolated',
    domainMaxReps: 12,
    from: 1,
    share: chartShare,
    reps: chartReps,
  }),
};

/** The curve of that name. */
export function curve(name: CurveName): Curve {
  return CURVES[name];
}

/** Whether `text` names a curve. */
export function isCurveName(text: string): text is CurveName {
  return (CURVE_NAMES as readonly string[]).includes(text);
}

/**
 * e1RM in kilograms from a set: `repsToFailure` are the repetitions done plus those left in reserve; one gives the
 * load itself. `beyondDomain` when the curve does not reach so far (or the numbers are no set at all): then there is
 * no estimate.
 */
export function estimateFromSet(
  using: Curve,
  loadKg: number,
  repsToFailure: number,
): { estimatedOneRepMaxKg: number } | { beyondDomain: true } {
  if (!(repsToFailure >= 1)) return { beyondDomain: true };
  const estimatedOneRepMaxKg = loadKg / using.share(repsToFailure);
  return Number.isFinite(estimatedOneRepMaxKg) ? { estimatedOneRepMaxKg } : { beyondDomain: true };
}
