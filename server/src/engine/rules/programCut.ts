import { say } from '../../../../grammar/say.js';
import { betweenPrograms } from '../history/programs.js';
import type { RawFinding, Rule } from '../ruleForm.js';
import { fixesOf } from './shared/fixes.js';
import { startWeeksLater } from './shared/programFixes.js';
import { BOATHOUSE, workspace } from './shared/sample.js';
import { countOf } from './shared/words.js';

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

export const programCut: Rule = {
  code: 'program-cut',
  title: 'A program that the next one cuts short',
  severity: 'info',
  what: 'Two programs overlap: the next one begins before the last session of the one before, whose sessions from then on are not trained. Only where the next one is still to come, and not for a program `alongside`.',
  why: 'What is cut off is most often the end: the heaviest weeks, the deload or the test that all of it was for.',
  source: 'Part of the notation, no source needed.',
  example: files('2026-12-21'),
  better: files('2027-01-04'),
  fix: 'Begin the next program later, make the one before shorter, or write `alongside` where both are meant. The quick fix moves the first day of the next one to after the last session, by whole weeks.',
  checkPlan: (plan, world, context) =>
    betweenPrograms(plan, world, { since: context.today ?? '' })
      .filter(({ kind }) => kind === 'overlap')
      .map(
        ({ before, after, days, lostSessions }): RawFinding => ({
          place: after.follows.place,
          headline: say('This program begins before the one before it has ended.'),
          detail: say`${plan.client.name}: ${before.follows.programName.text} would go on; ${countOf(lostSessions, 'session')} of it from ${after.follows.from} on will not be trained.`,
          advice: say(
            'Begin later, make the program before shorter, or write `alongside` if she is to train both.',
          ),
          client: plan.client.key,
          cell: null,
          related: [
            {
              place: before.follows.place,
              message: say`The last session of ${before.follows.programName.text} is now on ${before.until}.`,
            },
          ],
          fixes: fixesOf(startWeeksLater(plan, after.follows, Math.ceil(days / 7))),
        }),
      ),
};
