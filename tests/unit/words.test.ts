/** Findings, hovers and plans say the same of the same work. */

import { describe, expect, it } from 'vitest';
import { durationWords as planDuration } from '../../server/src/engine/print/words.js';
import { workOf } from '../../server/src/engine/print/work.js';
import {
  doseText as findingDose,
  loadText as findingLoad,
} from '../../server/src/engine/rules/shared/words.js';
import { doseText as hoverDose } from '../../server/src/engine/views/words.js';
import { durationWords } from '../../server/src/engine/words.js';
import { around, KIT, sessionOf, syntaxProblems } from '../rules/check.js';

const kit = `${KIT}  bands: light, medium\n  pack: to 16kg by 1kg\n`;
const others = `
movement pack squat
  pattern: squat
  with: pack
`;

function wordsOf(row: string) {
  const client = 'ready: heavy all 2026-06-01\n  max: back squat, 47.5kg x5 r2, 2026-11-23';
  const text = around({ client, kit, others, row });
  expect(syntaxProblems(text)).toEqual([]);
  const cell = sessionOf(text).plan('heron')?.sessions[0]?.cells[0];
  const group = cell?.groups[0];
  if (!cell || !group) throw new Error(`nothing comes of ${row}`);
  return { cell, group, plan: workOf(cell, group) };
}

describe('the same work', () => {
  it.each([
    ['back squat: 3x6 40kg', '40 kg'],
    ['pack squat: 3x8 pack 8kg', 'pack of 8 kg'],
    ['band row: 3x10 band medium', 'medium band'],
    ['pull-up: 3x5 bw', 'body weight'],
    ['pull-up: 3x5 bw+5kg', 'body weight + 5 kg'],
  ])('%s has the load "%s" in a finding and on paper', (row, load) => {
    const { cell, group, plan } = wordsOf(row);
    expect(plan.load).toBe(load);
    if (group.loadKg !== null || group.band !== null) expect(findingLoad(group, cell.client)).toBe(load);
  });

  it.each([
    ['back squat: 3x6 40kg', '3 × 6'],
    ['back squat: 3x6-8 40kg', '3 × 6–8'],
    ['front plank: 3x30s', '3 × 30 s'],
    ['farmer carry: 4x20m 8kg', '4 × 20 m'],
    ['push-up: 3xmax r2', '3 × max'],
    ['bike interval: 6x20s off 100s', '6 × 20 s (100 s off)'],
  ])('%s is "%s" in a finding and on hover', (row, dose) => {
    const { group, plan } = wordsOf(row);
    expect(findingDose(group)).toBe(dose);
    expect(hoverDose(group)).toBe(dose);
    // A plan has the same numbers in the same form, and words in place of signs.
    expect(plan.dose.startsWith(dose.split(/[–(]|max/)[0]?.trimEnd() ?? '-')).toBe(true);
  });

  it('lasts as long in a finding as on paper', () => {
    expect([45, 60, 90, 150, 180].map(durationWords)).toEqual([
      '45 s',
      '1 min',
      '90 s',
      '2 min 30 s',
      '3 min',
    ]);
    expect(planDuration).toBe(durationWords);
  });
});
