import type { PatternName } from '../../../../grammar/index.js';
import { say } from '../../../../grammar/say.js';
import type { ClientPlan, ResolvedCell, Session } from '../model.js';
import { formatNumber } from '../numbers.js';
import type { RawFinding, Rule, RuleOption } from '../ruleForm.js';
import { volumeLoadKg } from '../science/volume.js';
import { formatMass } from '../units.js';
import { type PlanWeek, planWeeks } from './shared/cells.js';
import { fixesOf } from './shared/fixes.js';
import { onLine } from './shared/found.js';
import { perSession } from './shared/perSession.js';
import { BOATHOUSE, clientLines, winter, workspace } from './shared/sample.js';
import { keepSets } from './shared/volumeFixes.js';

const CODE = 'volume-above-mean';
const NOTE_PERCENT: RuleOption = {
  key: 'notePercent',
  default: 150,
  least: 105,
  most: 400,
  what: 'work of a week, in per cent of the mean of the four weeks before, above which a note is given',
};
const WARNING_PERCENT: RuleOption = {
  key: 'warningPercent',
  default: 200,
  least: 110,
  most: 500,
  what: 'work of a week, in per cent of the mean of the four weeks before, above which it is a warning',
};
const JUMP_PERCENT: RuleOption = {
  key: 'jumpPercent',
  default: 50,
  least: 5,
  most: 200,
  what: 'rise from one week to the next, in per cent, above which "volume-jump" speaks instead',
};
/** Weeks that the mean is taken of. */
const MEAN_OF = 4;
const LIFTS: readonly PatternName[] = ['squat', 'hinge', 'lunge', 'push', 'press', 'pull', 'row'];

interface WeekVolume {
  readonly week: PlanWeek;
  readonly kg: number;
}

/** What a session has of lifts: their movements, and their volume-load; null where it cannot be compared. */
interface SessionVolume {
  readonly kg: number | null;
  readonly lifts: readonly string[];
}

const volumesIn = perSession(({ cells }): SessionVolume | null => {
  const lifted = cells.filter(({ movement }) => movement !== null && LIFTS.includes(movement.pattern));
  const lifts = new Set(lifted.map(({ movement }) => movement?.key ?? ''));
  return lifted.length > 0 ? { kg: volumeKg(lifted), lifts: [...lifts] } : null;
});

/** Volume-load; null where a load is not known or a test is planned, so that nothing is compared. */
function volumeKg(cells: readonly ResolvedCell[]): number | null {
  let sum = 0;
  for (const cell of cells) {
    if (cell.test !== null || cell.backShare !== 1) return null;
    for (const group of cell.groups) {
      if (group.reps === null || group.sets === null) continue;
      if (group.loadKg === null && cell.movement?.implement.kind !== 'bodyweight') return null;
      sum += volumeLoadKg(cell, group) ?? 0;
    }
  }
  return sum;
}

type Volumes = ReadonlyMap<Session, SessionVolume>;

function weekVolumeKg(week: PlanWeek, volumes: Volumes): number | null {
  let sum = 0;
  for (const session of week.sessions) {
    const volume = volumes.get(session);
    if (!volume) continue;
    if (volume.kg === null) return null;
    sum += volume.kg;
  }
  return sum;
}

/** The lifts of a week, as one text to compare by. */
function liftsOf(week: PlanWeek, volumes: Volumes): string {
  const lifts = week.sessions.flatMap((session) => volumes.get(session)?.lifts ?? []);
  return JSON.stringify([...new Set(lifts)].sort());
}

/** Whether an absence took a session from a week. */
function isPartlyMissed(plan: ClientPlan, { program, block, week }: PlanWeek): boolean {
  return plan.missed.some(
    (missed) => missed.program === program && missed.block === block && missed.week === week,
  );
}

const files = (row: string) =>
  workspace(
    BOATHOUSE,
    clientLines('Heron', ['ready: heavy all 2026-06-01', 'max: back squat, 47.5kg x5 r2, 2026-11-30']),
    winter('Keel, 5 weeks', { Lower: [row] }),
  );

export const volumeAboveMean: Rule = {
  code: CODE,
  title: 'A week far above the weeks before it',
  severity: 'info',
  options: [NOTE_PERCENT, WARNING_PERCENT, JUMP_PERCENT],
  what: 'Sets × reps × load of all lifts of a week are more than one and a half times the mean of the last four weeks that were no deload, no test week and no week of an absence or of the return from one. A block of other movements starts afresh. Above twice the mean it is a warning. A rise from one week to the next within a block is left to "volume-jump", and work that stays where it is is told once.',
  why: 'Work that creeps up by a set a week passes every look at two weeks. Against a month it shows.',
  source:
    'The limits are common practice, no source. They are near the workload ratio of 1.5 that is often quoted (Gabbett 2016), which is contested: Impellizzeri 2020 and 2021 find no basis in it for setting load, and the data are from elite team sport. The week itself is not part of the mean here.',
  example: files('back squat: 2x6 r3 | 2x | 3x | 4x | 5x'),
  better: files('back squat: 3x6 r3 | 3x | 3x | 4x | 4x'),
  fix: 'Keep the sets for a week or two before the next one is added, or plan a deload. The quick fix keeps the sets of the week before in each row that this week gives more.',
  caution: 'The number tells how unusual a week is, not whether somebody will be hurt.',
  checkPlan(plan, _world, context) {
    const note = context.option(CODE, NOTE_PERCENT) / 100;
    const warning = context.option(CODE, WARNING_PERCENT) / 100;
    const jump = 1 + context.option(CODE, JUMP_PERCENT) / 100;
    const findings: RawFinding[] = [];
    const volumes = new Map(volumesIn(plan, context).map(({ session, value }) => [session, value]));
    let before: WeekVolume[] = [];
    // Work that was told once is not told again in the weeks that hold it.
    let toldKg = 0;
    for (const week of planWeeks(plan)) {
      // Kilograms of a goblet squat and of a deadlift do not compare: a block of other movements starts afresh.
      const last = before.at(-1)?.week;
      if (last && last.block !== week.block && liftsOf(last, volumes) !== liftsOf(week, volumes)) {
        before = [];
        toldKg = 0;
      }
      if (week.deload || isPartlyMissed(plan, week)) continue;
      const kg = weekVolumeKg(week, volumes);
      if (kg === null) continue;
      const four = before.slice(-MEAN_OF);
      const jumped = last?.block === week.block && kg > (four.at(-1)?.kg ?? 0) * jump;
      before.push({ week, kg });
      if (jumped) toldKg = Math.max(toldKg, kg);
      const meanKg = four.reduce((sum, each) => sum + each.kg, 0) / MEAN_OF;
      const first = week.sessions[0];
      if (four.length < MEAN_OF || !first || meanKg <= 0) continue;
      if (kg <= toldKg || kg <= meanKg * note) continue;
      toldKg = kg;
      const mass = (value: number) => formatMass(Math.round(value), plan.client.units);
      findings.push(
        onLine(
          plan,
          week.block.place,
          {
            headline: say`"${week.block.name}" has a week far above the weeks before it.`,
            detail: say`${plan.client.name}: ${mass(kg)} lifted in all in week ${week.week} (from ${first.date}), ${formatNumber(kg / meanKg, 2)} times the mean of the four working weeks before (${mass(meanKg)}).`,
            advice: say(
              'Keep the sets for a week or two, or plan a deload. Such ratios are contested as a sign of injury: take it as a question.',
            ),
            fixes: fixesOf(last ? keepSets(last, week, ({ pattern }) => LIFTS.includes(pattern)) : null),
            ...(kg > meanKg * warning ? { severity: 'warning' as const } : {}),
          },
          { program: week.program, block: week.block, day: null },
        ),
      );
    }
    return findings;
  },
};
