import { say } from '../../../../grammar/say.js';
import { daysBetween } from '../dates.js';
import type { ResolvedCell } from '../model.js';
import type { RawFinding, Rule, RuleOption } from '../ruleForm.js';
import { isHeavyWork } from './shared/cells.js';
import { fixesOf } from './shared/fixes.js';
import { onCell } from './shared/found.js';
import { perSession } from './shared/perSession.js';
import { BOATHOUSE, clientLines, winter, workspace } from './shared/sample.js';
import { otherWeekday } from './shared/weekdayFixes.js';
import { movementText } from './shared/words.js';

const CODE = 'sprint-near-heavy';
const LEAST_DAYS: RuleOption = {
  key: 'leastDays',
  default: 2,
  least: 1,
  most: 4,
  what: 'days from sprints to heavy work for the legs, or the other way round, at least, counted from date to date',
};
const LOWER = new Set(['squat', 'hinge', 'lunge']);

function heavyLower({ movement, groups }: ResolvedCell): boolean {
  return movement !== null && LOWER.has(movement.pattern) && groups.some(isHeavyWork);
}

function sprint({ movement }: ResolvedCell): boolean {
  return movement?.pattern === 'sprint' && movement.stage === 'heavy';
}

/** Numbers of the first cells of a session that are one or the other, -1 for none. */
const seen = perSession(({ cells }) => {
  const found = { heavy: cells.findIndex(heavyLower), sprint: cells.findIndex(sprint) };
  return found.heavy < 0 && found.sprint < 0 ? null : found;
});

const files = (on: string) =>
  workspace(
    BOATHOUSE,
    `movement hill sprint
  pattern: sprint
  with: bodyweight
  stage: heavy`,
    clientLines(
      'Wren',
      ['ready: heavy all 2026-11-01', 'screened: 2026-11-01', 'max: deadlift, 60kg x5 r2, 2026-11-30'],
      on,
    ),
    winter('Keel, 2 weeks', { Lower: ['deadlift: 3x5 r2'], Sprint: ['hill sprint: 3x10s off 2min'] }),
  );

export const sprintNearHeavy: Rule = {
  code: CODE,
  title: 'Sprints and heavy legs on two days running',
  severity: 'info',
  options: [LEAST_DAYS],
  what: 'All-out sprints on the day after heavy squats, hinges or lunges, or such work on the day after all-out sprints.',
  why: 'Hamstrings that are tired from heavy hinging are those that tear in a sprint, and legs that sprinted yesterday lift less than the loads assume.',
  source:
    'Common practice, no source. ACSM 2011 (Garber et al.) asks for 48 hours or more between sessions for one muscle group (from memory).',
  example: files('mon tue'),
  better: files('mon thu'),
  fix: 'Put a day or two between, or sprint before lifting on the same day. Where the client trains on two weekdays running, the quick fix moves the later one by a day or two, as far as two days lie between all of them.',
  checkPlan(plan, _world, context) {
    const findings: RawFinding[] = [];
    const sessions = seen(plan, context);
    if (!sessions.some(({ value }) => value.sprint >= 0)) return findings;
    const told = new Set<string>();
    const leastDays = context.option(CODE, LEAST_DAYS);
    let lastHeavy: ResolvedCell | null = null;
    let lastSprint: ResolvedCell | null = null;
    const tell = (before: ResolvedCell | null, cell: ResolvedCell | null, headline: string) => {
      if (!before || !cell) return;
      const days = daysBetween(before.date, cell.date);
      if (days < 1 || days >= leastDays) return;
      // Every week of the same two days is one cause.
      const pair = JSON.stringify([cell.block.key, before.day.key, cell.day.key]);
      if (told.has(pair)) return;
      told.add(pair);
      findings.push(
        onCell(cell, {
          headline,
          detail: say`${plan.client.name}: ${movementText(before)} on ${before.date}, ${movementText(cell)} on ${cell.date} (week ${cell.week}).`,
          advice: say('Put a day or two between, or do both on one day, the sprints first.'),
          fixes: fixesOf(otherWeekday(before, cell)),
          related: [{ place: before.place, message: say`${movementText(before)} on ${before.date}.` }],
        }),
      );
    };
    for (const { session, value } of sessions) {
      const sprinted = session.cells[value.sprint] ?? null;
      const lifted = session.cells[value.heavy] ?? null;
      tell(
        lastHeavy,
        sprinted,
        leastDays === 2
          ? say('Sprints on the day after heavy work for the legs.')
          : say`Sprints within ${leastDays * 24} hours of heavy work for the legs.`,
      );
      tell(
        lastSprint,
        lifted,
        leastDays === 2
          ? say('Heavy work for the legs on the day after sprints.')
          : say`Heavy work for the legs within ${leastDays * 24} hours of sprints.`,
      );
      lastHeavy = lifted ?? lastHeavy;
      lastSprint = sprinted ?? lastSprint;
    }
    return findings;
  },
};
