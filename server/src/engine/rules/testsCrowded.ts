import { say } from '../../../../grammar/say.js';
import type { RawFinding, Rule } from '../ruleForm.js';
import { onCell } from './shared/found.js';
import { BOATHOUSE, clientLines, winter, workspace } from './shared/sample.js';
import { listOf, movementText } from './shared/words.js';

const files = (second: string) =>
  workspace(
    BOATHOUSE,
    clientLines('Heron', [
      'ready: heavy all 2026-06-01',
      'max: back squat, 47.5kg x5 r2, 2026-11-30',
      'max: overhead press, 22.5kg x6 r2, 2026-11-30',
    ]),
    winter('Keel, 2 weeks', {
      Lower: ['back squat: 3x6 r2 | test x5', `overhead press: 3x6 r2 | ${second}`],
    }),
  );

export const testsCrowded: Rule = {
  code: 'tests-crowded',
  title: 'Two tests on one day',
  severity: 'info',
  what: 'A session tests more than one movement.',
  why: 'The second test is done tired. Its max comes out too low, or somebody forces it.',
  source:
    'NSCA testing steps rest 2 to 4 minutes between attempts and reach the max within 3 to 5 sets (Haff & Triplett, Essentials, 4th ed., 2016, from memory); one test a session is common practice, no source.',
  example: files('test x5'),
  better: files(''),
  fix: 'Move one of the tests to another day or week.',
  checkBlock: (plan) =>
    plan.sessions.flatMap((session): RawFinding[] => {
      const tests = session.cells.filter((cell) => cell.test !== null);
      const second = tests[1];
      if (!second) return [];
      return [
        onCell(second, {
          headline: say('More than one test on one day.'),
          detail: say`${plan.client.name}: ${listOf(tests.map(movementText))} on ${session.date} (week ${session.week}).`,
          advice: say('Move one of them to another day.'),
        }),
      ];
    }),
};
