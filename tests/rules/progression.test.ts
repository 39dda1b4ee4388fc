/**
 * Edge values of the rules on progression and recovery. ACSM 2009: 2 to 10 % (Ratamess et al., Med Sci Sports Exerc
 * 41(3):687-708); how it is divided over stages and body is common practice, no source. All data is made up.
 */
import { describe, expect, it } from 'vitest';
import { around, found, KIT, sessionOf } from './check.js';

const FINE = `${KIT.replace('1.25kg x2', '0.5kg x2, 1.25kg x2')}`;
const READY = 'ready: heavy all 2026-06-01';

describe('jump-load by stage and body', () => {
  const of = (max: string, row: string, kit = FINE) =>
    found(
      around({ client: `${READY}\n  max: ${max}, 2026-11-23`, block: 'Keel, 2 weeks', row, kit }),
      'jump-load',
    );

  // Brzycki by hand: 60 kg for 5 with 2 left is an e1RM of 72 kg.
  it('gives heavy work 8 % for the lower and 7 % for the upper body', () => {
    // 55 to 59 kg is 7.3 %; 59 kg is 81.9 % of 72 kg, which can be lifted 7.5 times: heavy.
    expect(of('back squat, 60kg x5 r2', 'back squat: 3x5 55kg | 59kg')).toEqual([]);
    // 54 to 59 kg is 9.3 %.
    const [squat] = of('back squat, 60kg x5 r2', 'back squat: 3x5 54kg | 59kg');
    expect(squat?.severity).toBe('warning');
    expect(squat?.message).toContain('8 % is the limit for heavy work of the lower body');
    // 55 to 59.5 kg would be 8.2 %; the upper body is told from 7 % on. 51 to 55 kg is 7.8 %.
    const [bench] = of('bench press, 60kg x5 r2', 'bench press: 3x6 51kg | 55kg | ');
    expect(bench).toBeUndefined();
    const [heavier] = of('bench press, 60kg x5 r2', 'bench press: 3x5 54kg | 59kg');
    expect(heavier?.message).toContain('7 % is the limit for heavy work of the upper body');
  });

  it('gives load work 10 % for the lower and 8 % for the upper body', () => {
    // 58 kg for 5 with 2 left: 69.6 kg. 50 kg is 71.8 %: 11.1 times, load work. 46 to 50 kg is 8.7 %, between the limits.
    expect(of('back squat, 58kg x5 r2', 'back squat: 3x8 46kg | 50kg')).toEqual([]);
    const [bench] = of('bench press, 58kg x5 r2', 'bench press: 3x8 46kg | 50kg');
    expect(bench?.message).toContain('8 % is the limit for load work of the upper body');
  });

  it('takes per cent of 70, 75 and 80 for what they are', () => {
    expect(of('back squat, 60kg x5 r2', 'back squat: 3x5 75% | 80%')).toEqual([]);
    expect(of('bench press, 60kg x5 r2', 'bench press: 3x5 70% | 75%')).toEqual([]);
  });

  it('names the step of the dumbbells and proposes reps first', () => {
    const [row] = of('one-arm dumbbell row, 16kg x5 r2', 'one-arm dumbbell row: 3x6 12kg | 14kg', KIT);
    expect(row?.severity).toBe('info');
    expect(row?.message).toContain('There is nothing between 12 kg and 14 kg. Add reps at 12 kg first');
    expect(row?.message).toContain('smaller dumbbells');
  });
});

describe('heavy-within-48h', () => {
  const client = `${READY}
  max: back squat, 47.5kg x5 r2, 2026-11-23
  max: deadlift, 60kg x5 r2, 2026-11-23
  max: bench press, 40kg x5 r2, 2026-11-23
  max: overhead press, 22.5kg x6 r2, 2026-11-23`;
  const of = (first: string, second: string, on = 'mon tue') =>
    found(
      around({ client, block: 'Keel, 3 weeks', row: `${first}\nday Other\n  ${second}`, on }),
      'heavy-within-48h',
    );

  it('finds a hinge the day after a squat, says why, and tells three weeks once', () => {
    const [one, ...more] = of('back squat: 3x6 r2', 'deadlift: 3x6 r2');
    expect(more).toEqual([]);
    expect(one?.severity).toBe('info');
    expect(one?.message).toContain('Squat and hinge are different patterns and share muscles (lower body)');
    expect(of('bench press: 3x6 r2', 'overhead press: 3x6 r2')[0]?.message).toContain(
      'share muscles (pushing)',
    );
  });

  it('is quiet two days later, where the second is not heavy, and where nothing is shared', () => {
    expect(of('back squat: 3x6 r2', 'deadlift: 3x6 r2', 'mon wed')).toEqual([]);
    expect(of('back squat: 3x6 r2', 'deadlift: 3x8 r4')).toEqual([]);
    expect(of('back squat: 3x8 r4', 'deadlift: 3x6 r2')).toEqual([]);
    expect(of('back squat: 3x6 r2', 'bench press: 3x6 r2')).toEqual([]);
  });

  it('tells the same pattern as a warning, and its muscles not once more', () => {
    const all = of('back squat: 3x6 r2', 'back squat: 3x5 r2\n  deadlift: 3x6 r2');
    expect(all.map(({ severity }) => severity)).toEqual(['warning']);
    expect(all[0]?.message).toContain('Heavy squat work again');
  });

  it('tells several rows of one day that share muscles once', () => {
    expect(of('back squat: 3x6 r2', 'deadlift: 3x6 r2\n  romanian deadlift: 3x6 70% r2')).toHaveLength(1);
  });
});

describe('max-stale with a test whose day has passed', () => {
  const text = (max = '') =>
    around({
      client: `${READY}\n  max: back squat, 47.5kg x5 r2, 2026-10-20${max}`,
      row: 'back squat: 3x6 r2 | test x5 | 3x6 r2 |',
    });
  const on = (today: string | null, more = '') =>
    sessionOf(text(more), {}, today)
      .allFindings()
      .filter(({ code }) => code === 'max-stale');

  it('is told once the day is over and nothing was written', () => {
    // The test is on 2026-12-14; from 2026-12-16 on the max is older than 8 weeks.
    expect(on(null)).toEqual([]);
    expect(on('2026-12-14')).toEqual([]);
    const [late] = on('2026-12-15');
    expect(late?.message).toContain('A test was planned on 2026-12-14, and no result of it is written.');
    expect(late?.message).toContain('Write the result of the test');
    expect(late?.fixes[0]?.edits[0]?.newText).toContain('-- max: back squat, LOADkg x5 r2, 2026-12-14');
  });

  it('is quiet once a result is there, on that day or later', () => {
    expect(on('2026-12-15', '\n  max: back squat, 50kg x5 r1, 2026-12-14')).toEqual([]);
    expect(on('2027-01-15', '\n  max: back squat, 50kg x5 r1, 2026-12-29')).toEqual([]);
  });
});
