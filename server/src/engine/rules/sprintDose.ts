import { plural, say } from '../../../../grammar/say.js';
import { daysBetween } from '../dates.js';
import type { FindingFix, ResolvedCell, Session } from '../model.js';
import { formatNumber } from '../numbers.js';
import type { RawFinding, Rule, RuleOption } from '../ruleForm.js';
import { writeSets } from './shared/cellFixes.js';
import { fixesOf } from './shared/fixes.js';
import { onCell } from './shared/found.js';
import { perSession } from './shared/perSession.js';
import { BOATHOUSE, clientLines, winter, workspace } from './shared/sample.js';

const CODE = 'sprint-dose';
const MAX_SECONDS: RuleOption = {
  key: 'maxSeconds',
  default: 60,
  least: 10,
  most: 300,
  what: 'most all-out seconds of a session in the first weeks',
};
const FIRST_WEEKS: RuleOption = {
  key: 'firstWeeks',
  default: 2,
  least: 1,
  most: 12,
  what: 'weeks from the first sprints on in which it is looked at',
};

/** All-out work: what is marked heavy in the sprint pattern, by time. */
function sprintCells(session: Session): readonly ResolvedCell[] {
  return session.cells.filter(
    (cell) => cell.movement?.pattern === 'sprint' && cell.movement.stage === 'heavy',
  );
}

function secondsOf(cells: readonly ResolvedCell[]): number {
  return cells
    .flatMap((cell) => cell.groups)
    .reduce((sum, group) => sum + (group.sets ?? 1) * (group.seconds ?? 0), 0);
}

/** As many sprints as the limit takes; null where one alone is too long, or the row is not one plain dose. */
function fewerSprints(cell: ResolvedCell, most: number): FindingFix | null {
  const group = cell.groups[0];
  if (!group?.seconds || cell.groups.length > 1) return null;
  return writeSets(cell, group, Math.floor(most / group.seconds));
}
/** All-out seconds of the sessions that have any such work. */
const sprintsIn = perSession((session) => {
  const cells = sprintCells(session);
  return cells.length > 0 ? secondsOf(cells) : null;
});

function headlineOf(much: string, weeks: number): string {
  if (weeks === 2) return say`More than ${much} of all-out sprints in the first two weeks.`;
  return plural(
    weeks,
    say`More than ${much} of all-out sprints in the first week.`,
    say`More than ${much} of all-out sprints in the first ${weeks} weeks.`,
  );
}

const files = (dose: string) =>
  workspace(
    BOATHOUSE,
    `movement hill sprint
  pattern: sprint
  with: bodyweight
  stage: heavy`,
    clientLines('Wren', ['ready: heavy sprint 2026-11-01', 'screened: 2026-11-01']),
    winter('Keel, 3 weeks', { Sprint: [`hill sprint: ${dose}`] }),
  );

export const sprintDose: Rule = {
  code: CODE,
  title: 'Many sprints at the start',
  severity: 'warning',
  options: [MAX_SECONDS, FIRST_WEEKS],
  what: 'In the first two weeks of sprints a session has more than 60 seconds of all-out work.',
  why: 'Hamstrings and calves are hurt by sprints that they do not know, in the first sessions most of all.',
  source:
    'Common practice, no source. A published protocol of low dose starts with one or two sprints of 10 s and reaches 20 s after four weeks (Metcalfe et al., Eur J Appl Physiol 2012;112:2767-2775).',
  example: files('6x15s off 2min'),
  better: files('3x10s off 2min | | 6x15s'),
  fix: 'Start with three or four short sprints and full recovery, and add one a week. The quick fix writes as many as stay within the limit.',
  caution:
    'Screening comes first. Stop at chest discomfort, dizziness, faintness or a sudden pull. Local rules prevail.',
  checkPlan(plan, _world, context) {
    const most = context.option(CODE, MAX_SECONDS);
    const weeks = context.option(CODE, FIRST_WEEKS);
    const sessions = sprintsIn(plan, context);
    const start = sessions[0]?.session;
    if (!start) return [];
    const findings = sessions.flatMap(({ session, value: seconds }): RawFinding[] => {
      if (daysBetween(start.date, session.date) >= weeks * 7 || seconds <= most) return [];
      const cells = sprintCells(session);
      const first = cells[0] as ResolvedCell;
      return [
        onCell(first, {
          headline: headlineOf(most === 60 ? say('a minute') : `${formatNumber(most)} s`, weeks),
          detail: say`${plan.client.name}: ${formatNumber(seconds)} s on ${session.date}; the first sprints are on ${start.date}.`,
          advice: say('Start with three or four short ones, and add one a week.'),
          fixes: fixesOf(cells.length === 1 ? fewerSprints(first, most) : null),
        }),
      ];
    });
    // What starts too fast is one cause, however many sessions it lasts.
    return findings.slice(0, 1);
  },
};
