import { daysBetween } from '../dates.js';
import type { ResolvedCell } from '../model.js';
import type { RawFinding, Rule, RuleOption } from '../ruleForm.js';
import { rowRuns } from './shared/cells.js';
import { onCell } from './shared/found.js';
import { BOATHOUSE, workspace } from './shared/sample.js';
import { movementText, spanText } from './shared/words.js';

const CODE = 'screening-missing';
const VALID_DAYS: RuleOption = {
  key: 'validDays',
  default: 365,
  least: 30,
  most: 365,
  what: 'days for which a screening counts',
};

/** Impact (jumps) and hard running or intervals: what nobody should do unscreened. */
function needsScreening(cell: ResolvedCell): boolean {
  const { movement } = cell;
  if (movement === null || movement.stage === 'learn' || cell.groups.length === 0) return false;
  return (
    movement.pattern === 'jump' ||
    movement.pattern === 'sprint' ||
    cell.groups.some((group) => group.offSeconds !== null)
  );
}

function lacksScreening(cell: ResolvedCell, validDays: number): boolean {
  const { screened } = cell.client;
  return screened === null || screened > cell.date || daysBetween(screened, cell.date) > validDays;
}

function findingOf(cells: readonly ResolvedCell[], validDays: number): RawFinding {
  const first = cells[0] as ResolvedCell;
  const { client } = first;
  const { screened } = client;
  const known = screened !== null && screened <= first.date;
  return onCell(first, {
    headline: known
      ? `${movementText(first)}: the screening is more than ${validDays === 365 ? 'a year' : `${validDays} days`} old.`
      : `${movementText(first)}: no screening is known.`,
    detail: `${client.name} does it ${spanText(cells)}${known ? `, screened on ${screened}` : ''}.`,
    advice:
      'Have a qualified professional screen first, and write "screened: DATE". Until then leave impact and all-out work out.',
    related: [
      {
        place: client.place,
        message: `${client.name}: ${known ? `screened on ${screened}` : 'no line "screened:"'}.`,
      },
    ],
  });
}

const files = (screened: string) =>
  workspace(
    BOATHOUSE,
    `movement low hop
  pattern: jump
  with: bodyweight
  stage: load`,
    `client Heron
  trains at: Boathouse
  ready: load jump 2026-06-01${screened}
  follows: Winter, from 2026-12-07, on mon`,
    `program Winter

block Keel, 2 weeks
day Lower
  low hop: 3x5`,
  );

export const screeningMissing: Rule = {
  code: CODE,
  title: 'Impact or all-out work without a screening',
  severity: 'warning',
  options: [VALID_DAYS],
  what: 'Jumps, sprints or intervals above the stage learn for a client without a "screened:" date, or whose screening is more than a year old at that session.',
  why: 'Vigorous work can bring out what was hidden in heart, vessels, bones and joints. Screening comes before it.',
  source:
    'ACSM screening model (Riebe et al., Med Sci Sports Exerc 2015;47(11):2473-2479): activity, known disease or symptoms, and intended intensity. PAR-Q+ is valid for 12 months or until health changes (from memory).',
  example: files(''),
  better: files('\n  screened: 2026-11-01'),
  fix: 'Have the client screened, then write the date. Nothing is put in by itself.',
  caution:
    'Stop at chest discomfort, dizziness, faintness, unusual breathlessness or sharp pain. A qualified professional decides; local rules prevail.',
  checkPlan(plan, _world, context) {
    const validDays = context.option(CODE, VALID_DAYS);
    const findings: RawFinding[] = [];
    for (const run of rowRuns(plan)) {
      const cells = run.cells.filter((cell) => needsScreening(cell) && lacksScreening(cell, validDays));
      if (cells.length > 0) findings.push(findingOf(cells, validDays));
    }
    return findings;
  },
};
