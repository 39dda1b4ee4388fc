import { say } from '../../../../grammar/say.js';
import { betweenPrograms, GAP_DAYS } from '../history/programs.js';
import type { RawFinding, Rule, RuleOption } from '../ruleForm.js';
import { fixesOf } from './shared/fixes.js';
import { startWeeksLater } from './shared/programFixes.js';
import { BOATHOUSE, workspace } from './shared/sample.js';
import { countOf } from './shared/words.js';

const days: RuleOption = {
  key: 'gapDays',
  default: GAP_DAYS,
  least: 3,
  most: 90,
  what: 'days without a program between two others, above which it is told',
};

const files = (from: string) =>
  workspace(
    BOATHOUSE,
    `client Heron
  trains at: Boathouse
  follows: Winter, from 2026-12-07, on mon
  follows: Spring, from ${from}, on mon`,
    `program Winter

block Keel, 4 weeks
day Lower
  bodyweight squat: 2x8`,
    `program Spring

block Mast, 4 weeks
day Lower
  bodyweight squat: 2x10`,
  );

export const programGap: Rule = {
  code: 'program-gap',
  title: 'Weeks without a program',
  severity: 'info',
  what: 'Between the last session of one program and the first of the next lie more than two weeks, and no absence explains them. Only where the next one is still to come.',
  why: 'A client with nothing written down trains nothing, or what she remembers. Strength holds for a few weeks, the habit for fewer.',
  source: 'Common practice, no source.',
  example: files('2027-02-01'),
  better: files('2027-01-11'),
  fix: 'Begin the next program earlier, put one between, or write the absence down. The quick fix moves the first day of the next one to the week after the last session, by whole weeks.',
  options: [days],
  checkPlan: (plan, world, context) =>
    betweenPrograms(plan, world, {
      gapDays: context.option('program-gap', days),
      since: context.today ?? '',
    })
      .filter(({ kind }) => kind === 'gap')
      .map(
        ({ before, after, days: gap }): RawFinding => ({
          place: after.follows.place,
          headline: say('Weeks lie between two programs.'),
          detail: say`${plan.client.name}: ${before.follows.programName.text} ends on ${before.until}, ${after.follows.programName.text} begins on ${after.from}; ${countOf(gap, 'day')} without a program.`,
          advice: say(
            'Begin the next one earlier, put a program between them, or write an `away:` line if she is not there.',
          ),
          client: plan.client.key,
          cell: null,
          related: [
            {
              place: before.follows.place,
              message: say`${before.follows.programName.text} ends on ${before.until}.`,
            },
          ],
          fixes: fixesOf(startWeeksLater(plan, after.follows, -Math.floor(gap / 7))),
        }),
      ),
};
