import { say } from '../../../../grammar/say.js';
import type { RawFinding, Rule } from '../ruleForm.js';
import { blockSessions, cellsOf, isHeavyWork, planWeeks } from './shared/cells.js';
import { onLine } from './shared/found.js';
import { readinessOn } from './shared/readiness.js';
import { BOATHOUSE, clientLines, winter, workspace } from './shared/sample.js';

const files = (row: string) =>
  workspace(
    BOATHOUSE,
    clientLines('Heron', ['ready: heavy squat 2026-06-01', 'max: back squat, 47.5kg x5 r2, 2026-11-30']),
    winter('Keel, 2 weeks, heavy', { Lower: [row] }),
  );

export const blockModerate: Rule = {
  code: 'block-moderate',
  title: 'A heavy block without heavy work',
  severity: 'info',
  what: 'A block is called heavy, and a client who is signed off for it has no heavy set in it.',
  why: 'Strength comes from loads of about 80 % and more. A block that is called heavy and is not will be believed.',
  source:
    'ACSM 2026 overview of reviews: 80 % of the 1RM and more for strength (seen in reports of it). NSCA: 85 % and more, 6 reps or fewer (Haff & Triplett, Essentials, 4th ed., 2016).',
  example: files('back squat: 3x10 r4'),
  better: files('back squat: 3x5 r2'),
  fix: 'Write fewer reps with less in reserve, or call the block "load". The quick fix does the latter.',
  checkBlock(plan) {
    const blocks = new Set(planWeeks(plan).map(({ block }) => block));
    const findings: RawFinding[] = [];
    for (const block of blocks) {
      if (block.stage !== 'heavy') continue;
      const sessions = blockSessions(plan).get(block) ?? [];
      const first = sessions[0];
      // Nearly every heavy block has heavy work at once, and needs no closer look.
      if (sessions.some(({ cells }) => cells.some((cell) => cell.groups.some(isHeavyWork)))) continue;
      const cells = cellsOf(sessions);
      const ready = cells.some(
        (cell) =>
          cell.movement && readinessOn(plan.client, cell.movement.pattern, cell.date).stage === 'heavy',
      );
      const known = cells.some((cell) => cell.groups.some((group) => group.share !== null));
      if (!first || !ready || !known) continue;
      findings.push(
        onLine(
          plan,
          block.place,
          {
            headline: say`The block "${block.name}" is called heavy and is not.`,
            detail: say`${plan.client.name}: no set from ${first.date} to ${sessions.at(-1)?.date} could be lifted 8 times or fewer.`,
            advice: say('Write fewer reps with less in reserve, or call it "load".'),
            fixes: block.node.stage
              ? [
                  {
                    title: say('Call the block "load"'),
                    safe: false,
                    edits: [{ file: block.place.file, span: block.node.stage.span, newText: 'load' }],
                  },
                ]
              : [],
          },
          { program: first.program, block, day: null },
        ),
      );
    }
    return findings;
  },
};
