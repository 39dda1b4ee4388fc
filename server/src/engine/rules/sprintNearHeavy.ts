import { daysBetween } from '../dates.js';
import type { ResolvedCell, Session } from '../model.js';
import type { RawFinding, Rule } from '../ruleForm.js';
import { isHeavyWork } from './shared/cells.js';
import { onCell } from './shared/found.js';
import { BOATHOUSE, clientLines, winter, workspace } from './shared/sample.js';
import { movementText } from './shared/words.js';

const LOWER = new Set(['squat', 'hinge', 'lunge']);

function heavyLower(session: Session): ResolvedCell | null {
  return (
    session.cells.find(
      (cell) => cell.movement && LOWER.has(cell.movement.pattern) && cell.groups.some(isHeavyWork),
    ) ?? null
  );
}

function sprint(session: Session): ResolvedCell | null {
  return (
    session.cells.find((cell) => cell.movement?.pattern === 'sprint' && cell.movement.stage === 'heavy') ??
    null
  );
}

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
  code: 'sprint-near-heavy',
  title: 'Sprints the day after heavy legs',
  severity: 'info',
  what: 'All-out sprints on the day after heavy squats, hinges or lunges.',
  why: 'Hamstrings that are tired from heavy hinging are those that tear in a sprint.',
  source:
    'Common practice, no source. ACSM 2011 (Garber et al.) asks for 48 hours or more between sessions for one muscle group (from memory).',
  example: files('mon tue'),
  better: files('mon thu'),
  fix: 'Put a day or two between, or sprint before lifting on the same day.',
  checkPlan(plan) {
    const findings: RawFinding[] = [];
    const told = new Set<unknown>();
    let last: ResolvedCell | null = null;
    for (const session of plan.sessions) {
      const cell = sprint(session);
      if (cell && last && daysBetween(last.date, session.date) === 1 && !told.has(cell.row)) {
        told.add(cell.row);
        findings.push(
          onCell(cell, {
            headline: 'Sprints on the day after heavy work for the legs.',
            detail: `${plan.client.name}: ${movementText(last)} on ${last.date}, ${movementText(cell)} on ${cell.date} (week ${cell.week}).`,
            advice: 'Put a day or two between.',
            related: [{ place: last.place, message: `${movementText(last)} on ${last.date}.` }],
          }),
        );
      }
      last = heavyLower(session) ?? last;
    }
    return findings;
  },
};
