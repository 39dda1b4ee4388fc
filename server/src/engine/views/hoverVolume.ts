/** What a day or a block amounts to for those who follow it: time, volume-load, hard sets, and Prilepin's counts. */
import { said, say } from '../../../../grammar/say.js';
import {
  CONTESTED_RATIO,
  CONTESTED_WEEK,
  type LoggedLoad,
  loggedWeeks,
  mondayOf,
  ratiosOn,
} from '../history/workload.js';
import type { Block, Client, ClientPlan, Day, ResolvedCell, Session } from '../model.js';
import { formatNumber, formatPercent } from '../numbers.js';
import { type PlanWeek, planWeeks } from '../rules/shared/cells.js';
import { sessionTime } from '../science/duration.js';
import { HARD_RESERVE, hardSets, PRILEPIN_ZONES, prilepinCounts, volumeLoadOf } from '../science/volume.js';
import { fromKg } from '../units.js';
import { escapeMarkdown } from './text.js';

/** More clients and weeks than these are left out of a hover, with a line that says so. */
const MOST_CLIENTS = 4;
const MOST_WEEKS = 12;

/** A table of one day of a block, week by week. Null where nobody follows it. */
export function dayVolume(plans: readonly ClientPlan[], days: readonly Day[]): string | null {
  return volumeTable(plans, (plan) =>
    plan.sessions
      .filter(({ day }) => days.includes(day))
      .map((session) => ({ label: weekLabel(session), sessions: [session] })),
  );
}

/** A table of a block, week by week, and Prilepin's counts of its barbell lifts. Null where nobody follows it. */
export function blockVolume(plans: readonly ClientPlan[], block: Block): string | null {
  const weeksOf = (plan: ClientPlan) => planWeeks(plan).filter((week) => week.block === block);
  const table = volumeTable(plans, (plan) =>
    weeksOf(plan).map((week) => ({ label: weekLabel(week), sessions: week.sessions })),
  );
  if (table === null) return null;
  const counts = plans.slice(0, MOST_CLIENTS).flatMap((plan) => prilepinLines(plan.client, weeksOf(plan)));
  if (counts.length === 0) return table;
  return [
    table,
    say(
      `**Prilepin’s count**, repetitions of a barbell lift in one session at a share of the max. Contested: the table was made for the snatch and the clean and jerk of elite lifters.`,
    ),
    counts.map((line) => `- ${escapeMarkdown(line)}`).join('\n'),
  ].join('\n\n');
}

function weekLabel({ week, deload }: Pick<PlanWeek, 'week' | 'deload'>): string {
  return deload ? say`${week} (deload)` : String(week);
}

interface Line {
  readonly label: string;
  readonly sessions: readonly Session[];
}

function volumeTable(
  plans: readonly ClientPlan[],
  linesOf: (plan: ClientPlan) => readonly Line[],
): string | null {
  const rows: string[] = [];
  const left: string[] = [];
  let shown = 0;
  for (const plan of plans) {
    const lines = linesOf(plan);
    if (lines.length === 0) continue;
    shown += 1;
    if (shown > MOST_CLIENTS) {
      left.push(plan.client.name);
      continue;
    }
    rows.push(...lines.slice(0, MOST_WEEKS).map((line) => rowOf(plan.client, line)));
    if (lines.length > MOST_WEEKS) rows.push(`| ${escapeMarkdown(plan.client.name)} | … | | | |`);
  }
  if (rows.length === 0) return null;
  const more = left.length === 0 ? [] : [escapeMarkdown(say`Also followed by ${left.join(', ')}.`)];
  const head = say('| client | week | min | volume-load | hard sets |');
  const note = say`Minutes are sets × (work + rest) without warm-up; hard sets leave fewer than ${HARD_RESERVE} in reserve (both: common practice, no source).`;
  return [`${head}\n| --- | --- | --- | --- | --- |\n${rows.join('\n')}`, ...more, note].join('\n\n');
}

function rowOf(client: Client, { label, sessions }: Line): string {
  const times = sessions.map(({ cells }) => sessionTime(cells));
  const minutes = times.map(
    ({ seconds, complete }) => `${complete ? '' : say('over ')}${formatNumber(seconds / 60, 0)}`,
  );
  const cells = sessions.flatMap((session) => session.cells);
  const kg = volumeLoadOf(cells);
  const facts = [
    escapeMarkdown(client.name),
    label,
    minutes.join(' + '),
    kg === 0 ? 'none' : `${formatNumber(fromKg(kg, client.units), 0)} ${client.units}`,
    formatNumber(hardSets(cells)),
  ];
  return `| ${facts.join(' | ')} |`;
}

/** `Heron, back squat: weeks 1–2: 18 reps from 70 % (12 to 24 published)`. Like weeks are told together. */
function prilepinLines(client: Client, weeks: readonly PlanWeek[]): readonly string[] {
  const byLift = new Map<string, { text: string; weeks: number[] }[]>();
  for (const week of weeks) {
    if (week.deload) continue;
    for (const session of week.sessions) {
      for (const [lift, cells] of barbellLifts(session.cells)) {
        const text = countText(cells);
        if (text === '') continue;
        const known = byLift.get(lift) ?? [];
        byLift.set(lift, known);
        const same = known.find((each) => each.text === text);
        if (!same) known.push({ text, weeks: [week.week] });
        else if (!same.weeks.includes(week.week)) same.weeks.push(week.week);
      }
    }
  }
  return [...byLift].map(
    ([lift, counts]) =>
      `${client.name}, ${lift}: ${counts.map((each) => `${weeksText(each.weeks)} ${each.text}`).join('; ')}`,
  );
}

function barbellLifts(cells: readonly ResolvedCell[]): ReadonlyMap<string, readonly ResolvedCell[]> {
  const lifts = new Map<string, ResolvedCell[]>();
  for (const cell of cells) {
    if (cell.movement?.implement.kind !== 'barbell' || cell.test !== null) continue;
    const { name } = cell.movement;
    lifts.set(name, [...(lifts.get(name) ?? []), cell]);
  }
  return lifts;
}

function countText(cells: readonly ResolvedCell[]): string {
  return prilepinCounts(cells)
    .map(({ zone, reps, judged }) => {
      const next = PRILEPIN_ZONES[PRILEPIN_ZONES.indexOf(zone) + 1];
      const from = formatPercent(zone.fromShare, 0);
      const to = next ? say`${from} to ${formatPercent(next.fromShare, 0)}` : say`${from} and more`;
      const range = say`${zone.range[0]} to ${zone.range[1]}`;
      if (judged === 'below') return say`${reps} reps at ${to} (below the published ${range})`;
      if (judged === 'above') return say`${reps} reps at ${to} (above the published ${range})`;
      return say`${reps} reps at ${to} (within the published ${range})`;
    })
    .join(', ');
}

/** `week 3:`, `weeks 1–2, 5:`. */
function weeksText(weeks: readonly number[]): string {
  const runs: [from: number, to: number][] = [];
  for (const week of weeks) {
    const last = runs.at(-1);
    if (last && last[1] === week - 1) last[1] = week;
    else runs.push([week, week]);
  }
  const words = runs.map(([from, to]) => (from === to ? `${from}` : `${from}–${to}`));
  return weeks.length === 1 ? say`week ${words.join(', ')}:` : say`weeks ${words.join(', ')}:`;
}

/** What the load of a logged session says of its week and month; nothing where effort or minutes are missing. */
export function loadFacts(logged: readonly LoggedLoad[], at: LoggedLoad): readonly string[] {
  if (at.load === null) return [];
  const facts = [say`Session load: ${formatNumber(at.load, 0)} (effort × minutes)`];
  const week = loggedWeeks(logged).find(({ monday }) => monday === mondayOf(at.date));
  if (week) {
    const shape =
      week.monotony === null || week.strain === null
        ? ''
        : say`, monotony ${formatNumber(week.monotony, 2)}, strain ${formatNumber(week.strain, 0)}. ${said(CONTESTED_WEEK)}`;
    facts.push(say`Week from ${week.monday}: load ${formatNumber(week.load, 0)}${shape}`);
  }
  const ratios = ratiosOn(logged, at.date);
  if (ratios)
    facts.push(
      say`7 days against 28: ${formatNumber(ratios.rolling, 2)} rolling, ${formatNumber(ratios.weighted, 2)} weighted. ${said(CONTESTED_RATIO)}`,
    );
  return facts;
}
