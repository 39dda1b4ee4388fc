import { plural, said, say } from '../../../../grammar/say.js';
import type { Block, FindingFix, ResolvedCell, ResolvedGroup } from '../model.js';
import { formatNumber, formatPercent } from '../numbers.js';
import type { BlockPlan, RawFinding, Rule, RuleContext, RuleOption } from '../ruleForm.js';
import { isLift, mayBeNovice, SERVICES, type Service, setsOf } from './shared/aims.js';
import { repsEdit, restEdit, setsEdit } from './shared/cellFixes.js';
import { cellsOf, type PlanWeek, planWeeks } from './shared/cells.js';
import { fixesOf } from './shared/fixes.js';
import { onLine } from './shared/found.js';
import { type MuscleGroup, musclesOf } from './shared/muscles.js';
import { BOATHOUSE, clientLines, winter, workspace } from './shared/sample.js';

const CODE = 'aim-mismatch';
const LEAST_PERCENT: RuleOption = {
  key: 'leastPercent',
  default: 25,
  least: 1,
  most: 90,
  what: 'share of the working sets of a block that serve the aim at least, in per cent',
};
const SIZE_SETS: RuleOption = {
  key: 'sizeSets',
  default: 10,
  least: 2,
  most: 30,
  what: 'sets a week for the muscles of a pattern, for the aim size',
};
/** Blocks with fewer counted sets are too small to judge. */
const LEAST_SETS = 6;

/** Of the sets that were looked at, those that serve, and in which way. */
interface Counted {
  readonly words: string;
  readonly service: Service | null;
  sets: number;
  serving: number;
}

/** The weeks of each block that are judged. Learning, deload and return weeks do not count. */
function judgedWeeks(plan: BlockPlan): ReadonlyMap<Block, readonly PlanWeek[]> {
  const blocks = new Map<Block, PlanWeek[]>();
  for (const week of planWeeks(plan)) {
    if (week.deload || week.block.stage === 'learn' || week.program.aim === null) continue;
    const known = blocks.get(week.block);
    if (known) known.push(week);
    else blocks.set(week.block, [week]);
  }
  return blocks;
}

function counted(weeks: readonly PlanWeek[], service: Service): Counted {
  const count: Counted = { words: said(service.words), service, sets: 0, serving: 0 };
  for (const cell of weeks.flatMap(({ sessions }) => cellsOf(sessions)).filter(isLift)) {
    for (const group of cell.groups) {
      const serves = service.serves(group, cell);
      if (serves === null) continue;
      count.sets += group.sets ?? 1;
      if (serves) count.serving += group.sets ?? 1;
    }
  }
  return count;
}

/** For size: sets in weeks in which their muscles have as many as it takes. Beginners grow from fewer. */
function countedByWeek(weeks: readonly PlanWeek[], least: number): Counted {
  const words = say`are among ${least} or more a week for their muscles`;
  const count: Counted = { words, service: null, sets: 0, serving: 0 };
  for (const { sessions } of weeks) {
    const byMuscles = new Map<MuscleGroup, number>();
    for (const cell of cellsOf(sessions)) {
      const muscles = cell.movement === null ? null : musclesOf(cell.movement.pattern);
      if (muscles === null || !isLift(cell) || mayBeNovice(cell)) continue;
      byMuscles.set(muscles, (byMuscles.get(muscles) ?? 0) + (setsOf(cell) ?? 1));
    }
    for (const sets of byMuscles.values()) {
      count.sets += sets;
      if (sets >= least) count.serving += sets;
    }
  }
  return count;
}

/** In which ways too few of a block's sets serve the aim of its program. */
function shortOf(weeks: readonly PlanWeek[], context: RuleContext): readonly Counted[] {
  const aim = weeks[0]?.program.aim ?? null;
  const services = aim === null ? undefined : SERVICES[aim];
  const all = (services ?? []).map((service) => counted(weeks, service));
  if (aim === 'size') all.push(countedByWeek(weeks, context.option(CODE, SIZE_SETS)));
  const least = context.option(CODE, LEAST_PERCENT) / 100;
  return all.filter(({ sets, serving }) => sets >= LEAST_SETS && serving / sets < least);
}

type Edit = FindingFix['edits'][number];

/** A curve is asked for no more reps than this, reserve included. */
const MOST_REPS = 20;

/** What makes a group serve without a heavier load or less rest; null where that cannot be had so, or is not written here. */
function editFor({ least, mostSets }: Service, cell: ResolvedCell, group: ResolvedGroup): Edit | null {
  if (mostSets !== undefined) return cell.groups.length === 1 ? setsEdit(cell, group, mostSets) : null;
  if (least === undefined) return null;
  if ('restSeconds' in least) return restEdit(cell, group, least.restSeconds);
  const { basis, writtenReserve, repsUpper } = group;
  // With a written load or share more reps would leave less in reserve.
  if (basis !== 'reserve' || writtenReserve === null || least.reps + writtenReserve > MOST_REPS) return null;
  return (repsUpper ?? 0) < least.reps ? repsEdit(cell, group, least.reps) : null;
}

/** Brings every set of the block that falls short in one way to the nearest end of the range. */
function fixFor(weeks: readonly PlanWeek[], { service }: Counted): FindingFix | null {
  const edits = new Map<string, Edit>();
  for (const cell of weeks.flatMap(({ sessions }) => cellsOf(sessions)).filter(isLift)) {
    for (const group of cell.groups) {
      const edit = service && editFor(service, cell, group);
      if (edit) edits.set(`${edit.file} ${edit.span.start}`, edit);
    }
  }
  if (!service || edits.size === 0) return null;
  return { title: titleOf(service, edits.size), safe: false, edits: [...edits.values()] };
}

function titleOf({ least, mostSets }: Service, places: number): string {
  if (mostSets !== undefined)
    return plural(
      places,
      say`Write ${mostSets} sets in ${places} place that has more`,
      say`Write ${mostSets} sets in ${places} places that have more`,
    );
  if (least && 'restSeconds' in least)
    return plural(
      places,
      say`Write ${least.restSeconds} s of rest in ${places} place that has less`,
      say`Write ${least.restSeconds} s of rest in ${places} places that have less`,
    );
  const reps = least?.reps ?? 0;
  return plural(
    places,
    say`Write ${reps} reps in ${places} place that has fewer`,
    say`Write ${reps} reps in ${places} places that have fewer`,
  );
}

function detailOf(client: string, short: readonly Counted[]): string {
  return short
    .map(({ words, sets, serving }, index) =>
      index === 0
        ? say`${client}: ${formatPercent(serving / sets, 0)} of ${formatNumber(sets)} working sets ${words}`
        : say`${formatPercent(serving / sets, 0)} of ${formatNumber(sets)} ${words}`,
    )
    .join('; ');
}

const files = (row: string) =>
  workspace(
    BOATHOUSE,
    clientLines('Heron', ['ready: heavy all 2026-06-01', 'max: back squat, 47.5kg x5 r2, 2026-11-30']),
    winter('Keel, 3 weeks', { Lower: [row] }).replace('program Winter', 'program Winter\n  aim: endurance'),
  );

export const aimMismatch: Rule = {
  code: CODE,
  title: 'A dose that does not serve the aim',
  severity: 'info',
  options: [LEAST_PERCENT, SIZE_SETS],
  what: 'The program states an aim, and fewer than a quarter of the working sets of a block serve it. Strength: 60 % of the max or more, at most 12 reps, 2 to 6 sets, a minute of rest or more. Power: 1 to 6 reps (up to 10 from 65 years on), 2 to 6 sets, a minute and a half of rest or more. Size: 5 to 15 reps, 2 to 6 sets, 10 sets a week for the muscles, half a minute to three minutes of rest. Endurance: 12 reps or more, at most 70 % of the max, at most 4 sets and two minutes of rest. Rest is judged only where it is written; one set is enough for a beginner, and neither she nor anybody without a "lifting since:" needs 10 sets a week. Learning blocks, deload weeks, tests and the steps back after an absence do not count.',
  why: 'The dose is what the body answers to, not the heading.',
  source:
    'NSCA programme-design table (Haff & Triplett, Essentials, 4th ed., 2016): strength 85 % and more, 6 reps or fewer, 2 to 6 sets, 2 to 5 min of rest; power 75 to 90 %, 1 to 5 reps, 3 to 5 sets, 2 to 5 min; hypertrophy 67 to 85 %, 6 to 12 reps, 3 to 6 sets, 30 s to 1.5 min; endurance 67 % and less, 12 reps and more, 2 to 3 sets, 30 s or less. ACSM 2009 (Ratamess et al.): 60 to 70 % and 1 to 3 sets for novices, rests of 1 to 3 min; power of older adults with 6 to 10 reps, endurance with 1 to 2 min of rest (the last two from memory). ACSM 2026 overview (seen in reports of it): about 10 sets a week and muscle group for size, for which load matters less; power at 30 to 70 %, so that load is judged neither for size nor for power. The ranges are widened here to hold both, and by a rep, a set or some rest more.',
  example: files('back squat: 4x5 r2'),
  better: files('back squat: 3x14 r3'),
  fix: 'Write the dose that serves the aim, or state the aim that the block has. The quick fix writes more reps with the same reserve (a lighter load), more rest or fewer sets, where that is what is missing; a heavier load or a shorter rest is never written.',
  checkBlock(plan, _world, context) {
    const findings: RawFinding[] = [];
    for (const [block, weeks] of judgedWeeks(plan)) {
      const short = shortOf(weeks, context);
      const program = weeks[0]?.program;
      if (short.length === 0 || !program) continue;
      findings.push(
        onLine(
          plan,
          block.place,
          {
            headline: say`Few sets of the block "${block.name}" serve the aim ${program.aim ?? ''}.`,
            detail: `${detailOf(plan.client.name, short)}.`,
            advice: say('Write what serves the aim, or state the aim that the block has.'),
            fixes: fixesOf(...short.map((each) => fixFor(weeks, each))),
          },
          { program, block, day: null },
        ),
      );
    }
    return findings;
  },
};
