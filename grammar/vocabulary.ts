/** One word of the notation with a line of help, for completion and hover. */
export interface VocabularyEntry {
  readonly word: string;
  readonly help: string;
  /** As it stands in a file. */
  readonly example: string;
}

/** A statement that a section takes. `many`: may stand more than once in one section. */
export interface StatementEntry extends VocabularyEntry {
  readonly many: boolean;
}

export type SectionKind =
  | 'kit'
  | 'movement'
  | 'client'
  | 'group'
  | 'program'
  | 'block'
  | 'day'
  | 'circuit'
  | 'log';

function word(name: string, help: string, example: string): VocabularyEntry {
  return { word: name, help, example };
}

function once(name: string, help: string, example: string): StatementEntry {
  return { word: name, help, example, many: false };
}

function many(name: string, help: string, example: string): StatementEntry {
  return { word: name, help, example, many: true };
}

const ALLOW = many(
  'allow',
  'Silence a finding here, with the reason.',
  'allow: heavy-early "lifted for ten years elsewhere"',
);
const FOLLOWS = many(
  'follows',
  'The program that is trained, from when, on which days.',
  'follows: Harbour winter, from 2026-12-07, on mon thu',
);
const EFFORT = once(
  'effort',
  'Reps in reserve of every row that states no effort or load, by week.',
  'effort: r3 | r2 | r1',
);

/** All words by the place where they may stand. */
export const VOCABULARY: {
  readonly openers: Readonly<Record<SectionKind, VocabularyEntry>>;
  readonly statements: Readonly<Record<SectionKind, readonly StatementEntry[]>>;
  readonly cell: readonly VocabularyEntry[];
} = {
  openers: {
    kit: word('kit', 'What stands in a place to train.', 'kit Boathouse'),
    movement: word(
      'movement',
      'A movement: its pattern, its equipment, what is easier and harder.',
      'movement back squat',
    ),
    client: word('client', 'Who trains, with her maxes and her readiness.', 'client Heron'),
    group: word('group', 'Clients who follow one program, each with her own loads.', 'group Tuesday'),
    program: word('program', 'Blocks of weeks that follow one another.', 'program Harbour winter'),
    block: word(
      'block',
      'Some weeks of a program: length, stage, deload weeks.',
      'block Keel, 5 weeks, heavy, deload 5',
    ),
    day: word('day', 'A training day; a movement a row, a week a cell.', 'day Lower'),
    circuit: word('circuit', 'Rows done in rounds, up to `end`.', 'circuit Finisher, 3 rounds, rest 90s'),
    log: word('log', 'What was done on a date.', 'log Wren, Plover, 2026-12-08, Lower'),
  },
  statements: {
    kit: [
      many(
        'bar',
        'A bar and its mass; the first is the main bar, a named one is used where a movement says so.',
        'bar: 15kg',
      ),
      once('plates', 'The plates that there are, both sides together.', 'plates: 1.25kg x2, 5kg x4'),
      many('dumbbells', 'The dumbbells, as a range or one by one.', 'dumbbells: 2kg to 20kg by 2kg'),
      many('kettlebells', 'The kettlebells.', 'kettlebells: 8kg, 12kg'),
      once('pack', 'What a backpack can be loaded to, and in which steps.', 'pack: to 16kg by 1kg'),
      once('bands', 'The bands, from the lightest.', 'bands: light, medium'),
      many(
        'machine',
        'A machine, its loads, and whom it fits.',
        'machine leg press: 20kg to 120kg by 5kg, fits 165cm to 190cm',
      ),
    ],
    movement: [
      once('pattern', 'What kind of movement it is.', 'pattern: squat'),
      once('with', 'What it is done with.', 'with: barbell'),
      once('bar', 'Which named bar of the kit it uses.', 'bar: technique'),
      once('stage', 'The least stage it is for.', 'stage: load'),
      once('easier', 'What to do when it is too hard.', 'easier: box squat'),
      once('harder', 'What comes after it.', 'harder: front squat'),
      once('estimate', 'A provisional max from that of another movement.', 'estimate: 80% of back squat'),
      once('lifts', 'How much of the body it moves.', 'lifts: 65% of mass'),
      many('cue', 'A few words printed with it.', 'cue: "knees over toes"'),
    ],
    client: [
      once('born', 'Year, month or day of birth.', 'born: 1979-03'),
      once('height', 'Body height.', 'height: 172cm'),
      many('mass', 'Body mass on a date.', 'mass: 68kg, 2026-11-01'),
      once('units', 'The unit in which loads are printed.', 'units: kg'),
      once('lifting since', 'Year, month or day of the first lifting.', 'lifting since: 2024-05'),
      once('screened', 'The date of the health screening.', 'screened: 2026-09-14'),
      many('condition', 'A condition that brings cautions and referral notes.', 'condition: osteopenia'),
      many(
        'trains at',
        'The kit that is used, on which days, from when.',
        'trains at: Boathouse, on tue, from 2026-10-01',
      ),
      many('curve', 'The curve that turns reps into a share of the max.', 'curve: brzycki, from 2026-10-01'),
      once('rounding', 'Loads the kit can make: down, or nearest.', 'rounding: down'),
      many('care', 'A line printed on top of every plan.', 'care: "stop at any sharp pain"'),
      many(
        'ready',
        "The coach's sign-off of a stage for a pattern.",
        'ready: heavy squat 2026-10-05, load all 2026-06-01',
      ),
      many(
        'max',
        'A set done on a date, from which loads are worked out.',
        'max: back squat, 47.5kg x5 r2, 2026-11-23',
      ),
      many(
        'avoid',
        'A movement or pattern that must not be asked for.',
        'avoid: jump, from 2026-10-01 until 2026-12-01, "knee"',
      ),
      many(
        'swap',
        'One movement in place of another.',
        'swap: back squat, to box squat, 3x8 r4, from 2026-10-01 until 2026-12-01, "knee"',
      ),
      FOLLOWS,
      many(
        'away',
        'Dates without training, and the shares of the target in the first weeks back.',
        'away: 2026-12-20 to 2027-01-03, back at 80% 90%',
      ),
      ALLOW,
    ],
    group: [many('members', 'Who is in it.', 'members: Heron, Wren'), FOLLOWS, ALLOW],
    program: [once('aim', 'What it is for.', 'aim: strength'), ALLOW],
    block: [EFFORT, ALLOW],
    day: [EFFORT, ALLOW],
    circuit: [once('rounds', 'Rounds by week.', 'rounds: 2 | | 3'), ALLOW],
    log: [
      once('session', 'How hard and how long the session was.', 'session: rpe 7, 52min'),
      many('pain', 'Where it hurt, from 0 to 10.', 'pain: knee 3/10'),
      many('note', 'What else is worth knowing.', 'note: "slept badly"'),
      ALLOW,
    ],
  },
  cell: [
    word('3x6', 'sets × reps; `4x` new sets only, `x6` new reps only', '3x6'),
    word('3x6-8', 'a rep range', '3x6-8'),
    word('3xmax', 'as many reps as leave the reserve given', '3xmax r2'),
    word('3x30s', 'sets for time', '3x30s'),
    word('4x20m', 'sets over a distance, in metres', '4x20m'),
    word('off', 'recovery between intervals', '6x20s off 100s'),
    word('r2', 'reps in reserve of the last set', '3x6 r2'),
    word('rpe', 'effort from 6 to 10; the reserve is 10 less it', 'rpe 8'),
    word('80%', 'share of the estimated one-repetition maximum', '3x5 80%'),
    word('42.5kg', 'this load; for a pair of dumbbells, each one', '3x5 42.5kg'),
    word('bw', 'bodyweight; `bw+5kg` loaded, `bw-15kg` assisted', '3x8 bw+5kg'),
    word('pack', 'a loaded backpack', 'pack 8kg'),
    word('band', 'a band of the kit', 'band medium'),
    word('+2%', 'change of load against the week before', '+2%'),
    word('+2.5kg', 'change of load against the week before', '+2.5kg'),
    word('up', 'the next load that the kit can make', 'up'),
    word('down', 'the next lower load that the kit can make', 'down'),
    word('weekly', 'this change every week to the end of the block', '+2% weekly'),
    word('/side', 'on each side', '3x8 /side'),
    word('rest', 'rest between sets', 'rest 2min'),
    word('tempo', 'lowering, pause and lifting in seconds', 'tempo 3-1-1'),
    word('height', 'height of seat, step or hands', 'height 45cm'),
    word('warm', 'print a warm-up ramp', 'warm'),
    word('no side', 'ends `/side`', 'no side'),
    word('no rest', 'ends `rest`', 'no rest'),
    word('no tempo', 'ends `tempo`', 'no tempo'),
    word('no height', 'ends `height`', 'no height'),
    word('no warm', 'ends `warm`', 'no warm'),
    word('no deload', 'trains on in a deload week', 'no deload'),
    word('test', 'this week, work up to the heaviest set that leaves one', 'test x5'),
    word('wk5', 'this cell is week 5', 'wk5 4x'),
    word('-', 'left out this week', '-'),
    word('stop', 'left out from here on', 'stop'),
    word(';', 'next set group of the same movement', '1x5 r1 ; 3x5 -10%'),
  ],
};

/** What an item says, as a coach would call it; used where the same is said twice. */
export const KIND_TITLES: Readonly<Record<string, string>> = {
  dose: 'sets and reps',
  off: 'the recovery',
  reserve: 'the effort',
  percent: 'the share of the max',
  load: 'the load',
  bodyweight: 'bodyweight',
  pack: 'the pack',
  band: 'the band',
  change: 'a change of load',
  weekly: '`weekly`',
  side: '`/side`',
  rest: 'the rest',
  tempo: 'the tempo',
  height: 'the height',
  warm: '`warm`',
  'no deload': '`no deload`',
  test: 'the test',
  week: 'the week',
  'left-out': '`-`',
  stop: '`stop`',
  text: 'printed text',
};
