/** Edge values of rules on weeks, ageing maxes, sides and pain. All data is made up; limits are common practice. */
import { describe, expect, it } from 'vitest';
import { around, found } from './check.js';

const READY = 'ready: heavy all 2026-06-01';
const MAX = 'max: back squat, 47.5kg x5 r2, 2026-11-23';

describe('volume-above-mean', () => {
  // Every set is 6 × 45 kg = 270 kg.
  const of = (row: string, block = 'Keel, 6 weeks', client = `${READY}\n  ${MAX}`) =>
    found(around({ client, row: `back squat: ${row}`, block }), 'volume-above-mean');

  it('needs four weeks, and more than one and a half times their mean', () => {
    // Means of weeks 1 to 4: (2 + 2 + 3 + 4) / 4 = 2.75; 5 / 2.75 = 1.82.
    const [above] = of('2x6 r2 | | 3x | 4x | 5x | ');
    expect(above?.severity).toBe('info');
    expect(above?.message).toContain('in week 5 (from 2027-01-04)');
    expect(above?.message).toContain('1.82 times');
    expect(above?.message).toContain('1350 kg');
    expect(above?.message).toContain('contested');
    // (4 + 4 + 4 + 4) / 4 = 4; 6 / 4 is the limit itself.
    expect(of('4x6 r2 | | | | 6x | ')).toEqual([]);
    // Three weeks before it are too few.
    expect(of('2x6 r2 | | 3x | 5x', 'Keel, 4 weeks')).toEqual([]);
  });

  it('leaves a rise from one week to the next to volume-jump', () => {
    const text = around({ row: 'back squat: 2x6 r2 | | | | 4x | ', block: 'Keel, 6 weeks' });
    expect(found(text, 'volume-jump')).toHaveLength(1);
    expect(found(text, 'volume-above-mean')).toEqual([]);
  });

  it('goes on over a block of the same lifts, and starts afresh with others', () => {
    const next = (row: string) =>
      found(
        `${around({ client: `${READY}\n  ${MAX}\n  max: deadlift, 60kg x5 r2, 2026-11-30`, row: 'back squat: 2x6 r2' })}
block Flood, 2 weeks
day Lower
  ${row}
`,
        'volume-above-mean',
      );
    // Five sets after a mean of two: 2.5 times, told once though both weeks hold it.
    expect(next('back squat: 5x6 r2')[0]?.severity).toBe('warning');
    expect(next('back squat: 5x6 r2')[0]?.message).not.toContain('more time');
    expect(next('back squat: 3x6 r2')).toEqual([]);
    expect(next('deadlift: 5x6 r2')).toEqual([]);
  });

  it('is a warning above twice the mean', () => {
    // (2 + 3 + 4 + 6) / 4 = 3.75; 8 / 3.75 = 2.13, and each step is at most half.
    expect(of('2x6 r2 | 3x | 4x | 6x | 8x | ')[0]?.severity).toBe('warning');
    // (2 + 3 + 4 + 5) / 4 = 3.5; 7 / 3.5 is the limit itself.
    expect(of('2x6 r2 | 3x | 4x | 5x | 7x | ').map(({ severity }) => severity)[0]).toBe('info');
  });

  it('takes no deload into the mean, and no week that an absence took from', () => {
    // With the deload of week 4 the mean is of weeks 1, 2, 3 and 5 only: 6 / ((3 + 4 + 4 + 5) / 4) is 1.5.
    expect(of('3x6 r2 | 4x | | | 5x | 6x', 'Keel, 6 weeks, deload 4')).toEqual([]);
    const away = `${READY}\n  ${MAX}\n  away: 2026-12-21 to 2026-12-21, keep dates`;
    // Week 3 is lost: before week 5 lie only weeks 1, 2 and 4.
    expect(of('2x6 r2 | | 3x | 4x | 5x', 'Keel, 5 weeks', away)).toEqual([]);
  });
});

describe('max-ageing', () => {
  const of = (date: string, more = '', block = 'Keel, 2 weeks, heavy', row = 'back squat: 3x6 r2') =>
    found(
      around({ client: `${READY}\n  max: back squat, 47.5kg x5 r2, ${date}${more}`, block, row }),
      'max-ageing',
    );

  it('starts at five weeks and ends where max-stale begins', () => {
    // The block starts on 2026-12-07 and ends with a session on 2026-12-14.
    expect(of('2026-11-03')).toEqual([]);
    expect(of('2026-11-02')).toHaveLength(1);
    expect(of('2026-11-02')[0]?.severity).toBe('info');
    expect(of('2026-11-02')[0]?.message).toContain('5 weeks old');
    // 56 days on the last session: still told here. A day older, max-stale tells it.
    expect(of('2026-10-19')).toHaveLength(1);
    expect(of('2026-10-18')).toEqual([]);
    expect(
      found(
        around({
          client: `${READY}\n  max: back squat, 47.5kg x5 r2, 2026-10-18`,
          block: 'Keel, 2 weeks, heavy',
          row: 'back squat: 3x6 r2',
        }),
        'max-stale',
      ),
    ).toHaveLength(1);
  });

  it('is about heavy blocks with heavy work', () => {
    expect(of('2026-11-02', '', 'Keel, 2 weeks')).toEqual([]);
    expect(of('2026-11-02', '', 'Keel, 2 weeks, heavy', 'back squat: 3x8 r4')).toEqual([]);
  });

  it('is quiet where a test is planned in the first week, or a newer set is known', () => {
    expect(of('2026-11-02', '\n  max: back squat, 48kg x5 r2, 2026-11-30')).toEqual([]);
    expect(
      of('2026-11-02', '', 'Keel, 2 weeks, heavy', 'back squat (test): test x5 r1\n  back squat: 3x6 r2'),
    ).toEqual([]);
  });

  it('counts a test in the week before, and none of another movement', () => {
    const two = (tested: string) =>
      found(
        `${around({
          client: `${READY}\n  max: back squat, 47.5kg x5 r2, 2026-11-02\n  max: deadlift, 60kg x5 r2, 2026-11-30`,
          block: 'Ebb, 1 week',
          row: `${tested}: 3x8 r4 | test x5`.replace(' | test x5', ' test x5'),
        })}
block Keel, 2 weeks, heavy
day Lower
  back squat: 3x6 r2
`,
        'max-ageing',
      );
    expect(two('back squat')).toEqual([]);
    expect(two('deadlift')).toHaveLength(1);
  });
});

describe('one-side-only', () => {
  const rows = (...lines: readonly string[]) => found(around({ row: lines.join('\n  ') }), 'one-side-only');

  it('wants the other side on the same day', () => {
    expect(rows('bodyweight squat (left): 2x8')[0]?.message).toContain('Only the left side');
    expect(rows('bodyweight squat (left): 2x8', 'bodyweight squat (right): 2x8')).toEqual([]);
    expect(rows('bodyweight squat (Left): 2x8', 'bodyweight squat (right): 2x8')).toEqual([]);
    expect(rows('bodyweight squat (left): 2x8 /side')).toEqual([]);
    expect(rows('bodyweight squat (left, then right): 2x8'.replace(',', ''))).toEqual([]);
    expect(rows('bodyweight squat (upright): 2x8')).toEqual([]);
  });

  it('tells the weeks in which the other side is left out', () => {
    const [alone] = rows('bodyweight squat (left): 2x8 | | |', 'bodyweight squat (right): 2x8 | | stop |');
    expect(alone?.message).toContain('in 2 sessions from 2026-12-21 (week 3) to 2026-12-28 (week 4)');
  });

  const log = (sets: string, more = '') =>
    found(
      `${around({ row: 'dumbbell split squat: 2x8 bw /side' })}
log Heron, 2026-12-07, Lower
  dumbbell split squat: ${sets}
${more}`,
      'one-side-only',
    );

  it('reads it from a log, unless the log says why', () => {
    expect(log('8/0 8/0')[0]?.message).toContain('Only the left side');
    expect(log('0/8')[0]?.message).toContain('Only the right side');
    expect(log('8/0 0/8')).toEqual([]);
    expect(log('8/5')).toEqual([]);
    expect(log('8 8')).toEqual([]);
    expect(log('0')).toEqual([]);
    expect(log('8/0', '  pain: knee 2/10')).toEqual([]);
    expect(log('8/0', '  note: "left arm in plaster"')).toEqual([]);
  });
});

describe('pain-next-morning', () => {
  const of = (first: string, second: string, date = '2026-12-08', done = 'as planned') =>
    found(
      `${around({ row: 'back squat: 3x6 r2' })}
log Heron, 2026-12-07, Lower
  ${done}
  pain: ${first}

log Heron, ${date}
  pain: ${second}
`,
      'pain-next-morning',
    );

  it('is told at the same score or a higher one, in the same place', () => {
    expect(of('knee 3/10', 'knee 3/10')[0]?.severity).toBe('warning');
    expect(of('knee 3/10', 'Knee 4/10')[0]?.message).toContain(
      '3 of 10 on 2026-12-07, and 4 of 10 the next day',
    );
    expect(of('knee 3/10', 'knee 2/10')).toEqual([]);
    expect(of('knee 3/10', 'hip 4/10')).toEqual([]);
    expect(of('knee 0/10', 'knee 0/10')).toEqual([]);
  });

  it('looks two days ahead, and not at the same day', () => {
    expect(of('knee 3/10', 'knee 3/10', '2026-12-09')[0]?.message).toContain('2 days later');
    expect(of('knee 3/10', 'knee 3/10', '2026-12-10')).toEqual([]);
    expect(of('knee 3/10', 'knee 3/10', '2026-12-07')).toEqual([]);
  });

  it('offers the easier movement of what was done', () => {
    expect(of('knee 3/10', 'knee 3/10', '2026-12-08', 'back squat: 45kg 6 6 6')[0]?.message).toContain(
      'instead of back squat',
    );
  });
});
