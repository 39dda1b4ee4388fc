import { daysBetween } from '../dates.js';
import type { ClientPlan, ResolvedCell } from '../model.js';
import type { RawFinding, Rule } from '../ruleForm.js';
import { isHeavyWork } from './shared/cells.js';
import { onCell } from './shared/found.js';
import { BOATHOUSE, BOX_SQUAT, workspace } from './shared/sample.js';
import { movementText } from './shared/words.js';

/** Days that should lie between two heavy sessions of one pattern, counted from date to date. */
const DAYS_BETWEEN = 2;
const UNTESTED = new Set(['other', 'brace', 'carry']);

function heavyCells(cells: readonly ResolvedCell[]): readonly ResolvedCell[] {
  return cells.filter(
    (cell) => cell.movement !== null && !UNTESTED.has(cell.movement.pattern) && cell.groups.some(isHeavyWork),
  );
}

function findingsOf(plan: ClientPlan): RawFinding[] {
  const findings: RawFinding[] = [];
  const told = new Set<string>();
  const last = new Map<string, ResolvedCell>();
  for (const session of plan.sessions) {
    for (const cell of heavyCells(session.cells)) {
      const pattern = cell.movement?.pattern ?? '';
      const before = last.get(pattern);
      last.set(pattern, cell);
      if (!before || before.date === cell.date || daysBetween(before.date, cell.date) >= DAYS_BETWEEN)
        continue;
      // Every week of the same two rows is one cause.
      const pair = `${before.block.key}/${before.row.key}/${cell.row.key}/${cell.day.key}`;
      if (told.has(pair)) continue;
      told.add(pair);
      findings.push(
        onCell(cell, {
          headline: `Heavy ${pattern} work again within 48 hours.`,
          detail: `${plan.client.name}: ${movementText(before)} on ${before.date} and ${movementText(cell)} on ${cell.date} (week ${cell.week}).`,
          advice: 'Leave two days between, or make one of the two lighter.',
          related: [{ place: before.place, message: `${movementText(before)} on ${before.date}.` }],
        }),
      );
    }
  }
  return findings;
}

const files = (days: string) =>
  workspace(
    BOATHOUSE,
    BOX_SQUAT,
    `client Heron
  trains at: Boathouse
  ready: heavy squat 2026-06-05
  max: box squat, 47.5kg x5 r2, 2026-11-30
  follows: Winter, from 2026-12-07, on ${days}`,
    `program Winter

block Keel, 2 weeks
day Lower
  box squat: 3x6 r2`,
  );

export const heavyWithin48h: Rule = {
  code: 'heavy-within-48h',
  title: 'The same pattern heavy on two days running',
  severity: 'warning',
  what: 'Two sessions with heavy work of the same pattern lie less than two days apart.',
  why: 'Muscle and tendon need about two days to recover from heavy work. The second session is done with less strength than the loads assume.',
  source:
    'ACSM position stand 2011 (Garber et al., Med Sci Sports Exerc 43(7):1334-1359): 48 hours or more between sessions for one muscle group (from memory).',
  example: files('mon tue'),
  better: files('mon thu'),
  fix: 'Choose other weekdays, or make one of the two lighter.',
  checkPlan: findingsOf,
};
