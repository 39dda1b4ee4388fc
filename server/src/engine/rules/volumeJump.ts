import type { PatternName } from '../../../../grammar/index.js';
import { say } from '../../../../grammar/say.js';
import { formatNumber, formatPercent } from '../numbers.js';
import type { RawFinding, Rule, RuleOption } from '../ruleForm.js';
import { volumeLoadKg } from '../science/volume.js';
import { type PlanWeek, planWeeks } from './shared/cells.js';
import { fixesOf } from './shared/fixes.js';
import { onLine } from './shared/found.js';
import { BOATHOUSE, clientLines, winter, workspace } from './shared/sample.js';
import { addOneSetOnly } from './shared/volumeFixes.js';
import { whenText } from './shared/words.js';

const LOWER: readonly PatternName[] = ['squat', 'hinge', 'lunge'];
const UPPER: readonly PatternName[] = ['push', 'press', 'pull', 'row'];
const CODE = 'volume-jump';
const MAX_PERCENT: RuleOption = {
  key: 'maxPercent',
  default: 50,
  least: 5,
  most: 200,
  what: 'most that the work of a week may rise against the last week that was no deload, in per cent',
};

/** Volume-load of a week over some patterns; null where a load is not known, so that nothing is compared. */
function weekVolumeKg(week: PlanWeek, patterns: readonly PatternName[]): number | null {
  let sum = 0;
  for (const session of week.sessions)
    for (const cell of session.cells) {
      if (cell.movement === null || !patterns.includes(cell.movement.pattern)) continue;
      if (cell.test !== null || cell.backShare !== 1) return null;
      for (const group of cell.groups) {
        if (group.reps === null || group.sets === null) continue;
        if (group.loadKg === null && cell.movement.implement.kind !== 'bodyweight') return null;
        sum += volumeLoadKg(cell, group) ?? 0;
      }
    }
  return sum;
}

const files = (rows: readonly string[]) =>
  workspace(
    BOATHOUSE,
    clientLines('Heron', [
      'ready: heavy all 2026-06-01',
      'max: back squat, 47.5kg x5 r2, 2026-11-30',
      'max: deadlift, 60kg x5 r2, 2026-11-30',
    ]),
    winter('Keel, 2 weeks', { Lower: rows }),
  );

export const volumeJump: Rule = {
  code: CODE,
  title: 'Much more work in a week',
  severity: 'info',
  options: [MAX_PERCENT],
  what: 'Sets × reps × load of the lower or the upper body rise by more than half against the last week that was no deload, within one block.',
  why: 'Soreness and overuse follow sudden volume more than load. A rise of half in one week is rarely meant.',
  source:
    'Volume-load as sets × reps × load is the usual definition. The limit of one half is common practice, no source.',
  example: files(['back squat: 2x6 r3 | 4x6 r3', 'deadlift: 2x6 r3 | 4x6 r3']),
  better: files(['back squat: 3x6 r3 | 4x6 r3', 'deadlift: 2x6 r3']),
  fix: 'Add one set at a time, in one movement. The quick fix leaves one set more than the week before in each row that this week gives several more.',
  checkBlock(plan, _world, context) {
    const most = context.option(CODE, MAX_PERCENT) / 100;
    const findings: RawFinding[] = [];
    for (const [words, patterns] of [
      ['lower', LOWER],
      ['upper', UPPER],
    ] as const) {
      let before: { readonly week: PlanWeek; readonly kg: number } | null = null;
      for (const week of planWeeks(plan)) {
        if (week.deload) continue;
        const kg = weekVolumeKg(week, patterns);
        const same =
          before?.week.block === week.block && before.week.sessions.length === week.sessions.length;
        if (before && same && kg !== null && before.kg > 0 && kg > before.kg * (1 + most)) {
          const first = week.sessions[0];
          const cell = first?.cells[0];
          if (first && cell) {
            findings.push(
              onLine(
                plan,
                week.block.place,
                {
                  headline:
                    words === 'lower'
                      ? say`Week ${week.week} of "${week.block.name}" has much more work for the lower body.`
                      : say`Week ${week.week} of "${week.block.name}" has much more work for the upper body.`,
                  detail: say`${plan.client.name}: ${formatNumber(kg, 0)} kg lifted in all ${whenText(cell)}, after ${formatNumber(before.kg, 0)} kg in week ${before.week.week}: ${formatPercent(kg / before.kg - 1, 0)} more.`,
                  advice: say('Add one set at a time, in one movement.'),
                  fixes: fixesOf(
                    addOneSetOnly(before.week, week, ({ pattern }) => patterns.includes(pattern)),
                  ),
                },
                { program: week.program, block: week.block, day: null },
              ),
            );
          }
        }
        before = kg === null ? null : { week, kg };
      }
    }
    return findings;
  },
};
