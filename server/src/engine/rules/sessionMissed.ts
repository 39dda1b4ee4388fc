import { say } from '../../../../grammar/say.js';
import type { RawFinding, Rule } from '../ruleForm.js';
import { BOATHOUSE, workspace } from './shared/sample.js';
import { listOf } from './shared/words.js';

const files = (away: string) =>
  workspace(
    BOATHOUSE,
    `client Heron
  trains at: Boathouse
  away: ${away}
  follows: Winter, from 2026-12-07, on mon thu`,
    `program Winter

block Keel, 4 weeks
day Lower
  bodyweight squat: 2x8
day Upper
  front plank: 2x20s`,
  );

export const sessionMissed: Rule = {
  code: 'session-missed',
  title: 'Sessions lost to an absence',
  severity: 'info',
  what: 'An absence takes some sessions out of a week that goes on, so that they are never made up. A week that is missed as a whole waits, and is no finding.',
  why: 'The week counts as trained although part of it was not. The next week may start further than the client is.',
  source: 'Part of the notation, no source needed.',
  example: files('2026-12-16 to 2026-12-18'),
  better: files('2026-12-14 to 2026-12-20'),
  fix: 'Move the session by hand, or leave it. Nothing is made up by itself.',
  noFix: 'whether and when she can come on another day is not known.',
  checkPlan(plan) {
    const { client, missed } = plan;
    const findings: RawFinding[] = [];
    for (const away of client.aways) {
      const lost = missed.filter(({ date }) => date >= away.from && date <= away.to);
      const first = lost[0];
      if (!first) continue;
      findings.push({
        place: away.place,
        headline: say('An absence takes sessions out of a week that goes on.'),
        detail: say`${client.name} misses ${listOf(lost.map(({ day, date }) => say`${day.name} on ${date}`))}.`,
        advice: say(
          'They are not moved to other days. If one matters, have it done on another day of that week.',
        ),
        client: client.key,
        cell: null,
        scope: { program: first.program, block: first.block, day: null },
        related: [{ place: first.day.place, message: say`${first.day.name} of week ${first.week}.` }],
        fixes: [],
      });
    }
    return findings;
  },
};
