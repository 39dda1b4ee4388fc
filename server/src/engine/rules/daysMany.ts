import { later, said, say } from '../../../../grammar/say.js';
import { daysBetween, partialToDate } from '../dates.js';
import type { RawFinding, Rule, RuleOption } from '../ruleForm.js';
import { planWeeks } from './shared/cells.js';
import { fixesOf } from './shared/fixes.js';
import { onLine } from './shared/found.js';
import { BOATHOUSE, clientLines, winter, workspace } from './shared/sample.js';
import { oneDayLess } from './shared/weekdayFixes.js';
import { countOf } from './shared/words.js';

/** Days a week that are usual in the first half year, and in the first two years. */
const CODE = 'days-many';
const FIRST_DAYS: RuleOption = {
  key: 'halfYearDays',
  default: 3,
  least: 1,
  most: 7,
  what: 'most training days a week in the first half year',
};
const SECOND_DAYS: RuleOption = {
  key: 'twoYearDays',
  default: 4,
  least: 1,
  most: 7,
  what: 'most training days a week in the first two years',
};
const LEVELS = [
  { underDays: 182, option: FIRST_DAYS, words: later('the first half year') },
  { underDays: 730, option: SECOND_DAYS, words: later('the first two years') },
] as const;

const files = (on: string) =>
  workspace(
    BOATHOUSE,
    clientLines('Wren', ['lifting since: 2026-10-01', 'mass: 60kg, 2026-11-01'], on),
    winter('Keel, 2 weeks', { Whole: ['bodyweight squat: 2x8', 'front plank: 2x20s'] }),
  );

export const daysMany: Rule = {
  code: CODE,
  title: 'Many days a week for her training age',
  severity: 'info',
  options: [FIRST_DAYS, SECOND_DAYS],
  what: 'More training days in a week than are usual for how long the client has been lifting: more than 3 in the first half year, more than 4 in the first two years.',
  why: 'Recovery is learnt as well. More days are the first thing to go when life comes in between.',
  source:
    'NSCA: 2 to 3 sessions a week for beginners, 3 to 4 for intermediates, 4 to 7 for advanced (Haff & Triplett, Essentials, 4th ed., 2016). ACSM 2009: 2 to 3, 3 to 4, 4 to 5. Where half a year and two years lie is common practice, no source.',
  example: files('mon tue thu sat'),
  better: files('mon wed sat'),
  fix: 'Take a weekday out of the "follows:" line. The quick fix takes out the one that leaves the others furthest apart, where the line is the client\'s own.',
  checkPlan(plan, _world, context) {
    const { client } = plan;
    const since = client.liftingSince === null ? null : partialToDate(client.liftingSince);
    if (since === null) return [];
    for (const { block, week, sessions } of planWeeks(plan)) {
      const first = sessions[0];
      if (!first) continue;
      const level = LEVELS.find(({ underDays }) => daysBetween(since, first.date) < underDays);
      const days = new Set(sessions.map(({ date }) => date)).size;
      const follows = client.follows.find(({ program }) => program === first.program.key);
      if (!level || !follows || follows.everyDays !== null || days <= context.option(CODE, level.option))
        continue;
      const finding: RawFinding = onLine(
        plan,
        follows.place,
        {
          headline: say`More training days a week than are usual in ${said(level.words)}.`,
          detail: say`${client.name}: ${countOf(days, 'day')} in week ${week} of "${block.name}", lifting since ${client.liftingSince}.`,
          advice: say`Up to ${context.option(CODE, level.option)} are usual. Take a weekday out of the "follows:" line, or shift rows to the other days.`,
          fixes: fixesOf(oneDayLess(client, first.program)),
        },
        { program: first.program, block, day: null },
      );
      return [finding];
    }
    return [];
  },
};
