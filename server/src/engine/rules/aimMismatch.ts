import type { AimName, PatternName } from '../../../../grammar/index.js';
import { later, said, say } from '../../../../grammar/say.js';
import type { Block, ResolvedCell, ResolvedGroup } from '../model.js';
import { formatPercent } from '../numbers.js';
import type { BlockPlan, RawFinding, Rule } from '../ruleForm.js';
import { planWeeks } from './shared/cells.js';
import { onLine } from './shared/found.js';
import { BOATHOUSE, clientLines, winter, workspace } from './shared/sample.js';

/** Patterns whose sets are counted: the lifts that an aim is about. */
const LIFTS: ReadonlySet<PatternName> = new Set(['squat', 'hinge', 'lunge', 'push', 'press', 'pull', 'row']);

/** What serves an aim: a set answers whether it does, or null where that cannot be told. */
interface Service {
  readonly words: () => string;
  readonly serves: (group: ResolvedGroup, cell: ResolvedCell) => boolean | null;
}

function reps(from: number, to: number, words: string): Service {
  return {
    words: () => say`have ${said(words)} reps`,
    serves: (group) =>
      group.reps === null ? null : group.reps <= to && (group.repsUpper ?? group.reps) >= from,
  };
}

/** Least share of the max that trains strength: beginners get stronger from 60 % on, everybody else from 80 %. */
const STRENGTH_SHARE = 0.6;
/** Longer rests than this do not train endurance. */
const ENDURANCE_REST_SECONDS = 120;

const SERVICES: Readonly<Partial<Record<AimName, readonly Service[]>>> = {
  strength: [
    {
      words: () => say('have 60 % of the max or more'),
      serves: ({ share, reps: done }) => (share === null || done === null ? null : share >= STRENGTH_SHARE),
    },
  ],
  power: [reps(1, 6, later('1 to 6'))],
  size: [reps(5, 15, later('5 to 15'))],
  endurance: [
    reps(12, 100, later('12 or more')),
    {
      words: () => say('rest two minutes or less'),
      serves: ({ reps: done }, { restSeconds }) =>
        done === null || restSeconds === null ? null : restSeconds <= ENDURANCE_REST_SECONDS,
    },
  ],
};
/** A block is told when fewer of its sets than this serve the aim. */
const LEAST_SHARE = 0.25;
/** Blocks with fewer counted sets are too small to judge. */
const LEAST_SETS = 6;

interface Counted {
  sets: number;
  serving: number;
}

/** Working sets of each block, and those that serve the aim. Learning, deload and return weeks do not count. */
function countSets(plan: BlockPlan, service: Service, aim: AimName): ReadonlyMap<Block, Counted> {
  const counts = new Map<Block, Counted>();
  for (const week of planWeeks(plan)) {
    if (week.deload || week.block.stage === 'learn' || week.program.aim !== aim) continue;
    const counted = counts.get(week.block) ?? { sets: 0, serving: 0 };
    counts.set(week.block, counted);
    for (const session of week.sessions) {
      for (const cell of session.cells) {
        if (cell.test !== null || cell.backShare !== 1) continue;
        if (!cell.movement || !LIFTS.has(cell.movement.pattern)) continue;
        for (const group of cell.groups) {
          const serves = service.serves(group, cell);
          if (serves === null) continue;
          counted.sets += group.sets ?? 1;
          if (serves) counted.serving += group.sets ?? 1;
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
  title: 'A dose that does not serve the aim',
  severity: 'info',
  what: 'The program states an aim, and fewer than a quarter of the working sets of a block serve it: 60 % of the max or more for strength, 1 to 6 reps for power, 5 to 15 for size, 12 or more and at most two minutes of rest (where a rest is written) for endurance. Learning blocks, deload weeks and the steps back after an absence do not count.',
  why: 'The dose is what the body answers to, not the heading.',
  source:
    'NSCA programme-design table (Haff & Triplett, Essentials, 4th ed., 2016): power 1 to 5 reps, hypertrophy 6 to 12, muscular endurance 12 and more; the ranges are widened here by a rep or more; rest of 30 s or less for endurance. ACSM 2009 (Ratamess et al.): 60 to 70 % of the 1RM for novices and intermediates, rests of 1 to 2 minutes for many reps (the latter from memory). The ACSM 2026 overview finds that load, and with it reps, matters less for size.',
  example: files('back squat: 4x5 r2'),
  better: files('back squat: 3x14 r3'),
  fix: 'Write the dose that serves the aim, or state the aim that the block has.',
  checkBlock(plan) {
    const findings: RawFinding[] = [];
    for (const program of new Set(plan.sessions.map((session) => session.program))) {
      const aim = program.aim;
      for (const service of (aim === null ? undefined : SERVICES[aim]) ?? []) {
        for (const [block, { sets, serving }] of countSets(plan, service, aim as AimName)) {
          if (sets < LEAST_SETS || serving / sets >= LEAST_SHARE || !program.blocks.includes(block)) continue;
          findings.push(
            onLine(
              plan,
              block.place,
              {
                headline: say`Few sets of the block "${block.name}" serve the aim ${aim}.`,
                detail: say`${plan.client.name}: ${formatPercent(serving / sets, 0)} of ${sets} working sets ${service.words()}.`,
                advice: say('Write what serves it, or state another aim.'),
              },
              { program, block, day: null },
            ),
          );
        }
      }
    }
    return findings;
  },
};
