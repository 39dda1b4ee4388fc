import { say } from '../../../../grammar/say.js';
import type { ClientPlan, World } from '../model.js';
import { strengthOn } from '../resolve/strength.js';
import type { RawFinding, Rule, RuleContext, RuleOption } from '../ruleForm.js';
import { formatMass } from '../units.js';
import { fixesOf, maxForm } from './shared/fixes.js';
import { onLine } from './shared/found.js';
import { BOATHOUSE, clientLines, winter, workspace } from './shared/sample.js';
import { possessive } from './shared/words.js';

const CODE = 'max-contradicts';
const MARGIN: RuleOption = {
  key: 'marginPercent',
  default: 2,
  least: 0,
  most: 30,
  what: 'how far a max may lie above the one that is usually larger, in per cent',
};

function findingsOf(plan: ClientPlan, world: World, context: RuleContext): RawFinding[] {
  const { client } = plan;
  const last = plan.sessions.at(-1);
  if (!last) return [];
  const kit = last.kit?.key ?? null;
  const findings: RawFinding[] = [];
  for (const key of new Set(client.maxes.map((max) => max.movement))) {
    const movement = world.movements.get(key);
    const estimate = movement?.estimate;
    const other = estimate && estimate.share < 1 ? world.movements.get(estimate.of) : undefined;
    if (!movement || !other || movement.implement.kind !== other.implement.kind) continue;
    const own = strengthOn(client, movement, last.date, kit, world);
    const than = strengthOn(client, other, last.date, kit, world);
    if ('missing' in own || 'missing' in than || own.use.kind !== 'max' || than.use.kind !== 'max') continue;
    if (own.estimatedOneRepMaxKg <= than.estimatedOneRepMaxKg * (1 + context.option(CODE, MARGIN) / 100))
      continue;
    // The older of the two is the likelier to be wrong.
    const older = own.use.entry.date <= than.use.entry.date ? own.use.entry : than.use.entry;
    const kg = (value: number) => formatMass(value, client.units);
    findings.push(
      onLine(plan, own.use.entry.place, {
        headline: say`The max of ${movement.name} is above that of ${other.name}.`,
        detail: say`${possessive(client.name)} maxes come to ${kg(own.estimatedOneRepMaxKg)} and ${kg(than.estimatedOneRepMaxKg)}; usually ${movement.name} is the smaller.`,
        advice: say('Check both lines; one of the two is probably old or mistyped.'),
        fixes: fixesOf(maxForm(client, older.movementName.text, last.date)),
        related: [{ place: than.use.entry.place, message: say`The max of ${other.name}.` }],
      }),
    );
  }
  return findings;
}

const files = (front: string) =>
  workspace(
    BOATHOUSE,
    `movement front squat
  pattern: squat
  with: barbell
  estimate: 85% of back squat`,
    clientLines('Heron', [
      'ready: load squat 2026-06-01',
      'max: back squat, 47.5kg x5 r2, 2026-11-30',
      `max: front squat, ${front} x5 r2, 2026-11-30`,
    ]),
    winter('Keel, 2 weeks', { Lower: ['front squat: 3x8 r4'] }),
  );

export const maxContradicts: Rule = {
  code: CODE,
  title: 'Maxes that contradict each other',
  severity: 'info',
  options: [MARGIN],
  what: 'The max of a movement that is usually smaller than another (its "estimate:" is below 100 %) comes out larger.',
  why: 'One of the two lines is probably old or mistyped, and loads rest on it.',
  source: 'Ratios between lifts are common practice, no source. Here only their order counts.',
  example: files('55kg'),
  better: files('40kg'),
  fix: 'Check both lines, and write a newer set of the doubtful one. The quick fix adds a line to fill in for the older of the two, as a note, so that no weight is invented.',
  checkPlan: findingsOf,
};
