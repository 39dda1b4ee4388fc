import { describe, expect, it } from 'vitest';
import { progressBar } from '../../server/src/cli/plan.js';

describe('the progress of many documents', () => {
  it('fills with what is done and says about how long the rest takes', () => {
    let nowMs = 0;
    const bar = progressBar(200, () => nowMs);
    nowMs = 4000;
    expect(bar(50)).toBe('[######------------------] 50 of 200, about 12 s left');
    nowMs = 16_000;
    expect(bar(199)).toBe('[#######################-] 199 of 200');
    expect(bar(200)).toBe('[########################] 200 of 200');
  });

  it('has no place where nothing is to be written', () => {
    expect(progressBar(0, () => 0)(0)).toBe('[------------------------] 0 of 0');
  });
});
