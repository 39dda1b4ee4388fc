/**
 * Published values of the trade beside the engine's own. The reference page `values.md` is generated from this list, and
 * a test holds each value to its tolerance. "From memory" says that the value was not seen in print when it was written
 * down; "computed" says that it is arithmetic on a published form.
 */
import { parse } from '../../grammar/index.js';
import { type CurveName, curve, estimateFromSet } from '../src/engine/curves.js';
import { loadBar } from '../src/engine/plates.js';
import { PRILEPIN_ZONES, prilepinZone } from '../src/engine/science/volume.js';
import {
  rollingWorkloadRatio,
  sessionLoad,
  weekLoad,
  weightedWorkloadRatio,
} from '../src/engine/science/workload.js';
import { fromKg, KG_PER_LB, toKg } from '../src/engine/units.js';
import { PROTOCOL_VALUES } from './protocolValues.js';
import type { PublishedValue } from './publishedValue.js';
import { TEXTBOOK_VALUES } from './textbookValues.js';
import { TRIAL_VALUES } from './trialValues.js';

export type { PublishedValue } from './publishedValue.js';

function estimate(name: CurveName, load: number, reps: number): number {
  const result = estimateFromSet(curve(name), load, reps);
  return 'beyondDomain' in result ? Number.NaN : result.estimatedOneRepMaxKg;
}

const NSCA_CHART = 'NSCA Training Load Chart';
const CHART_REPS = [2, 3, 4, 5, 6, 7, 8, 9, 10, 12];
const CHART_ROWS: readonly (readonly [number, readonly number[]])[] = [
  [40, [38, 37.2, 36, 34.8, 34, 33.2, 32, 30.8, 30, 28]],
  [100, [95, 93, 90, 87, 85, 83, 80, 77, 75, 70]],
  [150, [142.5, 139.5, 135, 130.5, 127.5, 124.5, 120, 115.5, 112.5, 105]],
  [200, [190, 186, 180, 174, 170, 166, 160, 154, 150, 140]],
  [250, [237.5, 232.5, 225, 217.5, 212.5, 207.5, 200, 192.5, 187.5, 175]],
  [300, [285, 279, 270, 261, 255, 249, 240, 231, 225, 210]],
];

function chartValues(): readonly PublishedValue[] {
  return CHART_ROWS.flatMap(([oneRepMax, loads]) =>
    loads.map((published, index) => {
      const reps = CHART_REPS[index] ?? 1;
      return {
        topic: 'Repetitions and load (curve `table`)',
        what: `load for ${reps} reps at a 1RM of ${oneRepMax}`,
        published,
        own: oneRepMax * curve('table').share(reps),
        tolerance: 1e-9,
        source: NSCA_CHART,
      };
    }),
  );
}

const MULTIPLIER_REPS = [2, 3, 4, 5, 6, 7, 8, 9, 10, 12, 15];
const FORMS: readonly (readonly [CurveName, string, readonly number[]])[] = [
  [
    'epley',
    'Epley 1985, w(1 + r/30); computed',
    [1.0667, 1.1, 1.1333, 1.1667, 1.2, 1.2333, 1.2667, 1.3, 1.3333, 1.4, 1.5],
  ],
  [
    'brzycki',
    'Brzycki 1993, 36w/(37 − r); computed',
    [1.0286, 1.0588, 1.0909, 1.125, 1.1613, 1.2, 1.2414, 1.2857, 1.3333, 1.44, 1.6364],
  ],
  [
    'lombardi',
    'Lombardi 1989, w r^0.10 (from memory); computed',
    [1.0718, 1.1161, 1.1487, 1.1746, 1.1962, 1.2148, 1.2311, 1.2457, 1.2589, 1.2821, 1.311],
  ],
  [
    'mayhew',
    'Mayhew et al. 1992, 100w/(52.2 + 41.9 e^(−0.055 r)); computed',
    [1.1144, 1.1399, 1.1652, 1.1901, 1.2147, 1.239, 1.2629, 1.2863, 1.3093, 1.354, 1.4172],
  ],
  [
    'oconner',
    "O'Conner et al. 1989, w(1 + r/40) (from memory); computed",
    [1.05, 1.075, 1.1, 1.125, 1.15, 1.175, 1.2, 1.225, 1.25, 1.3, 1.375],
  ],
  [
    'wathan',
    'Wathen 1994, 100w/(48.8 + 53.8 e^(−0.075 r)); computed',
    [1.0515, 1.0898, 1.128, 1.1658, 1.2033, 1.2403, 1.2767, 1.3125, 1.3475, 1.415, 1.5091],
  ],
  [
    'kemmler',
    'Kemmler et al. 2006 (abstract), trained postmenopausal women; computed',
    [1.0159, 1.0347, 1.0563, 1.0802, 1.1062, 1.1339, 1.1629, 1.1929, 1.2236, 1.2855, 1.3744],
  ],
];

function multipliers(): readonly PublishedValue[] {
  return FORMS.flatMap(([name, source, values]) =>
    values.map((published, index) => {
      const reps = MULTIPLIER_REPS[index] ?? 1;
      return {
        topic: `1RM over load by reps (curve \`${name}\`)`,
        what: `${reps} reps to failure`,
        published,
        own: 1 / curve(name).share(reps),
        tolerance: 0.00005,
        source,
      };
    }),
  );
}

/** Examples with an answer that stands in print. Half a per cent covers the two printed forms of Epley and Brzycki. */
const EXAMPLES: readonly PublishedValue[] = (
  [
    [
      'epley',
      '225 lb × 10 (Epley with 0.033)',
      299.25,
      estimate('epley', 225, 10),
      1.5,
      'A Christian Guide to Body Stewardship, Diet and Exercise, 3rd ed., appendix E',
    ],
    ['brzycki', '200 lb × 6', 232, estimate('brzycki', 200, 6), 0.5, 'Public page quoting Brzycki 1993'],
    ['brzycki', '220 lb × 4', 240, estimate('brzycki', 220, 4), 0.5, 'Public page quoting Brzycki 1993'],
    [
      'table',
      '135 lb × 10',
      180,
      estimate('table', 135, 10),
      0.0005,
      'Public page using the NSCA chart, 75 %',
    ],
    [
      'table',
      '135 lb × 12',
      192.857,
      estimate('table', 135, 12),
      0.0005,
      'Public page using the NSCA chart, 70 %',
    ],
    [
      'table',
      'load for 8 reps after 135 lb × 12',
      154.286,
      estimate('table', 135, 12) * curve('table').share(8),
      0.0005,
      'Public page using the NSCA chart, 80 %',
    ],
  ] as const
).map(([name, what, published, own, tolerance, source]) => ({
  topic: '1RM from a set, examples in print',
  what: `${what}, curve \`${name}\``,
  published,
  own,
  tolerance,
  source,
}));

const days = (count: number, load: number) => Array.from({ length: count }, () => load);
/** 21 days at 300, then 7 at 500. That these are the daily data of the first athlete is an inference. */
const FIRST_ATHLETE = [...days(21, 300), ...days(7, 500)];
const RISING_WEEKS = [4, 6, 8, 10].flatMap((load) => days(7, load));
const COMPUTED_WEEKS = [
  { loads: [300, 0, 420, 0, 300, 180, 0], monotony: 0.981, strain: 1177.64 },
  { loads: [240, 240, 0, 240, 240, 0, 0], monotony: 1.069, strain: 1026.28 },
  { loads: [360, 0, 270, 120, 0, 450, 0], monotony: 0.908, strain: 1090.06 },
];

function workload(): readonly PublishedValue[] {
  const topic = 'Session load, monotony, strain, workload';
  const foster = 'Foster 1998, sample SD; computed (his own worked week was not found)';
  const williams = 'Williams et al. 2017, Br J Sports Med 51(3):209-210 (abstract); contested';
  return [
    {
      topic,
      what: 'session load of RPE 6 for 50 min',
      published: 300,
      own: sessionLoad(6, 50),
      tolerance: 0,
      source: 'Foster 1998: session RPE × minutes; computed',
    },
    ...COMPUTED_WEEKS.flatMap(({ loads, monotony, strain }) => {
      const week = weekLoad(loads);
      const name = `daily loads ${loads.join(', ')}`;
      return [
        {
          topic,
          what: `monotony, ${name}`,
          published: monotony,
          own: week.monotony ?? Number.NaN,
          tolerance: 0.0005,
          source: foster,
        },
        {
          topic,
          what: `strain, ${name}`,
          published: strain,
          own: week.strain ?? Number.NaN,
          tolerance: 0.005,
          source: foster,
        },
      ];
    }),
    {
      topic,
      what: 'rolling 7 : 28 days, first fictitious athlete',
      published: 1.43,
      own: rollingWorkloadRatio(FIRST_ATHLETE) ?? Number.NaN,
      tolerance: 0.005,
      source: williams,
    },
    {
      topic,
      what: 'the same, the last 7 days against the 21 before them',
      published: 1.6667,
      own: rollingWorkloadRatio(FIRST_ATHLETE, false) ?? Number.NaN,
      tolerance: 0.00005,
      source: 'Gabbett 2016, wording of the uncoupled ratio from memory; computed; contested',
    },
    {
      topic,
      what: 'rolling 7 : 28 days, weeks of 4, 6, 8 and 10 a day',
      published: 1.4286,
      own: rollingWorkloadRatio(RISING_WEEKS) ?? Number.NaN,
      tolerance: 0.00005,
      source: 'Williams et al. 2017, rolling mean; computed; contested',
    },
    {
      topic,
      what: 'exponentially weighted 7 : 28 days, weeks of 4, 6, 8 and 10 a day',
      published: 1.2744,
      own: weightedWorkloadRatio(RISING_WEEKS) ?? Number.NaN,
      tolerance: 0.00005,
      source: 'Williams et al. 2017, λ = 2/(N + 1) from memory; computed; contested',
    },
    {
      topic,
      what: 'exponentially weighted 7 : 28 days, first fictitious athlete',
      published: 1.25,
      own: weightedWorkloadRatio(FIRST_ATHLETE) ?? Number.NaN,
      tolerance: 0.005,
      source: williams,
    },
  ];
}

const PRILEPIN: readonly (readonly [number, number, number, number])[] = [
  [0.6, 24, 18, 30],
  [0.72, 18, 12, 24],
  [0.85, 15, 10, 20],
  [0.92, 7, 4, 10],
];

function prilepin(): readonly PublishedValue[] {
  const source = "Prilepin's table as quoted by McCullough; weightlifters, per lift and session";
  return PRILEPIN.flatMap(([share, optimal, least, most]) => {
    const zone = prilepinZone(share);
    const at = `at ${Math.round(share * 100)} % of the 1RM`;
    return [
      ['optimal reps', optimal, zone?.optimalReps],
      ['fewest reps', least, zone?.range[0]],
      ['most reps', most, zone?.range[1]],
    ].map(([words, published, own]) => ({
      topic: `Prilepin's table (${PRILEPIN_ZONES.length} zones)`,
      what: `${words} ${at}`,
      published: Number(published),
      own: Number(own),
      tolerance: 0,
      source,
    }));
  });
}

/** Reserve that the notation takes an `rpe` for. */
function reserveOf(rpe: number): number {
  const { sections } = parse(`program P\nblock B, 1 week\nday D\n  back squat: 3x5 rpe ${rpe}\n`).value;
  for (const section of sections) {
    if (section.kind !== 'program') continue;
    for (const entry of section.blocks[0]?.days[0]?.entries ?? []) {
      const item =
        entry.kind === 'row' ? entry.cells[0]?.groups[0]?.items.find(({ kind }) => kind === 'reserve') : null;
      if (item?.kind === 'reserve') return item.reserve;
    }
  }
  return Number.NaN;
}

function exertion(): readonly PublishedValue[] {
  const topic = 'Effort by repetitions in reserve';
  const zourdos = 'Zourdos et al. 2016, J Strength Cond Res 30(1):267-275 (abstract and quoted scale)';
  return [
    ...[7, 8, 9, 10].map((rpe) => ({
      topic,
      what: `reserve at RPE ${rpe}`,
      published: 10 - rpe,
      own: reserveOf(rpe),
      tolerance: 0,
      source: zourdos,
    })),
    ...(
      [
        [8.5, 1, 2],
        [7.5, 2, 3],
        [6, 4, 6],
      ] as const
    ).map(([rpe, least, most]) => ({
      topic,
      what: `reserve at RPE ${rpe}`,
      published: [least, most] as const,
      own: reserveOf(rpe),
      tolerance: 0,
      source: zourdos,
    })),
    {
      topic,
      what: 'share of the 1RM for 5 reps at RPE 8, curve `table`',
      published: 0.83,
      own: curve('table').share(5 + reserveOf(8)),
      tolerance: 1e-9,
      source: 'NSCA Training Load Chart at 7 reps; adding the reserve is common practice, computed',
    },
  ];
}

function unitsAndPlates(): readonly PublishedValue[] {
  const topic = 'Units and plates';
  const pound = 'International pound, 1959 (NIST SP 811, appendix B.8)';
  const plates = [2.5, 5, 10, 15, 20, 25].map((kg) => ({ kg, count: 4 }));
  const loaded = loadBar(60, 15, plates);
  const eachSide = loaded?.eachSideKg.reduce((sum, kg) => sum + kg, 0) ?? Number.NaN;
  return [
    {
      topic,
      what: 'kilograms of a pound',
      published: 0.45359237,
      own: KG_PER_LB,
      tolerance: 0,
      source: pound,
    },
    ...(
      [
        [2.5, 5.511556555],
        [15, 33.06933933],
        [20, 44.09245244],
        [25, 55.11556555],
      ] as const
    ).map(([kg, published]) => ({
      topic,
      what: `pounds of ${kg} kg`,
      published,
      own: fromKg(kg, 'lb'),
      tolerance: 1e-8,
      source: `${pound}; computed`,
    })),
    ...(
      [
        [2.5, 1.133980925],
        [100, 45.359237],
      ] as const
    ).map(([lb, published]) => ({
      topic,
      what: `kilograms of ${lb} lb`,
      published,
      own: toKg(lb, 'lb'),
      tolerance: 1e-9,
      source: `${pound}; computed`,
    })),
    {
      topic,
      what: 'kilograms of 45 lb',
      published: 20.41165665,
      own: toKg(45, 'lb'),
      tolerance: 1e-9,
      source: pound,
    },
    {
      topic,
      what: 'kilograms of 225 lb',
      published: 102.05828325,
      own: toKg(225, 'lb'),
      tolerance: 1e-9,
      source: pound,
    },
    {
      topic,
      what: 'kilograms on each side for 60 kg on a 15 kg bar, no collars',
      published: 22.5,
      own: eachSide,
      tolerance: 1e-9,
      source: 'IWF bars and discs; computed',
    },
  ];
}

export const PUBLISHED_VALUES: readonly PublishedValue[] = [
  ...chartValues(),
  ...multipliers(),
  ...EXAMPLES,
  ...exertion(),
  ...workload(),
  ...prilepin(),
  ...unitsAndPlates(),
  ...PROTOCOL_VALUES,
  ...TRIAL_VALUES,
  ...TEXTBOOK_VALUES,
];
