/**
 * Published values that Stave does not reproduce, each with the reason: it departs on purpose, or has no use for the
 * quantity. Own values are worked out by the engine.
 */
import { parse } from '../../grammar/index.js';
import { type CurveName, curve } from '../src/engine/curves.js';
import { CURVE_ERROR_SHARE } from '../src/engine/history/estimates.js';
import { weekLoad } from '../src/engine/science/workload.js';
import { found, setting } from './worked.js';

export interface Departure {
  readonly what: string;
  readonly published: string;
  /** Stave's own, or `none`. */
  readonly own: string;
  readonly why: string;
  readonly source: string;
}

const over = (name: CurveName, reps: number): string => (1 / curve(name).share(reps)).toFixed(4);
const percent = (share: number): string =>
  Number.isFinite(share) ? `${Number((share * 100).toFixed(1))} %` : 'none';

/** Forms that do not give the load itself for one repetition. */
const SINGLES: readonly (readonly [CurveName, string, string])[] = [
  ['epley', '1.0333', 'Epley 1985, w(1 + r/30)'],
  ['mayhew', '1.0886', 'Mayhew et al. 1992'],
  ['oconner', '1.0250', "O'Conner et al. 1989"],
  ['wathan', '1.0130', 'Wathen 1994'],
  ['kemmler', '1.0002', 'Kemmler et al. 2006 (abstract)'],
];

/** Cubic forms of 2024, coefficients of load × (c0 + c1 r + c2 r² + c3 r³); that they are read so is an inference. */
const CUBIC: readonly (readonly [string, readonly [number, number, number, number]])[] = [
  ['lat pulls', [0.987542505, 0.0152700149, 0.00278487038, -0.000115638888]],
  ['triceps dips', [0.973559954, 0.0271642658, 0.000930880743, -0.0000477453474]],
  ['trunk extension', [1.01565994, -0.0130808261, 0.00601883266, -0.0002286238]],
  ['trunk flexion', [0.994961852, 0.00731240752, 0.00293967456, -0.00010510901]],
  ['leg extension', [0.999714613, 0.00184050532, 0.00390281962, -0.000128405344]],
  ['leg flexion', [0.994637813, 0.00715193846, 0.00333621122, -0.000109143358]],
];

/** 1RM over load by the cubic form of an exercise. */
export function cubicMultiplier(exercise: string, reps: number): number {
  const [c0 = Number.NaN, c1 = 0, c2 = 0, c3 = 0] = CUBIC.find(([name]) => name === exercise)?.[1] ?? [];
  return c0 + reps * (c1 + reps * (c2 + reps * c3));
}

export const CUBIC_EXERCISES: readonly string[] = CUBIC.map(([name]) => name);

function cubic(): readonly Departure[] {
  return CUBIC.flatMap(([exercise]) =>
    [5, 10].map((reps) => ({
      what: `1RM over load, ${reps} reps to failure, ${exercise}`,
      published: cubicMultiplier(exercise, reps).toFixed(4),
      own: `${over('kemmler', reps)} (\`kemmler\`), ${over('brzycki', reps)} (\`brzycki\`)`,
      why: 'One form for each of six machines, in trained people of 73 ± 8 years with thin bones; no curve for all movements follows from them. `curve-fit` shows how far the two curves are apart.',
      source: 'Sports 2024;12(9):233 (table; the reading of its coefficients is an inference); computed',
    })),
  );
}

/** Reserve that is taken from an `rpe`, or null where the notation takes none. */
function takes(rpe: string): string {
  const { problems, value } = parse(`program P\nblock B, 1 week\nday D\n  back squat: 3x5 rpe ${rpe}\n`);
  if (problems.length > 0) return 'refused';
  for (const section of value.sections)
    if (section.kind === 'program')
      for (const entry of section.blocks[0]?.days[0]?.entries ?? [])
        if (entry.kind === 'row')
          for (const item of entry.cells[0]?.groups[0]?.items ?? [])
            if (item.kind === 'reserve') return String(item.reserve);
  return 'refused';
}

const WEEKS: readonly (readonly [readonly number[], string])[] = [
  [[300, 0, 420, 0, 300, 180, 0], '1.060'],
  [[240, 240, 0, 240, 240, 0, 0], '1.155'],
  [[360, 0, 270, 120, 0, 450, 0], '0.981'],
];

function numbers(): readonly Departure[] {
  return [
    ...SINGLES.map(([name, published, source]) => ({
      what: `1RM over load, a single, curve \`${name}\``,
      published,
      own: over(name, 1),
      why: 'A true single is the maximum itself; between one and two repetitions the form is joined by a straight line.',
      source: `${source}; computed`,
    })),
    ...[5, 10, 15].map((reps) => ({
      what: `1RM over load, ${reps} reps, Lander's equation`,
      published: (100 / (101.3 - 2.67123 * reps)).toFixed(4),
      own: `${over('brzycki', reps)} (\`brzycki\`)`,
      why: 'No curve of its own: it lies within 1.4 % of Brzycki from 2 to 15 repetitions.',
      source: 'Lander 1985, NSCA J 6(6):60-61 (from memory); computed',
    })),
    ...(
      [
        [11, '70 %'],
        [12, '67 %'],
        [15, '65 %'],
      ] as const
    ).map(([reps, published]) => ({
      what: `share of the 1RM for ${reps} reps, textbook table`,
      published,
      own: percent(curve('table').share(reps)),
      why: 'The curve `table` is the load chart, which prints 70 % for 12 and nothing for 11, 13 or 14; 11 is the mean of its neighbours, and it ends at 12.',
      source: 'NSCA, Haff & Triplett, Essentials, 4th ed., 2016, table 17.7 (from memory); the two disagree',
    })),
    {
      what: 'repetitions at 70 % of the 1RM',
      published: 'about 15',
      own: `${(curve('brzycki').reps(0.7) ?? 0).toFixed(1)} (\`brzycki\`), ${(curve('table').reps(0.7) ?? 0).toFixed(1)} (\`table\`)`,
      why: 'Fewer repetitions give a lighter load for the same reserve, which is the careful side; its tables were not seen.',
      source: 'Nuzzo et al., Sports Med 2024;54:303-321 (from memory, low confidence)',
    },
    {
      what: 'increase from 200 lb × 6 to 220 lb × 4',
      published: '3.45 %',
      own: percent((220 * 36) / 33 / ((200 * 36) / 31) - 1),
      why: 'The printed figure comes from the rounded 232 and 240 lb.',
      source: 'Public page quoting Brzycki 1993',
    },
    {
      what: 'error of a prediction in trained men, share of the mean',
      published: '10.6 to 13.5 %',
      own: percent(CURVE_ERROR_SHARE),
      why: 'Stave takes the error of trained postmenopausal women, adds that of the reserve, doubles it above 10 repetitions, and rounds loads down. An older woman on machines can lie a tenth off either way (Knutzen 1999).',
      source: 'Hutchins & Gearhart 2010 (abstract): total error at 85 %',
    },
    {
      what: 'reserve at RPE 9.5',
      published: '0',
      own: takes('9.5'),
      why: 'One formula, 10 − RPE, for all halves. The load comes out lighter than for 0, the careful side.',
      source: 'Zourdos et al. 2016 (quoted scale)',
    },
    {
      what: 'reserve at RPE 5',
      published: '4 to 6',
      own: takes('5'),
      why: 'The scale is not linear below 6, and a reserve of that size can hardly be felt: write the reserve.',
      source: 'Zourdos et al. 2016 (quoted scale)',
    },
    ...WEEKS.map(([loads, published]) => ({
      what: `monotony with the SD of a population, daily loads ${loads.join(', ')}`,
      published,
      own: (weekLoad(loads).monotony ?? Number.NaN).toFixed(3),
      why: 'The SD here is that of a sample (n − 1). Sources do not say which; this one gives the lower monotony.',
      source: 'Foster 1998; computed',
    })),
    {
      what: 'weighted ratio of the second and third fictitious athlete',
      published: '1.41, 1.55',
      own: 'none',
      why: 'Their daily loads were not seen. That 21 days at 300 and 7 at 500 are those of the first is an inference.',
      source: 'Williams et al., Br J Sports Med 2017;51(3):209-210 (abstract)',
    },
  ];
}

/** Most training days a week about which nothing is told to somebody who has lifted for years. */
const manyDays = found(
  {
    days: Object.fromEntries(['A', 'B', 'C', 'D', 'E', 'F'].map((name) => [name, ['back squat: 1x8 r4']])),
    on: 'mon tue wed thu fri sat',
    client: 'lifting since: 2020-01-01',
  },
  'days-many',
);

const prescriptions: readonly Departure[] = [
  {
    what: 'days a week, advanced',
    published: '4 to 7, 4 to 5',
    own: manyDays ? 'told' : 'nothing told at 6',
    why: 'Somebody who has trained for years knows what she recovers from; the rules on heavy work on two days running stay.',
    source: 'NSCA, Essentials, 4th ed., 2016; ACSM 2009',
  },
  {
    what: 'load of older beginners',
    published: '40 to 50 % of the 1RM',
    own: `${percent(curve('brzycki').share(15))} at most (3 × 10 with 5 in reserve, curve \`brzycki\`)`,
    why: 'The suggestion for learning work states reps and reserve, as the 1RM of a beginner is not known. More in reserve is within it.',
    source: 'ACSM 2011, Garber et al. (from memory)',
  },
  {
    what: 'weeks of training until sets of 6 to 8 repetitions to failure',
    published: '13',
    own: `${setting('heavy-soon', 'minWeeks')} without a note`,
    why: 'The trial was supervised. Six to eight months are common practice, no source; a note only, the sign-off counts.',
    source: 'POWIR trial, Winters-Stone et al., Osteoporos Int 2013;24(5) (table 1)',
  },
  {
    what: 'step after a failed single',
    published: 'lower by 2.5 to 5 % (upper), 5 to 10 % (lower body)',
    own: 'no failed single',
    why: 'A test in Stave ends with one in reserve: at less than that it stops, and the set before counts.',
    source: 'NSCA testing steps (quoted on public pages, which disagree on the size)',
  },
  {
    what: 'trials and rest of a test of the 1RM',
    published: 'within 4 trials, 3 to 5 min',
    own: 'at most 5 sets, 2 to 4 min',
    why: 'The NSCA procedure is the one that is printed.',
    source: 'ACSM guidelines, 9th ed., 2014 (quoted on a public page)',
  },
  {
    what: 'load of the next session by the effort that was told',
    published: '+5 kg at 5–6 to −5 kg at 10',
    own: 'none',
    why: 'One trial, steps in kilograms for all alike. The next load comes from the 2-for-2 rule and the kit.',
    source: 'PMC11057620, table 4',
  },
  {
    what: 'speed of the bar at the 1RM; correlation with effort',
    published: '0.24 ± 0.04 m/s; −0.88',
    own: 'none',
    why: 'Nothing in Stave measures speed.',
    source: 'Zourdos et al. 2016',
  },
  {
    what: 'blood pressure at which to stop',
    published: '250/115 mmHg',
    own: 'none',
    why: 'For monitored tests only. Cautions name symptoms, which a person can feel alone.',
    source: 'ACSM 2000 (adapted; one copy misprints it)',
  },
  {
    what: 'effort of a session, 6 to 20',
    published: '6 to 20',
    own: '0 to 10',
    why: 'A log takes the scale of 0 to 10 that session load is defined with; three scales of effort exist, and one is stored.',
    source: 'Borg (from memory); Foster',
  },
  {
    what: 'size of a step by body and training',
    published: '1 to 2 and 2 to 4 kg (upper), 2 to 4 and 4 to 7 kg (lower body)',
    own: `${setting('jump-load', 'heavyUpperPercent')} to ${setting('jump-load', 'maxPercent')} % at most`,
    why: 'Kilograms for all alike; a share goes with the load, so that a step from 10 kg is smaller than one from 80 kg.',
    source: 'NSCA, Essentials, 4th ed., 2016 (table of load increases; kilograms from memory)',
  },
  {
    what: 'sessions a week by season',
    published: '4 to 6, 3 to 4, 1 to 3, 0 to 3',
    own: 'none',
    why: 'For athletes who compete. Stave knows no season; days a week are judged by training age.',
    source: 'NSCA, Essentials, 4th ed., 2016 (from memory)',
  },
  {
    what: 'exercises of a session and their reps, older adults',
    published: '8 to 10 exercises of 8 to 12 or 10 to 15 reps, 2 days a week and more',
    own: 'none',
    why: 'How many exercises a day has is not judged; reps are judged where an aim is stated.',
    source:
      'Chodzko-Zajko et al., Med Sci Sports Exerc 2009;41(7):1510-1530; Nelson et al., ibid. 2007;39(8):1435-1445 (both from memory)',
  },
  {
    what: 'sets of older adults, and load of their power work',
    published: '2 to 4 sets; 20 to 50 or 40 to 60 % of the 1RM',
    own: '2 to 6 sets; any load',
    why: 'The ranges of an aim hold for all ages, and load is not judged for power, for which the tables together leave no share out.',
    source:
      'ACSM 2011, Garber et al. (from memory); Fragala et al., J Strength Cond Res 2019;33(8):2019-2052 (quoted on public pages)',
  },
  {
    what: 'least training that keeps strength',
    published: '1 session a week, 1 set, up to 32 weeks; older people 2 sessions, 2 to 3 sets',
    own: 'none',
    why: 'Stave tells of too much and of nothing at all, not of what would be enough: that is the coach’s to say.',
    source: 'Spiering et al., J Strength Cond Res 2021;35(5):1449-1458 (abstract)',
  },
  {
    what: 'load that equations give older adults on machines',
    published: '1 to 10 kg too low',
    own: 'not corrected',
    why: 'Too low is the careful side, and another study of older women found the general curves too high. `curve-fit` says so.',
    source: 'Knutzen et al., J Strength Cond Res 1999;13(3):242-246 (abstract)',
  },
  {
    what: 'effort that lifters report for a true single',
    published: '9.6 to 9.8, novices 8.96',
    own: '10',
    why: 'A max without a reserve is taken as one; a reported reserve is written with it and makes the max larger.',
    source: 'Helms et al., J Strength Cond Res 2017;31(2):292-297; Zourdos et al. 2016 (means from memory)',
  },
  {
    what: 'ladder before a 1RM',
    published: '10 at 50 %, 5 at 70 %, 3 at 80 %, 1 at 90 %',
    own: '5 to 10, 3 to 5, 2 to 3 by the NSCA steps',
    why: 'One procedure is printed, so that two tests compare.',
    source: 'Public page (fitnessandhealthpromotion.ca)',
  },
  {
    what: 'share of the highest heart rate or oxygen uptake in intervals',
    published: '77 to 90 % and about 170 %',
    own: 'none',
    why: 'Nothing in Stave measures heart rate or oxygen; work and rest of these protocols are among the values above.',
    source: 'Maillard 2016, Kong 2016, the low-volume model, Tabata 1996',
  },
  {
    what: 'ratio of the week to the month that is called favourable',
    published: '0.8 to 1.3',
    own: 'none',
    why: 'Contested. Only a rise is told, and only where it is asked for.',
    source: 'Gabbett, Br J Sports Med 2016;50:273-280 (quoted on a secondary page)',
  },
  {
    what: 'odds of an injury by that ratio; c-statistic',
    published: '2.45 (1.28 to 4.71), 1.5 to 1.95 with other numbers in place of the month; 0.574',
    own: 'none',
    why: 'Stave predicts no injury; these odds are why the ratio is called contested.',
    source: 'Impellizzeri et al., Sports Med 2021 (abstract)',
  },
  {
    what: 'monotony that is called preferable',
    published: 'below 1.5',
    own: 'none',
    why: 'A popular convention, not of Foster 1998. Only weeks above 2 are told, as contested.',
    source: 'fellrnr.com',
  },
  {
    what: 'sizes and tolerances of bars and discs',
    published: '2,010 and 2,200 mm, 25 and 28 mm, 450 mm; 0.05 to 0.25 %',
    own: 'none',
    why: 'Loads rest on masses alone, and each kit says its own.',
    source: 'IWF and IPF rules (public pages)',
  },
  {
    what: 'rise of the 1RM in twelve weeks of training',
    published: '28 ± 21 %',
    own: 'none',
    why: 'A result of a group. Stave predicts no result of anybody; a newer set is what counts.',
    source: 'Mayhew et al., J Strength Cond Res 2008;22(5):1570-1577 (abstract)',
  },
  {
    what: 'changes in bone density, body mass, oxygen uptake; injuries',
    published: 'several trials',
    own: 'none',
    why: 'Results of trials in groups. Stave predicts no result of anybody.',
    source: 'LIFTMOR 2018, POWIR 2013, the interval trials',
  },
];

export const DEPARTURES: readonly Departure[] = [...numbers(), ...cubic(), ...prescriptions];
