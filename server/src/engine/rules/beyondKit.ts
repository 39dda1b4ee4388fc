import { say } from '../../../../grammar/say.js';
import { lightestLoad } from '../kit.js';
import type { ResolvedCell, ResolvedGroup } from '../model.js';
import { formatNumber, formatPercent } from '../numbers.js';
import type { BlockWorld, RawFinding, Rule, RuleOption } from '../ruleForm.js';
import { formatMass } from '../units.js';
import { cellsWhere, rowRuns } from './shared/cells.js';
import { easierWithin, fixesOf, kitHas, swapAtKit } from './shared/fixes.js';
import { nextUp } from './shared/loads.js';
import { BOATHOUSE, BOX_SQUAT, workspace } from './shared/sample.js';
import { doseText, movementText, spanText, workText } from './shared/words.js';

const CODE = 'beyond-kit';
const SHORT_PERCENT: RuleOption = {
  key: 'shortPercent',
  default: 2.5,
  least: 0,
  most: 50,
  what: 'how far the heaviest load of the kit may lie below the target, in per cent',
};

type Limit = 'lacks' | 'too-light' | 'lightest-used' | 'short';

function limitOf(group: ResolvedGroup, cell: ResolvedCell, shortShare: number): Limit | null {
  if (group.issue === 'kit-lacks') return 'lacks';
  if (group.issue === 'too-light') return 'too-light';
  if (group.issue === 'lightest-used') return 'lightest-used';
  const { loadKg, targetKg } = group;
  if (loadKg === null || targetKg === null || targetKg <= 0 || loadKg >= targetKg * (1 - shortShare))
    return null;
  if (cell.movement === null || cell.kit === null || cell.movement.implement.kind === 'bodyweight')
    return null;
  return nextUp(cell, loadKg) === null ? 'short' : null;
}

function addTo(limits: Set<Limit>, limit: Limit | null): void {
  if (limit !== null) limits.add(limit);
}

/** What the movement is done with, in words: `barbell`, `pair of dumbbells`, `band "heavy"`. */
function implementText(cell: ResolvedCell, group: ResolvedGroup): string {
  const implement = cell.movement?.implement;
  if (group.band !== null) return say`band "${group.band}"`;
  if (!implement) return say('equipment for it');
  switch (implement.kind) {
    case 'barbell':
      return implement.bar === null ? 'barbell' : say`bar "${implement.bar}"`;
    case 'dumbbells':
      return say('pair of dumbbells');
    case 'machine':
      return say`machine "${implement.key}"`;
    case undefined:
      return say('equipment for it');
    default:
      return implement.kind;
  }
}

interface Words {
  readonly headline: string;
  readonly detail: string;
  readonly advice: string;
  readonly severity: 'error' | 'warning' | 'info';
}

function wordsOf(
  world: BlockWorld,
  limit: Limit,
  cells: readonly ResolvedCell[],
  group: ResolvedGroup,
): Words {
  const cell = cells[0] as ResolvedCell;
  const { client } = cell;
  const name = movementText(cell);
  const kit = cell.kit?.name ?? say('the kit');
  const mass = (kg: number | null) => formatMass(kg ?? 0, client.units);
  const easier = cell.movement
    ? easierWithin(world, cell.movement.key, (key) => kitHas(cell.kit, world.movements.get(key)))
    : null;
  const when = spanText(cells);
  if (limit === 'lacks') {
    return {
      headline: say`${name}: the kit has no ${implementText(cell, group)}.`,
      detail: say`${client.name} trains at ${kit} ${when}.`,
      advice: say`Add it to the kit if it is there, or swap the movement${easier ? say`, for example to ${easier}` : ''}.`,
      severity: 'error',
    };
  }
  const lightest = cell.kit && cell.movement ? lightestLoad(cell.kit.model, cell.movement.implement) : null;
  if (limit === 'too-light') {
    return {
      headline: say`${name}: even the lightest load of the kit is too heavy.`,
      detail: say`${client.name}: ${doseText(group)} ${when}; the target is ${mass(group.targetKg)}, ${kit} starts at ${mass(lightest)}. No load is given.`,
      advice: say`Use ${easier ?? say('an easier movement')} or a lighter bar until the max has grown.`,
      severity: 'error',
    };
  }
  const left =
    group.reserve === null ? '' : say`, which leaves about ${formatNumber(group.reserve, 1)} in reserve`;
  if (limit === 'lightest-used') {
    return {
      headline: say`${name}: the lightest load of the kit is above the target.`,
      detail: say`${client.name}: ${workText(group, client)} ${when}; the target is ${mass(group.targetKg)}${left}.`,
      advice: say`Watch the last reps${easier ? say`, or use ${easier}` : ''}.`,
      severity: 'info',
    };
  }
  const short = formatPercent(1 - (group.loadKg ?? 0) / (group.targetKg ?? 1), 0);
  return {
    headline: say`${name}: the kit ends below the target.`,
    detail: say`${client.name}: ${workText(group, client)} ${when}; the target is ${mass(group.targetKg)}, ${kit} ends ${short} below it${left}.`,
    advice: say('Use more reps, a slower tempo or a harder movement, or get more plates.'),
    severity: 'warning',
  };
}

function findingOf(
  world: BlockWorld,
  limit: Limit,
  cells: readonly ResolvedCell[],
  group: ResolvedGroup,
): RawFinding {
  const first = cells[0] as ResolvedCell;
  return {
    place: first.place,
    ...wordsOf(world, limit, cells, group),
    client: first.client.key,
    cell: first,
    related: first.kit ? [{ place: first.kit.place, message: say`The kit "${first.kit.name}".` }] : [],
    fixes: limit === 'short' ? [] : fixesOf(swapAtKit(world, cells, say('not possible with this kit'))),
  };
}

const LIMITS: readonly Limit[] = ['lacks', 'too-light', 'short', 'lightest-used'];

const row = (kit: string) =>
  workspace(
    kit,
    BOX_SQUAT,
    `client Heron
  trains at: Boathouse
  ready: heavy squat 2026-10-05
  max: box squat, 75kg x5 r2, 2026-11-23
  follows: Winter, from 2026-12-07, on mon`,
    `program Winter

block Keel, 2 weeks
day Lower
  box squat: 3x5 r2`,
  );

export const beyondKit: Rule = {
  code: CODE,
  title: 'A load that the kit cannot make',
  severity: 'error',
  options: [SHORT_PERCENT],
  what: 'The kit lacks the equipment of the movement, its lightest load is above the target, or its heaviest is more than 2.5 % below. An error where no load can be given, a warning where the kit ends below the target, information where the lightest load is used although it lies a little above.',
  why: 'A bar that weighs more than the target is the commonest way to start too heavy. A load that is not there is improvised.',
  source:
    'Arithmetic of the kit. The lightest load is used only while it leaves at least the written reserve less one: common practice, no source.',
  example: row(`kit Boathouse
  bar: 15kg
  plates: 1.25kg x2, 2.5kg x2, 5kg x4`),
  better: row(BOATHOUSE),
  fix: 'Use the easier movement, a lighter bar, or more reps; or add to the kit what is really there. Where an easier movement is known and the load is not to be had, the quick fix writes the "swap:" line.',
  checkBlock(plan, world, context) {
    const short = context.option(CODE, SHORT_PERCENT) / 100;
    const findings: RawFinding[] = [];
    for (const run of rowRuns(plan)) {
      const limits = new Set<Limit>();
      for (const cell of run.cells)
        for (const group of cell.groups) addTo(limits, limitOf(group, cell, short));
      for (const limit of LIMITS) {
        if (!limits.has(limit)) continue;
        const found = cellsWhere(run.cells, (group, cell) => limitOf(group, cell, short) === limit);
        const first = found[0];
        if (first)
          findings.push(
            findingOf(
              world,
              limit,
              found.map(({ cell }) => cell),
              first.group,
            ),
          );
      }
    }
    return findings;
  },
};
