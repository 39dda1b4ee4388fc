import { say } from '../../../../grammar/say.js';
import type { RawFinding, Rule, RuleOption } from '../ruleForm.js';
import { planWeeks } from './shared/cells.js';
import { onLine } from './shared/found.js';
import { BOATHOUSE, clientLines, winter, workspace } from './shared/sample.js';

const CODE = 'no-carry';
const LEAST_WEEKS: RuleOption = {
  key: 'leastWeeks',
  default: 4,
  least: 1,
  most: 26,
  what: 'weeks that a block has at least before it is told',
};
/** Ground to overhead counts as well. */
const LIFTED = /\b(clean|snatch|ground to overhead|get-?up|clean and (press|jerk))\b/i;

const files = (rows: readonly string[]) =>
  workspace(
    BOATHOUSE,
    clientLines('Wren', ['mass: 60kg, 2026-11-01']),
    winter('Keel, 4 weeks', { Whole: rows }),
  );

export const noCarry: Rule = {
  code: CODE,
  title: 'Nothing carried in four weeks',
  severity: 'off',
  options: [LEAST_WEEKS],
  what: 'A block of four weeks or more has no carry and nothing that goes from the ground to overhead. A note, off by default.',
  why: 'Carrying is what people most need strength for in daily life.',
  source: 'Common practice, no source.',
  example: files(['front plank: 2x20s']),
  better: files(['front plank: 2x20s', 'suitcase carry: 2x20m 4kg']),
  fix: 'Add a carry to one of the days.',
  checkBlock(plan, _world, context) {
    const least = context.option(CODE, LEAST_WEEKS);
    const findings: RawFinding[] = [];
    const blocks = new Map(planWeeks(plan).map((week) => [week.block, week.program]));
    for (const [block, program] of blocks) {
      if (block.weeks < least) continue;
      const sessions = plan.sessions.filter((session) => session.block === block);
      const carries = sessions.some(({ cells }) =>
        cells.some(
          ({ movement }) => movement && (movement.pattern === 'carry' || LIFTED.test(movement.name)),
        ),
      );
      if (carries) continue;
      const said = {
        headline: say`Nothing is carried in the block "${block.name}".`,
        detail: say`${plan.client.name}: ${block.weeks} weeks without a carry or a lift from the ground to overhead.`,
        advice: say('Add a carry to one of the days.'),
      };
      findings.push(onLine(plan, block.place, said, { program, block, day: null }));
    }
    return findings;
  },
};
