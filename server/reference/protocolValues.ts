/**
 * Published protocols, test procedures and position stands beside what the engine makes of them: programs are written in
 * the notation, resolved, and read back.
 */
import { curve, estimateFromSet } from '../src/engine/curves.js';
import { CURVE_ERROR_SHARE, RESERVE_ERROR_REPS } from '../src/engine/history/estimates.js';
import { allBarLoads } from '../src/engine/plates.js';
import { testSteps } from '../src/engine/print/warmUp.js';
import { RULES } from '../src/engine/rules/index.js';
import { totalReps, volumeLoadOf } from '../src/engine/science/volume.js';
import { HEAVY_MAX_REPS_POSSIBLE } from '../src/engine/stages.js';
import type { PublishedValue } from './publishedValue.js';
import { found, sessionsOf, setting } from './worked.js';

// ---------------------------------------------------------------- tests of a max

const NSCA_TEST =
  'NSCA 1RM testing steps, Haff & Triplett, Essentials, 4th ed., 2016 (steps quoted on public pages, percentages partly from memory)';

function testing(): readonly PublishedValue[] {
  const topic = 'Steps of a test';
  const numbers = (row: string, step: number, pattern: RegExp): readonly number[] => {
    const cell = sessionsOf({ days: { One: [row] }, weeks: 2 }).at(-1)?.cells[0];
    const line = cell ? testSteps(cell)[step] : undefined;
    return (pattern.exec(line ?? '')?.slice(1) ?? []).map(Number);
  };
  const lower = 'back squat: 3x5 r3 | test x1';
  const upper = lower.replace('back squat', 'overhead press');
  const both = (
    what: string,
    row: string,
    step: number,
    pattern: RegExp,
    published: readonly number[],
  ): readonly PublishedValue[] =>
    published.map((value, index) => ({
      topic,
      what: published.length === 1 ? what : `${what}, ${index === 0 ? 'least' : 'most'}`,
      published: value,
      own: numbers(row, step, pattern)[index] ?? Number.NaN,
      tolerance: 0,
      source: NSCA_TEST,
    }));
  return [
    ...both('repetitions of the first, easy set', lower, 1, /(\d+) to (\d+) repetitions/, [5, 10]),
    ...both('minutes of rest after it', lower, 1, /Rest (\d+) min/, [1]),
    ...both('per cent more for the second set, lower body', lower, 2, /(\d+) to (\d+)% more/, [10, 20]),
    ...both('per cent more for the second set, upper body', upper, 2, /(\d+) to (\d+)% more/, [5, 10]),
    ...both('repetitions of the second set', lower, 2, /(\d+) to (\d+) repetitions/, [3, 5]),
    ...both('minutes of rest after the second set', lower, 2, /Rest (\d+) min/, [2]),
    ...both('repetitions of the third set', lower, 3, /(\d+) or (\d+) repetitions/, [2, 3]),
    ...both('minutes of rest after the third set', lower, 3, /Rest (\d+) to (\d+) min/, [2, 4]),
    ...both('sets of the test at most', lower, 4, /at most (\d+) sets/, [5]),
  ];
}

// ---------------------------------------------------------------- prediction

/** Equations for a five-repetition maximum, kilograms, with the standard error that the paper states. */
const REYNOLDS = [
  { lift: 'chest press', slope: 1.1307, intercept: 0.6999, error: 2.98, loads: [20, 30, 40, 50] },
  { lift: 'leg press', slope: 1.097, intercept: 14.2546, error: 16.16, loads: [100, 140, 180] },
];

function prediction(): readonly PublishedValue[] {
  const topic = 'Prediction from a set of five, and its errors';
  const own = (load: number) => {
    const result = estimateFromSet(curve('brzycki'), load, 5);
    return 'beyondDomain' in result ? Number.NaN : result.estimatedOneRepMaxKg;
  };
  return [
    ...REYNOLDS.flatMap(({ lift, slope, intercept, error, loads }) =>
      loads.map((load) => ({
        topic,
        what: `1RM of the ${lift} in kg from ${load} kg × 5, curve \`brzycki\``,
        published: Number((slope * load + intercept).toFixed(4)),
        own: own(load),
        tolerance: error,
        toleranceIs: "the paper's standard error",
        source:
          'Reynolds et al., J Strength Cond Res 2006;20(3):584-592 (abstract): equations for the 5RM; computed',
      })),
    ),
    {
      topic,
      what: 'repetitions by which people tell too few left',
      published: 0.95,
      own: RESERVE_ERROR_REPS,
      tolerance: 0,
      source: 'Halperin et al., Sports Med 2022;52(2):377-390 (abstract; 95 % CI 0.17 to 1.73)',
    },
    {
      topic,
      what: 'error of a curve, share of the 1RM',
      published: 0.033,
      own: CURVE_ERROR_SHARE,
      tolerance: 0,
      source:
        'Kemmler et al., J Strength Cond Res 2006;20(4) (abstract): coefficient of variation below 3.3 %',
    },
    {
      topic,
      what: 'reps that a written and a predicted reserve may differ before it is told',
      published: [0.17, 1.73],
      own: setting('effort-mismatch', 'maxReps'),
      tolerance: 0,
      source: 'Halperin et al. 2022 (abstract): 95 % confidence interval of the error',
    },
  ];
}

// ---------------------------------------------------------------- trials

function liftmor(): readonly PublishedValue[] {
  const topic = 'A supervised trial of heavy lifting (LIFTMOR)';
  const source =
    'Watson et al., J Bone Miner Res 2018;33(2):211-220 (abstract); supervised, screened women: no licence to do so alone';
  const rows = ['deadlift: 5x5 85%', 'back squat: 5x5 85%', 'overhead press: 5x5 85%'];
  const sessions = sessionsOf({ days: { One: rows, Two: rows }, on: 'mon thu' });
  const cells = sessions.flatMap((session) => session.cells);
  const sum = (numbers: readonly number[]) => numbers.reduce((total, value) => total + value, 0);
  const reps = sum(cells.flatMap((cell) => cell.groups.map((group) => totalReps(cell, group) ?? Number.NaN)));
  const heavy = cells.flatMap(({ groups }) => groups.filter(({ stage }) => stage === 'heavy')).length;
  const share = Math.max(...cells.flatMap(({ groups }) => groups.map((group) => group.share ?? Number.NaN)));
  return [
    { topic, what: 'sessions a week', published: 2, own: sessions.length, tolerance: 0, source },
    {
      topic,
      what: 'loaded repetitions a week, three lifts of 5 sets of 5',
      published: 150,
      own: reps,
      tolerance: 0,
      source: `${source}; computed`,
    },
    {
      topic,
      what: 'share of the 1RM at `5x5 85%`',
      published: [0.8, 0.85],
      own: share,
      tolerance: 1e-9,
      source: `${source}: above 85 %, in the methods above 80 to 85 % (the latter from memory)`,
    },
    {
      topic,
      what: 'lifts of the week that Stave counts as heavy, of 6',
      published: 6,
      own: heavy,
      tolerance: 0,
      source: `${source}; all of its lifts were high-intensity`,
    },
  ];
}

// ---------------------------------------------------------------- position stands

const ACSM_2009 =
  'ACSM position stand 2009, Ratamess et al., Med Sci Sports Exerc 41(3):687-708 (evidence table)';
const ACSM_2011 =
  'ACSM position stand 2011, Garber et al., Med Sci Sports Exerc 43(7):1334-1359 (from memory)';
const ACSM_2026 = 'ACSM 2026 overview of reviews (seen in reports of it)';
const NSCA = 'NSCA, Haff & Triplett, Essentials, 4th ed., 2016, ch. 17';

/** Hours between two heavy sessions from which on nothing is told. */
function quietHours(): number {
  const rows = ['back squat: 3x3 r1'];
  const on = ['mon tue', 'mon wed', 'mon thu'];
  const quiet = on.findIndex(
    (days) => !found({ days: { One: rows, Two: rows }, on: days }, 'heavy-within-48h'),
  );
  return 24 * (quiet + 1);
}

/** Most training days a week about which nothing is told. */
function quietDays(liftingSince: string): number {
  const weekdays = ['mon', 'tue', 'wed', 'thu', 'fri', 'sat'];
  const names = ['One', 'Two', 'Three', 'Four', 'Five', 'Six'];
  const isQuiet = (count: number) =>
    !found(
      {
        days: Object.fromEntries(names.slice(0, count).map((name) => [name, ['back squat: 1x8 r4']])),
        on: weekdays.slice(0, count).join(' '),
        client: `lifting since: ${liftingSince}`,
      },
      'days-many',
    );
  return Math.max(...[1, 2, 3, 4, 5, 6].filter(isQuiet));
}

function stands(): readonly PublishedValue[] {
  const topic = 'Position stands and textbooks';
  const value = (
    what: string,
    published: PublishedValue['published'],
    own: number,
    source: string,
    tolerance = 0,
  ): PublishedValue => ({ topic, what, published, own, tolerance, source });
  const jumps = (RULES.find(({ code }) => code === 'jump-load')?.options ?? []).filter(({ key }) =>
    key.endsWith('Percent'),
  );
  return [
    ...jumps.map(({ key, default: usual }) =>
      value(
        `per cent that a load may rise in a week, \`${key}\` of \`jump-load\``,
        [2, 10],
        usual,
        ACSM_2009,
      ),
    ),
    value(
      'share of the 1RM for 8 reps with 4 in reserve, load work',
      [0.6, 0.7],
      curve('brzycki').share(12),
      `${ACSM_2009}: novice to intermediate, 8 to 12 reps`,
    ),
    value(
      'least share of the 1RM that counts as heavy, curve `table`',
      [0.8, 1],
      curve('table').share(HEAVY_MAX_REPS_POSSIBLE),
      `${ACSM_2009}: advanced; ${ACSM_2026}: strength`,
    ),
    value(
      'least share of the 1RM that counts as heavy, curve `brzycki`',
      [0.8, 1],
      curve('brzycki').share(HEAVY_MAX_REPS_POSSIBLE),
      `${ACSM_2009}: advanced; ${ACSM_2026}: strength`,
    ),
    value(
      'share of the 1RM for 6 reps, curve `table`',
      [0.85, 1],
      curve('table').share(6),
      `${NSCA}: strength, 6 reps or fewer`,
    ),
    value(
      'share of the 1RM for 12 reps, curve `table`',
      [0.67, 0.85],
      curve('table').share(12),
      `${NSCA}: hypertrophy, 6 to 12 reps`,
    ),
    value(
      'least seconds of rest between heavy sets',
      [120, 180],
      setting('rest-short', 'minSeconds'),
      `${ACSM_2009}: at least 2 to 3 min for core exercises with heavy loads`,
    ),
    value('the same', [120, 300], setting('rest-short', 'minSeconds'), `${NSCA}: strength, 2 to 5 min`),
    value(
      'hours between heavy sessions of one pattern from which nothing is told',
      48,
      quietHours(),
      ACSM_2011,
    ),
    value(
      'most days a week without a note in the first half year',
      [2, 3],
      quietDays('2026-11-01'),
      `${NSCA}: beginners; ${ACSM_2009}: novices`,
    ),
    value(
      'most days a week without a note in the first two years',
      [3, 4],
      quietDays('2025-11-01'),
      `${NSCA}: intermediates; ${ACSM_2009}`,
    ),
    value(
      'days for which a screening counts',
      365,
      setting('screening-old', 'validDays'),
      'PAR-Q+, Warburton et al. 2011 (12 months; from memory)',
    ),
    value(
      'weeks of heavy work before a deload is asked for',
      [3.3, 7.9],
      setting('deload-due', 'maxWeeks'),
      'Rogerson et al., Sports Med Open 2024;10:26 (abstract): every 5.6 ± 2.3 weeks; Stave counts whole weeks',
      0.5,
    ),
    value(
      'kilograms lifted in 3 sets of 10 with 40 kg',
      1200,
      volumeLoadOf(sessionsOf({ days: { One: ['back squat: 3x10 40kg'] } })[0]?.cells ?? []),
      'Volume-load as sets × reps × load; computed',
    ),
  ];
}

// ---------------------------------------------------------------- bars

function bars(): readonly PublishedValue[] {
  const topic = 'Competition bars and discs';
  const pairs = (discs: readonly number[]) =>
    discs.map((kg) => ({ kg, count: kg === 20 || kg === 25 ? 8 : 2 }));
  const iwf = pairs([25, 20, 15, 10, 5, 2.5, 2, 1.5, 1, 0.5]);
  const ipf = pairs([25, 20, 15, 10, 5, 2.5, 1.25]);
  const step = (bar: number, discs: typeof iwf) => {
    const [first = Number.NaN, second = Number.NaN] = allBarLoads(bar, discs);
    return second - first;
  };
  const value = (what: string, published: number, own: number, source: string): PublishedValue => ({
    topic,
    what,
    published,
    own,
    tolerance: 1e-9,
    source,
  });
  const IWF =
    'IWF Technical and Competition Rules: bars of 15 and 20 kg, collars of 2.5 kg each, discs from 0.5 kg';
  const IPF = 'IPF rules: bar and collars 25 kg, discs from 1.25 kg';
  return [
    value(
      "lightest load in kg, women's bar with collars",
      20,
      allBarLoads(15 + 2 * 2.5, iwf)[0] ?? Number.NaN,
      `${IWF}; computed`,
    ),
    value(
      "lightest load in kg, men's bar with collars",
      25,
      allBarLoads(20 + 2 * 2.5, iwf)[0] ?? Number.NaN,
      `${IWF}; computed`,
    ),
    value('smallest step in kg, IWF discs', 1, step(15, iwf), `${IWF}; computed`),
    value('smallest step in kg, IPF discs', 2.5, step(25, ipf), `${IPF}; computed`),
  ];
}

export const PROTOCOL_VALUES: readonly PublishedValue[] = [
  ...testing(),
  ...prediction(),
  ...liftmor(),
  ...stands(),
  ...bars(),
];
