/** Documents to print in tests, without a workspace behind them. All people are invented. */
import { CAUTIONS, HOW_TO_READ } from '../../server/src/engine/print/cautions.js';
import { weekLayout } from '../../server/src/engine/print/density.js';
import type {
  DaySheet,
  EntrySheet,
  MovementSheet,
  PlanDocument,
  WeekSheet,
  WorkSheet,
} from '../../server/src/engine/print/document.js';

export function work(change: Partial<WorkSheet> = {}): WorkSheet {
  return {
    dose: '3 × 6',
    effort: 'leave 2 in reserve',
    load: '45 kg',
    plates: 'each side 10 + 5 kg',
    note: null,
    chooseLoad: false,
    boxes: 3,
    ...change,
  };
}

export function movement(change: Partial<MovementSheet> = {}): EntrySheet {
  return {
    kind: 'movement',
    movement: {
      name: 'Back squat',
      inCircuit: false,
      details: [],
      texts: [],
      steps: [],
      warmUp: null,
      rest: '3 min',
      cue: 'Brace, then sit down between your heels and push the floor away.',
      work: [work()],
      ...change,
    },
  };
}

export function day(name: string, entries: readonly EntrySheet[]): DaySheet {
  return { name, when: 'Monday 7 December · Boathouse', entries };
}

export function week(days: readonly DaySheet[], change: Partial<WeekSheet> = {}): WeekSheet {
  const { fontPt, breaks } = weekLayout(days, [...(change.notes ?? []), ...(change.texts ?? [])]);
  return {
    heading: 'Keel, week 1 of 5',
    dates: '7 to 13 December 2026',
    program: null,
    notes: [],
    texts: [],
    days: days.map((each, index) =>
      breaks.includes(index) ? { ...each, continued: 'Keel, week 1 of 5, continued' } : each,
    ),
    fontPt,
    ...change,
  };
}

export function plan(weeks: readonly WeekSheet[], change: Partial<PlanDocument> = {}): PlanDocument {
  return {
    title: 'Plan for Heron',
    client: 'Heron',
    programs: 'Harbour winter',
    dates: '7 December 2026 to 10 January 2027',
    facts: [
      { label: 'Program', value: 'Harbour winter' },
      { label: 'Aim', value: 'strength' },
      { label: 'Dates', value: '7 December 2026 to 10 January 2027' },
      { label: 'Sessions', value: '10' },
      { label: 'Where', value: 'Boathouse' },
      { label: 'Health screening', value: '1 October 2026' },
    ],
    care: [
      'No bending forward from the waist under load.',
      'Keep breathing; never hold your breath through a whole repetition.',
    ],
    cautions: CAUTIONS,
    howToRead: HOW_TO_READ,
    notices: [],
    weeks,
    footer: 'Heron · Harbour winter · printed 25 November 2026',
    ...change,
  };
}

/** A week as full as a coach would write it: three days, seven rows each, groups, a circuit, a test. */
export function fullWeek(): WeekSheet {
  const names = [
    'Back squat',
    'Romanian deadlift',
    'Overhead press',
    'Bent-over row',
    'Step-up',
    'Farmer carry',
  ];
  const rows = names.map((name, index) =>
    movement({
      name,
      work:
        index === 0
          ? [
              work({ boxes: 1, dose: '1 × 5', effort: 'leave 1 in reserve' }),
              work({ dose: '3 × 5', load: '40 kg' }),
            ]
          : [work({ dose: index === 4 ? '3 × 8 each side' : '4 × 6 to 8', boxes: 4 })],
      warmUp: index === 0 ? 'Warm up: 8 with 15 kg, 5 with 25 kg, 3 with 35 kg.' : null,
      details: index === 1 ? ['tempo 3 s down, 1 s pause, 1 s up'] : [],
      cue: index < 3 ? 'Brace, then sit down between your heels.' : null,
    }),
  );
  return week(['Lower', 'Upper', 'Whole body'].map((name) => day(name, rows)));
}

export function mixedWeek(): WeekSheet {
  return week(
    [
      day('Lower', [
        movement({ warmUp: 'Warm up: 8 with 15 kg, 5 with 25 kg, 3 with 35 kg.' }),
        movement({
          name: 'Romanian deadlift',
          details: ['pause', 'tempo 3 s down, 1 s pause, 1 s up'],
          texts: ['Hips back, shins still.'],
          work: [
            work({
              dose: '1 × 5',
              effort: 'leave 1 in reserve',
              load: '60 kg',
              plates: 'each side 20 + 2.5 kg',
              boxes: 1,
            }),
            work({
              dose: '3 × 5',
              effort: null,
              load: '52.5 kg',
              plates: 'each side 10 + 5 + 2.5 + 1.25 kg',
            }),
          ],
        }),
        movement({
          name: 'Box squat',
          details: ['instead of back squat (knee is settling)', 'height 45 cm'],
          cue: null,
          work: [
            work({
              load: null,
              plates: null,
              chooseLoad: true,
              note: 'No earlier set to work from. Choose a load with your coach that lets you leave 4 in reserve.',
            }),
          ],
        }),
        { kind: 'text', text: 'Walk two easy minutes before the circuit.' },
        { kind: 'circuit', heading: 'Circuit: Legs', how: '3 rounds, rest 90 s after each round' },
        movement({
          name: 'Step-up',
          inCircuit: true,
          rest: null,
          cue: null,
          details: ['height 30 cm'],
          work: [
            work({
              dose: '8 repetitions each side',
              load: '8 kg in each hand',
              plates: null,
              effort: 'leave 4 in reserve',
            }),
          ],
        }),
        movement({
          name: 'Plank',
          inCircuit: true,
          rest: null,
          cue: null,
          work: [work({ dose: '30 s', effort: null, load: 'body weight', plates: null })],
        }),
      ]),
      day('Upper', [
        movement({
          name: 'Overhead press',
          work: [
            work({
              dose: '3 × 8',
              load: '20 kg',
              plates: 'each side 2.5 kg',
              note: 'Provisional: the set that this rests on is 10 weeks old.',
            }),
          ],
        }),
        movement({
          name: 'Sprint',
          rest: null,
          work: [
            work({
              dose: '8 × 20 s, 100 s easy after each',
              load: null,
              plates: null,
              effort: null,
              boxes: 8,
            }),
          ],
        }),
        movement({
          name: 'Chest-supported row',
          cue: null,
          steps: [
            'Test: work up to the heaviest set of 5 that leaves 1 in reserve. Have a spotter or safety pins.',
            '1. An easy load, 5 to 10 repetitions. Rest 1 min.',
          ],
          work: [
            work({ dose: 'heaviest 5', boxes: 5, load: null, plates: null, effort: 'leave 1 in reserve' }),
          ],
        }),
      ]),
    ],
    {
      notes: ['Lighter week: fewer sets and more in reserve. It is part of the plan; do not add to it.'],
      texts: ['Sleep well. The water is cold, the bar is not.'],
    },
  );
}
