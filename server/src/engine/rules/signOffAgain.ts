import type { PatternName } from '../../../../grammar/index.js';
import { addDays } from '../dates.js';
import type { ClientPlan, FindingFix, ResolvedCell } from '../model.js';
import type { RawFinding, Rule, RuleOption } from '../ruleForm.js';
import { stageAllows } from '../stages.js';
import { effortUnknown } from './shared/cells.js';
import { type Return, returnsOf } from './shared/comeback.js';
import { addClientLine, fixesOf } from './shared/fixes.js';
import { onLine } from './shared/found.js';
import { readinessOn } from './shared/readiness.js';
import { BOATHOUSE, BOX_SQUAT, workspace } from './shared/sample.js';
import { countOf, listOf, movementText } from './shared/words.js';

const CODE = 'sign-off-again';
const AWAY_DAYS: RuleOption = {
  key: 'awayDays',
  default: 56,
  least: 21,
  most: 365,
  what: 'days away beyond which a sign-off from before counts no more',
};

/** Load and heavy work after an absence that rests on a sign-off from before it. */
function onOldSignOff(plan: ClientPlan, { away }: Return): readonly ResolvedCell[] {
  return plan.sessions.flatMap(({ date, cells }) =>
    date <= away.to
      ? []
      : cells.filter(({ movement, groups }) => {
          if (movement === null) return false;
          const ready = readinessOn(plan.client, movement.pattern, date);
          if (ready.signOff === null || ready.signOff.date > away.to) return false;
          return groups.some(
            (group) =>
              group.stage !== 'learn' && !effortUnknown(group) && stageAllows(ready.stage, group.stage),
          );
        }),
  );
}

/** Takes every sign-off back to `learn`, so that the rules on stages say what each row asks for. */
function takeBack(plan: ClientPlan, { away }: Return): FindingFix | null {
  const date = addDays(away.to, 1);
  return addClientLine(
    plan.client,
    `ready: learn all ${date}`,
    `${plan.client.name}: back to "learn" in all patterns on ${date}, until they are signed off again`,
  );
}

const files = (ready: string) =>
  workspace(
    BOATHOUSE,
    BOX_SQUAT,
    `client Heron
  trains at: Boathouse
  ready: load squat 2026-06-01${ready}
  max: box squat, 47.5kg x5 r2, 2026-11-30
  away: 2026-12-12 to 2027-02-21, back at 60% 70% 80% 90%
  follows: Winter, from 2026-12-07, on mon`,
    `program Winter

block Keel, 3 weeks
day Lower
  box squat: 3x8 r3`,
  );

export const signOffAgain: Rule = {
  code: CODE,
  title: 'A sign-off from before a long absence',
  severity: 'warning',
  options: [AWAY_DAYS],
  what: 'After more than eight weeks away, load or heavy work rests on a sign-off from before the absence.',
  why: 'A sign-off says that somebody has seen the movement done well, by the person as she was then. After two months without training it is to be seen again.',
  source: 'Common practice, no source.',
  example: files(''),
  better: files(', load squat 2027-02-22'),
  fix: 'Have the movements seen again and write a new sign-off, for example "ready: load squat DATE". The quick fix takes every sign-off back to "learn" on the first day back, so that the rules on stages name each row that has to wait.',
  caution:
    'After illness, surgery, pregnancy or injury a qualified professional decides when and how to start again. Screening comes first where health has changed.',
  checkPlan(plan, _world, context) {
    const least = context.option(CODE, AWAY_DAYS) + 1;
    return returnsOf(plan, least).flatMap((back): RawFinding[] => {
      const cells = onOldSignOff(plan, back);
      const first = cells[0];
      if (!first) return [];
      const patterns = new Set<PatternName>(
        cells.flatMap(({ movement }) => (movement ? [movement.pattern] : [])),
      );
      return [
        onLine(plan, back.away.place, {
          headline: `After ${countOf(Math.floor(back.days / 7), 'week')} away the sign-offs from before still count.`,
          detail: `${plan.client.name}: ${movementText(first)} on ${first.date} and ${countOf(cells.length - 1, 'more row')} after it rest on them, in ${listOf([...patterns])}.`,
          advice: `Have the movements seen again, and write a new "ready:" line. Until then "learn" is the stage.`,
          related: [{ place: first.place, message: `${movementText(first)} on ${first.date}.` }],
          fixes: fixesOf(takeBack(plan, back)),
        }),
      ];
    });
  },
};
