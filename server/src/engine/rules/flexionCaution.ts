import { say } from '../../../../grammar/say.js';
import type { ResolvedCell } from '../model.js';
import type { RawFinding, Rule } from '../ruleForm.js';
import { rowRuns } from './shared/cells.js';
import { fixesOf, swapAtKit } from './shared/fixes.js';
import { onCell } from './shared/found.js';
import { BOATHOUSE, clientLines, winter, workspace } from './shared/sample.js';
import { movementText, spanText } from './shared/words.js';

/** Names of movements that bend the spine forward under load. */
const FLEXION = /\b(sit-?ups?|crunch(es)?|toe touch(es)?|roll-?ups?|jackknife|v-?ups?|jefferson curl)\b/i;
const BONE = new Set(['osteopenia', 'osteoporosis']);

const files = (row: string) =>
  workspace(
    BOATHOUSE,
    `movement weighted sit-up
  pattern: brace
  with: dumbbell`,
    clientLines('Heron', ['condition: osteoporosis', 'mass: 62kg, 2026-11-01']),
    winter('Keel, 2 weeks', { Whole: [row] }),
  );

export const flexionCaution: Rule = {
  code: 'flexion-caution',
  title: 'Bending forward under load with thin bones',
  severity: 'warning',
  what: 'A client with osteopenia or osteoporosis does a movement whose name says that it bends the spine forward: sit-ups, crunches, toe touches, roll-ups.',
  why: 'Vertebrae that are thin in front are pressed together there when the spine bends forward under load.',
  source: 'Common practice, no source. Only names are looked at; a movement of another name is not seen.',
  example: files('weighted sit-up: 2x8 4kg r5'),
  better: files('front plank: 2x15s'),
  fix: 'Take a movement that keeps the spine long, such as a plank or a carry. Where an easier movement of another kind is known, the quick fix writes the "swap:" line.',
  caution: 'A qualified professional decides which movements are right. Local rules prevail.',
  checkBlock(plan, world) {
    const condition = plan.client.conditions.find(({ name }) => BONE.has(name));
    if (!condition) return [];
    return rowRuns(plan).flatMap((run): RawFinding[] => {
      const cells = run.cells.filter((cell) => FLEXION.test(movementText(cell)));
      const first: ResolvedCell | undefined = cells[0];
      if (!first) return [];
      return [
        onCell(first, {
          headline: say`${movementText(first)} bends the spine forward under load.`,
          detail: say`${plan.client.name} has ${condition.name}: ${spanText(cells)}.`,
          advice: say('Take a plank or a carry instead, unless a qualified professional has agreed to it.'),
          fixes: fixesOf(
            swapAtKit(world, cells, say('bends the spine forward'), ({ name }) => !FLEXION.test(name)),
          ),
          related: [{ place: condition.place, message: `${plan.client.name}: ${condition.name}.` }],
        }),
      ];
    });
  },
};
