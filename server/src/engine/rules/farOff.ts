import type { CellItem, CellNode, GroupNode, RowNode } from '../../../../grammar/index.js';
import { say } from '../../../../grammar/say.js';
import { rowWeeks } from '../bind/weeks.js';
import type { FindingFix, ResolvedCell } from '../model.js';
import { formatNumber, formatPercent } from '../numbers.js';
import type { RawFinding, Rule, RuleContext, RuleOption } from '../ruleForm.js';
import { formatMass } from '../units.js';
import { type RowRun, rowRuns } from './shared/cells.js';
import { onCell, type Said } from './shared/found.js';
import { sameMax } from './shared/loads.js';
import { BOATHOUSE, BOX_SQUAT, workspace } from './shared/sample.js';
import { movementText } from './shared/words.js';

const CODE = 'far-off';
const MAX_SETS: RuleOption = { key: 'maxSets', default: 10, least: 1, most: 30, what: 'most sets of a row' };
const MAX_REPS: RuleOption = { key: 'maxReps', default: 30, least: 5, most: 100, what: 'most reps of a set' };
const MAX_RESERVE: RuleOption = {
  key: 'maxReserve',
  default: 6,
  least: 2,
  most: 10,
  what: 'most reps in reserve',
};
const MAX_CHANGE: RuleOption = {
  key: 'maxChangePercent',
  default: 20,
  least: 5,
  most: 50,
  what: 'most that a load may change in one step, in per cent',
};
const LEAST_PERCENT: RuleOption = {
  key: 'leastPercent',
  default: 30,
  least: 1,
  most: 60,
  what: 'least share of the max that is written, in per cent',
};
const MOST_PERCENT: RuleOption = {
  key: 'mostPercent',
  default: 100,
  least: 80,
  most: 120,
  what: 'most share of the max that is written, in per cent',
};

const LOST_SIGN_PERCENT: RuleOption = {
  key: 'lostSignPercent',
  default: 50,
  least: 10,
  most: 80,
  what: 'share of the load before up to which a later load is taken for a change whose sign was lost, in per cent',
};

interface Limits {
  /** The numbers in one text, to keep what was read with them. */
  readonly key: string;
  readonly sets: number;
  readonly reps: number;
  readonly reserve: number;
  readonly changePercent: number;
  readonly leastPercent: number;
  readonly mostPercent: number;
  readonly lostSignPercent: number;
}

function limitsOf(context: RuleContext): Limits {
  const sets = context.option(CODE, MAX_SETS);
  const reps = context.option(CODE, MAX_REPS);
  const reserve = context.option(CODE, MAX_RESERVE);
  const changePercent = context.option(CODE, MAX_CHANGE);
  const leastPercent = context.option(CODE, LEAST_PERCENT);
  const mostPercent = context.option(CODE, MOST_PERCENT);
  const lostSignPercent = context.option(CODE, LOST_SIGN_PERCENT);
  const numbers = { sets, reps, reserve, changePercent, leastPercent, mostPercent, lostSignPercent };
  return { key: Object.values(numbers).join(' '), ...numbers };
}

interface Slip {
  readonly text: string;
  readonly advice: string;
  readonly item: CellItem;
  /** What was probably meant, to put in place of the item. */
  readonly meant: readonly string[];
}

function plain(mass: { readonly value: number; readonly unit: string }): string {
  return `${formatNumber(mass.value)}${mass.unit}`;
}

/** The load of the last week that was no deload. */
interface Before {
  readonly kg: number;
  /** Whether a newer max came since: then another load may well be meant. */
  readonly otherMax: boolean;
}

/** What looks like a lost sign or digit in one item. `before` is the load of the last week that was no deload. */
function slipOf(
  item: CellItem,
  group: GroupNode,
  isFirst: boolean,
  before: Before | null,
  limits: Limits,
): Slip | null {
  switch (item.kind) {
    case 'load': {
      if (isFirst || before === null) return null;
      const written = plain(item.mass);
      const fall = 1 - item.mass.kg / before.kg;
      // Other reps or another effort in the same cell say that another load is meant.
      const isMeant = group.items.some(
        (each) => each.kind === 'reserve' || (each.kind === 'dose' && each.amount !== null),
      );
      if (item.mass.kg > (before.kg * limits.lostSignPercent) / 100) {
        if (isMeant || before.otherMax || fall * 100 <= limits.changePercent) return null;
        return {
          text: say`${written} after ${formatMass(before.kg, 'kg')} is ${formatPercent(fall, 0)} less.`,
          advice: say(
            'Check the number. For an easy week mark a deload, or write the reps or the reserve with the load.',
          ),
          item,
          meant: [],
        };
      }
      return {
        text: say`${written} after ${formatMass(before.kg, 'kg')} looks like a lost sign.`,
        advice: say`Did you mean "+${written}" or "-${written}"?`,
        item,
        meant: [`-${written}`, `+${written}`],
      };
    }
    case 'percent': {
      if (item.percent >= limits.leastPercent && item.percent <= limits.mostPercent) return null;
      const written = `${formatNumber(item.percent)}%`;
      const small = item.percent < limits.leastPercent;
      return {
        text: say`${written} of the max lies outside ${limits.leastPercent} to ${limits.mostPercent} %.`,
        advice:
          small && !isFirst ? say`Did you mean "-${written}" or "+${written}"?` : say('Check the number.'),
        item,
        meant: small && !isFirst ? [`-${written}`, `+${written}`] : [],
      };
    }
    case 'change-percent': {
      const related = isFirst && !group.items.some((each) => each.kind === 'reserve');
      if (
        Math.abs(item.percent) <= limits.changePercent ||
        (related && item.percent < 0 && item.percent > -50)
      )
        return null;
      return {
        text: say`A change of ${formatNumber(item.percent)} % in one step is far.`,
        advice: say('Check the number; 2 to 10 % a week is usual.'),
        item,
        meant: [],
      };
    }
    case 'reserve':
      if (item.reserve <= limits.reserve) return null;
      return {
        text: say`${formatNumber(item.reserve, 1)} reps in reserve can hardly be felt.`,
        advice: say('Check the number. People tell a reserve of up to about five well.'),
        item,
        meant: [],
      };
    case 'dose': {
      const reps =
        item.amount?.kind === 'reps' && item.amount.reps.kind === 'count' ? item.amount.reps.upper : 0;
      if ((item.sets ?? 0) <= limits.sets && reps <= limits.reps) return null;
      const much = (item.sets ?? 0) > limits.sets ? say`${item.sets} sets` : say`${reps} reps`;
      return { text: say`${much} are many.`, advice: say('Check the number.'), item, meant: [] };
    }
    default:
      return null;
  }
}

function fixesOf(slip: Slip, file: string): FindingFix[] {
  return slip.meant.map((newText) => ({
    title: say`Change to "${newText}"`,
    safe: false,
    edits: [{ file, span: slip.item.span, newText }],
  }));
}

/** Load of a group in the last week before a cell's that was no deload. */
function loadBefore(run: RowRun, now: ResolvedCell, index: number): Before | null {
  const cell = run.cells.findLast((each) => each.week < now.week && !each.deload);
  const group = cell?.groups[index];
  const own = now.groups[index];
  if (!group || group.loadKg === null) return null;
  return { kg: group.loadKg, otherMax: own !== undefined && !sameMax(own, group) };
}

/** More weeks than any block has. */
const MOST_WEEKS = 200;

interface Suspect {
  readonly node: CellNode;
  readonly week: number;
}

interface Suspects {
  readonly limits: string;
  readonly found: readonly Suspect[];
}

const suspects = new WeakMap<RowNode, Suspects>();

/** With this every later load is worth a look. */
const ANY_LOAD: Before = { kg: Number.POSITIVE_INFINITY, otherMax: false };

/** Whether a cell holds a later load, or something that is far off by itself. */
function isSuspect(node: CellNode, limits: Limits): boolean {
  if (node.broken) return false;
  return node.groups.some((group) =>
    group.items.some((item) => slipOf(item, group, node.index === 0, ANY_LOAD, limits) !== null),
  );
}

/** The cells that have to be looked at for each client. Most rows have none, and are read only once. */
function suspectsOf(row: RowNode, limits: Limits): readonly Suspect[] {
  const key = limits.key;
  const known = suspects.get(row);
  if (known?.limits === key) return known.found;
  // Blocks that take the row over may have more weeks than the one that was asked first.
  const found = row.cells.some((node) => isSuspect(node, limits))
    ? rowWeeks(row, MOST_WEEKS).cells.flatMap((node, index) =>
        node && isSuspect(node, limits) ? [{ node, week: index + 1 }] : [],
      )
    : [];
  suspects.set(row, { limits: key, found });
  return found;
}

function slipsIn(run: RowRun, node: CellNode, cell: ResolvedCell, limits: Limits): readonly Slip[] {
  return node.groups.flatMap((group, index) =>
    group.items.flatMap(
      (item) => slipOf(item, group, node.index === 0, loadBefore(run, cell, index), limits) ?? [],
    ),
  );
}

const files = (second: string) =>
  workspace(
    BOATHOUSE,
    BOX_SQUAT,
    `client Heron
  trains at: Boathouse
  ready: load squat 2026-06-01
  max: box squat, 47.5kg x5 r2, 2026-11-23
  follows: Winter, from 2026-12-07, on mon`,
    `program Winter

block Keel, 2 weeks
day Lower
  box squat: 3x8 r4 | ${second}`,
  );

export const farOff: Rule = {
  code: CODE,
  title: 'A number that looks like a slip',
  severity: 'warning',
  options: [MAX_SETS, MAX_REPS, MAX_RESERVE, MAX_CHANGE, LEAST_PERCENT, MOST_PERCENT, LOST_SIGN_PERCENT],
  what: 'A later load far below the one before (a lost sign: "2.5kg" for "+2.5kg"), a load more than 20 % below the one before where neither reps nor effort are written with it and no newer max came between, a percentage outside 30 to 100, a change of more than 20 %, more than 10 sets, 30 reps or six in reserve.',
  why: 'A lost sign or digit reads like a plan. It is found at the desk, not under the bar.',
  source:
    'Common practice, no source. That reserves above five are told poorly: Hackett et al., J Strength Cond Res 2017;31(8):2162-2168 (abstract: about one rep off with 0 to 5 left, more than two with 7 to 10 left).',
  example: files('5%'),
  better: files('+5%'),
  fix: 'Write the sign or the digit that was lost. The quick fix puts in what was probably meant.',
  checkBlock(plan, _world, context) {
    const limits = limitsOf(context);
    const findings: RawFinding[] = [];
    for (const run of rowRuns(plan)) {
      for (const { node, week } of suspectsOf(run.row.node, limits)) {
        const cell = run.cells.find((each) => each.week === week);
        if (!cell) continue;
        for (const slip of slipsIn(run, node, cell, limits)) {
          findings.push({
            ...onCell(cell, sayOf(cell, slip)),
            place: { file: cell.place.file, span: slip.item.span },
          });
        }
      }
    }
    return findings;
  },
};

function sayOf(cell: ResolvedCell, slip: Slip): Said {
  return {
    headline: say`${movementText(cell)}, week ${cell.week}: ${slip.text}`,
    detail: '',
    advice: slip.advice,
    fixes: fixesOf(slip, cell.row.place.file),
  };
}
