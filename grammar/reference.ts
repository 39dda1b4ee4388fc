/** One thing that can be written, with the smallest example of it. */
export interface ReferenceEntry {
  readonly title: string;
  readonly text: string;
  /** Reads without a problem inside `around`. */
  readonly example: string;
  /** Where the example stands: `…` is replaced by it. */
  readonly around: string;
}

const file = '…';
const inside = (opener: string): string => `${opener}\n  …`;
const day = 'program P\nblock B, 8 weeks, load\nday Lower\n  …';
const row = 'program P\nblock B, 8 weeks, load\nday Lower\n  back squat: …';
const timed = 'program P\nblock B, 8 weeks, load\nday Lower\n  …';

function entry(title: string, text: string, example: string, around: string): ReferenceEntry {
  return { title, text, example, around };
}

/** The notation on one page, part by part. Every example is run as a test. */
export const REFERENCE: readonly { readonly title: string; readonly entries: readonly ReferenceEntry[] }[] = [
  {
    title: 'Lines',
    entries: [
      entry('Statement', 'A line with a colon states something.', 'born: 1979', inside('client Heron')),
      entry(
        'Opener',
        'A line without a colon opens something. Indentation has no meaning; the formatter sets it.',
        'client Heron',
        file,
      ),
      entry('Text', 'A line of quoted text is printed where it stands.', '"Slow on the way down."', day),
      entry(
        'Note',
        'After two hyphens with spaces around them stands a note for the coach; it is not printed.',
        'back squat: 3x6 r2 -- watch the knees',
        day,
      ),
      entry(
        'Long row',
        'A line that starts with `|` continues the row directly above.',
        'back squat: 3x6 r2 | 4x\n              | x5 | up',
        day,
      ),
      entry(
        'Names',
        'A name may hold anything but `: , | ; "`. Capitals and repeated spaces make no difference. A comma ends it.',
        'follows: Harbour winter, from 2026-12-07, on mon thu',
        inside('client Heron'),
      ),
      entry(
        'Units',
        'kg, lb, cm, in, s, min, m. `m` is metres only. Decimals have a point. Dates are year-month-day.',
        'mass: 68.5kg, 2026-11-01',
        inside('client Heron'),
      ),
    ],
  },
  {
    title: 'Cells: sets, reps and effort',
    entries: [
      entry(
        'Sets and reps',
        'The first cell of a row says both; later cells say what changes.',
        '3x6 r2 | 4x | x5',
        row,
      ),
      entry(
        'Rep range',
        'The load is for the lower number; when all sets reach the upper one, the next load is due.',
        '3x6-8 r2',
        row,
      ),
      entry('Open reps', 'As many as leave the reserve that is written.', '3xmax r2', row),
      entry('Time', 'Sets for time.', 'plank: 3x30s', timed),
      entry('Distance', 'Sets over a distance.', 'pack carry: 4x20m pack 8kg', timed),
      entry('Intervals', 'Work and recovery.', 'bike: 6x20s off 100s', timed),
      entry('Reps in reserve', 'How many reps the last set leaves.', '3x6 r2', row),
      entry('Perceived effort', 'From 6 to 10 in halves; the reserve is 10 less it.', '3x6 rpe 8.5', row),
      entry(
        'Test',
        'This week only: work up to the heaviest set that leaves one.',
        '3x6 r2 | | test x5',
        row,
      ),
    ],
  },
  {
    title: 'Cells: loads',
    entries: [
      entry('Share', 'Of the estimated one-repetition maximum.', '3x5 80%', row),
      entry('Load', 'This load; for a pair of dumbbells, each one.', '3x5 42.5kg', row),
      entry('Bodyweight', 'Alone, loaded, assisted.', 'pull-up: 3x8 bw | bw+5kg | bw-15kg', timed),
      entry('Pack', 'A loaded backpack.', 'step-up: 3x8 pack 8kg', timed),
      entry('Band', 'A band of the kit; its name is one word.', 'pull-apart: 3x15 band light', timed),
      entry('Change', 'Against the week before, in percent or in mass.', '3x6 r2 | +2% | +2.5kg', row),
      entry('Next load', 'The next one that the kit can make.', '3x6 r2 | up | down', row),
      entry(
        'Every week',
        'The change goes on to the end of the block; last written cell only.',
        '3x6 r2 | +2% weekly',
        row,
      ),
    ],
  },
  {
    title: 'Cells: how it is done',
    entries: [
      entry('Each side', 'Carries along until `no side`.', 'split squat: 3x8 r3 /side | no side', timed),
      entry('Rest', 'Between sets; ends with `no rest`.', '3x6 r2 rest 2min', row),
      entry(
        'Tempo',
        'Lowering, pause and lifting in seconds; ends with `no tempo`.',
        '3x6 r2 tempo 3-1-1',
        row,
      ),
      entry('Height', 'Of seat, step or hands; ends with `no height`.', 'step-up: 3x8 r3 height 45cm', timed),
      entry('Warm-up', 'Prints a warm-up ramp; ends with `no warm`.', '3x6 r2 warm', row),
      entry('Printed words', 'In quotation marks.', '3x6 r2 "pause on the box"', row),
    ],
  },
  {
    title: 'Cells: weeks and groups',
    entries: [
      entry('As before', 'An empty cell is as the week before.', '3x6 r2 | | 4x', row),
      entry('Left out', 'This week only; an empty cell after it resumes.', '3x6 r2 | - | ', row),
      entry('Stop', 'Left out from here on.', '3x6 r2 | | stop', row),
      entry('Week number', 'First in a cell: this cell is that week.', '3x6 r2 | wk5 4x', row),
      entry('No deload', 'The row trains on in a deload week.', '3x6 r2 no deload', row),
      entry(
        'Set groups',
        'A top set and back-offs 10 % lighter. A group with only a change rests on the one before.',
        '1x5 r1 ; 3x5 -10%',
        row,
      ),
      entry(
        'Changing a group',
        'Without `;` a later cell changes group one.',
        '1x5 r1 ; 3x5 -10% | ; 4x | ; -',
        row,
      ),
      entry(
        'Twice in a day',
        'A movement that stands twice carries a label.',
        'back squat (pause): 3x3 r3',
        timed,
      ),
    ],
  },
  {
    title: 'Programs',
    entries: [
      entry('Program', 'Blocks follow one another.', 'program Harbour winter\n  aim: strength', file),
      entry('Block', 'Weeks, stage, deload weeks.', 'block Keel, 8 weeks, heavy, deload 4 8', 'program P\n…'),
      entry(
        'Like another',
        'Takes over days, rows, weeks, stage and deloads; a row written here replaces, `-` removes.',
        'block Second keel, like Keel, +2.5%\nday Lower\n  back squat: -',
        'program P\nblock Keel, 4 weeks, load\n…',
      ),
      entry(
        'Like one elsewhere',
        'A block of another program.',
        'block Third, like Harbour winter / Keel',
        'program P\n…',
      ),
      entry(
        'Effort line',
        'The reserve of every row that states no effort or load, in a block or a day.',
        'effort: r3 | r2 | r1',
        'program P\nblock B, 3 weeks, load\n…',
      ),
      entry(
        'Day',
        'A movement a row, a week a cell.',
        'day Lower\n  back squat: 3x6 r2',
        'program P\nblock B, 3 weeks, load\n…',
      ),
      entry(
        'Circuit',
        'Rows have reps, no sets. Rounds, or a time.',
        'circuit Finisher, 3 rounds, rest 90s\n  push-up: x10\n  plank: x30s\nend',
        day,
      ),
      entry('Circuit for time', 'As many rounds as fit.', 'circuit Engine, 12min\n  step-up: x10\nend', day),
      entry(
        'On the clock',
        'A round starts every so often.',
        'circuit Clock, 6 rounds, every 2min\n  swing: x12\nend',
        day,
      ),
      entry('Rounds by week', '', 'circuit Finisher, 2 rounds\n  rounds: 2 | | 3\n  push-up: x10\nend', day),
      entry(
        'Allow',
        'Silences a finding here, with the reason.',
        'back squat: 3x6 r2\n    allow: stuck "no smaller plates"',
        day,
      ),
    ],
  },
  {
    title: 'Clients',
    entries: [
      entry(
        'Client',
        'Sections of one name belong together.',
        'client Heron\n  born: 1979-03\n  height: 172cm\n  mass: 68kg, 2026-11-01\n  units: kg\n  lifting since: 2024',
        file,
      ),
      entry(
        'Screening',
        'When her health was asked after, what was found, and what is printed on every plan.',
        'screened: 2026-09-14\n  condition: osteopenia\n  care: "stop at any sharp pain"',
        inside('client Heron'),
      ),
      entry(
        'Place',
        'Which kit, on which days, from when.',
        'trains at: Boathouse, on tue, from 2026-10-01',
        inside('client Heron'),
      ),
      entry(
        'Ready',
        'The coach signs off a stage for a pattern; the newest counts.',
        'ready: heavy squat 2026-10-05, load all 2026-06-01',
        inside('client Heron'),
      ),
      entry(
        'Max',
        'A set done that day; `x1` is a true single, `at KIT` for machines. With `from` it counts only from a later day, and what was planned before stays as it was.',
        'max: back squat, 47.5kg x5 r2, 2026-11-23\n  max: leg press, 60kg x10 r3, 2026-11-23, at Boathouse, from 2026-12-07',
        inside('client Heron'),
      ),
      entry(
        'Avoid',
        'A movement or a pattern.',
        'avoid: jump, from 2026-10-01 until 2026-12-01, "knee"',
        inside('client Heron'),
      ),
      entry(
        'Swap',
        'One movement in place of another; without a dose the row holds.',
        'swap: back squat, to box squat, 3x8 r4, from 2026-10-01 until 2026-12-01, "knee"',
        inside('client Heron'),
      ),
      entry(
        'Follows',
        'A program, from when, on which weekdays or every so many days, with the time of day where it is known. A time is that of all weekdays before it that have none.',
        'follows: Harbour winter, from 2026-12-07, on mon thu 18:00 sat 9:30\n  follows: Tide, from 2026-12-07, every 3 days 7:30, supervised, alongside',
        inside('client Heron'),
      ),
      entry(
        'Away',
        'Dates without training, and the first weeks back.',
        'away: 2026-12-20 to 2027-01-03, back at 80% 90%',
        inside('client Heron'),
      ),
      entry(
        'Away, keeping dates',
        'The program goes on without her.',
        'away: 2026-12-20 to 2027-01-03, keep dates',
        inside('client Heron'),
      ),
      entry(
        'Reckoning',
        'The curve from reps to a share of the max, and which load is taken.',
        'curve: brzycki, from 2026-10-01\n  rounding: down',
        inside('client Heron'),
      ),
      entry(
        'Group',
        'One program for several clients, each with her own loads.',
        'group Tuesday\n  members: Heron, Wren\n  follows: Harbour winter, from 2026-12-07, on tue',
        file,
      ),
    ],
  },
  {
    title: 'Kits and movements',
    entries: [
      entry(
        'Bars',
        'The first is the main bar; a named one is used where a movement says so.',
        'bar: 15kg\n  bar technique: 8kg',
        inside('kit Boathouse'),
      ),
      entry(
        'Plates',
        'How many there are, both sides together.',
        'plates: 1.25kg x2, 2.5kg x2, 5kg x4',
        inside('kit Boathouse'),
      ),
      entry(
        'Dumbbells and kettlebells',
        'As a range or one by one.',
        'dumbbells: 2kg to 20kg by 2kg\n  kettlebells: 8kg, 12kg x2',
        inside('kit Boathouse'),
      ),
      entry(
        'Pack and bands',
        'Bands from the lightest.',
        'pack: to 16kg by 1kg\n  bands: light, medium',
        inside('kit Boathouse'),
      ),
      entry(
        'Machines',
        'Loads, and whom it fits.',
        'machine leg press: 20kg to 120kg by 5kg, fits 165cm to 190cm',
        inside('kit Boathouse'),
      ),
      entry(
        'Movement',
        'Replaces the built-in one of that name.',
        'movement back squat\n  pattern: squat\n  with: barbell\n  stage: load\n  easier: box squat\n  harder: front squat\n  cue: "knees over toes"',
        file,
      ),
      entry('Machine movement', '', 'with: machine leg press', inside('movement leg press')),
      entry('Named bar', '', 'bar: technique', inside('movement snatch pull')),
      entry(
        'Estimate',
        'A provisional max from that of another movement.',
        'estimate: 80% of back squat',
        inside('movement front squat'),
      ),
      entry(
        'Share of the body',
        'How much of her own mass is moved.',
        'lifts: 65% of mass',
        inside('movement push-up'),
      ),
    ],
  },
  {
    title: 'Logs',
    entries: [
      entry(
        'As planned',
        'Names, the date, and the day where it is not plain.',
        'log Wren, Plover, 2026-12-08, Lower\n  as planned',
        file,
      ),
      entry(
        'What was done',
        'The load, each set, what was left; left and right as `8/7`.',
        'back squat: 45kg 6 6 6 5 r1\n  bench press: 50kg 5 r1 ; 45kg 5 5\n  split squat: 8/7 8/8',
        inside('log Wren, 2026-12-08'),
      ),
      entry('Skipped', '', 'lunge: skipped "knee"', inside('log Wren, 2026-12-08')),
      entry(
        'Swapped that day',
        'What was done in the place of a planned movement, and why. Without sets, those of the plan were done; its load is never taken over.',
        'swap: back squat, to leg press, 60kg 10 10 10 r3, "rack taken"\n  swap: back squat (pause), to box squat, "knee"',
        inside('log Wren, 2026-12-08'),
      ),
      entry(
        'Session, pain, note',
        '',
        'session: rpe 7, 52min\n  pain: knee 3/10\n  note: "slept badly"',
        inside('log Wren, 2026-12-08'),
      ),
      entry(
        'Allow in a log',
        'Silences a finding about what was logged that day, with the reason.',
        'back squat: 60kg 1\n  allow: log-far-off "a first single with the new bar, filmed"',
        inside('log Wren, 2026-12-08'),
      ),
    ],
  },
];

/** The page as Markdown. */
export function referenceMarkdown(): string {
  const parts = REFERENCE.map(({ title, entries }) => {
    const list = entries.map(({ title: name, text, example }) => {
      const said = text === '' ? `**${name}**` : `**${name}.** ${text}`;
      return `${said}\n\n\`\`\`stave\n${example.replace(/^ {2}/gm, '')}\n\`\`\`\n`;
    });
    return `## ${title}\n\n${list.join('\n')}`;
  });
  return `<!-- Made from grammar/reference.ts by npm run generate. -->\n# The notation on one page\n\nA week is a column, a movement is a row, and a cell says only what changes from the week before.\n\n${parts.join('\n')}`;
}
