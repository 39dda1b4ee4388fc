// A workspace of the size of a whole practice, always the same for the same numbers: one file for each client and
// each program.

/** A small generator of pseudo-random numbers (mulberry32), so that every run measures the same texts. */
export function randomFrom(seed) {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = state;
    mixed = Math.imul(mixed ^ (mixed >>> 15), mixed | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4294967296;
  };
}

const KITS = `kit Studio
  bar: 20kg
  bar technique: 8kg
  plates: 1.25kg x4, 2.5kg x4, 5kg x8, 10kg x8, 20kg x8
  dumbbells: 2kg to 30kg by 2kg
  kettlebells: 8kg, 12kg, 16kg, 24kg
  pack: to 16kg by 1kg
  bands: light, medium, strong
  machine leg press: 20kg to 160kg by 5kg

kit Boathouse
  bar: 15kg
  plates: 1.25kg x2, 2.5kg x2, 5kg x4, 10kg x4, 20kg x4
  dumbbells: 2kg to 20kg by 2kg
  kettlebells: 8kg, 12kg
  pack: to 12kg by 1kg
  bands: light, medium

kit Annex
  bar: 45lb
  plates: 2.5lb x2, 5lb x2, 10lb x4, 25lb x4, 45lb x4
  dumbbells: 5lb to 50lb by 5lb
  bands: light, medium
`;
const KIT_NAMES = ['Studio', 'Boathouse', 'Annex'];

/** Movements with a load, the heaviest e1RM in kilograms that a client of the workspace has. */
export const LOADED = [
  ['back squat', 140],
  ['deadlift', 160],
  ['bench press', 100],
  ['overhead press', 65],
  ['bent-over row', 90],
  ['romanian deadlift', 120],
  ['goblet squat', 30],
  ['dumbbell overhead press', 26],
];

const ROWS = [
  (name) => `${name}: 3x6 r3 warm rest 3min | 4x | r2 | x5`,
  (name) => `${name}: 3x8 r3 rest 2min | | +2% weekly`,
  (name) => `${name}: 4x5 75% | +2.5% | +2.5% | +2.5%`,
  (name) => `${name}: 1x5 r2 ; 3x5 -10% | | x4 | x3`,
  (name) => `${name}: 3x6-8 r2 | | up | up`,
  (name) => `${name}: 3x10 r4 tempo 3-1-1 | r3`,
];
const PLAIN = ['front plank: 3x30s | 3x40s | 3x50s', 'push-up: 3xmax r3', 'band row: 3x12 band medium'];

export function isoDate(dayNumber) {
  return new Date(dayNumber * 86_400_000).toISOString().slice(0, 10);
}

const FIRST_DAY = Date.UTC(2026, 0, 5) / 86_400_000; // a Monday

function clientText(index, programs, random) {
  const of = (values) => values[Math.floor(random() * values.length)];
  const strength = 0.6 + random() * 0.4;
  const lines = [
    `client Client ${index}`,
    `  born: ${1950 + Math.floor(random() * 55)}`,
    `  height: ${150 + Math.floor(random() * 45)}cm`,
    `  mass: ${50 + Math.floor(random() * 50)}kg, 2025-12-01`,
    '  screened: 2025-11-20',
    `  trains at: ${of(KIT_NAMES)}`,
    '  ready: heavy all 2025-12-20',
  ];
  for (const [name, most] of LOADED) {
    // Tested every seven weeks, so that most loads rest on a fresh max.
    for (let test = 0; test < 8; test += 1) {
      const kg = Math.round((most * strength * (0.75 + test * 0.015)) / 2.5) * 2.5;
      const day = isoDate(FIRST_DAY - 10 + test * 49);
      lines.push(
        `  max: ${name}, ${Math.max(2.5, kg)}kg x${3 + Math.floor(random() * 4)} r${Math.floor(random() * 3)}, ${day}`,
      );
    }
  }
  const start = isoDate(FIRST_DAY + 7 * Math.floor(random() * 4));
  lines.push(`  follows: Program ${index % programs}, from ${start}, on mon wed fri`);
  return `${lines.join('\n')}\n`;
}

function programText(index, random, programWeeks) {
  const lines = [`program Program ${index}`, '  aim: strength'];
  for (let weeks = programWeeks, block = 1; weeks > 0; block += 1) {
    const most = Math.min(8, weeks);
    let length = weeks <= 8 ? most : 4 + Math.floor(random() * 5);
    if (weeks - length > 0 && weeks - length < 4) length = weeks - 4;
    weeks -= length;
    lines.push('', `block Block ${block}, ${length} weeks, heavy, deload ${length}`);
    for (const day of ['Lower', 'Upper', 'Whole']) {
      lines.push(`day ${day}`);
      const names = new Set();
      while (names.size < 4) names.add(LOADED[Math.floor(random() * LOADED.length)][0]);
      for (const name of names) lines.push(`  ${ROWS[Math.floor(random() * ROWS.length)](name)}`);
      lines.push(`  ${PLAIN[Math.floor(random() * PLAIN.length)]}`);
    }
  }
  return `${lines.join('\n')}\n`;
}

/** Texts by file name. 200 clients and 40 programs of 52 weeks, three days of five rows, unless told otherwise. */
export function benchWorkspace({ clients = 200, programs = 40, weeks = 52, seed = 20_260_105 } = {}) {
  const random = randomFrom(seed);
  const files = new Map([['kits.stave', KITS]]);
  for (let index = 0; index < programs; index += 1)
    files.set(`program-${index}.stave`, programText(index, random, weeks));
  for (let index = 0; index < clients; index += 1)
    files.set(`client-${index}.stave`, clientText(index, programs, random));
  return files;
}

/**
 * Keystrokes in a program file, as an editor sees them: a percentage or a number of sets is typed, another character
 * of a row is struck by mistake and taken back.
 */
export function keystrokes(text, count, seed = 7) {
  const random = randomFrom(seed);
  const rows = [...text.matchAll(/^ {2}\S[^\n]*: (\d)x/gm)].map((match) => match.index + match[0].length - 2);
  return Array.from({ length: count }, () => {
    const offset = rows[Math.floor(random() * rows.length)];
    // Sound ones change the sets; every fifth leaves the row damaged until it is taken back.
    const typed = random() < 0.2 ? 'q' : String(1 + Math.floor(random() * 5));
    return { offset, typed };
  });
}

/** Middle, 95th of a hundred, and largest of some measurements. */
export function summary(values) {
  const sorted = [...values].sort((a, b) => a - b);
  const at = (share) => sorted[Math.min(sorted.length - 1, Math.ceil(share * sorted.length) - 1)];
  return { median: at(0.5), p95: at(0.95), most: sorted[sorted.length - 1] };
}
