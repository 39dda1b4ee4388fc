import { describe, expect, it } from 'vitest';
import { around, check, found, sessionOf } from './check.js';

const READY = 'ready: heavy all 2026-06-01';
const MAX = 'max: back squat, 47.5kg x5 r2, 2026-11-23';

describe('max-unknown and tests', () => {
  it('is information where a test comes first, and leaves the test itself alone', () => {
    const rows = found(around({ client: READY, row: 'back squat: 3x8 r3 | test x5 | x6 |' }), 'max-unknown');
    expect(rows).toHaveLength(1);
    expect(rows[0]?.severity).toBe('warning');
    const later = found(
      around({
        client: READY,
        row: 'back squat (test): 1x5 20kg | test x5 | stop\n  back squat: - | - | 3x6 r3',
      }),
      'max-unknown',
    );
    expect(later.map(({ severity }) => severity)).toEqual(['info']);
    expect(later[0]?.message).toContain('the test on 2026-12-14');
  });
});

describe('load-unchecked', () => {
  const severity = (row: string, ready = '') =>
    found(around({ client: `${ready}born: 1980`, row }), 'load-unchecked').map((finding) => finding.severity);

  it('grows with the share of body mass (68 kg) and the stage', () => {
    expect(severity('goblet squat: 3x8 6kg r4')).toEqual([]);
    expect(severity('goblet squat: 3x8 16kg r4')).toEqual(['info']);
    expect(severity('goblet squat: 3x8 18kg r4')).toEqual(['warning']);
    expect(severity('goblet squat: 3x8 18kg r4', 'ready: load squat 2026-06-01\n  ')).toEqual(['info']);
    expect(severity('back squat: 3x8 35kg r4', 'ready: load squat 2026-06-01\n  ')).toEqual(['warning']);
  });

  it('counts both dumbbells of a pair', () => {
    const pair = (kg: number) => severity(`dumbbell romanian deadlift: 3x8 ${kg}kg r4`);
    expect(pair(8)).toEqual(['info']);
    expect(pair(10)).toEqual(['warning']);
  });
});

describe('far-off', () => {
  const slips = (row: string) => found(around({ row }), 'far-off').map(({ message }) => message);

  it('finds a lost sign, and takes real numbers as they are', () => {
    expect(slips('back squat: 3x6 40kg | 2.5kg | |')[0]).toContain('looks like a lost sign');
    expect(slips('back squat: 3x6 40kg | +2.5kg | |')).toEqual([]);
    expect(slips('back squat: 3x6 40kg | 37.5kg | |')).toEqual([]);
    expect(slips('back squat: 3x6 r2 | +2% | -5% |')).toEqual([]);
    expect(slips('back squat: 1x5 r2 ; 3x5 -10%')).toEqual([]);
    expect(slips('back squat: 3x6 70% | 75% | 80% |')).toEqual([]);
  });

  it('finds numbers that nobody means', () => {
    expect(slips('back squat: 3x6 8%')[0]).toContain('outside 30 to 100');
    expect(slips('back squat: 3x6 r2 | +25% | |')[0]).toContain('in one step is far');
    expect(slips('back squat: 12x3 r2')[0]).toContain('12 sets');
    expect(slips('back squat: 2x35 20kg')[0]).toContain('35 reps');
    expect(slips('back squat: 3x6 r8')[0]).toContain('8 reps in reserve');
  });
});

describe('screening-missing', () => {
  const of = (more: string) =>
    found(around({ client: `${READY}${more}`, row: 'low hop: 3x5' }), 'screening-missing');

  it('asks for a screening before impact', () => {
    expect(of('')[0]?.message).toContain('no screening is known');
    expect(of('\n  screened: 2026-11-01')).toEqual([]);
    // One that is too old is told once, by the rule for that.
    expect(of('\n  screened: 2025-11-01')).toEqual([]);
    // A date that is still to come is none yet.
    expect(of('\n  screened: 2027-03-01')[0]?.message).toContain('no screening is known');
  });

  it('leaves learning levels alone', () => {
    expect(found(around({ client: READY, row: 'heel drop: 3x5' }), 'screening-missing')).toEqual([]);
  });
});

describe('screening-old', () => {
  const of = (screened: string, row: string, today: string | null = null) => {
    const session = sessionOf(
      around({ client: `${READY}\n  ${MAX}\n  screened: ${screened}`, row }),
      {},
      today,
    );
    return session.allFindings().filter(({ code }) => code === 'screening-old');
  };

  it('is a note for anybody who follows a program, and a warning before impact', () => {
    const [one] = of('2025-12-07', 'back squat: 3x8 r3');
    expect(one?.severity).toBe('info');
    // Mondays from 2026-12-07 on: the first is the last day on which the screening counts.
    expect(one?.message).toContain(
      'Heron was screened on 2025-12-07, which counts for a year, until 2026-12-07. The first session after it is on 2026-12-14.',
    );
    expect(of('2025-12-28', 'back squat: 3x8 r3')).toEqual([]);
    const [impact] = of('2025-12-07', 'low hop: 3x5');
    expect(impact?.severity).toBe('warning');
    expect(impact?.message).toContain('low hop is among what is planned');
    expect(of('2025-12-07', 'heel drop: 3x5')[0]?.severity).toBe('info');
  });

  it('is told from four weeks before on, and not of what is long past', () => {
    // Runs out on 2026-12-14; the first session after it is on 2026-12-21.
    expect(of('2025-12-14', 'back squat: 3x8 r3', '2026-11-22')).toEqual([]);
    expect(of('2025-12-14', 'back squat: 3x8 r3', '2026-11-23')).toHaveLength(1);
    // The last session of the program is on 2026-12-28.
    expect(of('2025-12-14', 'back squat: 3x8 r3', '2027-01-04')).toHaveLength(1);
    expect(of('2025-12-14', 'back squat: 3x8 r3', '2027-01-05')).toEqual([]);
  });
});

describe('deload-due', () => {
  const of = (block: string, more = '', row = 'back squat: 3x6 r2') =>
    found(around({ client: `${READY}\n  ${MAX}${more}`, block, row }), 'deload-due');

  it('counts heavy weeks only, and starts again after a deload or five days away', () => {
    expect(of('Keel, 8 weeks')).toEqual([]);
    expect(of('Keel, 9 weeks')).toHaveLength(1);
    expect(of('Keel, 12 weeks, deload 6')).toEqual([]);
    expect(of('Keel, 12 weeks', '', 'back squat: 3x10 r4')).toEqual([]);
    expect(of('Keel, 10 weeks', '\n  away: 2027-01-05 to 2027-01-09')).toEqual([]);
    expect(of('Keel, 10 weeks', '\n  away: 2027-01-05 to 2027-01-07')).toHaveLength(1);
  });
});

describe('back-too-fast', () => {
  const of = (away: string) =>
    found(
      around({ client: `${READY}\n  ${MAX}\n  away: ${away}`, row: 'back squat: 3x6 r2' }),
      'back-too-fast',
    );

  it('asks for a lighter return from two weeks on', () => {
    expect(of('2026-12-08 to 2026-12-20')).toEqual([]);
    expect(of('2026-12-08 to 2026-12-21')).toHaveLength(1);
    expect(of('2026-12-08 to 2026-12-21, back at 90%')).toEqual([]);
    expect(of('2026-12-08 to 2027-01-10')[0]?.message).toContain('20 %');
  });
});

describe('bone-caution and flexion-caution', () => {
  it('speak only for those conditions', () => {
    const heavy = (condition: string) =>
      check(around({ client: `${READY}\n  ${MAX}${condition}`, row: 'back squat: 3x5 r2' })).map(
        ({ code }) => code,
      );
    expect(heavy('')).not.toContain('bone-caution');
    expect(heavy('\n  condition: hypermobility')).not.toContain('bone-caution');
    expect(heavy('\n  condition: osteopenia')).toContain('bone-caution');
  });
});

describe('notes on age', () => {
  it('are silent unless they are switched on', () => {
    const text = around({ client: `born: 1950\n  ${READY}\n  ${MAX}`, row: 'back squat: 3x12 r0' });
    const codes = check(text).map(({ code }) => code);
    expect(codes).not.toContain('failure-past-35');
    expect(codes).not.toContain('reps-past-35');
    expect(found(text, 'failure-past-35')).toHaveLength(1);
    expect(found(text, 'reps-past-35')).toHaveLength(1);
  });
});

describe('volume-jump', () => {
  // 2 × 6 × 45 = 540 kg, 3 × 6 × 45 = 810 kg (half more, not above), 4 × 6 × 45 = 1080 kg.
  it('tells a rise of more than half', () => {
    expect(found(around({ row: 'back squat: 2x6 r2 | 3x | |' }), 'volume-jump')).toEqual([]);
    expect(found(around({ row: 'back squat: 2x6 r2 | 4x | |' }), 'volume-jump')[0]?.message).toContain(
      '1080 kg',
    );
  });
});

describe('wording', () => {
  it('tells an added load from a load', () => {
    const text = around({
      client: `${READY.replace('all', 'squat')}\n  max: pull-up, bw x3 r1, 2026-11-23`,
      row: 'pull-up: 3x3 r1 | +2.5kg | |',
    });
    expect(found(text, 'heavy-early')[0]?.message).toMatch(
      /at body weight \+ 2 kg|at body weight \+ 2\.5 kg/,
    );
  });

  it('speaks to nobody in particular where several are meant', () => {
    const others = 'client Wren\n  trains at: Boathouse\n  follows: Winter, from 2026-12-07, on mon\n';
    const [lacks] = found(around({ others, row: 'kettlebell goblet squat: 3x8 12kg r4' }), 'beyond-kit');
    expect(lacks?.message).toContain('Heron trains at Boathouse');
    expect(lacks?.message).toContain('Wren trains at Boathouse');
    expect(lacks?.message).not.toMatch(/for (Heron|Wren)/);
  });
});
