import { describe, expect, it } from 'vitest';
import { addDays } from '../../server/src/engine/dates.js';
import { historyOf, recentHistory } from '../../server/src/engine/history/history.js';
import { rosterLine } from '../../server/src/engine/history/roster.js';
import { DEFAULT_SIGN_OFF } from '../../server/src/engine/history/signOffCriteria.js';
import { createSession } from '../../server/src/engine/session.js';
import { Random } from '../property/random.js';

/** The roster looks at the last half year where that is enough, and says the same as from everything. */

const PROGRAM = `kit Studio
  bar: 20kg
  plates: 1.25kg x4, 2.5kg x4, 5kg x8, 10kg x8, 20kg x8
  dumbbells: 2kg to 30kg by 2kg

program Winter

block Keel, 52 weeks, heavy
day Lower
  back squat: 3x6 r2
  deadlift: 3x5 60kg
day Upper
  bench press: 3x6 r2
`;
const DAYS = ['Lower', 'Upper'] as const;
const MOVEMENTS = ['back squat', 'deadlift', 'bench press', 'goblet squat'];

function clientText(ready: string, from: string): string {
  return `client Heron
  born: 1961
  mass: 64kg, 2023-01-02
  trains at: Studio
  screened: 2026-06-01
  ready: ${ready}
  max: back squat, 60kg x5 r2, 2025-12-01
  max: bench press, 40kg x5 r2, 2026-10-05
  follows: Winter, from ${from}, on mon thu
`;
}

/** Logs of four years, a file for each; some are of days that are planned, some of others. */
function logFiles(random: Random, until: string): Map<string, string> {
  const years = new Map<string, string>();
  const lasts = 30 + random.below(1400);
  const begins = -random.below(120);
  for (let day = -lasts; day <= 10; day += 1 + random.below(9)) {
    if (day > begins && day < -begins) continue;
    const date = addDays(until, day);
    const name = random.below(3) === 0 ? '' : `, ${random.pick(DAYS)}`;
    const lines = Array.from({ length: 1 + random.below(2) }, () => {
      const reps = `${3 + random.below(6)} ${3 + random.below(6)} ${3 + random.below(6)}`;
      return `  ${random.pick(MOVEMENTS)}: ${20 + 2.5 * random.below(20)}kg ${reps} r${random.below(4)}`;
    });
    if (random.below(4) === 0) lines.splice(0, 9, '  as planned');
    if (random.below(20) === 0) lines.push(`  pain: knee ${1 + random.below(8)}/10`);
    const year = date.slice(0, 4);
    years.set(
      year,
      `${years.get(year) ?? ''}log Heron, ${date}${name}\n${[...new Set(lines)].join('\n')}\n\n`,
    );
  }
  return years;
}

const READY = ['heavy all 2024-01-01', 'load all 2026-01-01', 'heavy squat 2024-01-01'] as const;

function roster(seed: number) {
  const random = new Random(seed);
  const today = addDays('2026-11-01', random.below(60));
  const session = createSession({ today });
  session.setFile('program', PROGRAM);
  session.setFile('client', clientText(random.pick(READY), addDays(today, -random.below(420))));
  for (const [year, text] of logFiles(random, today)) session.setFile(`log ${year}`, text);
  const plan = session.plan('heron');
  if (!plan) throw new Error('There is no plan.');
  const world = session.world();
  const recent = recentHistory(plan, world, today, DEFAULT_SIGN_OFF);
  const all = historyOf(plan, world);
  const line = (history: typeof all) => {
    const { next, at, lastLogged, needs } = rosterLine(
      plan,
      world,
      today,
      { criteria: DEFAULT_SIGN_OFF },
      history,
    );
    return { next: next?.date, at: at?.date, lastLogged, needs };
  };
  return { recent, all, line, ready: plan.client.signOffs[0] };
}

describe('the roster of somebody with years of logs', () => {
  it('is the same from the last half year as from everything', () => {
    let shorter = 0;
    const kinds = new Set<string>();
    for (let seed = 1; seed <= 150; seed += 1) {
      const { recent, all, line } = roster(seed);
      if (recent.done.length < all.done.length) shorter += 1;
      const told = line(recent);
      for (const { kind } of told.needs) kinds.add(kind);
      expect(told, `seed ${seed}`).toEqual(line(all));
    }
    expect(shorter).toBeGreaterThan(20);
    expect([...kinds].sort()).toEqual(expect.arrayContaining(['max-offer', 'missed', 'pain', 'step-back']));
  });

  it('looks at everything where a sign-off may be offered', () => {
    for (let seed = 1; seed <= 40; seed += 1) {
      const { recent, all, ready } = roster(seed);
      if (ready?.stage === 'heavy' && ready.pattern === 'all') continue;
      expect(recent.done.length, `seed ${seed}`).toBe(all.done.length);
    }
  });
});
