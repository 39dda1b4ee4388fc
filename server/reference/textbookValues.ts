/** Tables and rules of textbooks and reviews beside what the engine makes of them. */
import { curve } from '../src/engine/curves.js';
import { clientOffers } from '../src/engine/history/history.js';
import { DEFAULT_LIMITS } from '../src/engine/resolve/limits.js';
import { PRILEPIN_ZONES } from '../src/engine/science/volume.js';
import { weekLoad, weightedMean } from '../src/engine/science/workload.js';
import { createSession } from '../src/engine/session.js';
import type { PublishedValue } from './publishedValue.js';
import { found, setting } from './worked.js';

function value(
  topic: string,
  what: string,
  published: PublishedValue['published'],
  own: number,
  source: string,
  tolerance = 0,
): PublishedValue {
  return { topic, what, published, own, tolerance, source };
}

// ---------------------------------------------------------------- the other printed forms

const REPS = [2, 3, 4, 5, 6, 7, 8, 9, 10, 12, 15];

function otherForms(): readonly PublishedValue[] {
  const topic = 'Other printed forms of the curves';
  const forms = [
    ['epley', 'w(1 + 0.033 r), as printed in general pages', (r: number) => 1 + 0.033 * r],
    ['brzycki', 'w/(1.0278 − 0.0278 r), Brzycki 1993', (r: number) => 1 / (1.0278 - 0.0278 * r)],
  ] as const;
  return forms.flatMap(([name, source, form]) =>
    REPS.map((reps) => {
      const published = Number(form(reps).toFixed(4));
      return value(
        topic,
        `1RM over load, ${reps} reps, curve \`${name}\``,
        published,
        1 / curve(name).share(reps),
        `${source}; computed; half a per cent between the two forms`,
        published * 0.005,
      );
    }),
  );
}

// ---------------------------------------------------------------- the next load

/** Whether two logged sessions (or one) of 3 sets of 8, the last with so many reps more, bring an offer of the next load. */
function nextLoadSource(over: number, sessions: number): string | null {
  const session = createSession();
  const dates = ['2026-12-07', '2026-12-14'].slice(2 - sessions);
  session.setFile(
    'next',
    `kit Gym
  bar: 15kg
  plates: 0.5kg x2, 1.25kg x2, 2.5kg x2, 5kg x4, 10kg x4

client Heron
  trains at: Gym
  ready: heavy all 2026-01-01
  max: back squat, 60kg x1, 2026-11-23
  follows: Winter, from 2026-12-07, on mon

program Winter
block Keel, 3 weeks
day One
  back squat: 3x8 40kg

${dates.map((date) => `log Heron, ${date}, One\n  back squat: 40kg 8 8 ${8 + over}`).join('\n\n')}
`,
  );
  const plan = session.plan('heron');
  const offers = plan ? clientOffers(plan, session.world(), '2026-12-15') : [];
  return offers.find(({ kind }) => kind === 'next-load')?.source ?? null;
}

function nextLoads(): readonly PublishedValue[] {
  const topic = 'The next load';
  const nsca = '2-for-2 rule, Baechle & Earle, Essentials, 2008 (quoted on public pages; Graves & Baechle)';
  const acsm = 'ACSM 2009, Ratamess et al., Med Sci Sports Exerc 41(3):687-708 (evidence table, category B)';
  const least = (name: RegExp) =>
    [0, 1, 2, 3].find((over) => name.test(nextLoadSource(over, 2) ?? '')) ?? Number.NaN;
  const times = [1, 2].find((sessions) => nextLoadSource(2, sessions) !== null) ?? Number.NaN;
  return [
    value(
      topic,
      'repetitions over the goal in the last set from which it is offered',
      2,
      least(/2-for-2/),
      nsca,
    ),
    value(topic, 'sessions one after the other that it takes', 2, times, nsca),
    value(topic, 'repetitions over the goal, by the other rule', [1, 2], least(/ACSM/), acsm),
    value(topic, 'sessions that it takes, by the other rule', 2, times, acsm),
    value(
      topic,
      'most per cent that a load may rise in a week',
      [2.5, 10],
      setting('jump-load', 'maxPercent'),
      `${nsca}: usual size of the step`,
    ),
  ];
}

// ---------------------------------------------------------------- doses for an aim

interface Dose {
  readonly aim: string;
  readonly shares: readonly number[];
  readonly reps: readonly number[];
  readonly sets: readonly number[];
  readonly rests: readonly string[];
  readonly source: string;
}

const NSCA =
  'NSCA programme-design table, Haff & Triplett, Essentials, 4th ed., 2016 (table number from memory)';
const ACSM_2009 = 'ACSM 2009, Ratamess et al., Med Sci Sports Exerc 41(3):687-708';
/** The corners of the published ranges. */
const DOSES: readonly Dose[] = [
  { aim: 'strength', shares: [85, 100], reps: [1, 6], sets: [2, 6], rests: ['2min', '5min'], source: NSCA },
  { aim: 'power', shares: [75, 90], reps: [1, 5], sets: [3, 5], rests: ['2min', '5min'], source: NSCA },
  { aim: 'size', shares: [67, 85], reps: [6, 12], sets: [3, 6], rests: ['30s', '90s'], source: NSCA },
  { aim: 'endurance', shares: [67], reps: [12, 20], sets: [2, 3], rests: ['30s'], source: NSCA },
  {
    aim: 'strength',
    shares: [60, 70],
    reps: [8, 12],
    sets: [1, 3],
    rests: ['1min', '3min'],
    source: `${ACSM_2009}, novices (evidence table)`,
  },
  {
    aim: 'power',
    shares: [30, 60],
    reps: [3, 6],
    sets: [1, 3],
    rests: ['2min', '3min'],
    source: `${ACSM_2009}, novices (from memory)`,
  },
  {
    aim: 'size',
    shares: [70, 85],
    reps: [8, 12],
    sets: [1, 3],
    rests: ['1min', '2min'],
    source: `${ACSM_2009}, novices (from memory)`,
  },
];

function doses(): readonly PublishedValue[] {
  return DOSES.map(({ aim, shares, reps, sets, rests, source }) => {
    const all = shares.flatMap((share) =>
      reps.flatMap((rep) =>
        sets.flatMap((set) => rests.map((rest) => `${set}x${rep} ${share}% rest ${rest}`)),
      ),
    );
    // Eight weeks, so that one set a day is enough to be judged.
    const served = all.filter(
      (dose) => !found({ days: { One: [`back squat: ${dose}`] }, weeks: 8, aim }, 'aim-mismatch'),
    );
    return value(
      'Doses that serve an aim',
      `doses at the ends of the published ranges (${sets.join(' to ')} sets, ${reps.join(' to ')} reps, ${shares.join(' to ')} %, rest ${rests.join(' to ')}) that count for ${aim}`,
      all.length,
      served.length,
      source,
    );
  });
}

// ---------------------------------------------------------------- heights and body masses

/** Means and percentiles in centimetres and kilograms, as far as both are printed for one group. */
const BODIES: readonly (readonly [string, number, number])[] = [
  ['US women 2015 to 2018, mean', 161.29, 77.47],
  ['US women 2011 to 2014, mean', 161.9, 76.4],
  ['US men 2011 to 2014, mean', 175.9, 88.8],
  ['US women 2003 to 2006, 95th percentiles', 173.2, 113.4],
  ['LIFTMOR women, mean', 161.8, 63.1],
  ['LIFTMOR women, a standard deviation below', 155.9, 52.7],
  ['LIFTMOR women, a standard deviation above', 167.7, 73.5],
];

function bodies(): readonly PublishedValue[] {
  const session = createSession();
  session.setFile(
    'bodies',
    BODIES.map(
      ([, cm, kg], index) => `client Number ${index}\n  height: ${cm}cm\n  mass: ${kg}kg, 2026-11-01\n`,
    ).join('\n'),
  );
  return [
    value(
      'Heights and body masses',
      `of ${BODIES.length} published pairs those about which nothing is told`,
      BODIES.length,
      BODIES.length - session.allFindings().length,
      'NHANES: Fryar et al., Vital Health Stat 3(46), 2021 (from memory), 3(39), NHSR 10 (public pages); Watson et al. 2018 (abstract): 161.8 ± 5.9 cm, 63.1 ± 10.4 kg',
    ),
  ];
}

// ---------------------------------------------------------------- what else is published

const WEIGHTS =
  'Williams et al., Br J Sports Med 2017;51(3):209-210: N of 7 and 28; λ = 2/(N + 1) from memory';
const WEEK = [300, 0, 420, 0, 300, 180, 0];

function others(): readonly PublishedValue[] {
  const effort = 'Reserve and its error';
  const repeats = 'Repetitions that predict';
  const rest = 'Rest, absence and deload';
  const load = 'Session load, monotony, strain, workload';
  const week = weekLoad(WEEK);
  return [
    value(
      repeats,
      'most repetitions to failure from which a max counts as reliable',
      10,
      DEFAULT_LIMITS.manyReps,
      'Reynolds et al., J Strength Cond Res 2006;20(3):584-592 (abstract): no more than 10; Mayhew et al. 2008;22(5):1570-1577 (abstract): fewer than 10 are more accurate',
    ),
    value(
      repeats,
      'repetitions at 70 % of the 1RM, curve `brzycki`',
      [6, 26],
      curve('brzycki').reps(0.7) ?? Number.NaN,
      'Range over trained lifters in the squat, cited in J Strength Cond Res 2021;35(2 Suppl)',
    ),
    value(
      repeats,
      'share of the 1RM for 8 reps with 2 in reserve, curve `brzycki`',
      [0.7, 0.85],
      curve('brzycki').share(10),
      'Older adults: Fragala et al., NSCA, J Strength Cond Res 2019;33(8):2019-2052 (quoted on public pages)',
    ),
    value(
      effort,
      'reps in reserve beyond which a written reserve is told',
      [5, 7],
      setting('far-off', 'maxReserve'),
      'Hackett et al., J Strength Cond Res 2017;31(8):2162-2168 (abstract): about 1 rep off with 0 to 5 left, more than 2 with 7 to 10 left',
    ),
    value(
      effort,
      'reps by which load and reserve may differ before it is told',
      1,
      setting('effort-mismatch', 'maxReps'),
      'Hackett et al. 2017 (abstract): about 1 rep off with 0 to 5 left',
    ),
    value(
      'Doses that serve an aim',
      'sets a week for the muscles of a pattern, aim size',
      10,
      setting('aim-mismatch', 'sizeSets'),
      'ACSM 2026 overview of reviews (seen in reports of it): about 10 and more a muscle group',
    ),
    value(
      rest,
      'days that a deload week has',
      [4.7, 8.1],
      7,
      'Rogerson et al., Sports Med Open 2024;10:26 (abstract): 6.4 ± 1.7 days; the preprint has ± 1.8',
    ),
    value(
      rest,
      'days away from which an older max no longer counts',
      [21, 28],
      DEFAULT_LIMITS.awayDays,
      'General reviews on detraining (from memory): strength is held for about 3 to 4 weeks',
    ),
    value(load, `load of the week, daily loads ${WEEK.join(', ')}`, 1200, week.load, 'Foster 1998; computed'),
    value(
      load,
      'weight of the newest day, 7 days',
      0.25,
      weightedMean([0, 1], 7) ?? Number.NaN,
      WEIGHTS,
      1e-9,
    ),
    value(
      load,
      'weight of the newest day, 28 days',
      0.068966,
      weightedMean([0, 1], 28) ?? Number.NaN,
      WEIGHTS,
      5e-7,
    ),
    value(
      load,
      'monotony from which it is told',
      2,
      setting('week-monotony', 'maxMonotony'),
      'Popular convention (fellrnr.com), not of Foster 1998; contested',
    ),
    value(
      load,
      'ratio of the week to the month from which it is told',
      1.5,
      setting('workload-ratio', 'maxRatio'),
      'Gabbett, Br J Sports Med 2016;50:273-280 (quoted on a secondary page); contested; off by default',
    ),
    ...PRILEPIN_ZONES.flatMap(({ fromShare, repsPerSet }, index) => {
      const published = [
        [3, 6],
        [3, 6],
        [2, 4],
        [1, 2],
      ][index] ?? [Number.NaN, Number.NaN];
      return repsPerSet.map((own, end) =>
        value(
          `Prilepin's table (${PRILEPIN_ZONES.length} zones)`,
          `${end === 0 ? 'fewest' : 'most'} reps of a set from ${Math.round(fromShare * 100)} % of the 1RM on`,
          published[end] ?? Number.NaN,
          own,
          "Prilepin's table as quoted by McCullough; weightlifters, per lift and session",
        ),
      );
    }),
  ];
}

export const TEXTBOOK_VALUES: readonly PublishedValue[] = [
  ...otherForms(),
  ...nextLoads(),
  ...doses(),
  ...bodies(),
  ...others(),
];
