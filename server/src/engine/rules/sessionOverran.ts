import { say } from '../../../../grammar/say.js';
import { addDays } from '../dates.js';
import { type LoggedLoad, loggedLoads } from '../history/workload.js';
import type { FindingFix } from '../model.js';
import { formatNumber } from '../numbers.js';
import type { RawFinding, Rule, RuleOption } from '../ruleForm.js';
import { logsOfHeron, onLog } from './shared/loggedFinding.js';
import { workspace } from './shared/sample.js';

const CODE = 'session-overran';
const USUAL_PERCENT: RuleOption = {
  key: 'usualPercent',
  default: 175,
  least: 110,
  most: 400,
  what: 'minutes of a logged session, in per cent of what is usual for her, above which it is told',
};
/** So many sessions before make something usual; of so many the middle is taken. */
const USUAL_FROM = 5;
const USUAL_OF_LAST = 12;

/** The middle of the lengths before a session; null while they are too few. */
function usualMinutes(before: readonly number[]): number | null {
  if (before.length < USUAL_FROM) return null;
  const sorted = [...before].sort((a, b) => a - b);
  return sorted[Math.floor((sorted.length - 1) / 2)] ?? null;
}

/** A digit less, where that comes near to what is usual. */
function digitLess({ entry, minutes }: LoggedLoad, usual: number, mostPercent: number): FindingFix[] {
  const line = entry.node.lines.find((each) => each.kind === 'session');
  const written = line?.kind === 'session' ? line.minutes : null;
  const meant = (minutes ?? 0) / 10;
  const fits = meant >= usual / 2 && meant <= (usual * mostPercent) / 100;
  if (!written || !Number.isInteger(meant) || !fits) return [];
  return [
    {
      title: say`Change to "${meant}min"`,
      safe: false,
      edits: [{ file: entry.place.file, span: written.span, newText: `${meant}min` }],
    },
  ];
}

function findingsOf(logged: readonly LoggedLoad[], mostPercent: number): RawFinding[] {
  const findings: RawFinding[] = [];
  const before: number[] = [];
  let wasLong = false;
  for (const each of logged) {
    if (each.minutes === null) continue;
    const usual = usualMinutes(before.slice(-USUAL_OF_LAST));
    before.push(each.minutes);
    const isLong = usual !== null && each.minutes > (usual * mostPercent) / 100;
    // Sessions that have become longer are one cause; after some of them they are what is usual.
    const isNew = isLong && !wasLong;
    wasLong = isLong;
    if (!isNew || usual === null) continue;
    findings.push(
      onLog(each, {
        headline: say('This session took far longer than her sessions do.'),
        detail: say`${each.entry.clientName.text}, ${each.date}: ${formatNumber(each.minutes)} min; about ${formatNumber(usual)} min are usual in the sessions before.`,
        advice: say('Check the number. If it is right, ask what took so long, and plan less for that day.'),
        fixes: digitLess(each, usual, mostPercent),
      }),
    );
  }
  return findings;
}

const files = (last: string) =>
  workspace(
    'client Heron',
    logsOfHeron(
      [0, 3, 7, 10, 14, 17].map((day): readonly [string, string] => [
        addDays('2026-11-02', day),
        day < 17 ? 'rpe 6, 50min' : last,
      ]),
    ),
  );

export const sessionOverran: Rule = {
  code: CODE,
  title: 'A session that took far longer than usual',
  severity: 'info',
  options: [USUAL_PERCENT],
  what: 'A logged session took more than 175 % of the middle of the sessions before it (the last twelve, at least five). Of several in a row the first is told.',
  why: 'It is a slip in the log, or a day that was too much. Session load counts the minutes, so a slip makes the week look hard.',
  source: 'Common practice, no source.',
  example: files('rpe 6, 95min'),
  better: files('rpe 6, 60min'),
  fix: 'Correct the minutes, or plan less for that day. Where a digit less comes near to what is usual, the quick fix takes it away.',
  inLogs: true,
  checkLogs: (logs, _client, _world, context) =>
    findingsOf(loggedLoads(logs), context.option(CODE, USUAL_PERCENT)),
};
