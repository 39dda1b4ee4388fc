import type { AimName, PatternName } from '../../../../grammar/index.js';
import type { Block, ClientPlan } from '../model.js';
import { formatPercent } from '../numbers.js';
import type { RawFinding, Rule } from '../ruleForm.js';
import { planWeeks } from './shared/cells.js';
import { onLine } from './shared/found.js';
import { BOATHOUSE, clientLines, winter, workspace } from './shared/sample.js';

/** Patterns whose sets are counted: the lifts that an aim is about. */
const LIFTS: ReadonlySet<PatternName> = new Set(['squat', 'hinge', 'lunge', 'push', 'press', 'pull', 'row']);

/** Reps that serve an aim. Strength is judged by the load instead, in `block-moderate`. */
const REPS: Readonly<
  Partial<Record<AimName, { readonly from: number; readonly to: number; readonly words: string }>>
> = {
  power: { from: 1, to: 6, words: '1 to 6' },
  size: { from: 5, to: 15, words: '5 to 15' },
  endurance: { from: 12, to: 100, words: '12 or more' },
};
/** A block is told when fewer of its sets than this serve the aim. */
const LEAST_SHARE = 0.25;
/** Blocks with fewer counted sets are too small to judge. */
const LEAST_SETS = 6;

interface Counted {
  sets: number;
  serving: number;
}

/** Working sets of each block, and those whose reps serve the aim. Learning and deload weeks do not count. */
function countSets(plan: ClientPlan, from: number, to: number, aim: AimName): ReadonlyMap<Block, Counted> {
  const counts = new Map<Block, Counted>();
  for (const week of planWeeks(plan)) {
    if (week.deload || week.block.stage === 'learn' || week.program.aim !== aim) continue;
    const counted = counts.get(week.block) ?? { sets: 0, serving: 0 };
    counts.set(week.block, counted);
    for (const session of week.sessions) {
      for (const cell of session.cells) {
        if (cell.test !== null || !cell.movement || !LIFTS.has(cell.movement.pattern)) continue;
        for (const { reps, repsUpper, sets } of cell.groups) {
          if (reps === null) continue;
          counted.sets += sets ?? 1;
          if (reps <= to && (repsUpper ?? reps) >= from) counted.serving += sets ?? 1;
        }
      }
    }
  }
  return counts;
}

const files = (row: string) =>
  workspace(
    BOATHOUSE,
    clientLines('Heron', ['ready: heavy all 2026-06-01', 'max: back squat, 47.5kg x5 r2, 2026-11-30']),
    winter('Keel, 3 weeks', { Lower: [row] }).replace('program Winter', 'program Winter\n  aim: endurance'),
  );

export const aimMismatch: Rule = {
  code: 'aim-mismatch',
  title: 'Reps that do not serve the aim',
  severity: 'info',
  what: 'The program states the aim power, size or endurance, and fewer than a quarter of the working sets of a block have reps that serve it (1 to 6, 5 to 15, 12 or more).',
  why: 'The dose is what the body answers to, not the heading.',
  source:
    'NSCA programme-design table (Haff & Triplett, Essentials, 4th ed., 2016): power 1 to 5 reps, hypertrophy 6 to 12, muscular endurance 12 and more; the ranges are widened here by a rep or more. The ACSM 2026 overview finds that load, and with it reps, matters less for size.',
  example: files('back squat: 4x5 r2'),
  better: files('back squat: 3x14 r3'),
  fix: 'Write the reps that serve the aim, or state the aim that the block has.',
  checkPlan(plan) {
    const findings: RawFinding[] = [];
    for (const program of new Set(plan.sessions.map((session) => session.program))) {
      const aim = program.aim;
      const range = aim === null ? undefined : REPS[aim];
      if (aim === null || !range) continue;
      for (const [block, { sets, serving }] of countSets(plan, range.from, range.to, aim)) {
        if (sets < LEAST_SETS || serving / sets >= LEAST_SHARE || !program.blocks.includes(block)) continue;
        findings.push(
          onLine(
            plan,
            block.place,
            {
              headline: `Few sets of the block "${block.name}" serve the aim ${aim}.`,
              detail: `${plan.client.name}: ${formatPercent(serving / sets, 0)} of ${sets} working sets have ${range.words} reps.`,
              advice: 'Write the reps that serve it, or state another aim.',
            },
            { program, block, day: null },
          ),
        );
      }
    }
    return findings;
  },
};
