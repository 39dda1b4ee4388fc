/** Published trials and protocols beside what the engine makes of them. */
import type { Session } from '../src/engine/model.js';
import { cellSeconds } from '../src/engine/science/duration.js';
import { createSession } from '../src/engine/session.js';
import type { PublishedValue } from './publishedValue.js';
import { cellOf, sessionsOf, setting } from './worked.js';

// ---------------------------------------------------------------- sprints and intervals

const TABATA = 'Tabata et al., Med Sci Sports Exerc 1996;28(10):1327-1330: 7 or 8 sets';
const HAZELL = 'Hazell et al., Eur J Appl Physiol 2010 (abstract)';
const WITH_LAST = 'computed, with the last recovery';

/** Work and recovery as written, seconds in all, source. */
const PROTOCOLS: readonly (readonly [string, number, string])[] = [
  [
    '60x8s off 12s',
    1200,
    'Trapp et al., Int J Obes 2008;32:684-691 (from memory), Kong et al. 2016, Maillard et al. 2016 and Boutcher et al., Med Sci Sports Exerc 2019;51(7):1413-1419 (abstracts): 20 min',
  ],
  ['8x20s off 10s', 240, `${TABATA}; ${WITH_LAST}`],
  ['7x20s off 10s', 210, `${TABATA}; ${WITH_LAST}`],
  [
    '10x60s off 60s',
    1200,
    'Low-volume interval training (Gibala model), sports science exchange 139; in obese women PMC5010533 (abstract); computed',
  ],
  ['4x30s off 240s', 1080, `${HAZELL}, 30 s with 4 min; ${WITH_LAST}`],
  ['4x10s off 240s', 1000, `${HAZELL}, 10 s with 4 min; ${WITH_LAST}`],
  ['4x10s off 120s', 520, `${HAZELL}, 10 s with 2 min; ${WITH_LAST}`],
  [
    '6x30s off 270s',
    1800,
    `Burgomaster et al., J Physiol 2008;586:151-160 (from memory): 4 to 6 times 30 s with 4.5 min; ${WITH_LAST}`,
  ],
  [
    '8x60s off 75s',
    1080,
    `Little et al., J Physiol 2010;588:1011-1022 (from memory): 8 to 12 times; ${WITH_LAST}`,
  ],
  [
    '12x60s off 75s',
    1620,
    `Little et al., J Physiol 2010;588:1011-1022 (from memory): 8 to 12 times; ${WITH_LAST}`,
  ],
  ['3x20s off 120s', 420, `Gillen et al., PLoS ONE 2016 (from memory): 3 times; ${WITH_LAST}`],
];

const sum = (numbers: readonly number[]): number => numbers.reduce((total, value) => total + value, 0);

/** Seconds of work in the first session, without recovery. */
function workSeconds([first]: readonly Session[]): number {
  return sum(
    (first?.cells ?? []).flatMap(({ groups }) =>
      groups.map(({ sets, seconds }) => (sets ?? 0) * (seconds ?? 0)),
    ),
  );
}

function sprints(): readonly PublishedValue[] {
  const topic = 'Sprint and interval protocols';
  const boutcher = sessionsOf({
    days: { One: ['hill sprint: 60x8s off 12s'] },
    on: 'mon wed fri',
    weeks: 8,
  });
  const seconds = (session: Session) => sum(session.cells.map((cell) => cellSeconds(cell) ?? Number.NaN));
  const source =
    'Boutcher et al., Med Sci Sports Exerc 2019;51(7):1413-1419 (abstract): three days a week for eight weeks';
  return [
    ...PROTOCOLS.map(([dose, published, from]) => {
      const cell = cellOf(`hill sprint: ${dose}`);
      return {
        topic,
        what: `seconds of \`${dose}\``,
        published,
        own: (cell && cellSeconds(cell)) ?? Number.NaN,
        tolerance: 0,
        source: from,
      };
    }),
    {
      topic,
      what: 'seconds of work in `60x8s off 12s`',
      published: 480,
      own: workSeconds(boutcher),
      tolerance: 0,
      source: `${source}; computed`,
    },
    { topic, what: 'sessions of the trial', published: 24, own: boutcher.length, tolerance: 0, source },
    {
      topic,
      what: 'hours of the trial',
      published: 8,
      own: sum(boutcher.map(seconds)) / 3600,
      tolerance: 1e-9,
      source,
    },
    {
      topic,
      what: 'most all-out seconds of a session in the first two weeks',
      published: [10, 120],
      own: setting('sprint-dose', 'maxSeconds'),
      tolerance: 0,
      source:
        'from 10 s (Metcalfe et al., Eur J Appl Physiol 2012;112:2767-2775, abstract) to 4 × 30 s (Hazell et al. 2010, abstract); the 60 s are common practice, no source',
    },
  ];
}

// ---------------------------------------------------------------- a year with a weighted vest

/** Months, repetitions to failure of the upper body, vest as per cent of body mass. */
const POWIR: readonly (readonly [string, readonly [number, number], readonly [number, number]])[] = [
  ['month 1', [12, 14], [0, 2]],
  ['month 2', [10, 12], [3, 5]],
  ['month 3', [8, 10], [6, 8]],
  ['months 4 to 12', [6, 8], [9, 10]],
];
const MASS_KG = 60;

/** The largest pack, in per cent of body mass, that counts as learning work when squatted. */
function lightPackPercent(): number {
  const session = createSession();
  const loads = Array.from({ length: 20 }, (_, index) => (index + 1) / 2);
  session.setFile(
    'vest',
    `kit Home
  pack: to 10kg by 0.5kg

client Heron
  mass: ${MASS_KG}kg, 2026-11-01
  trains at: Home
  ready: heavy all 2026-01-01
  follows: Winter, from 2026-12-07, on mon

movement vest squat
  pattern: squat
  with: pack

program Winter
block Keel, ${loads.length} weeks
day One
  vest squat: 3x8 pack 0.5kg | ${loads
    .slice(1)
    .map((kg) => `pack ${kg}kg`)
    .join(' | ')}
`,
  );
  const groups = (session.plan('heron')?.sessions ?? []).flatMap(({ cells }) =>
    cells.flatMap((cell) => cell.groups),
  );
  const light = groups.filter(({ stage }) => stage === 'learn').map(({ loadKg }) => loadKg ?? 0);
  return (Math.max(...light) / MASS_KG) * 100;
}

function powir(): readonly PublishedValue[] {
  const topic = 'A year of jumps and a weighted vest (POWIR)';
  const source =
    'POWIR trial, Winters-Stone et al., Osteoporos Int 2013;24(5) (table 1, PMC3856427), menopausal survivors of breast cancer';
  return [
    ...POWIR.map(([months, [least, most]]): PublishedValue => {
      const cell = cellOf(`bench press: 3x${least} r${(most - least) / 2}`);
      const group = cell?.groups[0];
      return {
        topic,
        what: `repetitions that the load of \`3x${least} r${(most - least) / 2}\` could be lifted, ${months}`,
        published: [least, most],
        own: (group?.reps ?? Number.NaN) + (group?.reserve ?? Number.NaN),
        tolerance: 0,
        source: `${source}: ${least} to ${most} RM, upper body`,
      };
    }),
    {
      topic,
      what: 'per cent of body mass up to which a pack or vest counts as light',
      published: POWIR[3]?.[2] ?? [0, 0],
      own: lightPackPercent(),
      tolerance: 0,
      source: `${source}: the heaviest vest, from month 4 on`,
    },
    {
      topic,
      what: 'most sets of a row about which nothing is told',
      published: 10,
      own: setting('far-off', 'maxSets'),
      tolerance: 0,
      source: `${source}: up to 10 sets of 10 jumps`,
    },
  ];
}

export const TRIAL_VALUES: readonly PublishedValue[] = [...sprints(), ...powir()];
