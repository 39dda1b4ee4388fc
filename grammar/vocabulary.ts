import { later, said } from './say.js';

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
  return {
    word: name,
    get help() {
      return said(help);
    },
    example,
  };
}

function once(name: string, help: string, example: string): StatementEntry {
  return statement(name, help, example, false);
}

function many(name: string, help: string, example: string): StatementEntry {
  return statement(name, help, example, true);
}

function statement(name: string, help: string, example: string, isMany: boolean): StatementEntry {
  return {
    word: name,
    get help() {
      return said(help);
    },
    example,
    many: isMany,
  };
}

const ALLOW = many(
  'allow',
  later('Silence a finding here, with the reason.'),
  'allow: heavy-early "lifted for ten years elsewhere"',
);
const FOLLOWS = many(
  'follows',
  later('The program that is trained, from when, on which days.'),
  'follows: Harbour winter, from 2026-12-07, on mon thu',
);
const EFFORT = once(
  'effort',
  later('Reps in reserve of every row that states no effort or load, by week.'),
  'effort: r3 | r2 | r1',
);

/** All words by the place where they may stand. */
export const VOCABULARY: {
  readonly openers: Readonly<Record<SectionKind, VocabularyEntry>>;
  readonly statements: Readonly<Record<SectionKind, readonly StatementEntry[]>>;
  readonly cell: readonly VocabularyEntry[];
} = {
  openers: {
    kit: word('kit', later('What stands in a place to train.'), 'kit Boathouse'),
    movement: word(
      'movement',
      later('A movement: its pattern, its equipment, what is easier and harder.'),
      'movement back squat',
    ),
    client: word('client', later('Who trains, with her maxes and her readiness.'), 'client Heron'),
    group: word('group', later('Clients who follow one program, each with her own loads.'), 'group Tuesday'),
    program: word('program', later('Blocks of weeks that follow one another.'), 'program Harbour winter'),
    block: word(
      'block',
      later('Some weeks of a program: length, stage, deload weeks.'),
      'block Keel, 5 weeks, heavy, deload 5',
    ),
    day: word('day', later('A training day; a movement a row, a week a cell.'), 'day Lower'),
    circuit: word(
      'circuit',
      later('Rows done in rounds, up to `end`.'),
      'circuit Finisher, 3 rounds, rest 90s',
    ),
    log: word('log', later('What was done on a date.'), 'log Wren, Plover, 2026-12-08, Lower'),
  },
  statements: {
    kit: [
      many(
        'bar',
        later('A bar and its mass; the first is the main bar, a named one is used where a movement says so.'),
        'bar: 15kg',
      ),
      once('plates', later('The plates that there are, both sides together.'), 'plates: 1.25kg x2, 5kg x4'),
      many('dumbbells', later('The dumbbells, as a range or one by one.'), 'dumbbells: 2kg to 20kg by 2kg'),
      many('kettlebells', later('The kettlebells.'), 'kettlebells: 8kg, 12kg'),
      once('pack', later('What a backpack can be loaded to, and in which steps.'), 'pack: to 16kg by 1kg'),
      once('bands', later('The bands, from the lightest.'), 'bands: light, medium'),
      many(
        'machine',
        later('A machine, its loads, and whom it fits.'),
        'machine leg press: 20kg to 120kg by 5kg, fits 165cm to 190cm',
      ),
    ],
    movement: [
      once('pattern', later('What kind of movement it is.'), 'pattern: squat'),
      once('with', later('What it is done with.'), 'with: barbell'),
      once('bar', later('Which named bar of the kit it uses.'), 'bar: technique'),
      once('stage', later('The least stage it is for.'), 'stage: load'),
      once('easier', later('What to do when it is too hard.'), 'easier: box squat'),
      once('harder', later('What comes after it.'), 'harder: front squat'),
      once(
        'estimate',
        later('A provisional max from that of another movement.'),
        'estimate: 80% of back squat',
      ),
      once('lifts', later('How much of the body it moves.'), 'lifts: 65% of mass'),
      many('cue', later('A few words printed with it.'), 'cue: "knees over toes"'),
    ],
    client: [
      once('born', later('Year, month or day of birth.'), 'born: 1979-03'),
      once('height', later('Body height.'), 'height: 172cm'),
      many('mass', later('Body mass on a date.'), 'mass: 68kg, 2026-11-01'),
      once('units', later('The unit in which loads are printed.'), 'units: kg'),
      once('lifting since', later('Year, month or day of the first lifting.'), 'lifting since: 2024-05'),
      once('screened', later('The date of the health screening.'), 'screened: 2026-09-14'),
      many(
        'condition',
        later('A condition that brings cautions and referral notes.'),
        'condition: osteopenia',
      ),
      many(
        'trains at',
        later('The kit that is used, on which days, from when.'),
        'trains at: Boathouse, on tue, from 2026-10-01',
      ),
      many(
        'curve',
        later('The curve that turns reps into a share of the max.'),
        'curve: brzycki, from 2026-10-01',
      ),
      once('rounding', later('Loads the kit can make: down, or nearest.'), 'rounding: down'),
      many('care', later('A line printed on top of every plan.'), 'care: "stop at any sharp pain"'),
      many(
        'ready',
        later("The coach's sign-off of a stage for a pattern."),
        'ready: heavy squat 2026-10-05, load all 2026-06-01',
      ),
      many(
        'max',
        later('A set done on a date, from which loads are worked out.'),
        'max: back squat, 47.5kg x5 r2, 2026-11-23',
      ),
      many(
        'avoid',
        later('A movement or pattern that must not be asked for.'),
        'avoid: jump, from 2026-10-01 until 2026-12-01, "knee"',
      ),
      many(
        'swap',
        later('One movement in place of another.'),
        'swap: back squat, to box squat, 3x8 r4, from 2026-10-01 until 2026-12-01, "knee"',
      ),
      FOLLOWS,
      many(
        'away',
        later('Dates without training, and the shares of the target in the first weeks back.'),
        'away: 2026-12-20 to 2027-01-03, back at 80% 90%',
      ),
      ALLOW,
    ],
    group: [many('members', later('Who is in it.'), 'members: Heron, Wren'), FOLLOWS, ALLOW],
    program: [once('aim', later('What it is for.'), 'aim: strength'), ALLOW],
    block: [EFFORT, ALLOW],
    day: [EFFORT, ALLOW],
    circuit: [once('rounds', later('Rounds by week.'), 'rounds: 2 | | 3'), ALLOW],
    log: [
      many(
        'swap',
        later('What was done that day in the place of a planned movement.'),
        'swap: back squat, to leg press, 60kg 10 10 10 r3, "rack taken"',
      ),
      once('session', later('How hard and how long the session was.'), 'session: rpe 7, 52min'),
      many('pain', later('Where it hurt, from 0 to 10.'), 'pain: knee 3/10'),
      many('note', later('What else is worth knowing.'), 'note: "slept badly"'),
      ALLOW,
    ],
  },
  cell: [
    word('3x6', later('sets × reps; `4x` new sets only, `x6` new reps only'), '3x6'),
    word('3x6-8', later('a rep range'), '3x6-8'),
    word('3xmax', later('as many reps as leave the reserve given'), '3xmax r2'),
    word('3x30s', later('sets for time'), '3x30s'),
    word('4x20m', later('sets over a distance, in metres'), '4x20m'),
    word('off', later('recovery between intervals'), '6x20s off 100s'),
    word('r2', later('reps in reserve of the last set'), '3x6 r2'),
    word('rpe', later('effort from 6 to 10; the reserve is 10 less it'), 'rpe 8'),
    word('80%', later('share of the estimated one-repetition maximum'), '3x5 80%'),
    word('42.5kg', later('this load; for a pair of dumbbells, each one'), '3x5 42.5kg'),
    word('bw', later('bodyweight; `bw+5kg` loaded, `bw-15kg` assisted'), '3x8 bw+5kg'),
    word('pack', later('a loaded backpack'), 'pack 8kg'),
    word('band', later('a band of the kit'), 'band medium'),
    word('+2%', later('change of load against the week before'), '+2%'),
    word('+2.5kg', later('change of load against the week before'), '+2.5kg'),
    word('up', later('the next load that the kit can make'), 'up'),
    word('down', later('the next lower load that the kit can make'), 'down'),
    word('weekly', later('this change every week to the end of the block'), '+2% weekly'),
    word('/side', later('on each side'), '3x8 /side'),
    word('rest', later('rest between sets'), 'rest 2min'),
    word('tempo', later('lowering, pause and lifting in seconds'), 'tempo 3-1-1'),
    word('height', later('height of seat, step or hands'), 'height 45cm'),
    word('warm', later('print a warm-up ramp'), 'warm'),
    word('no side', later('ends `/side`'), 'no side'),
    word('no rest', later('ends `rest`'), 'no rest'),
    word('no tempo', later('ends `tempo`'), 'no tempo'),
    word('no height', later('ends `height`'), 'no height'),
    word('no warm', later('ends `warm`'), 'no warm'),
    word('no deload', later('trains on in a deload week'), 'no deload'),
    word('test', later('this week, work up to the heaviest set that leaves one'), 'test x5'),
    word('wk5', later('this cell is week 5'), 'wk5 4x'),
    word('-', later('left out this week'), '-'),
    word('stop', later('left out from here on'), 'stop'),
    word(';', later('next set group of the same movement'), '1x5 r1 ; 3x5 -10%'),
  ],
};

/** What an item says, as a coach would call it; used where the same is said twice. */
export const KIND_TITLES: Readonly<Record<string, string>> = {
  dose: later('sets and reps'),
  off: later('the recovery'),
  reserve: later('the effort'),
  percent: later('the share of the max'),
  load: later('the load'),
  bodyweight: later('bodyweight'),
  pack: later('the pack'),
  band: later('the band'),
  change: later('a change of load'),
  weekly: '`weekly`',
  side: '`/side`',
  rest: later('the rest'),
  tempo: later('the tempo'),
  height: later('the height'),
  warm: '`warm`',
  'no deload': '`no deload`',
  test: later('the test'),
  week: later('the week'),
  'left-out': '`-`',
  stop: '`stop`',
  text: later('printed text'),
};
