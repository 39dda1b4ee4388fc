import { say } from '../../../../grammar/say.js';
import type { RawFinding, Rule } from '../ruleForm.js';
import { BOATHOUSE, workspace } from './shared/sample.js';

const files = (on: string) =>
  workspace(
    BOATHOUSE,
    `client Heron
  trains at: Boathouse
  follows: Winter, from 2026-12-07, on ${on}`,
    `program Winter

block Keel, 1 week
day Lower
  bodyweight squat: 2x8
day Upper
  front plank: 2x20s`,
  );

export const dayUnreached: Rule = {
  code: 'day-unreached',
  title: 'A day that nobody comes to',
  severity: 'warning',
  what: 'A block has more days than the client has weekdays, and is too short for the rotation to reach all of them.',
  why: 'What stands on that day is never trained, and the program looks more complete than it is.',
  source: 'Part of the notation, no source needed.',
  example: files('mon'),
  better: files('mon thu'),
  fix: 'Give the client another weekday, make the block longer, or put the rows into the days that are reached.',
  noFix: 'which further weekday she has time on is not known, and a longer block is more work.',
  checkPlan: (plan, world) =>
    plan.unreachedDays.flatMap(({ follows, block, day }): RawFinding[] => {
      const program = world.programs.get(follows.program);
      const days =
        follows.everyDays === null
          ? say`trains on ${follows.on.join(' ')}`
          : say`trains every ${follows.everyDays} days`;
      return [
        {
          place: day.place,
          headline: say`Day "${day.name}" of block "${block.name}" is never reached.`,
          detail: `${plan.client.name} ${days}.`,
          advice: say('Add a weekday, or move its rows to the other days.'),
          client: plan.client.key,
          cell: null,
          ...(program ? { scope: { program, block, day } } : {}),
          related: [{ place: follows.place, message: say`${plan.client.name} follows the program here.` }],
          fixes: [],
        },
      ];
    }),
};
