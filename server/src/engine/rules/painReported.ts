import { say } from '../../../../grammar/say.js';
import type { Client, LogEntry, World } from '../model.js';
import { formatNumber } from '../numbers.js';
import type { RawFinding, Rule, RuleOption } from '../ruleForm.js';
import { swapsForPain } from './shared/painFixes.js';
import { BOATHOUSE, clientLines, winter, workspace } from './shared/sample.js';

export const PAIN_CODE = 'pain-reported';
/** Also what the roster goes by. */
export const HOLD_FROM: RuleOption = {
  key: 'holdFrom',
  default: 4,
  least: 1,
  most: 10,
  what: 'score of 10 from which on the movement waits',
};
export const STOP_ABOVE: RuleOption = {
  key: 'stopAbove',
  default: 5,
  least: 1,
  most: 10,
  what: 'score of 10 above which it stops, an error',
};

interface Limits {
  readonly holdFrom: number;
  readonly stopAbove: number;
}

function findingsOf(
  entry: LogEntry,
  client: Client | null,
  world: Pick<World, 'movements'>,
  { holdFrom, stopAbove }: Limits,
): readonly RawFinding[] {
  return entry.node.lines.flatMap((line): RawFinding[] => {
    if (line.kind !== 'pain' || line.score.value < Math.min(holdFrom, stopAbove + 1)) return [];
    const stop = line.score.value > stopAbove;
    return [
      {
        place: { file: entry.place.file, span: line.span },
        headline: say`Pain of ${formatNumber(line.score.value, 1)} of 10 in ${line.where.text} was reported.`,
        detail: `${entry.clientName.text}, ${entry.date}.`,
        advice: stop
          ? say('Stop what brings it on and refer to a qualified professional before going on.')
          : say('Hold the load, offer the easier movement, and ask again the next morning.'),
        client: entry.client,
        cell: null,
        log: entry.node,
        related: [],
        // Above the limit an easier movement is no answer.
        fixes: stop || !client ? [] : swapsForPain(entry, client, entry.date, world),
        severity: stop ? 'error' : 'warning',
      },
    ];
  });
}

const files = (score: number) =>
  workspace(
    BOATHOUSE,
    clientLines('Heron', []),
    winter('Keel, 1 week', { Lower: ['bodyweight squat: 2x8'] }),
    `log Heron, 2026-12-07, Lower
  as planned
  pain: knee ${score}/10`,
  );

export const painReported: Rule = {
  code: PAIN_CODE,
  title: 'Pain in the log',
  severity: 'warning',
  options: [HOLD_FROM, STOP_ABOVE],
  what: 'A log reports pain of 4 of 10 or more. Above 5 it is an error.',
  why: 'Pain that is trained through tends to stay. The plan does not know of it until somebody changes the plan.',
  source:
    'Pain-monitoring model as used in rehabilitation (from memory): up to 5 of 10 is tolerated there under guidance. The 4 is common practice, no source.',
  example: files(6),
  better: files(2),
  fix: 'Hold the load or swap the movement; above 5 stop and refer. Where somebody qualified has decided, say so with an "allow" line in that log, not in the client: there it would silence the next pain too. Where it is no more than 5 and the log names movements that have an easier one, the quick fix writes a "swap:" line for two weeks.',
  caution: 'Stave cannot tell what a pain means. A qualified professional decides.',
  inLogs: true,
  checkLogs(logs, client, world, context) {
    const holdFrom = context.option(PAIN_CODE, HOLD_FROM);
    const stopAbove = context.option(PAIN_CODE, STOP_ABOVE);
    return logs.flatMap((entry) => findingsOf(entry, client, world, { holdFrom, stopAbove }));
  },
};
