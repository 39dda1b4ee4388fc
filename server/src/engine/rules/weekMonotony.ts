import { said, say } from '../../../../grammar/say.js';
import { CONTESTED_WEEK, type LoggedWeek, loggedLoads, loggedWeeks } from '../history/workload.js';
import { formatNumber } from '../numbers.js';
import type { RawFinding, Rule, RuleOption } from '../ruleForm.js';
import { logsOfHeron, onLog } from './shared/loggedFinding.js';
import { workspace } from './shared/sample.js';
import { countOf, listOf } from './shared/words.js';

const CODE = 'week-monotony';
const MAX_MONOTONY: RuleOption = {
  key: 'maxMonotony',
  default: 2,
  least: 1,
  most: 5,
  what: 'mean daily load divided by its standard deviation, above which a week is called monotonous',
};

/** With every day alike there is nothing to divide by: no week is more monotonous. */
function isMonotonous({ load, monotony }: LoggedWeek, most: number): boolean {
  return load > 0 && (monotony === null || monotony > most);
}

function findingOf(week: LoggedWeek, most: number): RawFinding {
  const { monotony, load, strain } = week;
  const numbers =
    monotony === null
      ? say('every day is alike')
      : say`monotony ${formatNumber(monotony, 2)}, strain ${formatNumber(strain ?? 0, 0)}`;
  return onLog(week.last, {
    headline: say('A monotonous week: one day is as hard as the next.'),
    detail: say`${week.last.entry.clientName.text}, week from ${week.monday}: ${countOf(week.sessions, 'session')}, load ${formatNumber(load, 0)} (effort × minutes), ${numbers}; ${formatNumber(most, 1)} is often quoted as too high.`,
    advice: say`Put an easy day or a day off between hard ones. ${said(CONTESTED_WEEK)}`,
  });
}

const week = (efforts: readonly (readonly [string, string])[]) =>
  workspace('client Heron', logsOfHeron(efforts));
const DAYS = ['07', '08', '09', '10', '11', '12'].map((day) => `2026-12-${day}`);

export const weekMonotony: Rule = {
  code: CODE,
  title: 'Every day as hard as the next (contested)',
  severity: 'info',
  options: [MAX_MONOTONY],
  what: 'The logged sessions of a week from Monday to Sunday have a monotony above 2: mean daily load divided by the standard deviation of the seven days, rest days counting as 0, load being session effort × minutes. Only weeks whose every log has both. With three sessions a week it cannot be reached. Contested.',
  why: 'Athletes in whom Foster saw illness had weeks in which no day was easy. Whether the number tells that of anyone else is open; that easy days are needed is not.',
  source:
    'Foster C. Med Sci Sports Exerc 1998;30(7):1164-1168: load, monotony and strain, with thresholds of each person alone. The limit of 2 is a popular convention, not his; contested. The SD is that of a sample here, which gives the lower monotony.',
  example: week(DAYS.map((date) => [date, 'rpe 6, 50min'])),
  better: week(DAYS.map((date, at) => [date, at % 2 === 0 ? 'rpe 7, 60min' : 'rpe 2, 20min'])),
  fix: 'Let hard and easy days alternate, or take a day off.',
  noFix: 'it is about what was done, and a log is not changed to look better.',
  caution: `The number is contested and no limit for anybody. ${listOf(['How she sleeps', 'how she feels', 'what she says'])} count for more.`,
  inLogs: true,
  checkLogs(logs, _client, _world, context) {
    const most = context.option(CODE, MAX_MONOTONY);
    return loggedWeeks(loggedLoads(logs))
      .filter((each) => isMonotonous(each, most))
      .map((each) => findingOf(each, most));
  },
};
