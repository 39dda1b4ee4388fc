/**
 * The measured heights and weights of the Davis data set as clients. Source and licence: data/davis-women.csv.
 * Tolerance: the last printed digit.
 */

import { readFileSync } from 'node:fs';
import { mean, sampleStandardDeviation } from 'simple-statistics';
import { describe, expect, it } from 'vitest';
import { createSession } from '../../server/src/engine/session.js';

const rows = readFileSync(new URL('data/davis-women.csv', import.meta.url), 'utf8')
  .split('\n')
  .filter((line) => /^\d/.test(line))
  .map((line) => line.split(',').map(Number) as [number, number, number]);

const session = createSession({ today: '2026-12-01' });
for (const [row, heightCm, weightKg] of rows) {
  const text = `client Row ${row}\n  height: ${heightCm}cm\n  mass: ${weightKg}kg, 2026-11-01\n`;
  session.setFile(`row-${row}.stave`, text);
}
const found = (row: number) => session.findings(`row-${row}.stave`);

describe('the women of the Davis data set', () => {
  it('are those that the package describes', () => {
    // Computed from the package's own file: raw means 163.74 cm and 57.87 kg; with row 4 put right 164.71 ± 5.66 cm and
    // 56.89 ± 6.86 kg.
    expect(rows).toHaveLength(112);
    expect(mean(rows.map(([, cm]) => cm))).toBeCloseTo(163.74, 2);
    expect(mean(rows.map(([, , kg]) => kg))).toBeCloseTo(57.87, 2);
    const right = rows.map(([row, cm, kg]) => (row === 4 ? [kg, cm] : [cm, kg]) as [number, number]);
    expect(mean(right.map(([cm]) => cm))).toBeCloseTo(164.71, 2);
    expect(sampleStandardDeviation(right.map(([cm]) => cm))).toBeCloseTo(5.66, 2);
    expect(mean(right.map(([, kg]) => kg))).toBeCloseTo(56.89, 2);
    expect(sampleStandardDeviation(right.map(([, kg]) => kg))).toBeCloseTo(6.86, 2);
  });

  it('has one row that is found, the swapped one, and its fix puts it right', () => {
    expect(rows.filter(([row]) => found(row).length > 0).map(([row]) => row)).toEqual([4]);
    const [finding] = found(4);
    expect(finding?.code).toBe('body-unlikely');
    expect(finding?.message).toContain('They look swapped.');
    const edits = finding?.fixes[0]?.edits ?? [];
    let text = session.text('row-4.stave') ?? '';
    for (const { span, newText } of [...edits].sort((a, b) => b.span.start - a.span.start)) {
      text = text.slice(0, span.start) + newText + text.slice(span.end);
    }
    expect(text).toContain('height: 166cm\n  mass: 57kg, 2026-11-01');
    const again = createSession({ today: '2026-12-01' });
    again.setFile('a.stave', text);
    expect(again.allFindings()).toEqual([]);
  });

  it('is not told by numbers alone when the limits are set wider', () => {
    const wide = createSession({ options: { 'body-unlikely': { minHeightCm: 50 } } });
    wide.setFile('a.stave', session.text('row-4.stave') ?? '');
    // 57 cm and 166 kg still do not go together.
    expect(
      wide
        .allFindings()
        .map(({ message }) => message)
        .join(),
    ).toContain('do not go together');
  });
});
