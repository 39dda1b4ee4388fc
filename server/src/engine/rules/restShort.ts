import { say } from '../../../../grammar/say.js';
import type { ResolvedCell, ResolvedGroup } from '../model.js';
import type { Rule, RuleOption } from '../ruleForm.js';
import { durationWords } from '../words.js';
import { writeRest } from './shared/cellFixes.js';
import { isHeavyWork } from './shared/cells.js';
import { fixesOf } from './shared/fixes.js';
import { eachRow } from './shared/found.js';
import { BOATHOUSE, clientLines, winter, workspace } from './shared/sample.js';
import { movementText, spanText, workText } from './shared/words.js';

const CODE = 'rest-short';
const MIN_SECONDS: RuleOption = {
  key: 'minSeconds',
  default: 120,
  least: 30,
  most: 600,
  what: 'rest that heavy sets need at least, in seconds',
};

function isShort(group: ResolvedGroup, cell: ResolvedCell, least: number): boolean {
  if (!isHeavyWork(group) || cell.deload || cell.test !== null) return false;
  if (cell.movement?.pattern === 'sprint' || cell.movement?.pattern === 'jump') return false;
  const seconds = cell.restSeconds;
  return (group.sets ?? 1) > 1 && seconds !== null && seconds < least;
}

const files = (rest: string) =>
  workspace(
    BOATHOUSE,
    clientLines('Heron', ['ready: heavy squat 2026-06-01', 'max: back squat, 47.5kg x5 r2, 2026-11-30']),
    winter('Keel, 2 weeks', { Lower: [`back squat: 3x6 r2 rest ${rest}`] }),
  );

export const restShort: Rule = {
  code: CODE,
  title: 'Little rest between heavy sets',
  severity: 'info',
  options: [MIN_SECONDS],
  what: 'Heavy sets with less than two minutes of rest written.',
  why: 'The reserve that is written holds for somebody who is rested. With short rest the later sets come closer to failure.',
  source:
    'NSCA: 2 to 5 minutes for strength (Haff & Triplett, Essentials, 4th ed., 2016). ACSM 2009 (Ratamess et al.): at least 2 to 3 minutes for core exercises with heavy loads.',
  example: files('60s'),
  better: files('3min'),
  fix: 'Write "rest 2min" or more. The quick fix writes the least that is set.',
  checkBlock(plan, _world, context) {
    const least = context.option(CODE, MIN_SECONDS);
    return eachRow(
      plan,
      (group, cell) => isShort(group, cell, least),
      (cells, group) => {
        const first = cells[0] as ResolvedCell;
        return {
          headline: say`${movementText(first)}: little rest for heavy sets.`,
          detail: say`${plan.client.name}: ${workText(group, plan.client)} with ${durationWords(first.restSeconds ?? 0)} of rest ${spanText(cells)}.`,
          advice: say('Rest 2 to 5 minutes.'),
          fixes: fixesOf(writeRest(first, group, least)),
        };
      },
    );
  },
};
