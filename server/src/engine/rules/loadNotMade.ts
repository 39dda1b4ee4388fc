import { say } from '../../../../grammar/say.js';
import type { ResolvedCell, ResolvedGroup } from '../model.js';
import type { Rule } from '../ruleForm.js';
import { formatMass } from '../units.js';
import { writeLoad } from './shared/cellFixes.js';
import { fixesOf } from './shared/fixes.js';
import { eachRow } from './shared/found.js';
import { nextUp } from './shared/loads.js';
import { BOATHOUSE, BOX_SQUAT, clientLines, winter, workspace } from './shared/sample.js';
import { movementText, spanText } from './shared/words.js';

/** A written load counts as made within this share. */
const NEAR = 0.011;

function isNotMade(group: ResolvedGroup, cell: ResolvedCell): boolean {
  const { loadKg, targetKg } = group;
  if (group.basis !== 'load' || cell.deload || cell.backShare !== 1 || cell.movement === null) return false;
  if (loadKg === null || targetKg === null || nextUp(cell, loadKg) === null) return false;
  return Math.abs(loadKg - targetKg) > targetKg * NEAR;
}

const files = (kg: string) =>
  workspace(
    BOATHOUSE,
    BOX_SQUAT,
    clientLines('Heron', ['ready: load squat 2026-06-01', 'max: box squat, 47.5kg x5 r2, 2026-11-30']),
    winter('Keel, 2 weeks', { Lower: [`box squat: 3x8 ${kg}`] }),
  );

export const loadNotMade: Rule = {
  code: 'load-not-made',
  title: 'A written load that the kit makes otherwise',
  severity: 'info',
  what: 'A load is written that the kit of the client cannot make; the next lower one is used.',
  why: 'The plan says one number and the bar another. Somebody will round up.',
  source: 'Arithmetic of the kit. Rounding down: common practice, no source.',
  example: files('36.5kg'),
  better: files('35kg'),
  fix: 'Write a load that the kit has, or the effort and no load. The quick fix writes the lower load that is used anyway.',
  checkBlock: (plan) =>
    eachRow(plan, isNotMade, (cells, group) => {
      const first = cells[0] as ResolvedCell;
      const kg = (value: number | null) => formatMass(value ?? 0, plan.client.units);
      return {
        headline: say`${movementText(first)}: the kit cannot make this load.`,
        detail: say`${plan.client.name}: ${kg(group.targetKg)} is asked for, ${first.kit?.name ?? say('the kit')} makes ${kg(group.loadKg)} and then ${kg(nextUp(first, group.loadKg ?? 0))}; ${spanText(cells)}.`,
        advice: say`${kg(group.loadKg)} is used. Write a load that the kit has, or the reserve alone.`,
        fixes: fixesOf(writeLoad(first, group, group.loadKg ?? 0)),
      };
    }),
};
