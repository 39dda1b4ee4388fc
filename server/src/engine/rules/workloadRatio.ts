import { said, say } from '../../../../grammar/say.js';
import { addDays, daysBetween } from '../dates.js';
import { CONTESTED_RATIO, type LoggedLoad, loggedLoads, ratiosOn } from '../history/workload.js';
import { formatNumber } from '../numbers.js';
import type { RawFinding, Rule, RuleOption } from '../ruleForm.js';
import { logsOfHeron, onLog } from './shared/loggedFinding.js';
import { workspace } from './shared/sample.js';

const CODE = 'workload-ratio';
const MAX_RATIO: RuleOption = {
  key: 'maxRatio',
  default: 1.5,
  least: 1.1,
  most: 3,
  what: 'load of the last 7 days divided by that of the last 28, from which on it is told',
};
/** A rise that goes on is told once. */
const AGAIN_DAYS = 28;

function findingsOf(logged: readonly LoggedLoad[], most: number): RawFinding[] {
  const findings: RawFinding[] = [];
  let told: string | null = null;
  for (const each of logged) {
    if (told !== null && daysBetween(told, each.date) < AGAIN_DAYS) continue;
    const ratios = ratiosOn(logged, each.date);
    if (ratios === null || Math.max(ratios.rolling, ratios.weighted) < most) continue;
    told = each.date;
    findings.push(
      onLog(each, {
        headline: say('Much more load in a week than in the month.'),
        detail: say`${each.entry.clientName.text}, ${each.date}: 7 days against 28 days are ${formatNumber(ratios.rolling, 2)} by rolling means and ${formatNumber(ratios.weighted, 2)} weighted; from ${formatNumber(most, 2)} on it is told.`,
        advice: say`Ask whether the rise is meant, and keep the next week level. ${said(CONTESTED_RATIO)}`,
      }),
    );
  }
  return findings;
}

const files = (last: string) =>
  workspace(
    'client Heron',
    logsOfHeron(
      [0, 3, 7, 10, 14, 17, 21, 24, 28, 32].map((day): readonly [string, string] => [
        addDays('2026-11-02', day),
        day < 28 ? 'rpe 5, 40min' : last,
      ]),
    ),
  );

export const workloadRatio: Rule = {
  code: CODE,
  title: 'A week against the month (contested)',
  severity: 'off',
  options: [MAX_RATIO],
  what: 'The logged load (session effort × minutes) of the last 7 days is one and a half times that of the last 28 or more, by rolling means (the 28 days include the 7) or exponentially weighted. Only where every log of the 28 days has effort and minutes; a rise that goes on is told once in four weeks. Off by default; contested.',
  why: 'A sudden rise is worth a question. The ratio is one way to see it, and not a good one: it says nothing that the loads themselves do not.',
  source:
    'Gabbett, Br J Sports Med 2016;50:273-280: 1.5 and more as a zone of danger. Weighted form: Williams et al., Br J Sports Med 2017;51(3):209-210. Contested: Impellizzeri et al., Int J Sports Physiol Perform 2020;15(6):907-913 (from memory) and Sports Med 2021: with a fixed number or random ones in place of the real load of the month the association is much the same. Data of elite team sport.',
  example: files('rpe 7, 60min'),
  better: files('rpe 5, 45min'),
  fix: 'Keep the next week level, or say with "allow" why the rise is meant.',
  noFix: 'it is about what was done, and a log is not changed to look better.',
  caution: 'It predicts no injury of anybody. Information, not a limit.',
  inLogs: true,
  checkLogs: (logs, _client, _world, context) =>
    findingsOf(loggedLoads(logs), context.option(CODE, MAX_RATIO)),
};
