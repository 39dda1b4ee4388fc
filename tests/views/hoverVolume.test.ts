import { describe, expect, it } from 'vitest';
import { hover } from '../../server/src/engine/views/hover.js';
import { WORKED } from './samples.js';
import { sessionOf } from './workspace.js';

function on(text: string, words: string, into = words.length - 1): string {
  const at = text.indexOf(words);
  expect(at).toBeGreaterThanOrEqual(0);
  return hover(sessionOf({ a: text }), 'a', at + into)?.markdown ?? '';
}

/** Worked by hand from the table of the notation's reference: four seconds a rep, three minutes of rest. */
describe('what a day and a block amount to', () => {
  it('is told for each week of a day', () => {
    const markdown = on(WORKED, 'day Lower');
    // 3 × (6 × 4 + 180) s = 10.2 min; 3 × 6 × 45 kg = 810 kg; 2.58 in reserve is hard.
    expect(markdown).toContain('| Heron | 1 | 10 | 810 kg | 3 |');
    // 4 × 5 × 47.5 kg.
    expect(markdown).toContain('| Heron | 4 | 13 | 950 kg | 4 |');
    // 2 × 5 × 42.5 kg with 5.16 in reserve.
    expect(markdown).toContain('| Heron | 5 (deload) | 7 | 425 kg | 0 |');
    expect(markdown).toContain('without warm-up');
  });

  it('is told for the weeks of a block, both days together', () => {
    const markdown = on(WORKED, 'block Keel');
    // The press adds 3 × (8 × 4 + 90) s = 6.1 min and 3 × 8 × 20 kg = 480 kg.
    expect(markdown).toContain('| Heron | 1 | 10 + 6 | 1290 kg | 6 |');
  });

  it('counts after Prilepin, marked as contested', () => {
    const markdown = on(WORKED, 'block Keel');
    // 78.9 % in weeks 1 and 2: 18 and 24 reps of 12 to 24; 83.3 % in weeks 3 and 4: 20 of 10 to 20.
    expect(markdown).toContain(
      'back squat: week 1: 18 reps at 70 % to 80 % (within the published 12 to 24); week 2: 24 reps at 70 % to 80 % (within the published 12 to 24); weeks 3–4: 20 reps at 80 % to 90 % (within the published 10 to 20)',
    );
    expect(markdown).toContain('Contested');
  });

  it('says nothing where nobody follows', () => {
    expect(
      on('program Thaw\n\nblock Keel, 2 weeks\nday Lower\n  back squat: 3x6 r2\n', 'day Lower'),
    ).not.toContain('| client |');
  });

  it('adds up a circuit by rounds, and says where open repetitions have no length', () => {
    const circuit = WORKED.replace(
      'day Upper',
      'day Whole\n  circuit Deck, 3 rounds, rest 60s\n    bodyweight squat: x10\n    front plank: x30s\n  end\nday Open\n  push-up: 3xmax r2\nday Upper',
    );
    // 3 × (40 + 30 + 60) s = 6.5 min.
    expect(on(circuit, 'day Whole')).toContain('| Heron | 1 | 7 |');
    expect(on(circuit, 'day Open')).toMatch(/\| Heron \| \d \| over 0 \| none \| 3 \|/);
  });
});

describe('load on a log', () => {
  const logs = ['2026-12-07', '2026-12-10']
    .map((date) => `log Heron, ${date}\n  as planned\n  session: rpe 6, 50min\n`)
    .join('\n');
  it('has the session, its week with monotony and strain, and says that they are contested', () => {
    const markdown = on(`${WORKED}\n${logs}`, 'log Heron', 1);
    expect(markdown).toContain('Session load: 300 (effort × minutes)');
    // Two of 300 in seven days: mean 85.71, sample SD 146.39, monotony 0.586, strain 351.
    expect(markdown).toContain('Week from 2026-12-07: load 600, monotony 0.59, strain 351. Contested');
    expect(markdown).not.toContain('7 days against 28');
    expect(on(`${WORKED}\n${logs}`, 'session: rpe')).toContain('Session load: 300');
  });

  it('has the ratios after four weeks', () => {
    const more = Array.from({ length: 29 }, (_, day) => `2026-11-${String(day + 1).padStart(2, '0')}`)
      .map((date) => `log Heron, ${date}\n  as planned\n  session: rpe 6, 50min\n`)
      .join('\n');
    expect(on(`${WORKED}\n${more}`, 'log Heron, 2026-11-29', 1)).toMatch(
      /7 days against 28: 1 rolling, 1 weighted\. Contested/,
    );
  });

  it('is silent with half a record', () => {
    expect(on(`${WORKED}\n${logs.replace(', 50min', '')}`, 'log Heron', 1)).not.toContain('Session load');
  });
});
