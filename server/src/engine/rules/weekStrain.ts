import { said, say } from '../../../../grammar/say.js';
import { addDays } from '../dates.js';
import { CONTESTED_WEEK, type LoggedWeek, loggedLoads, loggedWeeks } from '../history/workload.js';
import { formatNumber } from '../numbers.js';
import type { RawFinding, Rule, RuleOption } from '../ruleForm.js';
import { logsOfHeron, onLog } from './shared/loggedFinding.js';
import { workspace } from './shared/sample.js';

const CODE = 'week-strain';
const MAX_PERCENT: RuleOption = {
  key: 'maxPercent',
  default: 200,
  least: 110,
  most: 500,
  what: 'strain of a week, in per cent of the mean of the four weeks before, above which it is told',
};
const WEEKS_BEFORE = 4;

/** Mean strain of the four weeks before one; null unless all four follow on one another and are known. */
function usualStrain(weeks: readonly LoggedWeek[], index: number): number | null {
  let sum = 0;
  for (let back = 1; back <= WEEKS_BEFORE; back += 1) {
    const week = weeks[index - back];
    if (!week || week.strain === null || week.monday !== addDays(weeks[index]?.monday ?? '', -7 * back))
      return null;
    sum += week.strain;
  }
  return sum / WEEKS_BEFORE;
}

function findingsOf(weeks: readonly LoggedWeek[], mostPercent: number): RawFinding[] {
  return weeks.flatMap((week, index) => {
    const usual = usualStrain(weeks, index);
    if (usual === null || usual <= 0 || week.strain === null || week.monotony === null) return [];
    if (week.strain <= (usual * mostPercent) / 100) return [];
    return [
      onLog(week.last, {
        headline: say('A week of far more strain than the four before it.'),
        detail: say`${week.last.entry.clientName.text}, week from ${week.monday}: strain ${formatNumber(week.strain, 0)} (load ${formatNumber(week.load, 0)} × monotony ${formatNumber(week.monotony, 2)}), ${formatNumber(week.strain / usual, 1)} times the mean of ${formatNumber(usual, 0)}.`,
        advice: say`Ask how she is, and let the next week be easier. ${said(CONTESTED_WEEK)}`,
      }),
    ];
  });
}

const MONDAYS = ['2026-11-02', '2026-11-09', '2026-11-16', '2026-11-23', '2026-11-30'];
const files = (last: string) =>
  workspace(
    'client Heron',
    logsOfHeron(
      MONDAYS.flatMap((monday, at) =>
        [0, 2, 4].map((day): readonly [string, string] => [
          addDays(monday, day),
          at === 4 ? last : 'rpe 5, 45min',
        ]),
      ),
    ),
  );

export const weekStrain: Rule = {
  code: CODE,
  title: 'A week of far more strain (contested)',
  severity: 'off',
  options: [MAX_PERCENT],
  what: 'The strain of a logged week (load × monotony, Monday to Sunday) is more than twice the mean of the four weeks before. Only where every log of the five weeks has effort and minutes. Off by default; contested.',
  why: 'Foster looked for each person’s own threshold. Against her own weeks a number that means little by itself can be read.',
  source:
    'Foster C. Med Sci Sports Exerc 1998;30(7):1164-1168: strain, with thresholds of each person alone. That twice the own mean is such a threshold is common practice, no source; contested.',
  example: files('rpe 8, 75min'),
  better: files('rpe 5, 50min'),
  fix: 'Make the next week easier, or say with "allow" why the week was as it was.',
  noFix: 'it is about what was done, and a log is not changed to look better.',
  caution: 'The number is contested and no limit for anybody. What she says counts for more.',
  inLogs: true,
  checkLogs: (logs, _client, _world, context) =>
    findingsOf(loggedWeeks(loggedLoads(logs)), context.option(CODE, MAX_PERCENT)),
};
