import type { PatternName } from '../../../../grammar/index.js';
import { say } from '../../../../grammar/say.js';
import type { Block } from '../model.js';
import { formatPercent } from '../numbers.js';
import type { RawFinding, Rule, RuleOption } from '../ruleForm.js';
import { planWeeks } from './shared/cells.js';
import { onLine } from './shared/found.js';
import { readinessOn } from './shared/readiness.js';
import { BOATHOUSE, clientLines, winter, workspace } from './shared/sample.js';
import { ageOn } from './shared/words.js';

const CODE = 'reps-past-35';
const FROM_AGE: RuleOption = {
  key: 'fromAge',
  default: 35,
  least: 18,
  most: 100,
  what: 'age in years from which on it is told',
};
const MANY_REPS: RuleOption = {
  key: 'manyReps',
  default: 8,
  least: 3,
  most: 20,
  what: 'reps of a set above which they are many',
};
const LIFTS: ReadonlySet<PatternName> = new Set(['squat', 'hinge', 'push', 'press', 'pull', 'row']);

const files = (row: string) =>
  workspace(
    BOATHOUSE,
    clientLines('Heron', [
      'born: 1979-03',
      'ready: heavy squat 2026-06-01',
      'max: back squat, 47.5kg x5 r2, 2026-11-30',
    ]),
    winter('Keel, 3 weeks', { Lower: [row] }),
  );

export const repsPast35: Rule = {
  code: CODE,
  title: 'Mostly many reps past the mid-thirties',
  severity: 'off',
  options: [FROM_AGE, MANY_REPS],
  what: 'For a client of 35 years or more who is signed off for heavy work, most working sets of a block have more than 8 reps. A note, off by default: age alone says little.',
  why: 'Strength and power fall first with age, and heavy sets train them best.',
  source:
    'Common practice, no source. The counter-view: the ACSM 2026 overview of reviews finds that load matters less for size, so that many reps are no mistake where size is the aim.',
  example: files('back squat: 3x12 r3'),
  better: files('back squat: 3x6 r2'),
  fix: 'Give some of the sets fewer reps and more load.',
  noFix: 'fewer reps with the same reserve are a heavier load, and nothing here writes one.',
  checkBlock(plan, _world, context) {
    const fromAge = context.option(CODE, FROM_AGE);
    const manyReps = context.option(CODE, MANY_REPS);
    const { client } = plan;
    if (client.born === null) return [];
    const counts = new Map<Block, { sets: number; many: number }>();
    for (const week of planWeeks(plan)) {
      const first = week.sessions[0];
      if (week.deload || !first || (ageOn(client, first.date) ?? 0) < fromAge) continue;
      const counted = counts.get(week.block) ?? { sets: 0, many: 0 };
      counts.set(week.block, counted);
      for (const session of week.sessions) {
        for (const { movement, date, groups } of session.cells) {
          if (!movement || !LIFTS.has(movement.pattern)) continue;
          if (readinessOn(client, movement.pattern, date).stage !== 'heavy') continue;
          for (const { reps, sets } of groups) {
            if (reps === null) continue;
            counted.sets += sets ?? 1;
            if (reps > manyReps) counted.many += sets ?? 1;
          }
        }
      }
    }
    return [...counts].flatMap(([block, { sets, many }]): RawFinding[] => {
      const session = plan.sessions.find((each) => each.block === block);
      if (!session || sets === 0 || many / sets <= 0.5) return [];
      const said = {
        headline: say`Most sets of the block "${block.name}" have more than ${manyReps} reps.`,
        detail: say`${client.name}: ${formatPercent(many / sets, 0)} of ${sets} sets.`,
        advice: say(
          'Give some of them fewer reps and more load, unless size is the aim: the ACSM 2026 overview finds that load matters less for size.',
        ),
      };
      return [onLine(plan, block.place, said, { program: session.program, block, day: null })];
    });
  },
};
