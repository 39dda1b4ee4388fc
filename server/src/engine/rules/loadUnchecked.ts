import { say } from '../../../../grammar/say.js';
import type { ResolvedCell, ResolvedGroup } from '../model.js';
import { formatPercent } from '../numbers.js';
import { massOn } from '../resolve/strength.js';
import type { Rule, RuleContext, RuleOption } from '../ruleForm.js';
import { fixesOf, maxForm } from './shared/fixes.js';
import { eachRow } from './shared/found.js';
import { readinessOn } from './shared/readiness.js';
import { BOATHOUSE, workspace } from './shared/sample.js';
import { movementText, spanText, workText } from './shared/words.js';

const CODE = 'load-unchecked';
const LIGHT_PERCENT: RuleOption = {
  key: 'lightPercent',
  default: 10,
  least: 0,
  most: 50,
  what: 'per cent of body mass up to which a load needs no check',
};
const LIGHT_KG: RuleOption = {
  key: 'lightKg',
  default: 6,
  least: 0,
  most: 40,
  what: 'kilograms up to which a load needs no check where body mass is not known',
};
/** Share of body mass above which an unchecked load is a warning, by what is signed off. */
const MOST: Readonly<Record<'learn' | 'load', RuleOption>> = {
  learn: {
    key: 'learnPercent',
    default: 25,
    least: 10,
    most: 100,
    what: 'per cent of body mass above which an unchecked load is a warning in the stage learn',
  },
  load: {
    key: 'loadPercent',
    default: 50,
    least: 10,
    most: 150,
    what: 'per cent of body mass above which an unchecked load is a warning in the stage load',
  },
};

/** What the client holds in all: both dumbbells of a pair. */
function heldKg(group: ResolvedGroup, cell: ResolvedCell): number {
  const pair = cell.movement?.implement.kind === 'dumbbells' ? 2 : 1;
  return (group.loadKg ?? 0) * pair;
}

function isUnchecked(group: ResolvedGroup, cell: ResolvedCell, context: RuleContext): boolean {
  const fixed = group.basis === 'load' || group.basis === 'pack' || group.basis === 'bodyweight';
  if (!fixed || group.estimatedOneRepMaxKg !== null || group.loadKg === null || group.reps === null)
    return false;
  const mass = massOn(cell.client, cell.date);
  const light = context.option(CODE, mass === null ? LIGHT_KG : LIGHT_PERCENT);
  return heldKg(group, cell) > (mass === null ? light : (mass * light) / 100);
}

/** Whether the load is large for what is signed off, or that cannot be told. */
function isLarge(group: ResolvedGroup, cell: ResolvedCell, context: RuleContext): boolean {
  const mass = massOn(cell.client, cell.date);
  if (mass === null) return true;
  const { stage } = readinessOn(cell.client, cell.movement?.pattern ?? 'other', cell.date);
  if (stage === 'heavy') return false;
  return heldKg(group, cell) > (mass * context.option(CODE, MOST[stage])) / 100;
}

const files = (client: string) =>
  workspace(
    BOATHOUSE,
    `movement chest squat
  pattern: squat
  with: dumbbell`,
    client,
    `program Winter

block Keel, 2 weeks
day Lower
  chest squat: 3x8 18kg r4`,
  );

export const loadUnchecked: Rule = {
  code: CODE,
  title: 'A written load that nothing checks',
  severity: 'info',
  options: [MOST.learn, MOST.load, LIGHT_PERCENT, LIGHT_KG],
  what: 'A row states a load, and there is no max of the client to tell how hard it is. Information; a warning where the load is above 25 % of body mass for somebody in the stage learn or 50 % in the stage load, or where body mass is not known.',
  why: 'A load that is right for one person can be a maximum for another. Without a max neither the reserve nor the stage can be told.',
  source: 'Common practice, no source.',
  example: files(`client Wren
  trains at: Boathouse
  mass: 60kg, 2026-11-01
  follows: Winter, from 2026-12-07, on mon`),
  better: files(`client Wren
  trains at: Boathouse
  mass: 60kg, 2026-11-01
  max: chest squat, 18kg x10 r4, 2026-11-23
  follows: Winter, from 2026-12-07, on mon`),
  fix: 'Write a set that was really done as a "max:" line, or write the effort and no load. The quick fix adds a line to fill in, as a note, so that no weight is invented.',
  checkBlock: (plan, _world, context) => {
    const test = (group: ResolvedGroup, cell: ResolvedCell) => isUnchecked(group, cell, context);
    return eachRow(plan, test, (cells, group) => {
      const first = cells[0] as ResolvedCell;
      const mass = massOn(plan.client, first.date);
      const share =
        mass === null
          ? say('body mass not known')
          : say`${formatPercent(heldKg(group, first) / mass, 0)} of body mass`;
      const { stage } = readinessOn(plan.client, first.movement?.pattern ?? 'other', first.date);
      return {
        headline: say`${movementText(first)}: no max tells how hard this load is.`,
        detail: say`${plan.client.name}: ${workText(group, plan.client)} ${spanText(cells)}, ${share}, stage "${stage}".`,
        advice: say('Watch the first set, and write it down as a max.'),
        fixes: fixesOf(maxForm(plan.client, movementText(first), first.date)),
        severity: isLarge(group, first, context) ? 'warning' : 'info',
      };
    });
  },
};
