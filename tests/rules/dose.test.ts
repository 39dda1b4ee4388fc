/** Dose, bone, sprints and tests: edge values. Limits are common practice unless the rule's page names a source. */
import { describe, expect, it } from 'vitest';
import { createSession } from '../../server/src/engine/session.js';
import { applyFix, around, found, KIT } from './check.js';

const READY = 'ready: heavy all 2026-06-01';

describe('levels of impact', () => {
  it.each([
    ['heel drop', 'learn'],
    ['low hop', 'load'],
    ['drop landing', 'heavy'],
  ])('a %s is for the stage "%s"', (name, stage) => {
    const movement = createSession().world().movements.get(name);
    expect(movement?.pattern).toBe('jump');
    expect(movement?.stage).toBe(stage);
  });
});

describe('bone-caution', () => {
  const of = (client: string, row: string, on = 'mon') =>
    found(around({ client: `condition: osteopenia\n  ${READY}\n  ${client}`, row, on }), 'bone-caution').map(
      ({ message }) => message,
    );
  const MAX = 'max: back squat, 47.5kg x5 r2, 2026-11-23';

  it('wants a screening for impact of every level', () => {
    expect(of(MAX, 'heel drop: 2x10')[0]).toContain('Impact with osteopenia, not screened');
    expect(of(`screened: 2026-11-01\n  ${MAX}`, 'heel drop: 2x10')).toEqual([]);
    expect(of(`screened: 2026-12-20\n  ${MAX}`, 'heel drop: 2x10')[0]).toContain('and 1 more');
  });

  it('wants heavy work and heavy landings supervised as well', () => {
    const screened = `screened: 2026-11-01\n  ${MAX}`;
    expect(of(screened, 'back squat: 5x5 r2')[0]).toContain('Heavy work with osteopenia');
    expect(of(screened, 'drop landing: 3x5')[0]).toContain('Heavy work with osteopenia');
    expect(of(screened, 'back squat: 5x5 r2', 'mon, supervised')).toEqual([]);
    expect(of(screened, 'low hop: 3x5')).toEqual([]);
  });
});

describe('sprint-near-heavy', () => {
  const of = (first: string, second: string, on = 'mon tue') =>
    found(
      around({
        client: `${READY}\n  screened: 2026-11-01\n  max: deadlift, 60kg x5 r2, 2026-11-23`,
        row: `${first}\nday Other\n  ${second}`,
        on,
        others: '\nmovement hill sprint\n  pattern: sprint\n  with: bodyweight\n  stage: heavy\n',
      }),
      'sprint-near-heavy',
    ).map(({ message }) => message);
  const SPRINT = 'hill sprint: 3x10s off 2min';
  const HEAVY = 'deadlift: 3x5 r2';

  it('looks both ways, and tells all weeks once', () => {
    expect(of(HEAVY, SPRINT)).toEqual([expect.stringContaining('Sprints on the day after heavy work')]);
    expect(of(SPRINT, HEAVY)).toEqual([expect.stringContaining('Heavy work for the legs on the day after')]);
    expect(of(SPRINT, HEAVY, 'mon wed')).toEqual([]);
    expect(of(SPRINT, 'deadlift: 3x8 r4')).toEqual([]);
  });
});

describe('a test in learn', () => {
  it('is offered with eight reps, and told that it still waits', () => {
    const text = around({
      client: 'max: back squat, 47.5kg x5 r2, 2026-11-23',
      row: 'back squat: 3x10 r5 | test x5 |',
    });
    const [early] = found(text, 'heavy-early');
    expect(early?.message).toContain('"test x8" asks for less, and still for the stage "load"');
    const fix = early?.fixes.find(({ title }) => title.includes('test x8'));
    const after = fix ? applyFix(text, fix) : text;
    expect(found(after, 'heavy-early')).toEqual([]);
    expect(found(after, 'stage-unsigned')).toHaveLength(1);
  });
});

describe('aim-mismatch', () => {
  const of = (aim: string, row: string, more = '') =>
    found(
      around({ client: `${READY}\n  max: back squat, 60kg x5 r2, 2026-11-23${more}`, row }).replace(
        'program Winter\n',
        `program Winter\n  aim: ${aim}\n`,
      ),
      'aim-mismatch',
    ).map(({ message }) => message);

  it('wants loads for strength', () => {
    // 72 kg: 42.5 kg is 59 %, 45 kg is 62.5 %.
    expect(of('strength', 'back squat: 3x5 42.5kg')[0]).toContain('have 60 % of the max or more');
    expect(of('strength', 'back squat: 3x5 45kg')).toEqual([]);
    expect(of('strength', 'back squat: 3x5 r2')).toEqual([]);
    // A quarter of the sets is enough.
    expect(of('strength', 'back squat: 1x5 45kg ; 3x5 40kg')).toEqual([]);
    expect(of('strength', 'back squat: 3x14 45kg')[0]).toContain('have 12 reps or fewer');
  });

  it('wants reps, little load and short rests for endurance', () => {
    expect(of('endurance', 'back squat: 3x15 r3 rest 60s')).toEqual([]);
    expect(of('endurance', 'back squat: 3x15 r3')).toEqual([]);
    expect(of('endurance', 'back squat: 3x15 r3 rest 3min')[0]).toContain('have two minutes of rest or less');
    expect(of('endurance', 'back squat: 3x12 52.5kg')[0]).toContain('have 70 % of the max or less');
    expect(of('endurance', 'back squat: 5x15 r3')[0]).toContain('come in 1 to 4 sets of a movement');
  });

  const power = (row: string, more = '') => of('power', row, `${more}\n  lifting since: 2025-01`);

  it('wants few reps, some sets and long rests for power, at any load', () => {
    expect(power('back squat: 5x3 40% rest 3min')).toEqual([]);
    expect(power('back squat: 5x3 85%')).toEqual([]);
    expect(power('back squat: 3x10 40%')[0]).toContain('have 1 to 6 reps');
    expect(power('back squat: 5x3 40% rest 60s')[0]).toContain('have a minute and a half of rest or more');
    expect(power('back squat: 8x3 40%')[0]).toContain('come in 2 to 6 sets of a movement');
    // Four sets of ten in all over the weeks, one a day.
    const twice = power('back squat: 1x3 40%\n  deadlift: 1x3 60kg');
    expect(twice[0]).toContain('come in 2 to 6 sets of a movement');
    // The tables give older adults more reps, and beginners one set.
    expect(power('back squat: 3x10 40%', '\n  born: 1955-01')).toEqual([]);
    expect(of('power', 'back squat: 1x3 40%\n  deadlift: 1x3 60kg')).toEqual([]);
  });

  const size = (rows: string, since = '\n  lifting since: 2025-01') => of('size', rows, since);
  const TEN = 'back squat: 5x10 r2 rest 90s\n  deadlift: 5x8 60kg';

  it('wants sets enough and rests between for size, at any load', () => {
    expect(size(TEN)).toEqual([]);
    expect(size('back squat: 5x10 20kg rest 90s\n  deadlift: 5x8 20kg')).toEqual([]);
    expect(size(TEN.replace('rest 90s', 'rest 5min'))[0]).toContain('half a minute to three minutes of rest');
    expect(size(TEN.replace('5x8', '4x8'))[0]).toContain(
      '0 % of 36 working sets are among 10 or more a week for their muscles',
    );
    expect(size('back squat: 10x3 r2')[0]).toContain('have 5 to 15 reps');
    // Beginners grow from fewer sets, and of others nothing is known.
    expect(size('back squat: 3x10 r2', '\n  lifting since: 2026-11')).toEqual([]);
    expect(size('back squat: 3x10 r2', '')).toEqual([]);
  });

  it('tells all that falls short in one finding', () => {
    const told = of('endurance', 'back squat: 5x5 r2 rest 3min');
    expect(told).toHaveLength(1);
    expect(told[0]).toContain(
      '0 % of 20 working sets have 12 or more reps; 0 % of 20 have 70 % of the max or less; 0 % of 20 come in 1 to 4 sets of a movement; 0 % of 20 have two minutes of rest or less.',
    );
  });
});

describe('notes on age', () => {
  it('are off, and say that load matters less for size', () => {
    const text = around({
      client: `born: 1979-03\n  ${READY}\n  max: back squat, 60kg x5 r2, 2026-11-23`,
      row: 'back squat: 3x12 r3',
    });
    const session = createSession();
    session.setFile('a', text);
    expect(session.allFindings().map(({ code }) => code)).not.toContain('reps-past-35');
    expect(found(text, 'reps-past-35')[0]?.message).toContain(
      'the ACSM 2026 overview finds that load matters less',
    );
  });
});

describe('session-long', () => {
  const of = (rest: string) =>
    found(
      around({
        client: `${READY}\n  max: back squat, 60kg x5 r2, 2026-11-23`,
        row: `back squat: 10x5 r2 rest ${rest}`,
        kit: KIT,
      }),
      'session-long',
    );
  it('counts sets × (work + rest), once a day of a block', () => {
    // 10 × (20 + 520) s = 90 min, the limit itself; 10 × (20 + 521) s is more.
    expect(of('520s')).toEqual([]);
    expect(of('521s')).toHaveLength(1);
    expect(of('521s')[0]?.message).toContain(
      'about 90 min without warm-up on 2026-12-07 (week 1), and 3 more sessions',
    );
  });
});
