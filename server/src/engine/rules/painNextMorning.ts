import { say } from '../../../../grammar/say.js';
import { daysBetween } from '../dates.js';
import type { Client, LogEntry, World } from '../model.js';
import { formatNumber } from '../numbers.js';
import type { RawFinding, Rule, RuleOption } from '../ruleForm.js';
import { swapsForPain } from './shared/painFixes.js';
import { BOATHOUSE, clientLines, winter, workspace } from './shared/sample.js';
import { listOf } from './shared/words.js';

const CODE = 'pain-next-morning';
const WITHIN_DAYS: RuleOption = {
  key: 'withinDays',
  default: 2,
  least: 1,
  most: 7,
  what: 'days after a log with pain in which the same pain, no lower, counts as not settled',
};
const LEAST_SCORE: RuleOption = {
  key: 'leastScore',
  default: 1,
  least: 1,
  most: 10,
  what: 'least score of 10 that counts as pain',
};
/** Movements that are named in the advice. */
const NAMED = 3;

interface Pain {
  readonly entry: LogEntry;
  readonly place: RawFinding['place'];
  readonly where: string;
  readonly score: number;
}

/** The easier movement of each one that the earlier log names: `goblet squat instead of back squat`. */
function easierOf(entry: LogEntry, world: Pick<World, 'movements'>): readonly string[] {
  const found = new Set<string>();
  for (const line of entry.node.lines) {
    if (line.kind !== 'done') continue;
    const movement = world.movements.get(line.movement.key);
    const easier = movement?.easier ? world.movements.get(movement.easier) : undefined;
    if (movement && easier) found.add(say`${easier.name} instead of ${movement.name}`);
  }
  return [...found].slice(0, NAMED);
}

function findingOf(before: Pain, after: Pain, client: Client, world: Pick<World, 'movements'>): RawFinding {
  const score = (pain: Pain) => say`${formatNumber(pain.score, 1)} of 10`;
  const days = daysBetween(before.entry.date, after.entry.date);
  const easier = easierOf(before.entry, world);
  const offer = easier.length === 0 ? say('offer the easier movement') : say`offer ${listOf(easier)}`;
  return {
    place: after.place,
    headline: say`The pain in ${after.where} has not settled.`,
    detail: say`${after.entry.clientName.text}: ${score(before)} on ${before.entry.date}, and ${score(after)} ${days === 1 ? say('the next day') : say`${days} days later`}.`,
    advice: say`Hold the load, ${offer}, and refer to a qualified professional if it stays.`,
    client: after.entry.client,
    cell: null,
    log: after.entry.node,
    related: [{ place: before.place, message: say`The pain on ${before.entry.date}.` }],
    fixes: swapsForPain(before.entry, client, after.entry.date, world),
  };
}

const files = (score: number) =>
  workspace(
    BOATHOUSE,
    clientLines('Heron', [], 'mon tue'),
    winter('Keel, 1 week', { Lower: ['bodyweight squat: 2x8'], Upper: ['wall push-up: 2x8'] }),
    `log Heron, 2026-12-07, Lower
  as planned
  pain: knee 3/10`,
    `log Heron, 2026-12-08, Upper
  as planned
  pain: knee ${score}/10`,
  );

export const painNextMorning: Rule = {
  code: CODE,
  title: 'Pain that is still there the next morning',
  severity: 'warning',
  options: [WITHIN_DAYS, LEAST_SCORE],
  what: 'A log reports pain, and another log of the same client within two days names the same place with the same score or a higher one. Both logs must name the place alike.',
  why: 'How a joint feels the next morning tells more than how it felt at the bar. What has not settled by then was too much.',
  source:
    'Pain-monitoring model as used in rehabilitation (from memory): pain should be back to where it was by the next morning. The two days are common practice, no source, because a client logs the days on which she trains.',
  example: files(4),
  better: files(1),
  fix: 'Hold the load or swap to the easier movement until the pain is lower the next morning. Where somebody qualified has decided, say so with an "allow" line in that log. Where the earlier log names movements that have an easier one, the quick fix writes a "swap:" line for two weeks.',
  caution:
    'Stave cannot tell what a pain means. Stop at sharp or rising pain, swelling, or pain at night; a qualified professional decides.',
  inLogs: true,
  checkLogs(logs, client, world, context) {
    const findings: RawFinding[] = [];
    if (!client) return findings;
    const withinDays = context.option(CODE, WITHIN_DAYS);
    const least = context.option(CODE, LEAST_SCORE);
    const latest = new Map<string, Pain>();
    for (const entry of logs) {
      const today = new Map<string, Pain>();
      for (const line of entry.node.lines) {
        if (line.kind !== 'pain' || line.score.value < least) continue;
        const { key, text } = line.where;
        const place = { file: entry.place.file, span: line.span };
        const after: Pain = { entry, place, where: text, score: line.score.value };
        today.set(key, after);
        const before = latest.get(key);
        if (!before || before.score > after.score) continue;
        const days = daysBetween(before.entry.date, entry.date);
        if (days >= 1 && days <= withinDays) findings.push(findingOf(before, after, client, world));
      }
      for (const [key, pain] of today) latest.set(key, pain);
    }
    return findings;
  },
};
