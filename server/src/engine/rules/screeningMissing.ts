import { say } from '../../../../grammar/say.js';
import type { ResolvedCell } from '../model.js';
import type { RawFinding, Rule } from '../ruleForm.js';
import { rowRuns } from './shared/cells.js';
import { fixesOf, screeningForm } from './shared/fixes.js';
import { onCell } from './shared/found.js';
import { needsScreening } from './shared/readiness.js';
import { BOATHOUSE, workspace } from './shared/sample.js';
import { movementText, spanText } from './shared/words.js';

function lacksScreening({ client, date }: ResolvedCell): boolean {
  return client.screened === null || client.screened > date;
}

function findingOf(cells: readonly ResolvedCell[]): RawFinding {
  const first = cells[0] as ResolvedCell;
  const { client } = first;
  const later = client.screened === null ? '' : say`; the screening is of ${client.screened}, after it`;
  return onCell(first, {
    headline: say`${movementText(first)}: no screening is known.`,
    detail: say`${client.name} does it ${spanText(cells)}${later}.`,
    advice: say(
      'Have a qualified professional screen first, and write "screened: DATE". Until then leave impact and all-out work out.',
    ),
    related: [
      { place: client.place, message: say`${client.name}: no line "screened:" before ${first.date}.` },
    ],
    fixes: fixesOf(screeningForm(client)),
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
  code: 'screening-missing',
  title: 'Impact or all-out work without a screening',
  severity: 'warning',
  what: 'Jumps, sprints or intervals above the stage learn for a client without a "screened:" date, or before that date. One that is more than a year old is told by screening-old.',
  why: 'Vigorous work can bring out what was hidden in heart, vessels, bones and joints. Screening comes before it.',
  source:
    'ACSM screening model (Riebe et al., Med Sci Sports Exerc 2015;47(11):2473-2479): activity, known disease or symptoms, and intended intensity.',
  example: files(''),
  better: files('\n  screened: 2026-11-01'),
  fix: 'Have the client screened, then write the date. The quick fix adds a line to fill in, as a note, so that no date is invented.',
  caution:
    'Stop at chest discomfort, dizziness, faintness, unusual breathlessness or sharp pain. A qualified professional decides; local rules prevail.',
  checkBlock(plan) {
    const findings: RawFinding[] = [];
    for (const run of rowRuns(plan)) {
      const cells = run.cells.filter((cell) => needsScreening(cell) && lacksScreening(cell));
      if (cells.length > 0) findings.push(findingOf(cells));
    }
    return findings;
  },
};
